import { add, type Complex, multiply, scale } from '../complex.ts';
import { bareRingLossFactor, bareSoilReaction } from './bare-soil.ts';
import { wavelengthM, wavenumberPerM } from './free-space.ts';
import type { GroundSystem } from './ground-system.ts';
import { type MeanSheet, meanSheet } from './mean-sheet.ts';
import { electricalHeightRad, isBaseCurrentTold, type Monopole } from './monopole.ts';
import { type Integrand, integrate } from './quadrature.ts';
import { requireRadials } from './radial-field.ts';
import { soilImpedanceOhm } from './soil.ts';
import { emptyRing } from './surface-impedance.ts';

/** What the ground around a monopole does to its feed point. */
export interface GroundIntegrals {
  /** The current that every resistance here is referred to: the base, or near a half wave the loop. */
  readonly referredTo: 'base' | 'loop';
  /** Power lost in the soil within half a wavelength over the current squared (|H|² form). */
  readonly lossOhm: number;
  /** Estimated error of the integration alone; the method's own is in measured-bias.ts. */
  readonly quadratureErrorOhm: number;
  /** What the ground adds to the impedance (H² form, all the plane): resistance and reactance. */
  readonly reactionOhm: Complex;
  /** Loss in the wires themselves. */
  readonly conductorOhm: number;
}

/** Of the integrals, relative; the estimate is pessimistic by orders of magnitude. */
const QUADRATURE_TOLERANCE = 3e-5;

/**
 * Ground loss and feed-point change by the surface-impedance method.
 *
 * The wires and the soil in parallel are a surface impedance Ze at each distance ρ, averaged around
 * the ring; the magnetic field is that over perfect ground. Then lossOhm = ∫Re(Ze)|H|²2πρdρ to λ/2,
 * beyond which the loss belongs to propagation and not to the antenna, and reactionOhm = ∫Ze·H²2πρdρ
 * over the whole plane, a first-order change of the impedance. The two resistances differ: never
 * derive one from the other. Beyond the last wire both integrals are closed forms.
 *
 * Limits: wires nearer than about a skin depth at their tips, height of λ/8 or more, electric-field
 * losses left out; see validity.ts for by how much it is too kind outside. The field is taken as the
 * same all around a ring, and an oblique wire as a radial one where it crosses.
 *
 * @throws UserError `no-radials`, `bad-route`, `not-positive`, `bad-permittivity`, `too-tall`
 * Source: F. R. Abbott, Proc. IRE 40 (1952), 846–852; J. R. Wait and W. A. Pope, Appl. Sci. Res. B 4
 * (1954); G. D. Monteath, Proc. IEE 98 IV (1951).
 */
export function groundIntegrals(system: GroundSystem): GroundIntegrals {
  const { monopole, soil, field, frequencyHz } = system;
  requireRadials(field);
  const sheet = meanSheet(field, soil, frequencyHz);
  const bare = bareSurroundings(system, sheet.reachM);
  const integrand = sheetIntegrand(monopole, frequencyHz, sheet);
  const breakpointsM = splitAt(sheet.breakpointsM, wavelengthM(frequencyHz) / 2);
  const covered = integrate(integrand, breakpointsM.map(Math.log), {
    components: 4,
    relativeTolerance: QUADRATURE_TOLERANCE,
    offset: Float64Array.of(bare.lossOhm, bare.reactionOhm.re, bare.reactionOhm.im, 0),
  });
  const [loss = 0, reactionRe = 0, reactionIm = 0, conductor = 0] = covered.value;
  const [lossError = 0] = covered.error;

  const told = isBaseCurrentTold(monopole, frequencyHz);
  const toBase = told ? 1 / Math.sin(electricalHeightRad(monopole, frequencyHz)) ** 2 : 1;
  return {
    referredTo: told ? 'base' : 'loop',
    lossOhm: toBase * (bare.lossOhm + loss),
    quadratureErrorOhm: toBase * lossError,
    reactionOhm: scale(add(bare.reactionOhm, { re: reactionRe, im: reactionIm }), toBase),
    conductorOhm: toBase * conductor,
  };
}

/** What the soil beyond the last wire adds, referred to the loop. */
function bareSurroundings(
  { monopole, soil, frequencyHz }: GroundSystem,
  reachM: number,
): { lossOhm: number; reactionOhm: Complex } {
  const soilOhm = soilImpedanceOhm(soil, frequencyHz);
  const farM = wavelengthM(frequencyHz) / 2;
  return {
    lossOhm: reachM < farM ? soilOhm.re * bareRingLossFactor(monopole, frequencyHz, reachM, farM) : 0,
    reactionOhm: multiply(soilOhm, bareSoilReaction(monopole, frequencyHz, reachM)),
  };
}

/**
 * Loss, Re and Im of the reaction and loss in the wires, each per unit of u = ln ρ: there dρ/ρ is du, and
 * the logarithm in the grid's reactance, which is steep at the base in ρ, is a straight line.
 */
function sheetIntegrand(monopole: Monopole, frequencyHz: number, sheet: MeanSheet): Integrand {
  const k = wavenumberPerM(frequencyHz);
  const farM = wavelengthM(frequencyHz) / 2;
  const heightM = monopole.heightM;
  const cosine = Math.cos(k * heightM);
  const ring = emptyRing();
  return (u, out) => {
    const rho = Math.exp(u);
    sheet.at(rho, ring);
    const { resistanceOhm, reactanceOhm, wireOhm } = ring;
    const slantRad = k * Math.sqrt(rho * rho + heightM * heightM);
    const re = Math.sin(slantRad) - cosine * Math.sin(k * rho);
    const im = Math.cos(slantRad) - cosine * Math.cos(k * rho);
    const power = (re * re + im * im) / (2 * Math.PI);
    const squareRe = (re * re - im * im) / (2 * Math.PI);
    const squareIm = (re * im) / Math.PI;
    out[0] = rho < farM ? resistanceOhm * power : 0;
    out[1] = resistanceOhm * squareRe - reactanceOhm * squareIm;
    out[2] = resistanceOhm * squareIm + reactanceOhm * squareRe;
    out[3] = wireOhm * power;
  };
}

function splitAt(breakpoints: readonly number[], at: number): readonly number[] {
  const last = breakpoints[breakpoints.length - 1] as number;
  return at >= last || breakpoints.includes(at) ? breakpoints : [...breakpoints, at].sort((a, b) => a - b);
}
