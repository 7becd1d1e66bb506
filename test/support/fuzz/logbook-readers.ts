import { eventText } from '../../../src/cli/event-text.ts';
import type { JournalEvent } from '../../../src/core/journal-event.ts';
import { replayField } from '../../../src/core/layout/field-state.ts';
import { parseQuantity } from '../../../src/core/quantity.ts';
import { idealStandard } from '../../../src/core/sweep/calibration-standards.ts';
import { groupIntoVisits } from '../../../src/formats/visits.ts';
import { fileNameOf } from '../../../src/logbook/inside.ts';
import { cellsToEvent, eventToCells } from '../../../src/logbook/journal-csv.ts';
import { formedRow } from '../../../src/logbook/journal-form.ts';
import { readJournal } from '../../../src/logbook/journal-reader.ts';
import { checkOf, FIRST_CHECK, HEADER, rowText } from '../../../src/logbook/journal-row.ts';
import { type FuzzedReader, require } from './fuzzed-reader.ts';

const happening = { time: '2026-03-01T10:15:00+01:00', text: '' };
const remark = { time: '2026-03-02T10:15:00Z', text: 'wet; "cold", =1+1\nsecond line \\' };
const stored = {
  fromHz: 7e6,
  toHz: 7.2e6,
  referenceOhm: 50,
  file: 'sweeps/2026-03/2026-03-01-visit-0001-shot-1-0123abcd.csv',
  sha256: '0123abcd'.repeat(8),
  source: 'visit1-shot1.csv',
};
const reading = { subject: null, value: null, powerW: null };

const EVENTS: readonly JournalEvent[] = [
  { ...happening, event: 'begin' },
  {
    ...happening,
    event: 'plan',
    number: 1,
    lengthM: 6,
    bearingDeg: 30,
    route: [
      [0, 0],
      [3, 5.2],
    ],
  },
  { ...happening, event: 'lay', number: 1, lengthM: 6, bearingDeg: null, route: null },
  { ...happening, event: 'lift', number: 1 },
  { ...happening, event: 'shot', visit: 1, shot: 1, target: 'antenna', plane: 'feedpoint', ...stored },
  { ...happening, event: 'standard', definition: { ...idealStandard('load'), loadOhm: 49.5 }, ...stored },
  { ...happening, event: 'raw', visit: 1, shot: 1, ...stored },
  { ...happening, event: 'baseline', visit: 1, baseline: true },
  { ...happening, event: 'withdraw', row: 4 },
  { ...happening, event: 'soil-moisture', ...reading, value: 0.23 },
  { ...happening, event: 'field-strength', ...reading, value: -12.5, subject: '@bench', powerW: 100 },
  { ...remark, event: 'inspection', ...reading, subject: 'plate to strap' },
  { ...remark, event: 'text', ...reading },
];

/** A journal of these events, each command of one row but the last two. */
function journalOf(events: readonly JournalEvent[]): string {
  const rows = events.map((event, i) => {
    const parts = i < events.length - 2 ? '1 of 1' : `${i - events.length + 3} of 2`;
    return rowText({
      ...eventToCells(event),
      sequence: String(i + 1),
      part: parts,
      recorded: happening.time,
      check: '',
    });
  });
  return sealJournal(HEADER + rows.join(''));
}

/** Numbers the rows anew and makes their checks right. */
function sealJournal(text: string): string {
  let check = FIRST_CHECK;
  let sequence = 0;
  return text
    .split(/(?<=\n)/u)
    .map((line) => {
      const { cells } = formedRow(line.replace(/\r?\n$/u, ''));
      if (cells === null || cells.sequence === 'sequence') return line;
      const row = { ...cells, sequence: String(++sequence) };
      check = checkOf(check, row);
      return rowText({ ...row, check });
    })
    .join('');
}

export const journalReader: FuzzedReader = {
  name: 'journal',
  seeds: [journalOf(EVENTS), journalOf(EVENTS.slice(0, 4))].map((text) => Buffer.from(text)),
  words: (
    'begin|plan|lay|lift|shot|standard|raw|baseline|withdraw|soil-moisture|rain|text|repair|1 of 1|1 of 2|2 of 2|' +
    'antenna|reference-load|shack|yes|no|fraction|m|dB|open; offset delay 3e-11 s|load; resistance 49 ohm|' +
    '0 0;1 1|2026-03-01T10:15:00Z|sweeps/../../x|../site.json'
  ).split('|'),
  seal: (text) => Buffer.from(sealJournal(Buffer.from(text, 'latin1').toString())).toString('latin1'),
  read: (bytes) => {
    const { entries, tail, tornBytes, problems } = readJournal(bytes);
    require(tail.wholeBytes + tornBytes ===
      bytes.length, 'bytes of a journal that are neither whole nor torn');
    const whole = readJournal(bytes.subarray(0, tail.wholeBytes));
    require(whole.tornBytes === 0 &&
      whole.entries.length === entries.length, 'what is whole reads otherwise alone');
    for (const { message } of problems) require(message.length < 1000, 'a message as long as a journal');
    const events = entries.map(({ event }) => event);
    for (const event of events) {
      require(JSON.stringify(cellsToEvent(eventToCells(event))) ===
        JSON.stringify(event), 'an event does not survive being written');
      eventText(event, 'imperial');
    }
    for (const { wireM } of replayField(events).states) require(Number.isFinite(wireM), 'wire of no length');
  },
};

const DIMENSIONS = [
  'length',
  'wire diameter',
  'frequency',
  'power',
  'temperature',
  'fraction',
  'conductivity',
] as const;

export const quantityReader: FuzzedReader = {
  name: 'quantity',
  seeds: ['7.5m', '33ft 6in', '14AWG', '2.5mm2', '7.15 MHz', '-3C', '23%', '5mS/m', '6\' 3"'].map((text) =>
    Buffer.from(text),
  ),
  words: ['m', 'ft', 'in', 'AWG', 'mm2', 'MHz', 'mW', 'MW', 'Ω', '°', '%', 'constructor', '__proto__'],
  read: (bytes) => {
    const text = new TextDecoder().decode(bytes);
    const dimension = DIMENSIONS[bytes.length % DIMENSIONS.length] ?? 'length';
    require(Number.isFinite(parseQuantity(text, dimension, '--length')), 'a quantity that is no number');
  },
};

export const fileNameReader: FuzzedReader = {
  name: 'file-names',
  seeds: ['visit1-shot2.csv', 'a/b/Shot_03.s1p\nC:\\sweeps\\one.csv\nnaïve mast.csv', 'con.csv'].map((text) =>
    Buffer.from(text),
  ),
  words: ['../', 'shot', '-shot1', 'CON', 'nul.txt', 'COM1', '.', '..', '/', '\\', '\u202e', '\0', ' '],
  read: (bytes) => {
    const names = new TextDecoder().decode(bytes).split('\n');
    for (const name of names) {
      const clean = fileNameOf(name);
      require(/^[\p{L}\p{N}_][\p{L}\p{N}._-]*$/u.test(clean), 'a file name that is not harmless');
      require(clean.length <= 81 && Buffer.byteLength(clean) <= 161, 'a file name that no disk takes');
      require(!/[.-]$/u.test(clean), 'a file name that ends as none may');
    }
    const grouped = groupIntoVisits(names).reduce((sum, group) => sum + group.names.length, 0);
    require(grouped === names.length, 'a file was lost in the grouping');
  },
};
