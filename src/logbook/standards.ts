import type { StandardEvent } from '../core/journal-event.ts';
import type { MeasuredStandard } from '../core/sweep/calibration.ts';
import { STANDARD_NAMES, type StandardName } from '../core/sweep/calibration-standards.ts';
import { UserError } from '../core/user-error.ts';
import { readReflections } from '../formats/reflection-file.ts';
import { readInside } from './inside.ts';
import type { Logbook } from './open-logbook.ts';
import { requireUnchanged } from './sweep-file.ts';

/** The calibration standards to correct a sweep with. */
export interface StandardSet {
  readonly standards: readonly MeasuredStandard[];
  readonly events: readonly StandardEvent[];
  /** Those that were never swept with this instrument over this range. */
  readonly missing: readonly StandardName[];
}

/**
 * The newest open, short and load that the same instrument swept over at least the given range.
 *
 * @param source - model and serial of the instrument, as its events have it
 * @throws UserError `sweep-missing`, `sweep-changed`, `reflection-file-malformed`
 */
export async function newestStandards(
  logbook: Logbook,
  source: string,
  fromHz: number,
  toHz: number,
): Promise<StandardSet> {
  const usable = logbook.events
    .filter((event) => event.event === 'standard')
    .filter((event) => event.source === source && event.fromHz <= fromHz && event.toHz >= toHz);
  const newest = STANDARD_NAMES.map((name) =>
    usable.findLast(({ definition }) => definition.standard === name),
  );
  const events = newest.filter((event) => event !== undefined);
  return {
    standards: await Promise.all(events.map((event) => loadStandard(logbook, event))),
    events,
    missing: STANDARD_NAMES.filter((_, i) => newest[i] === undefined),
  };
}

async function loadStandard(logbook: Logbook, event: StandardEvent): Promise<MeasuredStandard> {
  const bytes = await readInside(logbook.folder, event.file);
  if (bytes === null) {
    throw new UserError(
      'sweep-missing',
      'the file is gone: bring it back from a copy, or sweep the standards again',
      {
        kind: 'logbook',
        place: { file: event.file },
      },
    );
  }
  requireUnchanged(bytes, event);
  const sweep = readReflections(new TextDecoder().decode(bytes), event.referenceOhm);
  return { definition: event.definition, sweep };
}
