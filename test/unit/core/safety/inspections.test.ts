import { describe, expect, it } from 'vitest';
import type { Reading } from '../../../../src/core/record.ts';
import { dueInspections } from '../../../../src/core/safety/inspections.ts';
import type { SiteJoint } from '../../../../src/core/site.ts';

const NOW = '2026-05-01T12:00:00Z';
const FINE: SiteJoint = { name: 'lug to plate', metals: ['copper', 'brass'], where: 'outdoor' };
const POOR: SiteJoint = { name: 'plate to stake', metals: ['copper', 'galvanised-steel'], where: 'outdoor' };

function look(subject: string | null, time: string, kind: Reading['kind'] = 'inspection'): Reading {
  return { time, kind, subject, value: null, powerW: null, text: '' };
}

describe('dueInspections', () => {
  it('has a joint never inspected due at once', () => {
    expect(dueInspections([FINE], [], NOW)).toEqual([
      { joint: 'lug to plate', everyMonths: 12, last: null, due: null, overdue: true },
    ]);
  });

  it('counts from the latest inspection or repair of that joint, whatever the order of the journal', () => {
    const readings = [
      look('Lug to plate', '2026-01-10T09:00:00+02:00', 'repair'),
      look('lug to plate', '2025-01-10T09:00:00Z'),
      look('plate to stake', '2026-04-30T09:00:00Z'),
      look('lug to plate', '2026-04-01T09:00:00Z', 'joint-resistance'),
    ];
    expect(dueInspections([FINE], readings, NOW)[0]).toMatchObject({
      last: '2026-01-10T09:00:00+02:00',
      due: '2027-01-10T09:00:00+02:00',
      overdue: false,
    });
  });

  it('tells the day on the clock of the zone in which the look was logged, and the last of a short month', () => {
    const due = (time: string) => dueInspections([POOR], [look('plate to stake', time)], NOW)[0]?.due;
    expect(due('2026-04-01T00:30:00+02:00')).toBe('2026-07-01T00:30:00+02:00');
    expect(due('2025-11-30T10:00:00Z')).toBe('2026-02-28T10:00:00Z');
  });

  it('does not count an inspection that lies ahead', () => {
    expect(dueInspections([FINE], [look('lug to plate', '2026-06-01T00:00:00Z')], NOW)[0]?.last).toBeNull();
  });

  it('asks for a poor pair sooner, and lists the longest overdue first', () => {
    const readings = [
      look('lug to plate', '2026-01-15T00:00:00Z'),
      look('plate to stake', '2026-01-15T00:00:00Z'),
    ];
    expect(dueInspections([FINE, POOR], readings, NOW)).toMatchObject([
      { joint: 'plate to stake', due: '2026-04-15T00:00:00Z', overdue: true },
      { joint: 'lug to plate', overdue: false },
    ]);
  });
});
