import { fieldStateAt } from '../../core/layout/field-state.ts';
import type { MeasuredVisit, ShotRecord, VisitRecord } from '../../core/record.ts';
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
  const { fieldStates, site } = logbook;
  const packer = new SweepPacker();
  const visits: PageVisit[] = [];
  const chosen = chooseVisits(logbook);
  for (const record of chosen) {
    try {
      const { shots, referenceLoad } = await sweepsOf(logbook, record);
      const state = fieldStateAt(fieldStates, record.time);
      const { visit, time, baseline } = record;
      visits.push({
        visit,
        time,
        radials: state.radials.length,
        wireM: state.wireM,
        field: Math.max(0, fieldStates.indexOf(state)),
        counts: baseline !== false,
        shots: shots.map((shot) => packer.pack(shot)),
        referenceLoad: referenceLoad.map((shot) => packer.pack(shot)),
      });
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      left(error);
    }
  }
  const measured = logbook.visits.filter(({ shots }) => antennaShots(shots).length > 0);
  return {
    grids: packer.grids,
    fields: fieldStates.map(({ radials, wireM, since }) => ({ radials: radials.length, wireM, since })),
    visits,
    leftOut: measured.length - chosen.length,
    throughLine:
      site.feedline !== null &&
      chosen.some(({ shots }) => antennaShots(shots).some(({ plane }) => plane === 'shack')),
  };
}

async function sweepsOf(
  logbook: Logbook,
  record: VisitRecord,
): Promise<Pick<MeasuredVisit, 'shots' | 'referenceLoad'>> {
  if (logbook.site.feedline !== null) return measuredVisit(logbook, record, { plane: 'feedpoint' });
  const load = (target: ShotRecord['target']): Promise<Sweep[]> =>
    Promise.all(record.shots.filter((shot) => shot.target === target).map((shot) => loadShot(logbook, shot)));
  return { shots: await load('antenna'), referenceLoad: await load('reference-load') };
}

function antennaShots(shots: VisitRecord['shots']): VisitRecord['shots'] {
  return shots.filter(({ target }) => target === 'antenna');
}
