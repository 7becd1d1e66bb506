import { resolve } from 'node:path';
import type { Command } from 'commander';
import { diagnose } from '../core/drift/diagnosis.ts';
import type { MeasuredVisit } from '../core/record.ts';
import { UserError } from '../core/user-error.ts';
import { readSite } from '../logbook/site-file.ts';
import { printAnswer } from './answer.ts';
import { diagnosisJson, diagnosisText } from './diagnose-text.ts';
import { logbookDriftJson, logbookDriftText } from './drift-text.ts';
import type { Io } from './io.ts';
import { lineDistance, lineDistanceText } from './line-distance.ts';
import { diagnoseLogbook } from './logbook-drift.ts';
import { addLogbookOptions, type LogbookOptions, logbookFolder, parseNumbers } from './logbook-options.ts';
import { progressOn } from './progress-bar.ts';
import type { SweepFlags } from './sweep-flags.ts';
import { addSweepInputOptions, loadVisits, type SweepInputOptions } from './sweep-input.ts';

interface DiagnoseOptions extends SweepFlags, LogbookOptions {
  readonly before?: string[];
  readonly after?: string[];
  readonly referenceBefore?: string[];
  readonly referenceAfter?: string[];
  readonly site?: string;
}

/** `turfwire diagnose`: what most likely changed, and which check comes first. */
export function register(command: Command, io: Io): void {
  addSweepInputOptions(
    addLogbookOptions(command)
      .option(
        '--before <WHAT...>',
        'sweep files of the healthy antenna, several visits where you have them; or visits of the logbook by number',
      )
      .option('--after <WHAT...>', 'the same since; without both, the logbook finds its own baseline')
      .option('--reference-before <FILE...>', 'sweeps of the reference load from the healthy days')
      .option('--reference-after <FILE...>', 'sweeps of the reference load since')
      .option('--site <FILE>', 'site.json: antenna, radials and soil shape what each cause would do'),
  )
    .addHelpText(
      'after',
      '\nExample:\n  turfwire diagnose --before may-shot1.csv may-shot2.csv june-shot1.csv --after october-shot1.csv --site site.json\n  turfwire diagnose --logbook field',
    )
    .action((options: DiagnoseOptions) =>
      asksLogbook(options) ? diagnoseOwn(io, options) : diagnoseFiles(io, options),
    );
}

/** Numbers are visits of a logbook; anything else is a file. */
function asksLogbook({ before = [], after = [] }: DiagnoseOptions): boolean {
  return [...before, ...after].every((word) => /^[\d,-]+$/u.test(word));
}

async function diagnoseOwn(io: Io, options: DiagnoseOptions): Promise<void> {
  const bar = await progressOn(io, 'visits');
  const visits = (words: readonly string[] | undefined, field: string): number[] | undefined =>
    words === undefined ? undefined : parseNumbers(words, field);
  const found = await diagnoseLogbook(logbookFolder(io, options), {
    before: visits(options.before, '--before'),
    after: visits(options.after, '--after'),
    onProgress: bar.update,
  }).finally(bar.stop);
  printAnswer(io, { json: logbookDriftJson(found), text: logbookDriftText(found) }, options.json === true);
}

async function diagnoseFiles(io: Io, options: DiagnoseOptions): Promise<void> {
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
        'holds SWR alone: resistance and reactance are needed to tell causes apart',
        { place: { file: label } },
      );
    }),
    referenceLoad: [],
  }));
}
