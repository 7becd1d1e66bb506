import { fieldStateAt } from '../../core/layout/field-state.ts';
import type { VisitRecord } from '../../core/record.ts';
import type { Sweep } from '../../core/sweep/sweep.ts';
import { UserError } from '../../core/user-error.ts';
import { type PageSweeps, type PageVisit, SweepPacker } from '../../formats/page-data.ts';
import { type Logbook, loadShot, measuredVisit } from '../../logbook/logbook.ts';
import { chooseVisits } from './choose-visits.ts';

/**
 * Every sweep of the antenna, at the feed point where the site knows the line, else where it was measured.
 * @param left - hears of each visit that could not be read; the others go on
 */
export async function gatherSweeps(logbook: Logbook, left: (error: UserError) => void): Promise<PageSweeps> {
  const packer = new SweepPacker();
  const visits: PageVisit[] = [];
  const chosen = chooseVisits(logbook);
  for (const record of chosen) {
    try {
      const shots = await shotsOf(logbook, record);
      const { radials, wireM } = fieldStateAt(logbook.fieldStates, record.time);
      const { visit, time } = record;
      visits.push({
        visit,
        time,
        radials: radials.length,
        wireM,
        shots: shots.map((shot) => packer.pack(shot)),
      });
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      left(error);
    }
  }
  const measured = logbook.visits.filter(({ shots }) => shots.some(({ target }) => target === 'antenna'));
  return { grids: packer.grids, visits, leftOut: measured.length - chosen.length };
}

async function shotsOf(logbook: Logbook, record: VisitRecord): Promise<readonly Sweep[]> {
  if (logbook.site.feedline !== null) {
    return (await measuredVisit(logbook, record, { plane: 'feedpoint' })).shots;
  }
  const ofAntenna = record.shots.filter(({ target }) => target === 'antenna');
  return Promise.all(ofAntenna.map((shot) => loadShot(logbook, shot)));
}
