import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { MeasuredVisit } from '../../../src/core/record.ts';
import type { Site } from '../../../src/core/site.ts';
import { addVisit, createLogbook } from '../../../src/logbook/logbook.ts';
import { type Answer, joint, type LogbookAnswer, visitOf } from '../../support/drift/diagnosed.ts';
import { siteText } from '../../support/drift/write-case.ts';
import { runCommand } from '../../support/fake-io.ts';
import { temporaryFolder } from '../../support/logbooks.ts';

describe('diagnose on a logbook whose fault was mended', () => {
  const healthy = Array.from({ length: 8 }, (_, i) => joint.before[i % joint.before.length] as MeasuredVisit);
  const [bad] = joint.after as [MeasuredVisit];

  /** Eight healthy visits, two bad ones, a healthy one, and what comes then; a day apart from 1 March. */
  async function mended(then: readonly MeasuredVisit[], isRepairNoted = true): Promise<string> {
    const folder = join(temporaryFolder(), 'field');
    await createLogbook(folder, JSON.parse(siteText(joint.site as Site)));
    let day = 1;
    for (const visit of [...healthy, bad, bad, healthy[0] as MeasuredVisit, ...then]) {
      await addVisit(folder, visitOf(visit, day++));
    }
    if (isRepairNoted) {
      const at = ['--at', '2026-03-10T18:00Z', '--logbook', folder];
      await runCommand(['note', 'repair', 'lug to plate', 'cleaned and remade', ...at]);
    }
    return folder;
  }

  const ask = (folder: string, ...args: string[]) => runCommand(['diagnose', '--logbook', folder, ...args]);

  type Told = Answer & LogbookAnswer & { standApart: unknown; notes: readonly string[] };

  it('keeps the bad visits out of the baseline, and says so with the repair', async () => {
    const folder = await mended([]);
    const { out } = await ask(folder);
    expect(out).toContain(
      'Visits 9 and 10 stand apart from the rest and are kept out of the baseline; a repair was noted on 2026-03-10, and ' +
        'visit 11 is back within what the others show.',
    );
    expect(out).toContain('Judged: visit 11 (2026-03-11): the newest alone, since no lasting step shows.');
    const answer = (await ask(folder, '--json')).json<Told>();
    expect(answer.visitsBefore).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    expect(answer.causes[0]?.cause).toBe('none');
    expect(answer.standApart).toMatchObject([{ visits: [9, 10], backAt: 11, repairedOn: '2026-03-10' }]);
    expect(answer.notes).toEqual([]);
  });

  it('judges a relapse by itself, with the joint before a contact that comes and goes', async () => {
    const folder = await mended([bad]);
    const { out } = await ask(folder);
    expect(out).not.toContain('stayed');
    expect(out).toContain('visits 9 and 10 stood apart before, until the repair of 2026-03-10');
    const answer = (await ask(folder, '--json')).json<Told>();
    expect(answer.visitsAfter).toEqual([12]);
    expect(answer.visitsBefore).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 11]);
    expect(answer.causes[0]?.cause).toBe('series-joint');
  });

  it('thinks more of a contact that comes and goes where no repair was noted', async () => {
    const share = async (isRepairNoted: boolean): Promise<number> =>
      (await ask(await mended([bad], isRepairNoted), '--json'))
        .json<Told>()
        .causes.find(({ cause }) => cause === 'intermittent')?.probability as number;
    expect(await share(true)).toBeLessThan(0.05);
    expect(await share(false)).toBeGreaterThan(0.2);
    expect(await share(false)).toBeLessThan(0.8);
    expect((await ask(await mended([bad], false))).out).toContain('no repair was noted in between');
  });

  it('takes the user’s word above its own', async () => {
    const folder = await mended([]);
    await runCommand(['note', 'baseline', '1-9', 'yes', '--logbook', folder]);
    const { visitsBefore } = (await ask(folder, '--json')).json<Told>();
    expect(visitsBefore).toContain(9);
  });
});
