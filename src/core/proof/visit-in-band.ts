import type { Band } from '../sweep/bands.ts';
import { reflectionColumns, reflectionSizes } from '../sweep/reflection.ts';
import type { Resonance } from '../sweep/resonance.ts';
import type { AnySweep } from '../sweep/sweep.ts';
import { type AlignedShots, alignShots } from './aligned-shots.ts';
import { AROUND_BAND, type Figures, figureOf, figuresOf, type Measure, resonanceFor } from './figures.ts';
import { withReflectionError } from './reflection-error.ts';
import { findSensitivities, type Sensitivity } from './sensitivity.ts';
import { chooseHalfWidth, createSmoother, smooth } from './smoother.ts';
import type { Component } from './welch.ts';

/** What the shots of one visit say of one band, and how that would change with the instrument's errors. */
export interface VisitInBand {
  readonly shotCount: number;
  /** From the shots averaged as reflections, and smoothed. */
  readonly figures: Figures;
  readonly shots: readonly Figures[];
  readonly resonance: Resonance | null;
  /** The smoothed mean sweep around the band. */
  readonly sweep: AnySweep;
  /** Variance of one shot's reflection about the mean, per component and averaged over the band; null for one. */
  readonly reflectionSpread: Component | null;
  /** One figure of the mean sweep after some change to it, at the crossing nearest to the visit's own. */
  reread(measure: Measure, changed: AnySweep): number | null;
  /** Null where the figure, or its neighbours within one standard uncertainty, cannot be had. */
  sensitivity(measure: Measure): Sensitivity | null;
}

/**
 * Reads the shots of one visit in one band.
 *
 * @param shots - one or more, at one plane; with any scalar sweep among them all are read as scalar
 * @param stepReflection - the size of error at which sensitivities are taken: about one standard uncertainty
 * @throws UserError as {@link alignShots}
 */
export function visitInBand(shots: readonly AnySweep[], band: Band, stepReflection: number): VisitInBand {
  const { mean, each } = smoothed(alignShots(shots), band);
  const resonance = resonanceFor(mean, band);
  const anchorHz = resonance?.frequencyHz;
  const figures = figuresOf(mean, band, anchorHz);
  let sensitivities: Readonly<Record<Measure, Sensitivity | null>> | null = null;
  return {
    shotCount: shots.length,
    figures,
    shots: each.map((shot) => figuresOf(shot, band, anchorHz)),
    resonance,
    sweep: mean,
    reflectionSpread: spreadOf({ mean, each }, band),
    reread: (measure, changed) => figureOf(measure, changed, band, anchorHz),
    sensitivity: (measure) => {
      sensitivities ??= findSensitivities(
        figures,
        (error) => figuresOf(withReflectionError(mean, error), band, anchorHz),
        stepReflection,
      );
      return sensitivities[measure];
    },
  };
}

/** Scalar sweeps stay as they are: their dip is a corner that a smooth curve would round off. */
function smoothed({ mean, each }: AlignedShots, band: Band): AlignedShots {
  if (mean.kind === 'swr') return { mean, each };
  const nearHz = resonanceFor(mean, band)?.frequencyHz ?? band.fromHz;
  const halfWidth = chooseHalfWidth(mean, Math.min(band.fromHz, nearHz), Math.max(band.toHz, nearHz));
  const smoother = createSmoother(
    mean.frequencyHz,
    band.fromHz / AROUND_BAND,
    band.toHz * AROUND_BAND,
    halfWidth,
  );
  const read = (sweep: AnySweep): AnySweep => (sweep.kind === 'swr' ? sweep : smooth(sweep, smoother));
  return { mean: read(mean), each: each.map(read) };
}

function spreadOf({ mean, each }: AlignedShots, band: Band): Component | null {
  if (each.length < 2) return null;
  const centre = columnsOf(mean);
  const columns = each.map(columnsOf);
  let squares = 0;
  let points = 0;
  mean.frequencyHz.forEach((f, i) => {
    if (f < band.fromHz || f > band.toHz) return;
    points++;
    for (const { re, im } of columns) {
      squares += ((re[i] as number) - (centre.re[i] as number)) ** 2;
      squares += ((im[i] as number) - (centre.im[i] as number)) ** 2;
    }
  });
  const degreesOfFreedom = (mean.kind === 'swr' ? 1 : 2) * (each.length - 1);
  return points === 0 ? null : { variance: squares / points / degreesOfFreedom, degreesOfFreedom };
}

function columnsOf(sweep: AnySweep): { re: Float64Array; im: Float64Array } {
  if (sweep.kind === 'impedance') return reflectionColumns(sweep);
  const re = reflectionSizes(sweep);
  return { re, im: new Float64Array(re.length) };
}
