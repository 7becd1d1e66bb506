import type { VisitRecord } from './record.ts';

/** The model that the simulated instrument calls itself, and so what stands in the journal as the source of its sweeps. */
export const SIMULATED = 'simulated';

/** Whether a sweep comes from the simulated instrument: it shows how the program works, and nothing of an antenna. */
export function isSimulated(source: string): boolean {
  return source === SIMULATED || source.startsWith(`${SIMULATED} `);
}

/** The visits that come from the simulated instrument, and those that do not. */
export function bySimulation(visits: readonly VisitRecord[]): {
  readonly simulated: readonly VisitRecord[];
  readonly real: readonly VisitRecord[];
} {
  const comesFromIt = ({ shots }: VisitRecord): boolean => shots.some(({ source }) => isSimulated(source));
  return { simulated: visits.filter(comesFromIt), real: visits.filter((visit) => !comesFromIt(visit)) };
}
