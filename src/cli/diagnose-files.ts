import { resolve } from 'node:path';
import { diagnose } from '../core/drift/diagnosis.ts';
import type { MeasuredVisit } from '../core/record.ts';
import { feedLineOf } from '../core/sweep/feed-line.ts';
import { UserError } from '../core/user-error.ts';
import { readSite } from '../logbook/site-file.ts';
import { printAnswer } from './answer.ts';
import type { DiagnoseOptions } from './diagnose.ts';
import { diagnosisJson, diagnosisText } from './diagnose-text.ts';
import type { Io } from './io.ts';
import { lineDistance, lineDistanceText } from './line-distance.ts';
import { loadVisits, type SweepInputOptions } from './sweep-input.ts';

/** Diagnoses loose files: one group of visits against another. */
export async function diagnoseFiles(io: Io, options: DiagnoseOptions): Promise<void> {
  const { before, after } = options;
  if (before === undefined || after === undefined) {
    throw new UserError('groups-missing', 'needs sweeps before and after: --before FILE… --after FILE…', {
      kind: 'command-line',
    });
  }
  const site = options.site === undefined ? null : await readSite(resolve(io.cwd, options.site));
  const load = (files: readonly string[] | undefined): Promise<MeasuredVisit[]> =>
    files === undefined ? Promise.resolve([]) : measuredVisits(io, files, { ...options, site });
  const [visitsBefore, visitsAfter] = [await load(before), await load(after)];
  const diagnosis = diagnose({
    before: visitsBefore,
    after: visitsAfter,
    referenceBefore: await load(options.referenceBefore),
    referenceAfter: await load(options.referenceAfter),
    site,
    line: options.plane === 'shack' && site?.feedline ? feedLineOf(site.feedline) : null,
  });
  const distance = options.plane === 'shack' ? lineDistance(visitsBefore, visitsAfter, site) : null;
  const text = diagnosisText(diagnosis);
  printAnswer(
    io,
    {
      json: { ...diagnosisJson(diagnosis), distanceToChange: distance },
      text: distance === null ? text : `${text}\n\n${lineDistanceText(distance)}`,
    },
    options.json === true,
  );
}

/** Visits of impedance sweeps from loose files. @throws UserError `impedance-needed` for SWR alone */
async function measuredVisits(
  io: Io,
  files: readonly string[],
  options: SweepInputOptions,
): Promise<MeasuredVisit[]> {
  const visits = await loadVisits(io, files, options);
  return visits.map(({ label, shots }) => ({
    label,
    time: null,
    shots: shots.map((shot) => {
      if (shot.kind === 'impedance') return shot;
      throw new UserError(
        'impedance-needed',
        'holds only SWR: resistance and reactance are needed to tell causes apart',
        { place: { file: label } },
      );
    }),
    referenceLoad: [],
  }));
}
