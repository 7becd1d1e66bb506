import { bearingOf } from '../../src/core/layout/route.ts';
import type { PageWire } from '../../src/formats/page-data.ts';

/** Wires that were laid on one day. */
export interface Handful {
  /** ISO 8601; null for wires that only the site tells of. */
  readonly since: string | null;
  readonly wires: readonly PageWire[];
  readonly wireM: number;
}

/** Laid wires by the day they were laid, oldest first. */
export function handfuls(wires: readonly PageWire[]): Handful[] {
  const bySince = new Map<string | null, PageWire[]>();
  for (const wire of wires) {
    if (wire.state !== 'laid') continue;
    const own = bySince.get(wire.since) ?? [];
    own.push(wire);
    bySince.set(wire.since, own);
  }
  return [...bySince]
    .sort(([a], [b]) => Date.parse(a ?? '1970-01-01') - Date.parse(b ?? '1970-01-01'))
    .map(([since, own]) => ({
      since,
      wires: own,
      wireM: own.reduce((sum, { lengthM }) => sum + lengthM, 0),
    }));
}

/** The widest angle without a wire where they leave the base, wherever they bend to; null for fewer than two wires. */
export function widestGap(wires: readonly PageWire[]): { widthDeg: number; middleDeg: number } | null {
  const bearings = wires
    .filter(({ state }) => state === 'laid')
    .map(({ points }) => bearingOf(leavesToward(points)))
    .sort((a, b) => a - b);
  if (bearings.length < 2) return null;
  let widest = { widthDeg: 0, middleDeg: 0 };
  bearings.forEach((from, i) => {
    const to = bearings[i + 1] ?? (bearings[0] as number) + 360;
    if (to - from > widest.widthDeg) widest = { widthDeg: to - from, middleDeg: ((from + to) / 2) % 360 };
  });
  return widest;
}

/** The first point of a wire away from the base: toward it the wire leaves. */
export function leavesToward(points: PageWire['points']): PageWire['points'][number] {
  return points.find(([east, north]) => east !== 0 || north !== 0) ?? [0, 0];
}
