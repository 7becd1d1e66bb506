import { nearFieldBoundaryM } from './far-field.ts';

/**
 * What the US test says of one source at one separation.
 * `exempt` frees from the evaluation, never from the limits; `no exemption` says nothing about exposure, only that
 * an evaluation is due; `test does not apply` is nearer than λ/2π, at any power above 1 mW.
 */
export type ExemptionResult = 'exempt' | 'no exemption' | 'test does not apply';

/** Any mean power up to this is exempt at any separation: 1.1307(b)(3)(i)(A). */
const ALWAYS_EXEMPT_W = 1e-3;

interface Row {
  readonly fromMhz: number;
  readonly toMhz: number;
  thresholdW(distanceM: number, frequencyMhz: number): number;
}

/** Source: 47 CFR 1.1307(b)(3)(i)(C), table 1. */
const TABLE: readonly Row[] = [
  { fromMhz: 0.3, toMhz: 1.34, thresholdW: (r) => 1920 * r ** 2 },
  { fromMhz: 1.34, toMhz: 30, thresholdW: (r, f) => (3450 * r ** 2) / f ** 2 },
  { fromMhz: 30, toMhz: 300, thresholdW: (r) => 3.83 * r ** 2 },
];

/**
 * Largest effective radiated power (mean, against a half-wave dipole) that is exempt from evaluation at a
 * separation, W; null nearer than λ/2π or outside 0.3 to 300 MHz. At a shared edge the stricter row counts.
 *
 * The list of powers by band that older US rules had is repealed and is not used anywhere here.
 */
export function exemptErpW(distanceM: number, frequencyHz: number): number | null {
  if (distanceM < nearFieldBoundaryM(frequencyHz)) return null;
  const frequencyMhz = frequencyHz / 1e6;
  const rows = TABLE.filter((row) => row.fromMhz <= frequencyMhz && frequencyMhz <= row.toMhz);
  if (rows.length === 0) return null;
  return Math.min(...rows.map((row) => row.thresholdW(distanceM, frequencyMhz)));
}

/**
 * The US exemption test for one fixed source. Several sources sharing a place are summed by ratio, which this
 * does not do.
 */
export function exemption(meanErpW: number, distanceM: number, frequencyHz: number): ExemptionResult {
  if (meanErpW <= ALWAYS_EXEMPT_W) return 'exempt';
  const threshold = exemptErpW(distanceM, frequencyHz);
  if (threshold === null) return 'test does not apply';
  return meanErpW <= threshold ? 'exempt' : 'no exemption';
}
