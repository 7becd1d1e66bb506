import { describe, expect, it } from 'vitest';
import { chooseVisits, MOST_VISITS } from '../../../../src/cli/page/choose-visits.ts';
import type { FieldState, ShotRecord, VisitRecord } from '../../../../src/core/record.ts';

const hour = (i: number): string => new Date(Date.UTC(2025, 0, 1) + i * 3_600_000).toISOString();

function visits(count: number, baselines: readonly number[] = []): VisitRecord[] {
  return Array.from({ length: count }, (_, i) => ({
    visit: i + 1,
    time: hour(i),
    shots: [{ target: 'antenna' } as ShotRecord],
    baseline: baselines.includes(i + 1) ? true : null,
  }));
}

const field = (since: string | null): FieldState => ({ since, radials: [], wireM: 0 });
const numbers = (chosen: readonly VisitRecord[]): number[] => chosen.map(({ visit }) => visit);

describe('the visits of a page', () => {
  it('are all of them where there is room', () => {
    expect(chooseVisits({ visits: visits(MOST_VISITS), fieldStates: [field(null)] })).toHaveLength(
      MOST_VISITS,
    );
  });

  it('of a year of hours are as many as there is room for, rising, each once', () => {
    const chosen = numbers(chooseVisits({ visits: visits(8760), fieldStates: [field(null)] }));
    expect(chosen).toHaveLength(MOST_VISITS);
    expect(new Set(chosen).size).toBe(MOST_VISITS);
    expect(chosen).toEqual([...chosen].sort((a, b) => a - b));
  });

  it('keep the newest, the ends of every field state, and what was named as baseline', () => {
    const states = [field(null), field(hour(1000)), field(hour(5000))];
    const chosen = numbers(chooseVisits({ visits: visits(8760, [77, 4321]), fieldStates: states }));
    for (const visit of [1, 1000, 1001, 5000, 5001, 77, 4321, 8759, 8760]) expect(chosen).toContain(visit);
  });

  it('leave out those that hold only a reference load', () => {
    const load: VisitRecord = {
      visit: 9,
      time: hour(9),
      shots: [{ target: 'reference-load' } as ShotRecord],
      baseline: null,
    };
    expect(numbers(chooseVisits({ visits: [...visits(3), load], fieldStates: [field(null)] }))).toEqual([
      1, 2, 3,
    ]);
  });
});
