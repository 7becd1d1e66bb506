import type { Band } from '../sweep/bands.ts';
import { type AnySweep, createSweep } from '../sweep/sweep.ts';

/** The part of a band that every sweep covers, or null when they share none of it. */
export function coverage(band: Band, sweeps: readonly AnySweep[]): Band | null {
  let { fromHz, toHz } = band;
  for (const { frequencyHz } of sweeps) {
    fromHz = Math.max(fromHz, frequencyHz[0] as number);
    toHz = Math.min(toHz, frequencyHz[frequencyHz.length - 1] as number);
  }
  return fromHz < toHz ? { band: band.band, fromHz, toHz } : null;
}

/** Sweeps with SWR and reflection against one and the same reference; scalar ones cannot change theirs. */
export function withReference(sweeps: readonly AnySweep[], referenceOhm: number | undefined): AnySweep[] {
  return sweeps.map((sweep) =>
    sweep.kind === 'swr' || referenceOhm === undefined || sweep.referenceOhm === referenceOhm
      ? sweep
      : createSweep({ ...sweep, referenceOhm }),
  );
}
