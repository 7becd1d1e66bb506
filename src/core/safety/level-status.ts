import type { LimitRange, LimitSet } from './limits.ts';

/** Levels of one kind over a stretch of frequencies. */
export interface LevelStretch {
  readonly levels: 'averaged' | 'at every moment';
  /** Null for every quantity that the set limits there. */
  readonly field: 'electric' | 'magnetic' | null;
  readonly fromMhz: number;
  readonly toMhz: number;
}

/** Which levels of a set were read in its source, and which were recalled and still need that. */
export interface LevelStatus {
  readonly read: readonly LevelStretch[];
  readonly recalled: readonly LevelStretch[];
}

/** Sorts the levels of a set by how they came into the program; stretches that follow one another are put together. */
export function levelStatus({ averaged, instantaneous }: LimitSet): LevelStatus {
  const stretches = (wanted: LimitRange['status']): LevelStretch[] => [
    ...joined(averaged, 'averaged', wanted),
    ...joined(instantaneous, 'at every moment', wanted),
  ];
  return { read: stretches('published'), recalled: stretches('memory') };
}

function joined(
  rows: readonly LimitRange[],
  levels: LevelStretch['levels'],
  wanted: LimitRange['status'],
): LevelStretch[] {
  const found: LevelStretch[] = [];
  for (const row of rows) {
    if (row.status !== wanted) continue;
    const { fromMhz, toMhz } = row;
    const field = fieldOf(row);
    const last = found.at(-1);
    if (last !== undefined && last.field === field && last.toMhz === fromMhz) {
      found[found.length - 1] = { ...last, toMhz };
    } else found.push({ levels, field, fromMhz, toMhz });
  }
  return found;
}

function fieldOf({ electricVPerM, magneticAPerM, powerDensityWPerM2 }: LimitRange): LevelStretch['field'] {
  if (powerDensityWPerM2 !== null || (electricVPerM !== null && magneticAPerM !== null)) return null;
  return electricVPerM === null ? 'magnetic' : 'electric';
}
