import { describe, expect, it } from 'vitest';
import { describePlace, UserError } from '../../../../src/core/user-error.ts';
import {
  parseDescription,
  shippedDescription,
  shippedDescriptions,
} from '../../../../src/instrument/description/read-description.ts';

const LEAST = {
  version: 1,
  name: 'mine',
  corrected: true,
  sweep: [{ send: 'go {startHz} {stopHz} {points}', read: 'points' }],
  points: {
    layout: 'line-each',
    columns: [
      { quantity: 'resistance', unit: 'ohm' },
      { quantity: 'reactance', unit: 'ohm' },
    ],
  },
};

function parsed(change: object): ReturnType<typeof parseDescription> {
  return parseDescription(JSON.stringify({ ...LEAST, ...change }, null, 1), 'mine.json');
}

/** The error as a person sees it. */
function refusal(change: object): string {
  try {
    parsed(change);
  } catch (error) {
    if (error instanceof UserError) return describePlace(error.place) + error.message;
    throw error;
  }
  return 'taken';
}

describe('parseDescription', () => {
  it('fills in what is left out', () => {
    expect(parsed({})).toMatchObject({
      wire: { baud: 115_200, parity: 'none' },
      commandEnd: '\n',
      referenceOhm: 50,
      points: { separator: ',', end: { by: 'count' } },
      errors: { lines: [], query: null },
    });
  });

  it('gives times in milliseconds', () => {
    expect(parsed({ pacing: { reply: '2s', betweenCommands: '20ms' } }).pacing).toMatchObject({
      replyMs: 2000,
      betweenCommandsMs: 20,
    });
  });

  it.each([
    ['an unknown key, with the near miss', { wires: {} }, /wires: unknown key, did you mean "wire"\?/u],
    [
      'an unknown placeholder',
      { sweep: [{ send: 'go {startHertz}', read: 'points' }] },
      /\{startHertz\}.*"startHz"/u,
    ],
    ['a time without its unit', { pacing: { reply: 2 } }, /pacing\.reply: needs a unit/u],
    ['no step that reads', { sweep: [{ send: 'go' }] }, /must read the points/u],
    [
      'a step after the reading one',
      { sweep: [{ send: 'go', read: 'points' }, { send: 'stop' }] },
      /must read the points/u,
    ],
    [
      'a step that expects and reads',
      { sweep: [{ send: 'go', read: 'points', expect: '1' }] },
      /one of them/u,
    ],
    ['a command of two lines', { sweep: [{ send: 'a\nb', read: 'points' }] }, /must be one line/u],
    [
      'half a point',
      { points: { ...LEAST.points, columns: [{ quantity: 'resistance', unit: 'ohm' }] } },
      /must hold one of/u,
    ],
    [
      'a unit that is none of the quantity',
      { points: { ...LEAST.points, columns: [{ quantity: 'swr', unit: 'dB' }] } },
      /needs the unit of the swr, one of 1/u,
    ],
    ['an end line that is not told', { points: { ...LEAST.points, end: { by: 'line' } } }, /needs "line"/u],
  ])('refuses %s', (_, change, message) => {
    expect(refusal(change)).toMatch(message);
  });

  it('tells the line of the fault', () => {
    const text = '{\n  "version": 1,\n  "name": "x",\n  "nane": "y"\n}';
    expect(() => parseDescription(text, 'x.json')).toThrowError(/x\.json:4: nane/u);
  });
});

describe('the descriptions that come with the program', () => {
  it('are valid, and named as their files are', async () => {
    const names = await shippedDescriptions();
    expect(names).toEqual(['plain-lines', 'scpi']);
    for (const name of names) expect((await shippedDescription(name)).name).toBe(name);
  });

  it('are found by name, with the near miss suggested', async () => {
    await expect(shippedDescription('scip')).rejects.toThrowError(/did you mean "scpi"\?/u);
  });
});
