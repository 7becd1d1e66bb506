import { UserError } from '../user-error.ts';
import { efficiency } from './feed-point.ts';
import { FREE_SPACE_IMPEDANCE_OHM, wavelengthM, wavenumberPerM } from './free-space.ts';
import { meanSheet } from './mean-sheet.ts';
import { electricalHeightRad } from './monopole.ts';
import { integrate } from './quadrature.ts';
import type { RadialField } from './radial-field.ts';
import { type Soil, soilImpedanceOhm } from './soil.ts';
import { emptyRing } from './surface-impedance.ts';

/** Losses of an antenna, everything referred to its current maximum. */
interface LoopLoss {
  readonly radiationResistanceOhm: number;
  readonly lossOhm: number;
  readonly fraction: number;
  /** At most 0. */
  readonly lossDb: number;
}

/** The antenna itself, in place of an ideal half wave. */
export interface OwnHalfWave {
  readonly heightM: number;
  /** As the site gives it, at the base. */
  readonly radiationResistanceOhm: number | undefined;
}

/** A half wave fed at its end, beside a quarter wave on its radials. */
export interface HalfWaveComparison {
  readonly halfWave: LoopLoss;
  readonly quarterWave: LoopLoss;
  /** Positive when the half wave loses less in the ground, dB. */
  readonly halfWaveGainDb: number;
  readonly notes: readonly string[];
}

const TOLERANCE = 1e-5;

const NOTES: readonly string[] = [
  'near its base a half wave carries little current, and so does the ground there: a short counterpoise will do, and most of the loss lies a quarter to half a wavelength out, beyond its reach',
  'the base of a half wave is at high voltage: electric-field losses in soil, grass and insulators close to it are left out, and raising the base keeps them small',
  'the loss in the matching network, which can exceed that in the ground, is left out too',
];

const RAISED_NOTE =
  'the half wave compared here is exactly half a wavelength long, with its base at the height of the site; every other figure takes the antenna on the ground';

/**
 * What a short counterpoise and a raised base mean for the ground loss of a half wave, side by side
 * with the quarter wave. Both at the current loop, where the half wave has a finite resistance.
 *
 * By the |H|² form of the surface-impedance method to λ/2, with sinusoidal currents. A half wave needs
 * no radials to converge, so `counterpoise` may be `null`.
 *
 * @param own - told as {@link efficiency} tells it wherever that can: on wires, its base on the ground. Such an antenna is
 * often a few per cent short of half a wavelength, which moves its loss by a tenth of a decibel
 * @param baseHeightM - of the foot of the half wave over the ground, 0 to λ/2
 * @throws UserError `bad-base-height` and as the ground loss
 * Source: as ground-integrals.ts; field of a raised sinusoid from C. A. Balanis, Antenna Theory, ch. 8.
 */
export function compareHalfWave(options: {
  readonly frequencyHz: number;
  readonly soil: Soil;
  readonly radiusM: number;
  readonly quarterWaveField: RadialField;
  readonly counterpoise: RadialField | null;
  readonly baseHeightM: number;
  readonly own?: OwnHalfWave;
}): HalfWaveComparison {
  const { frequencyHz, soil, radiusM, quarterWaveField, counterpoise, baseHeightM, own } = options;
  const wavelength = wavelengthM(frequencyHz);
  if (!(baseHeightM >= 0 && baseHeightM <= wavelength / 2)) {
    throw new UserError(
      'bad-base-height',
      `a base height from 0 to half a wavelength is needed, got ${baseHeightM} m`,
      { place: { field: 'antenna.baseHeight' } },
    );
  }
  const asItStands = own !== undefined && baseHeightM === 0 && (counterpoise?.wires.length ?? 0) > 0;
  const halfWave = asItStands
    ? ownLoopLoss(own, { soil, radiusM, field: counterpoise as RadialField, frequencyHz })
    : loopLoss(
        halfWaveRadiationOhm(frequencyHz, baseHeightM),
        halfWaveLossOhm(frequencyHz, baseHeightM, soil, counterpoise),
      );
  const quarter = efficiency({
    monopole: { heightM: wavelength / 4, radiusM },
    soil,
    field: quarterWaveField,
    frequencyHz,
  });
  const quarterWave = loopLoss(quarter.radiationResistanceOhm, quarter.lossOhm + quarter.conductorOhm);
  return {
    halfWave,
    quarterWave,
    halfWaveGainDb: halfWave.lossDb - quarterWave.lossDb,
    notes: baseHeightM > 0 ? [RAISED_NOTE, ...NOTES] : NOTES,
  };
}

/** The loss of an antenna on its wires, brought to the current loop where it is told at the base. */
function ownLoopLoss(
  { heightM, radiationResistanceOhm }: OwnHalfWave,
  ground: { soil: Soil; radiusM: number; field: RadialField; frequencyHz: number },
): LoopLoss {
  const { soil, radiusM, field, frequencyHz } = ground;
  const monopole = { heightM, radiusM };
  const told = efficiency({ monopole, soil, field, frequencyHz, radiationResistanceOhm });
  const toLoop = told.referredTo === 'loop' ? 1 : Math.sin(electricalHeightRad(monopole, frequencyHz)) ** 2;
  return loopLoss(toLoop * told.radiationResistanceOhm, toLoop * (told.lossOhm + told.conductorOhm));
}

function loopLoss(radiationResistanceOhm: number, lossOhm: number): LoopLoss {
  const fraction = radiationResistanceOhm / (radiationResistanceOhm + lossOhm);
  return { radiationResistanceOhm, lossOhm, fraction, lossDb: 10 * Math.log10(fraction) };
}

/** ∫Re(Ze)|F|²/(2πρ)dρ with F = j(exp(−jkRtop) + exp(−jkRfoot)), which vanishes at the base. */
function halfWaveLossOhm(
  frequencyHz: number,
  baseHeightM: number,
  soil: Soil,
  counterpoise: RadialField | null,
): number {
  const farM = wavelengthM(frequencyHz) / 2;
  const k = wavenumberPerM(frequencyHz);
  const topM = baseHeightM + farM;
  const bareOhm = soilImpedanceOhm(soil, frequencyHz).re;
  const sheet =
    counterpoise === null || counterpoise.wires.length === 0
      ? null
      : meanSheet(counterpoise, soil, frequencyHz);
  const ring = emptyRing();
  const breakpoints = [0, ...(sheet?.breakpointsM ?? []).filter((m) => m < farM), farM];
  const { value } = integrate(
    (rho, out) => {
      const phase = k * (Math.hypot(rho, topM) - Math.hypot(rho, baseHeightM));
      const power = 2 + 2 * Math.cos(phase);
      let resistanceOhm = bareOhm;
      if (sheet !== null && rho < sheet.reachM) {
        sheet.at(rho, ring);
        resistanceOhm = ring.resistanceOhm + ring.wireOhm;
      }
      out[0] = (resistanceOhm * power) / (2 * Math.PI * rho);
    },
    breakpoints,
    { components: 1, relativeTolerance: TOLERANCE },
  );
  return value[0] as number;
}

/**
 * Radiation resistance at the loop of a half wave over perfect ground, its foot raised: the power
 * through a distant hemisphere. 99.5 Ω on the ground; P. S. Carter's self and mutual resistance agree.
 *
 * @throws UserError `not-positive`
 */
export function halfWaveRadiationOhm(frequencyHz: number, baseHeightM: number): number {
  const k = wavenumberPerM(frequencyHz);
  const centreM = baseHeightM + wavelengthM(frequencyHz) / 4;
  const { value } = integrate(
    (elevation, out) => {
      // Moment of a half wave and its image: 2·2cos(π/2·s)/(k·(1 − s²))·cos(k·s·centre).
      const s = Math.sin(elevation);
      const cosine = Math.cos(elevation);
      const moment = (4 * Math.cos((Math.PI / 2) * s) * Math.cos(k * s * centreM)) / (k * cosine * cosine);
      out[0] = moment * moment * cosine ** 3;
    },
    [0, Math.PI / 2],
    { components: 1, relativeTolerance: TOLERANCE },
  );
  return ((FREE_SPACE_IMPEDANCE_OHM * k * k) / (8 * Math.PI)) * (value[0] as number);
}
