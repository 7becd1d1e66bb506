import { describe, expect, it } from 'vitest';
import { workCautions } from '../../../src/cli/work-cautions.ts';
import type { JournalEntry } from '../../../src/logbook/journal-reader.ts';

const NOW = new Date('2026-05-02T09:00:00Z');

function lines(...recorded: string[]): string[] {
  const entries = recorded.map(
    (time, i): JournalEntry => ({
      sequence: i + 1,
      line: i + 2,
      recorded: time,
      event: { event: 'lift', number: 1, time: '2020-01-01T00:00:00Z', text: '' },
    }),
  );
  return workCautions(['measuring'], entries, ({ event }) => event.event === 'lift', NOW);
}

describe('workCautions', () => {
  it('gives all of them where the same work was never logged, or on another day', () => {
    expect(lines()).toHaveLength(3);
    expect(lines('2026-05-01T20:59:00Z')).toHaveLength(3);
  });

  it('names each of them in one line within a day’s work, by when that was written down', () => {
    expect(lines('2026-05-01T20:59:00Z', '2026-05-02T08:00:00+01:00')).toEqual([
      'Cautions as before: transmitter disconnected, element discharged, no thunder heard or forecast. All of them: `turfwire safety --cautions measuring`',
    ]);
  });
});
