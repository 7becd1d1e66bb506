import type { Complex } from '../../core/complex.ts';

/** Something that could sit at the far end of a wire. */
export interface Device {
  powerUp(): void;
  powerDown(): void;
  receive(chunk: Uint8Array): void;
}

/** Reflection that a device sees at its port. */
export type ReflectionAt = (frequencyHz: number) => Complex;

/** Lowest frequency of the simulated instrument. */
export const SIMULATED_LOWEST_HZ = 100_000;
/** Highest frequency of the simulated instrument. */
export const SIMULATED_HIGHEST_HZ = 60_000_000;
/** Most points of a sweep of the simulated instrument. */
export const SIMULATED_MOST_POINTS = 1001;
