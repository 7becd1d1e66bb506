import { add, type Complex, divide, exponential, multiply, scale, subtract } from '../complex.ts';
import { FREE_SPACE_IMPEDANCE_OHM, wavenumberPerM } from './free-space.ts';
import type { GroundSystem } from './ground-system.ts';
import { electricalHeightRad, type Monopole } from './monopole.ts';
import { verticalReflection } from './soil.ts';

/**
 * What a change of surface impedance near the base is multiplied by in the field at an elevation,
 * relative to the antenna's own over bare soil: (1 + Rv)/(η0·cos ψ·heff), per ohm and metre, with
 * heff = ∫I(z)(e^{jkz sin ψ} + Rv·e^{−jkz sin ψ})dz over the loop current.
 *
 * @param elevationRad - above 0, where 1 + Rv and heff both vanish, and under π/2
 * Source: G. D. Monteath, Proc. IEE 98 IV (1951); J. R. Wait, IRE Trans. AP-4 (1956).
 */
export function groundChangeFactor(
  { monopole, soil, frequencyHz }: Omit<GroundSystem, 'field'>,
  elevationRad: number,
): Complex {
  const sine = Math.sin(elevationRad);
  const reflection = verticalReflection(soil, frequencyHz, elevationRad);
  const image = multiply(reflection, currentMomentM(monopole, frequencyHz, -sine));
  const effectiveHeight = add(currentMomentM(monopole, frequencyHz, sine), image);
  return divide(
    add({ re: 1, im: 0 }, reflection),
    scale(effectiveHeight, FREE_SPACE_IMPEDANCE_OHM * Math.cos(elevationRad)),
  );
}

/** ∫ sin k(h − z)·e^{jkzs} dz over the radiator = (e^{jkhs} − cos kh − js·sin kh)/(k(1 − s²)), m. */
function currentMomentM(monopole: Monopole, frequencyHz: number, s: number): Complex {
  const kh = electricalHeightRad(monopole, frequencyHz);
  const ends = subtract(exponential({ re: 0, im: kh * s }), { re: Math.cos(kh), im: s * Math.sin(kh) });
  return scale(ends, 1 / (wavenumberPerM(frequencyHz) * (1 - s * s)));
}
