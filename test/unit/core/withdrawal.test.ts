import { describe, expect, it } from 'vitest';
import type { JournalEvent } from '../../../src/core/journal-event.ts';
import { requireWithdrawable, standingEvents, withdrawals } from '../../../src/core/withdrawal.ts';
import { userErrorOf } from '../../support/user-error-of.ts';

const at = { time: '2026-03-01T10:00:00Z', text: '' };
const radial = (event: 'lay' | 'plan', number: number): JournalEvent => ({
  ...at,
  event,
  number,
  lengthM: 6,
  bearingDeg: null,
  route: null,
});
const withdraw = (row: number): JournalEvent => ({ ...at, event: 'withdraw', row });
const rowsOf = (...events: JournalEvent[]) => events.map((event, i) => ({ sequence: i + 1, event }));

const begin: JournalEvent = { ...at, event: 'begin' };

describe('a withdrawn row', () => {
  it('stands no more, and is known with the row that took it back', () => {
    const rows = rowsOf(begin, radial('lay', 1), radial('lay', 2), withdraw(2));
    expect([...withdrawals(rows)]).toEqual([[2, 4]]);
    expect(standingEvents(rows)).toEqual([begin, radial('lay', 2), withdraw(2)]);
  });

  it('stands again when the row that withdrew it is withdrawn in its turn, and so on', () => {
    const rows = rowsOf(begin, radial('lay', 1), withdraw(2), withdraw(3), withdraw(4));
    const standing = [0, 1, 2].map((n) =>
      standingEvents(rows.slice(0, 3 + n)).includes(rows[1]?.event as never),
    );
    expect(standing).toEqual([false, true, false]);
  });

  it('is one before the row that withdraws it: no row reaches forward', () => {
    const rows = rowsOf(begin, withdraw(3), radial('lay', 1));
    expect(standingEvents(rows)).toContainEqual(radial('lay', 1));
  });

  it('does not stand again beside a later laying of its radial, and the refusal says which row goes first', () => {
    const later = { ...radial('lay', 1), time: '2026-03-02T10:00:00Z' };
    const rows = rowsOf(begin, radial('lay', 1), withdraw(2), later);
    expect(() => requireWithdrawable(rows, [3])).toThrow(
      'radial 1 was laid again in row 4; withdraw row 4 first',
    );
    expect(() => requireWithdrawable(rows, [3, 4])).not.toThrow();
  });
});

describe('what may be withdrawn', () => {
  const rows = rowsOf(
    begin,
    radial('lay', 1),
    radial('lay', 2),
    { ...at, time: '2026-03-02T10:00:00Z', event: 'lift', number: 2 },
    radial('lay', 3),
    withdraw(5),
  );

  it.each([
    [[1], 'row-stays'],
    [[5], 'row-withdrawn'],
    [[7], 'row-unknown'],
    [[2, 99], 'row-unknown'],
    [[3], 'field-contradiction'],
  ])('is not rows %j: %s', (wanted, code) => {
    expect(userErrorOf(() => requireWithdrawable(rows, wanted))).toEqual([code, undefined]);
  });

  it.each([[[2]], [[4]], [[3, 4]], [[6]]])('is rows %j', (wanted) => {
    expect(() => requireWithdrawable(rows, wanted)).not.toThrow();
  });
});
