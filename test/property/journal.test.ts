import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type JournalEvent, READING_UNITS } from '../../src/core/journal-event.ts';
import { nextRadialAfter, replayField } from '../../src/core/layout/field-state.ts';
import type { ReadingKind } from '../../src/core/record.ts';
import { cellsToEvent, eventToCells } from '../../src/logbook/journal-csv.ts';
import { formedRow } from '../../src/logbook/journal-form.ts';
import { readJournal } from '../../src/logbook/journal-reader.ts';
import { checkOf, FIRST_CHECK, HEADER, rowText } from '../../src/logbook/journal-row.ts';

const parameters = { seed: 20_260_301, numRuns: 300 };

const number = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => value + 0); // -0 is written 0
const whole = fc.integer({ min: 1, max: 60 });
const words = fc.string({ unit: 'grapheme', maxLength: 40 });
const time = fc
  .date({ min: new Date('2000-01-01T00:00:00Z'), max: new Date('2099-12-31T00:00:00Z'), noInvalidDate: true })
  .map((date) => date.toISOString());
const common = { time, text: words };

const event: fc.Arbitrary<JournalEvent> = fc.oneof(
  fc.record({
    ...common,
    event: fc.constantFrom('lay' as const, 'plan' as const),
    number: whole,
    lengthM: number,
    bearingDeg: fc.option(number),
    route: fc.option(fc.array(fc.tuple(number, number), { minLength: 1, maxLength: 5 })),
  }),
  fc.record({ ...common, event: fc.constant('lift' as const), number: whole }),
  fc.record({
    ...common,
    event: fc.constant('shot' as const),
    visit: whole,
    shot: whole,
    file: words,
    sha256: fc.string({ unit: fc.constantFrom(...'0123456789abcdef'), minLength: 64, maxLength: 64 }),
    plane: fc.constantFrom('feedpoint' as const, 'shack' as const),
    target: fc.constantFrom('antenna' as const, 'reference-load' as const),
    fromHz: number,
    toHz: number,
    referenceOhm: number,
    source: words,
  }),
  fc.record({ ...common, event: fc.constant('baseline' as const), visit: whole, baseline: fc.boolean() }),
  fc.record({ ...common, event: fc.constant('withdraw' as const), row: whole }),
  fc.record(
    {
      ...common,
      event: fc.constantFrom(...(Object.keys(READING_UNITS) as ReadingKind[])),
      value: fc.option(number),
      subject: fc.option(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 20 })),
      powerW: fc.option(number),
      band: fc.constantFrom('40m', '2m'),
    },
    { requiredKeys: ['time', 'text', 'event', 'value', 'subject', 'powerW'] },
  ),
);

/** A journal of the events, one command each. */
function journalOf(events: readonly JournalEvent[]): Buffer {
  let check = FIRST_CHECK;
  const rows = events.map((each, i) => {
    const cells = { ...eventToCells(each), sequence: `${i + 1}`, part: '1 of 1', recorded: each.time };
    check = checkOf(check, cells);
    return rowText({ ...cells, check });
  });
  return Buffer.from(HEADER + rows.join(''));
}

describe('a journal', () => {
  it('gives every event back as it was, through the text of its row', () => {
    fc.assert(
      fc.property(event, (each) => {
        const cells = { ...eventToCells(each), sequence: '1', part: '1 of 1', recorded: '', check: 'x' };
        const line = rowText(cells);
        expect(line.trimEnd()).not.toMatch(/[\r\n]/u);
        const back = formedRow(line.slice(0, -2)).cells;
        expect(back && cellsToEvent(back)).toEqual(each);
      }),
      parameters,
    );
  });

  it('takes the bare apostrophe of a spreadsheet for no text, as it takes an empty cell', () => {
    const reading = { event: 'field-strength', value: -12, subject: null, powerW: null, text: '' } as const;
    const cells = eventToCells({ ...reading, time: '2026-03-01T10:15:00Z' });
    expect(cellsToEvent({ ...cells, subject: "'", target: "'" })).toEqual(cellsToEvent(cells));
  });

  it('can be read and replayed after any prefix of its bytes, and tells the events of whole rows', () => {
    fc.assert(
      fc.property(
        fc.array(event, { maxLength: 8 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (events, cut) => {
          const bytes = journalOf(events);
          const prefix = bytes.subarray(0, Math.floor(cut * bytes.length));
          const read = readJournal(prefix).entries.map((entry) => entry.event);
          expect(read).toEqual(events.slice(0, read.length));
          const lineEnds = prefix.toString().split('\n').length - 1;
          expect(read.length).toBeGreaterThanOrEqual(lineEnds - 1);
          const { states } = replayField(read);
          const nextNumber = nextRadialAfter(read);
          expect(states.length).toBeGreaterThan(0);
          for (const { radials, wireM } of states) {
            const numbers = radials.map((radial) => radial.number);
            expect(new Set(numbers).size).toBe(numbers.length);
            expect(nextNumber).toBeGreaterThan(Math.max(0, ...numbers));
            expect(wireM).toBe(radials.reduce((sum, { lengthM }) => sum + lengthM, 0));
          }
        },
      ),
      parameters,
    );
  });

  it('reads the same from a remembered beginning as from its first byte, whatever came after', () => {
    fc.assert(
      fc.property(
        fc.array(event, { maxLength: 8 }),
        fc.nat(8),
        fc.uint8Array({ maxLength: 40 }),
        (events, kept, more) => {
          const beginning = journalOf(events.slice(0, kept));
          const { entries, tail } = readJournal(beginning);
          const remembered = JSON.parse(JSON.stringify({ entries, tail }));
          const bytes = Buffer.concat([journalOf(events), more]);
          expect(readJournal(bytes, remembered)).toEqual(readJournal(bytes));
        },
      ),
      parameters,
    );
  });

  it('lets nothing but damage come out of arbitrary bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => {
        const journal = readJournal(Buffer.concat([Buffer.from(HEADER), bytes]));
        expect(journal.entries).toEqual([]);
        if (bytes.length > 0) expect(journal.problems.length).toBeGreaterThan(0);
      }),
      parameters,
    );
  });

  it('shows any change of one byte in a row', () => {
    const events: JournalEvent[] = [
      { event: 'lift', time: '2026-03-01T10:00:00Z', text: 'a "quoted, remark"', number: 3 },
    ];
    const bytes = journalOf(events);
    fc.assert(
      fc.property(
        fc.integer({ min: HEADER.length, max: bytes.length - 3 }),
        fc.integer({ min: 1, max: 255 }),
        (at, by) => {
          const changed = Buffer.from(bytes);
          changed[at] = ((changed[at] as number) + by) % 256;
          const journal = readJournal(changed);
          const same = JSON.stringify(journal.entries.map((entry) => entry.event)) === JSON.stringify(events);
          expect(journal.problems.length > 0 || same).toBe(true);
        },
      ),
      parameters,
    );
  });
});
