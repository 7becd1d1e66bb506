import type { Command } from 'commander';
import type { UserError } from '../core/user-error.ts';
import { derivedAnswer } from '../logbook/derived-answer.ts';
import { printWithoutLost } from './failure.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions, logbookFolder } from './logbook-options.ts';
import { parseNumbers } from './numbers.ts';
import { tellDamage } from './own-logbook.ts';
import { commandOf } from './pasteable.ts';
import { progressOn } from './progress-bar.ts';
import { addSweepInputOptions, type SweepFlags } from './sweep-flags.ts';

/** What the command line of `diagnose` can hold. */
export interface DiagnoseOptions extends SweepFlags, LogbookOptions {
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
      .option(
        '--after <WHAT...>',
        'the same, from after the change; with neither, the logbook finds its own baseline',
      )
      .option('--reference-before <FILE...>', 'sweeps of the reference load from the healthy days')
      .option('--reference-after <FILE...>', 'sweeps of the reference load from after the change')
      .option('--site <FILE>', 'site.json: antenna, radials and soil shape what each cause would do'),
  )
    .addHelpText(
      'after',
      '\nExample:\n  turfwire diagnose --before may-shot1.csv may-shot2.csv june-shot1.csv --after october-shot1.csv --site site.json\n  turfwire diagnose --logbook field',
    )
    .action((options: DiagnoseOptions) =>
      asksLogbook(options)
        ? diagnoseOwn(io, options)
        : import('./diagnose-files.ts').then(({ diagnoseFiles }) => diagnoseFiles(io, options)),
    );
}

/** Numbers are visits of a logbook; anything else is a file. */
function asksLogbook({ before = [], after = [] }: DiagnoseOptions): boolean {
  return [...before, ...after].every((word) => /^[\d,-]+$/u.test(word));
}

async function diagnoseOwn(io: Io, options: DiagnoseOptions): Promise<void> {
  const visits = (words: readonly string[] | undefined, field: string): number[] | undefined =>
    words === undefined ? undefined : parseNumbers(words, field);
  const [before, after] = [visits(options.before, '--before'), visits(options.after, '--after')];
  const folder = logbookFolder(io, options);
  // The answer names commands with the logbook as it was named here.
  const question = JSON.stringify({ form: ANSWER_FORM, before, after, logbook: options.logbook });
  const propose = (words: readonly string[]): string => commandOf(words, options);
  let isKept = true;
  let lost: readonly UserError[] = [];
  const answer = await derivedAnswer(
    folder,
    'diagnosis',
    question,
    async () => {
      isKept = false;
      const { openGrownLogbook } = await import('../logbook/logbook.ts');
      const logbook = await openGrownLogbook(folder);
      tellDamage(io, logbook.problems.length, options);
      const { diagnoseLogbook } = await import('./logbook-drift.ts');
      const { logbookDriftJson, logbookDriftText } = await import('./drift-text.ts');
      const bar = await progressOn(io, 'visits');
      const found = await diagnoseLogbook(logbook, {
        before,
        after,
        propose,
        onProgress: bar.update,
      }).finally(bar.stop);
      lost = found.lost;
      return {
        json: logbookDriftJson(found, propose),
        text: logbookDriftText(found, propose),
        findings: logbook.problems.length,
      };
    },
    // A lost sweep may come back, of which the journal tells nothing.
    () => lost.length === 0,
  );
  if (isKept) tellDamage(io, answer.findings, options);
  printWithoutLost(io, answer, lost, options.json === true);
}

/** Raised whenever the method or the words change, so that an older answer is never shown for a new one. */
const ANSWER_FORM = 16;
