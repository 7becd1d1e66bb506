import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addVisit, appendEvents, openLogbook } from '../../../src/logbook/logbook.ts';
import { type Ran, runCommand } from '../../support/fake-io.ts';
import { newLogbook, SITE, someVisit } from '../../support/logbooks.ts';

const NOW = new Date('2026-05-01T12:00:00Z');

/** Runs commands on one fresh logbook. */
async function onLogbook(site = SITE) {
  const folder = await newLogbook(site);
  const world = { env: { TURFWIRE_LOGBOOK: folder }, now: () => NOW };
  return { folder, turfwire: (...args: string[]) => runCommand(args, world) };
}

interface Laid {
  laid: { number: number; lengthM: number; bearingDeg: number | null; route: unknown }[];
  fieldState: { since: string; radials: number; wireM: number };
  cautions: string[];
}

describe('turfwire lay', () => {
  it('logs radials of one length spread over an arc, and shows the cautions', async () => {
    const { turfwire } = await onLogbook();
    const ran = await turfwire(
      'lay',
      '--count',
      '4',
      '--length',
      '6m',
      '--from',
      '0deg',
      '--to',
      '270deg',
      '--json',
    );
    const { laid, fieldState, cautions } = ran.json<Laid>();
    expect(laid.map(({ number, lengthM, bearingDeg }) => [number, lengthM, bearingDeg])).toEqual([
      [1, 6, 0],
      [2, 6, 90],
      [3, 6, 180],
      [4, 6, 270],
    ]);
    expect(fieldState).toMatchObject({ radials: 4, wireM: 24 });
    expect(cautions.join(' ')).toMatch(/buried services/u);
  });

  it('shows every caution at the first laying of a day, and names them in a line at the next', async () => {
    const { turfwire } = await onLogbook();
    const first = await turfwire('lay', '--length', '6m');
    expect(first.out).toContain('- Before you cut the turf, have buried services marked');
    const second = await turfwire('lay', '--length', '7m');
    expect(second.out).not.toContain('- Before you cut the turf');
    expect(second.out).toMatch(/^Cautions as before: buried services marked .*transmitter disconnected.*/mu);
    expect(second.out).toContain('All of them: `turfwire safety --cautions digging laying`');
    const asJson = await turfwire('lay', '--length', '7m', '--json');
    expect(asJson.json<Laid>().cautions.length).toBeGreaterThan(5);
    const refused = await turfwire('lay', '--length', '-7m');
    expect([refused.code, refused.out]).toEqual([2, '']);
  });

  it('cautions against ladders and power lines, and not against digging, where the base is raised', async () => {
    const antenna = { kind: 'quarter-wave', bands: ['40m'], baseHeight: '3m' };
    const { turfwire } = await onLogbook({ ...SITE, antenna });
    const { out } = await turfwire('lay', '--length', '10m', '10m');
    expect(out).toContain('- Nothing you raise may reach an overhead power line');
    expect(out).toContain('- Insulate the far ends');
    expect(out).not.toMatch(/turf:|buried services|[Dd]ig by hand/u);
    expect((await turfwire('lay', '--length', '9m')).out).toContain(
      'turfwire safety --cautions ladders hanging',
    );
    const asJson = await turfwire('lay', '--length', '9m', '--json');
    expect(asJson.json<Laid>().cautions.join(' ')).not.toContain('buried');
  });

  it('takes lengths and bearings one by one, in feet where the site says so', async () => {
    const { turfwire } = await onLogbook({ ...SITE, units: 'imperial' });
    const ran = await turfwire('lay', '--length', '20ft', '25ft', '--bearing', '30deg', '300deg');
    expect(ran.out).toContain('Logged as laid: radials 1 and 2, 45.0 ft of wire; the field has 2 radials');
    expect((await turfwire('history')).out).toContain('radial 2 laid, 25.00 ft at 300°');
  });

  it('puts what was laid earlier in its place, and tells the field as it was then', async () => {
    const { turfwire } = await onLogbook();
    await turfwire('lay', '--length', '6m', '--at', '2026-04-01T10:00Z');
    const ran = await turfwire('lay', '--length', '5m', '--at', '2026-03-01T10:00+02:00', '--json');
    expect(ran.json<Laid>()).toMatchObject({
      laid: [{ number: 2 }],
      fieldState: { since: '2026-03-01T10:00:00+02:00', radials: 1, wireM: 5 },
    });
    const early = await turfwire('lay', '--length', '4m', '--at', '2026-02-01T10:00Z');
    expect(early.out).toContain(
      'the field then had 1 radial, 4.0 m of wire, and now has 3 radials, 15.0 m of wire.',
    );
    expect(early.err).toMatch(
      /2026-02-01T10:00:00Z is before the logbook began \(\S+\): it is logged all the same/u,
    );
  });

  it.each([
    [['--count', '4'], '--length'],
    [['--length', '6'], 'needs a unit'],
    [['--length', '0m'], 'more than zero'],
    [['--length', '6m', '--count', '2.5'], '--count'],
    [['--length', '6m', '--count', '1e9'], '--count'],
    [['--length', '6m', '7m', '8m', '--count', '2'], 'needs one length, or 2'],
    [['--length', '6m', '--count', '3', '--bearing', '0deg', '90deg'], 'needs 3 bearings'],
    [['--length', '6m', '--from', '0deg'], '--to go together'],
    [['--length', '6m', '--bearing', '0deg', '--from', '0deg', '--to', '9deg'], 'not both'],
    [
      ['--length', '6m', '--bearing', '400deg'],
      '--bearing: must be a bearing from true north, 0deg to below 360deg',
    ],
    [['--length', '6m', '--bearing', '360deg'], 'from true north, 0deg to below 360deg'],
    [['--length', '6m', '--from', '0deg', '--to', '450deg'], '--to: must be'],
    [['--planned', '1', '--length', '6m'], 'leave the other options out'],
    [['--planned', 'x'], 'needs numbers such as 5-8'],
    [['--length', '6m', '--at', '2026-06-01T10:00Z'], 'in the future'],
  ])('refuses %j and logs nothing', async (args, expected) => {
    const { turfwire } = await onLogbook();
    const ran = await turfwire('lay', ...args);
    expect(ran.code).toBeGreaterThan(0);
    expect(ran.err).toContain(expected);
    expect((await turfwire('history', '--json')).json<{ totals: unknown }>().totals).toMatchObject({
      events: 1,
    });
  });

  it('lays planned radials under their numbers, with the route of the plan', async () => {
    const { folder, turfwire } = await onLogbook();
    const plan = (number: number) => ({
      event: 'plan' as const,
      time: '2026-04-01T10:00:00Z',
      text: '',
      number,
      lengthM: 6,
      bearingDeg: number * 10,
      route: [
        [0, 0],
        [1, 6],
      ] as const,
    });
    await appendEvents(folder, [1, 2, 3].map(plan));
    const ran = await turfwire('lay', '--planned', '2-3', '--json');
    expect(ran.json<Laid>().laid).toEqual([
      {
        number: 2,
        lengthM: 6,
        bearingDeg: 20,
        route: [
          [0, 0],
          [1, 6],
        ],
      },
      {
        number: 3,
        lengthM: 6,
        bearingDeg: 30,
        route: [
          [0, 0],
          [1, 6],
        ],
      },
    ]);
    expect((await turfwire('lay', '--planned', '2')).err).toContain('radial 2 is not planned: radial 1 is');
    expect((await turfwire('lay', '--length', '5m', '--json')).json<Laid>().laid[0]?.number).toBe(4);
    expect((await turfwire('history')).out).toContain('1 more planned');
  });
});

describe('a wire that looks like a slip', () => {
  const lot = {
    outline: [
      ['0m', '0m'],
      ['12m', '0m'],
      ['12m', '9m'],
      ['0m', '9m'],
    ],
    base: ['6m', '4m'],
  };

  it('is logged as it was typed, with a remark, when it is longer than the lot or than all the stock', async () => {
    const folder = await newLogbook({ ...SITE, lot, stock: [{ length: '25m', count: 1 }] });
    const turfwire = (...args: string[]) => runCommand([...args, '--logbook', folder]);
    // The diagonal of 12 m by 9 m is 15 m.
    expect((await turfwire('lay', '--length', '15m')).err).toBe('');
    const ran = await turfwire('lay', '--length', '16m');
    expect(ran.code).toBe(0);
    expect(ran.err).toContain(
      'radial 2 is 16.0 m long, and the lot in site.json only 15.0 m from end to end',
    );
    expect(ran.err).toContain('31.0 m of wire is laid now, and the stock in site.json is only 25.0 m in all');
    expect((await openLogbook(folder)).fieldStates.at(-1)?.wireM).toBe(31);
  });

  it('is logged with a remark when no piece of the stock is as long', async () => {
    const folder = await newLogbook({ ...SITE, stock: [{ length: '25m', count: 3 }] });
    const turfwire = (...args: string[]) => runCommand([...args, '--logbook', folder]);
    expect((await turfwire('lay', '--length', '25m')).err).toBe('');
    expect((await turfwire('lay', '--length', '40m')).err).toContain(
      'radial 2 is 40.0 m long, and the longest piece of the stock in site.json only 25.0 m',
    );
  });
});

describe('turfwire lift', () => {
  it('logs radials as taken up and never gives their numbers again', async () => {
    const { turfwire } = await onLogbook();
    await turfwire('lay', '--count', '8', '--length', '6m', '--at', '2026-03-01T10:00Z');
    const ran = await turfwire('lift', '5-6,8', '--json');
    expect(ran.json()).toMatchObject({ lifted: [5, 6, 8], fieldState: { radials: 5, wireM: 30 } });
    expect((await turfwire('lay', '--length', '6m', '--json')).json<Laid>().laid[0]?.number).toBe(9);
  });

  it('refuses what does not lie there, all or nothing', async () => {
    const { turfwire } = await onLogbook();
    await turfwire('lay', '--count', '2', '--length', '6m', '--at', '2026-03-01T10:00Z');
    const ran = await turfwire('lift', '1', '3', '--at', '2026-04-01T10:00Z');
    expect(ran.err).toContain('radial 3 does not lie there at 2026-04-01T10:00:00Z: radials 1 and 2 do');
    expect((await turfwire('lift', '1', '--at', '2026-02-01T10:00Z')).err).toContain(
      'no radial is logged as laid by then',
    );
    expect((await turfwire('lift', '1', '--at', '2026-02-01T10:00Z')).code).toBe(1);
    expect((await turfwire('lift', 'two')).code).toBe(2);
    expect((await turfwire('history')).out).toContain('the field has 2 radials');
  });
});

describe('an entry made by mistake', () => {
  const field = async (turfwire: (...args: string[]) => Promise<Ran>) =>
    (await turfwire('history', '--json')).json<{
      totals: { radials: number; planned: number; visits: number };
    }>().totals;

  it('is taken back by the command that lay proposes, and leaves the field as it was, with a trace', async () => {
    const { folder, turfwire } = await onLogbook();
    await turfwire('lay', '--count', '2', '--length', '6m');
    const before = await openLogbook(folder);
    const { out } = await turfwire('lay', '--count', '4', '--length', '60m');
    expect(out).toContain("take it back: turfwire note withdraw 4-7 'the reason'");

    const ran = await turfwire('note', 'withdraw', '4-7', 'sixty for six');
    expect(ran.out).toContain('Noted as row 8: row 4 withdrawn: sixty for six');
    expect(ran.out).toContain('Row 4 was: radial 3 laid, 60.00 m (2026-05-01T12:00:00Z).');
    expect(ran.err).not.toContain('different kinds');
    const after = await openLogbook(folder);
    expect(after.fieldStates).toEqual(before.fieldStates);
    expect(after.nextRadial).toBe(7);
    expect(after.problems).toEqual([]);
    const { out: told } = await turfwire('history');
    expect(told).toMatch(/ 4 {2}2026-05-01.* radial 3 laid, 60.00 m \(withdrawn by row 8\)/u);
    expect((await turfwire('check')).code).toBe(0);
  });

  it('may be a lift, a plan or a note, or a visit, whose number is never given again', async () => {
    const { folder, turfwire } = await onLogbook();
    await turfwire('lay', '--count', '2', '--length', '6m'); // rows 2 and 3
    await turfwire('lift', '2'); // row 4
    await turfwire('note', 'rain', '3mm'); // row 5
    await addVisit(folder, someVisit(1)); // row 6
    await turfwire('note', 'withdraw', '4,5,6', 'wrong garden');
    expect(await field(turfwire)).toMatchObject({ radials: 2, visits: 0 });
    expect((await openLogbook(folder)).readings).toEqual([]);
    expect((await turfwire('check')).code).toBe(0);
    expect(await addVisit(folder, someVisit(1))).toBe(2);
    expect((await turfwire('check')).code).toBe(0);
  });

  it('stands again when its withdrawal is withdrawn, as the withdrawal proposes', async () => {
    const { folder, turfwire } = await onLogbook();
    await turfwire('lay', '--count', '2', '--length', '6m'); // rows 2 and 3
    await addVisit(folder, someVisit(1)); // row 4
    const before = await openLogbook(folder);
    const taken = await turfwire('note', 'withdraw', '3,4', 'wrong');
    expect(taken.err).toContain(
      'rows of different kinds were taken together (laid radials, shots of visits)',
    );
    expect(taken.out).toMatch(/Row 4 was: visit 1, shot 1 /u);
    expect(taken.out).toContain("take it back: turfwire note withdraw 5-6 'the reason'");
    const ran = await turfwire('note', 'withdraw', '5-6', 'they were right', '--json');
    expect(ran.json<{ withdrawn: unknown[] }>().withdrawn).toMatchObject([
      { row: 3, event: 'lay', what: expect.stringContaining('radial 2 laid'), stands: true },
      { row: 4, event: 'shot', stands: true },
    ]);
    const after = await openLogbook(folder);
    expect([after.fieldStates, after.visits]).toEqual([before.fieldStates, before.visits]);
    expect((await turfwire('history')).out).toMatch(/ 3 {2}\S+ +radial 2 laid, 6.00 m$/mu);
    expect((await turfwire('note', 'withdraw', '7', 'or not')).out).toContain('Row 3 was: radial 2 laid');
    expect((await turfwire('check')).code).toBe(0);
  });

  it('is not taken back from under what rests on it', async () => {
    const { turfwire } = await onLogbook();
    await turfwire('lay', '--length', '6m', '--at', '2026-04-01T10:00Z');
    await turfwire('lift', '1');
    const ran = await turfwire('note', 'withdraw', '2', 'never laid');
    expect(ran).toMatchObject({ code: 1, out: '' });
    expect(ran.err).toMatch(
      /other rows rest on these; without them, .*radial 1 was lifted, but was not laid before that/u,
    );
  });
});

describe('where the logbook is', () => {
  it('is the current folder, or TURFWIRE_LOGBOOK, or --logbook, the last one first', async () => {
    const [one, other] = [
      await newLogbook({ ...SITE, name: 'One' }),
      await newLogbook({ ...SITE, name: 'Other' }),
    ];
    expect((await runCommand(['history'], { cwd: one })).out).toContain('One:');
    expect((await runCommand(['history'], { cwd: one, env: { TURFWIRE_LOGBOOK: other } })).out).toContain(
      'Other:',
    );
    const args = ['history', '--logbook', join('..', 'field')];
    expect((await runCommand(args, { cwd: one, env: { TURFWIRE_LOGBOOK: other } })).out).toContain('One:');
  });
});
