import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openLogbook } from '../../../src/logbook/logbook.ts';
import { type Answer, joint, type LogbookAnswer, logbookOf } from '../../support/drift/diagnosed.ts';
import { runCommand } from '../../support/fake-io.ts';

describe('diagnose on a logbook with lost sweeps', () => {
  type Told = Answer & LogbookAnswer & { notes: readonly string[]; error?: { code: string } };

  const ask = (folder: string, ...args: string[]) => runCommand(['diagnose', '--logbook', folder, ...args]);

  async function filesOfVisit(folder: string, number: number): Promise<string[]> {
    const { visits } = await openLogbook(folder);
    const shots = visits.find(({ visit }) => visit === number)?.shots ?? [];
    return shots.map(({ file }) => join(folder, file));
  }

  it('answers with the rest, names what is left out, and fails as a damaged logbook does', async () => {
    const folder = await logbookOf(joint);
    const [lost] = await filesOfVisit(folder, 2);
    rmSync(lost as string);
    const ran = await ask(folder, '--json');
    expect(ran.code).toBe(4);
    const told = ran.json<Told>();
    expect(told.causes[0]?.cause).toBe('series-joint');
    expect(told.error?.code).toBe('sweep-missing');
    expect(told.notes).toEqual([
      expect.stringMatching(/visit-0002-shot-1-\w+\.csv: left out, because the file is gone/u),
    ]);
    const { out, err } = await ask(folder);
    expect(out).toContain(`- ${told.notes[0]}.`);
    expect(err).toMatch(/^turfwire: sweeps\/.*the file is gone/u);
  });

  it('answers whole again when the sweep came back', async () => {
    const folder = await logbookOf(joint);
    const [lost] = await filesOfVisit(folder, 2);
    const bytes = readFileSync(lost as string);
    writeFileSync(lost as string, 'other');
    expect((await ask(folder, '--json')).json<Told>().error?.code).toBe('sweep-changed');
    writeFileSync(lost as string, bytes);
    const ran = await ask(folder, '--json');
    expect(ran.code).toBe(0);
    expect(ran.json<Told>().notes).toEqual([]);
  });

  it.each([['never looked at before'], ['known from an earlier answer']])(
    'takes a visit without a sweep for never made, %s',
    async (which) => {
      const folder = await logbookOf(joint);
      if (which.startsWith('known')) await ask(folder);
      const newest = 2 * joint.before.length + 3 * joint.after.length;
      for (const file of await filesOfVisit(folder, newest)) rmSync(file);
      await runCommand(['note', 'text', 'rain', '--logbook', folder]);
      const { visitsAfter } = (await ask(folder, '--json')).json<Told>();
      expect(visitsAfter.at(-1)).toBe(newest - 1);
    },
  );

  it('says why where too little is left', async () => {
    const folder = await logbookOf(joint);
    for (const file of await filesOfVisit(folder, 1)) rmSync(file);
    const ran = await ask(folder, '--before', '1', '--after', '2');
    expect(ran).toMatchObject({ code: 4, out: '' });
    expect(ran.err).toContain('the file is gone');
  });
});
