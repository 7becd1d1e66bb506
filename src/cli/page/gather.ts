import type { Site } from '../../core/site.ts';
import type { UserError } from '../../core/user-error.ts';
import {
  PAGE_DATA_VERSION,
  type PageData,
  type PlanAnswer,
  type SafetyAnswer,
} from '../../formats/page-data.ts';
import { type Logbook, openLogbook } from '../../logbook/logbook.ts';
import { isoWithZone } from '../../logbook/time.ts';
import type { Run } from '../commands.ts';
import type { Io } from '../io.ts';
import { type LogbookOptions, logbookFolder } from '../logbook-options.ts';
import { progressOn } from '../progress-bar.ts';
import { version } from '../version.ts';
import { asTyped, withCommands } from './as-called.ts';
import { Asker } from './ask.ts';
import { gatherChanges } from './gather-changes.ts';
import { gatherComparisons } from './gather-comparisons.ts';
import { gatherLot } from './gather-lot.ts';
import { gatherProgress } from './gather-progress.ts';
import { gatherSweeps } from './gather-sweeps.ts';
import { showable } from './showable.ts';

/** Three shots of one visit: what every later claim rests on. */
const ADD_SWEEPS = 'turfwire import shot1.csv shot2.csv shot3.csv';

/** The data of one page, and what was left out of it. */
export interface Gathered {
  readonly data: PageData;
  /** Stored sweeps that are damaged; the page does without them. */
  readonly damage: readonly UserError[];
  /** What is odd in the journal; the page is whole all the same. */
  readonly problems: Logbook['problems'];
}

/**
 * Takes from the rooms what the page shows of a logbook.
 * @throws UserError as `openLogbook`
 */
export async function gatherPage(
  io: Io,
  run: Run,
  options: LogbookOptions,
  page: Pick<PageData, 'opens' | 'source'>,
): Promise<Gathered> {
  const logbook = await openLogbook(logbookFolder(io, options));
  const damage: UserError[] = [];
  const bar = await progressOn(io, 'answers');
  const asker = new Asker(io, run, logbook);
  const typed = asTyped(io, options);
  const steps = {
    sweeps: () => gatherSweeps(logbook, (error) => damage.push(error)),
    plan: () => asker.ask<PlanAnswer>(['plan'], 'turfwire plan --stock 2x25m'),
    progress: () => gatherProgress(asker, logbook.site),
    comparisons: () => gatherComparisons(asker, logbook),
    changes: () => gatherChanges(logbook),
    safety: () => asker.ask<SafetyAnswer>(['safety'], 'turfwire safety --power 100W --mode ssb'),
  };
  let done = 0;
  const told = async <T>(step: () => Promise<T>): Promise<T> => {
    const answer = await step();
    bar.update(++done, Object.keys(steps).length);
    return answer;
  };
  try {
    const data: PageData = {
      version: PAGE_DATA_VERSION,
      made: isoWithZone(io.now()),
      program: `Turfwire ${await version()}`,
      ...page,
      commands: { addSweeps: typed(ADD_SWEEPS), compare: typed('turfwire compare') },
      site: siteOf(logbook.site),
      readings: logbook.readings,
      lot: gatherLot(logbook),
      sweeps: await told(steps.sweeps),
      plan: await told(steps.plan),
      progress: await told(steps.progress),
      comparisons: await told(steps.comparisons),
      changes: await told(steps.changes),
      safety: await told(steps.safety),
      otherUnits: asker.otherUnits,
    };
    return { data: withCommands(showable(data), typed), damage, problems: logbook.problems };
  } finally {
    bar.stop();
  }
}

function siteOf(site: Site): PageData['site'] {
  const { name, units, region, bandEdges, antenna, radials, soil, feedline, worthwhileDb, instrument } = site;
  return { name, units, region, bandEdges, antenna, radials, soil, feedline, worthwhileDb, instrument };
}
