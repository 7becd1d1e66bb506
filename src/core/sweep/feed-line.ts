import type { Complex } from '../complex.ts';
import { quoted } from '../quoted.ts';
import type { ReferencePlane } from '../record.ts';
import type { SiteFeedline } from '../site.ts';
import { UserError } from '../user-error.ts';
import { LINE_TYPES } from './line-types.ts';
import { impedanceToReflection, reflectionToImpedance } from './reflection.ts';
import { createSweep, type Sweep } from './sweep.ts';

const LIGHT_M_PER_S = 299_792_458;

/** A feed line ready to compute with. */
export interface FeedLine {
  readonly impedanceOhm: number;
  readonly velocityFactor: number;
  readonly lengthM: number;
  /** Matched loss per metre A = k1·√f + k2·f, f in Hz, dB/m; k1 for the conductors, k2 for the dielectric. */
  readonly conductorLossDb: number;
  readonly dielectricLossDb: number;
}

/**
 * The feed line of a site: a type of the table, the user's own figures, or the type with some figures replaced.
 *
 * @throws UserError `line-type-unknown`, `line-incomplete`, `line-loss-negative`
 */
export function feedLineOf(line: SiteFeedline): FeedLine {
  const wanted = line.type?.toUpperCase().replace(/^RG\s*-?\s*/u, 'RG-');
  const known = LINE_TYPES.find((entry) => entry.type === wanted);
  const place = { field: 'feedline' };
  const ownFigures = line.impedanceOhm !== null && line.velocityFactor !== null && line.loss.length > 0;
  if (line.type !== null && known === undefined && !ownFigures) {
    const names = LINE_TYPES.map((entry) => entry.type).join(', ');
    throw new UserError(
      'line-type-unknown',
      `type ${quoted(line.type)} is not one of ${names}; give impedance, velocityFactor and loss for another cable`,
      { place },
    );
  }
  const impedanceOhm = line.impedanceOhm ?? known?.impedanceOhm;
  const velocityFactor = line.velocityFactor ?? known?.velocityFactor;
  const loss = line.loss.length > 0 ? line.loss : known?.loss;
  if (impedanceOhm === undefined || velocityFactor === undefined || loss === undefined) {
    throw new UserError('line-incomplete', 'needs a type, or impedance, velocityFactor and loss', { place });
  }
  const [conductorLossDb, dielectricLossDb] = fitLossLaw(loss);
  return { impedanceOhm, velocityFactor, lengthM: line.lengthM, conductorLossDb, dielectricLossDb };
}

/**
 * Fits A = k1·√f + k2·f to stated losses: exact for two points, least squares for more, k2 = 0 for one.
 * A negative k2 has no physics behind it (rounded tables of thin copper-clad cables give one): it is refused.
 *
 * @returns k1 and k2 in dB/m with f in Hz
 * @throws UserError `line-loss-negative`
 */
function fitLossLaw(loss: SiteFeedline['loss']): [k1: number, k2: number] {
  let [ss, sf, ff, sa, fa] = [0, 0, 0, 0, 0];
  for (const { frequencyHz, dbPer100M } of loss) {
    const root = Math.sqrt(frequencyHz);
    ss += frequencyHz;
    sf += root * frequencyHz;
    ff += frequencyHz * frequencyHz;
    sa += (root * dbPer100M) / 100;
    fa += (frequencyHz * dbPer100M) / 100;
  }
  const determinant = ss * ff - sf * sf;
  const single = loss.length < 2 || determinant <= 1e-9 * ss * ff;
  const k1 = single ? sa / ss : (sa * ff - fa * sf) / determinant;
  const k2 = single ? 0 : (fa * ss - sa * sf) / determinant;
  if (!(k1 >= 0) || !(k2 >= 0)) {
    throw new UserError(
      'line-loss-negative',
      'the stated losses rise too slowly with frequency for conductor and dielectric loss: check the figures, or give one point only',
      { place: { field: 'feedline.loss' } },
    );
  }
  return [k1, k2];
}

/** Matched loss of the whole line, dB one way. */
export function matchedLossDb(line: FeedLine, frequencyHz: number): number {
  return (line.conductorLossDb * Math.sqrt(frequencyHz) + line.dielectricLossDb * frequencyHz) * line.lengthM;
}

/** Electrical length of the whole line, rad. */
export function electricalLengthRad(line: FeedLine, frequencyHz: number): number {
  return (2 * Math.PI * frequencyHz * line.lengthM) / (LIGHT_M_PER_S * line.velocityFactor);
}

/**
 * Impedance seen through the line (`shack`), or, the other way, what stands at its far end (`feedpoint`):
 * Γ(in) = Γ(load) · exp(−2(α + jβ)l) in the line's own reference. The line's impedance is taken as real,
 * which is good to a few tenths of an ohm above 1 MHz.
 *
 * Source: S. Ramo, J. Whinnery, T. Van Duzer, Fields and Waves in Communication Electronics, lossy line; identity.
 *
 * @returns null where it would be an open circuit
 */
export function throughLine(
  impedance: Complex,
  line: FeedLine,
  frequencyHz: number,
  to: ReferencePlane,
): Complex | null {
  const reflection = impedanceToReflection(impedance, line.impedanceOhm);
  if (reflection === null) return null;
  const direction = to === 'shack' ? 1 : -1;
  const size = 10 ** ((-direction * matchedLossDb(line, frequencyHz)) / 10);
  const turn = -2 * direction * electricalLengthRad(line, frequencyHz);
  const [cos, sin] = [size * Math.cos(turn), size * Math.sin(turn)];
  return reflectionToImpedance(
    { re: reflection.re * cos - reflection.im * sin, im: reflection.re * sin + reflection.im * cos },
    line.impedanceOhm,
  );
}

/**
 * A sweep moved to the other reference plane; unchanged when it is there already.
 * @throws UserError `plane-open` when a point becomes an open circuit
 */
export function atPlane(sweep: Sweep, line: FeedLine, to: ReferencePlane): Sweep {
  if (sweep.plane === to) return sweep;
  const n = sweep.frequencyHz.length;
  const resistanceOhm = new Float64Array(n);
  const reactanceOhm = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const frequencyHz = sweep.frequencyHz[i] as number;
    const here = { re: sweep.resistanceOhm[i] as number, im: sweep.reactanceOhm[i] as number };
    const there = throughLine(here, line, frequencyHz, to);
    if (there === null) {
      throw new UserError('plane-open', `point ${i + 1} (${frequencyHz} Hz) is an open circuit at the ${to}`);
    }
    resistanceOhm[i] = there.re;
    reactanceOhm[i] = there.im;
  }
  return createSweep({
    frequencyHz: sweep.frequencyHz,
    resistanceOhm,
    reactanceOhm,
    referenceOhm: sweep.referenceOhm,
    plane: to,
  });
}

/** Default standard uncertainty of |Γ| for judging whether a line hides its load. */
export const DEFAULT_REFLECTION_UNCERTAINTY = 0.005;

/**
 * Whether the line hides what is asked. Moving to the feed point multiplies every error of Γ by the two-way loss,
 * and an error dΓ moves R by up to 2·R0/|1 − Γ|²·dΓ.
 *
 * @param atFeedpoint - the sweep already moved to the feed point
 * @param frequencyHz - where R is wanted
 * @returns a sentence when the standard uncertainty of R passes a tenth of R or R comes out negative, else null
 */
export function lineHides(
  atFeedpoint: Sweep,
  line: FeedLine,
  frequencyHz: number,
  reflectionUncertainty: number = DEFAULT_REFLECTION_UNCERTAINTY,
): string | null {
  let nearest = 0;
  for (let i = 1; i < atFeedpoint.frequencyHz.length; i++) {
    const distance = Math.abs((atFeedpoint.frequencyHz[i] as number) - frequencyHz);
    if (distance < Math.abs((atFeedpoint.frequencyHz[nearest] as number) - frequencyHz)) nearest = i;
  }
  const r = atFeedpoint.resistanceOhm[nearest] as number;
  const x = atFeedpoint.reactanceOhm[nearest] as number;
  const lossDb = matchedLossDb(line, frequencyHz);
  // 2·R0/|1 − Γ|² = |Z + R0|²/(2·R0)
  const gain = ((r + line.impedanceOhm) ** 2 + x * x) / (2 * line.impedanceOhm);
  const errorOhm = gain * reflectionUncertainty * 10 ** (lossDb / 10);
  if (r > 0 && errorOhm <= 0.1 * r) return null;
  return (
    `the feed line (${lossDb.toFixed(1)} dB one way at ${(frequencyHz / 1e6).toFixed(3)} MHz) hides the feed point: ` +
    `R there is not known better than about ±${(2 * errorOhm).toPrecision(2)} ohm; measure at the feed point`
  );
}
