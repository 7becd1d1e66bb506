import type { Radial } from '../record.ts';

/**
 * A hanging radial belongs to a band if its length is within this part of the tuned one: trimming, insulation and the
 * place within the band move it by a few per cent, while neighbouring bands lie 15 % and more apart.
 */
const TUNED_WITHIN = 0.07;

/**
 * Shares out radials that hang already among bands, each to the one that its length is nearest to.
 *
 * @param tunedM - the length to which a radial of each band is cut, m
 * @returns for each band its radials, and last those that are tuned to none of them
 */
export function shareOutHanging(
  hanging: readonly Radial[],
  tunedM: readonly number[],
): { readonly byBand: readonly (readonly Radial[])[]; readonly others: readonly Radial[] } {
  const byBand = tunedM.map((): Radial[] => []);
  const others: Radial[] = [];
  for (const radial of hanging) {
    const off = tunedM.map((lengthM) => Math.abs(radial.lengthM / lengthM - 1));
    const nearest = off.indexOf(Math.min(...off));
    const own = (off[nearest] ?? 1) <= TUNED_WITHIN ? byBand[nearest] : undefined;
    (own ?? others).push(radial);
  }
  return { byBand, others };
}
