import type { Command } from 'commander';
import { type DueInspection, dueInspections } from '../core/safety/inspections.ts';
import type { Site } from '../core/site.ts';
import { withdrawals } from '../core/withdrawal.ts';
import { dayWithZone, inspectionWords } from '../formats/safety-words.ts';
import { plural } from '../formats/words.ts';
import type { JournalEntry } from '../logbook/journal-reader.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { printAnswer } from './answer.ts';
import { eventText } from './event-text.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions, wiresText } from './logbook-options.ts';
import { numbered } from './numbers.ts';
import { openOwnLogbook } from './own-logbook.ts';

/** `turfwire history`: every event in the order of its time, and where that leaves the field. */
export function register(command: Command, io: Io): void {
  addLogbookOptions(command)
    .addHelpText('after', '\nExample:\n  turfwire history --logbook field')
    .action(async (options: LogbookOptions) => {
      const logbook = await openOwnLogbook(io, options);
      const due = dueInspections(logbook.site.joints, logbook.readings, io.now().toISOString());
      printAnswer(io, { json: jsonOf(logbook, due), text: textOf(logbook, due) }, options.json === true);
    });
}

function jsonOf(logbook: Logbook, inspections: readonly DueInspection[]) {
  const state = logbook.fieldStates.at(-1);
  const withdrawn = withdrawals(logbook.journal.entries);
  return {
    site: logbook.site.name,
    events: inOrderOfTime(logbook).map(({ sequence, recorded, event }) => ({
      sequence,
      recorded,
      ...event,
      withdrawnBy: withdrawn.get(sequence) ?? null,
    })),
    totals: {
      events: logbook.journal.entries.length,
      visits: logbook.visits.length,
      sweeps: sweepsOf(logbook),
      readings: logbook.readings.length,
      radials: state?.radials.length ?? 0,
      wireM: state?.wireM ?? 0,
      fieldSince: state?.since ?? null,
      planned: logbook.planned.length,
    },
    inspections,
    problems: logbook.problems,
  };
}

function textOf(logbook: Logbook, due: readonly DueInspection[]): string {
  const { site, visits, readings, journal } = logbook;
  const withdrawn = withdrawals(journal.entries);
  const width = Math.max(3, String(journal.tail.sequence).length);
  const line = (row: string, time: string, what: string) =>
    `${row.padStart(width)}  ${time.padEnd(25)}  ${what}`;
  const lines = inOrderOfTime(logbook).map(({ sequence, event }) => {
    const by = withdrawn.get(sequence);
    const note = by === undefined ? '' : ` (withdrawn by row ${by})`;
    return line(String(sequence), event.time, eventText(event, site.units) + note);
  });
  const counted = [
    plural(visits.length, 'visit'),
    plural(sweepsOf(logbook), 'sweep'),
    plural(readings.length, 'note'),
  ];
  return [
    line('row', 'time', 'what'),
    ...lines,
    '',
    `${site.name}: ${counted.join(', ')}; ${fieldLine(logbook, site)}.`,
    ...overdueLines(due),
  ].join('\n');
}

/** Joints that ask to be looked at, in the words of `safety`, which says why. */
function overdueLines(due: readonly DueInspection[]): string[] {
  return due
    .filter(({ overdue }) => overdue)
    .map((inspection) => {
      const { joint, last } = inspection;
      const look = last === null ? '' : ` (last look ${dayWithZone(last)})`;
      return `Look at joint "${joint}": ${inspectionWords(inspection)}${look}.`;
    });
}

function fieldLine({ fieldStates, planned }: Logbook, site: Site): string {
  const state = fieldStates.at(-1) ?? { since: null, radials: [], wireM: 0 };
  const numbers = state.radials.map(({ number }) => number);
  const list = numbers.length === 0 ? '' : ` (${numbered('number', numbers)})`;
  const since = state.since === null ? '' : ` since ${state.since}`;
  const open = planned.length === 0 ? '' : `, ${planned.length} more planned`;
  return `the field has ${wiresText(state, site)}${list}${since}${open}`;
}

function inOrderOfTime({ journal }: Logbook): JournalEntry[] {
  return journal.entries.toSorted((a, b) => Date.parse(a.event.time) - Date.parse(b.event.time));
}

function sweepsOf({ visits }: Logbook): number {
  return visits.reduce((sum, { shots }) => sum + shots.length, 0);
}
