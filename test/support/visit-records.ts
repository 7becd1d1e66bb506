import type { ShotRecord, VisitRecord } from '../../src/core/record.ts';

/** A stored sweep of the antenna, as the journal tells of it. */
export function shotRecord(
  fromHz: number,
  toHz: number,
  target: ShotRecord['target'] = 'antenna',
): ShotRecord {
  const file = `sweeps/${fromHz}.csv`;
  return {
    shot: 1,
    file,
    sha256: '',
    plane: 'feedpoint',
    target,
    fromHz,
    toHz,
    referenceOhm: 50,
    source: '',
  };
}

export function visitRecord(visit: number, time: string, ...shots: ShotRecord[]): VisitRecord {
  return { visit, time, shots, baseline: null };
}
