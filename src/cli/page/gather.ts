import type { UserError } from '../../core/user-error.ts';
import { PAGE_DATA_VERSION, type PageData } from '../../formats/page-data.ts';
import { openLogbook } from '../../logbook/logbook.ts';
import { isoWithZone } from '../../logbook/time.ts';
import type { Run } from '../commands.ts';
import type { Io } from '../io.ts';
import { version } from '../version.ts';
import { Asker } from './ask.ts';
import { gatherChanges } from './gather-changes.ts';
import { gatherComparisons } from './gather-comparisons.ts';
import { gatherLot } from './gather-lot.ts';
import { gatherSweeps } from './gather-sweeps.ts';

/** The data of one page, and what was left out of it. */
export interface Gathered {
  readonly data: PageData;
  /** Stored sweeps that are damaged; the page does without them. */
  readonly damage: readonly UserError[];
}

/**
 * Takes from the rooms what the page shows of a logbook.
 * @throws UserError as `openLogbook`
 */
export async function gatherPage(
  io: Io,
  run: Run,
  folder: string,
  page: { readonly opens: PageData['opens']; readonly source: PageData['source'] },
): Promise<Gathered> {
  const logbook = await openLogbook(folder);
  const { site } = logbook;
  const asker = new Asker(io, run, logbook.folder);
  const damage: UserError[] = [];
  const sweeps = await gatherSweeps(logbook, (error) => damage.push(error));
  const { name, units, region, bandEdges, antenna, radials, soil, feedline, worthwhileDb, instrument } = site;
  return {
    damage,
    data: {
      version: PAGE_DATA_VERSION,
      made: isoWithZone(io.now()),
      program: `Turfwire ${await version()}`,
      opens: page.opens,
      source: page.source,
      site: {
        name,
        units,
        region,
        bandEdges,
        antenna,
        radials,
        soil,
        feedline,
        worthwhileDb,
        referenceOhm: instrument.referenceOhm,
      },
      sweeps,
      readings: logbook.readings,
      lot: gatherLot(logbook),
      plan: await asker.ask(['plan'], 'turfwire plan --stock 2x25m'),
      progress: await asker.ask(['progress'], 'turfwire measure --port PORT'),
      comparisons: await gatherComparisons(asker, logbook),
      changes: await gatherChanges(logbook),
      safety: await asker.ask(['safety'], 'turfwire safety --power 100W --mode ssb'),
    },
  };
}
