import type { Band } from '../sweep/bands.ts';
import { reflectionColumns, reflectionSizes } from '../sweep/reflection.ts';
import type { Resonance } from '../sweep/resonance.ts';
import type { AnySweep } from '../sweep/sweep.ts';
import { type AlignedShots, alignShots } from './aligned-shots.ts';
import {
  AROUND_BAND,
  type Figures,
  figureOf,
  figuresOf,
  leastOf,
  MEASURES,
  type Measure,
  resonanceFor,
} from './figures.ts';
import { once, oncePerMeasure } from './once.ts';
import { refined } from './refined.ts';
import { NO_ERROR, withReflectionError } from './reflection-error.ts';
import { PARTS, type Sensitivity, sensitivityOf } from './sensitivity.ts';
import { chooseHalfWidth, createSmoother, localFitsOf, smooth } from './smoother.ts';
import type { Component } from './welch.ts';

/** What the shots of one visit say of one band, and how that would change with the instrument's errors. */
export interface VisitInBand {
  readonly shotCount: number;
  /** From the shots averaged as reflections, and smoothed. */
  readonly figures: Figures;
  /** What a figure comes to at the least, where the sweep ends too early to tell it; else null. */
  readonly least: Figures;
  /** One figure of each shot by itself. */
  shotFigures(measure: Measure): readonly (number | null)[];
  readonly resonance: Resonance | null;
  /** The smoothed mean sweep around the band. */
  readonly sweep: AnySweep;
  /** Variance of one shot's reflection about the mean, per component and averaged over the band; null for one. */
  readonly reflectionSpread: Component | null;
  /** One figure of the mean sweep after some change to it, at the crossing nearest to the visit's own. */
  reread(measure: Measure, changed: AnySweep): number | null;
  /** Standard uncertainty of a figure for what the grid leaves between its points, in the figure's unit. */
  gridUncertainty(measure: Measure): number;
  /** Null where the figure, or its neighbours within one standard uncertainty, cannot be had. */
  sensitivity(measure: Measure): Sensitivity | null;
}

/** The difference between two readings of one curve is a half-width of which nothing more is known. */
const RECTANGULAR = Math.sqrt(3);

/**
 * Reads the shots of one visit in one band.
 *
 * @param shots - one or more, at one plane; with any scalar sweep among them all are read as scalar
 * @param step - the size of error at which sensitivities are taken: about one standard uncertainty
 * @param fitsOf - shared by the visits that are read together
 * @throws UserError as {@link alignShots}
 */
export function visitInBand(
  shots: readonly AnySweep[],
  band: Band,
  step: number,
  fitsOf: typeof localFitsOf = localFitsOf,
): VisitInBand {
  const { mean, each } = smoothed(alignShots(shots), band, fitsOf);
  const resonance = resonanceFor(mean, band);
  const anchorHz = resonance?.frequencyHz;
  const figures = figuresOf(mean, band, anchorHz);
  const least = Object.fromEntries(MEASURES.map((measure) => [measure, leastOf(measure, mean, band)]));
  const readAll = (sweeps: readonly AnySweep[], measure: Measure): (number | null)[] =>
    sweeps.map((sweep) => figureOf(measure, sweep, band, anchorHz));
  const moved = once(() =>
    PARTS.map((part) =>
      [step, -step].map((size) => withReflectionError(mean, { ...NO_ERROR, [part]: size })),
    ),
  );
  const finer = once(() => refined(mean));
  return {
    shotCount: shots.length,
    figures,
    least: least as Figures,
    resonance,
    sweep: mean,
    reflectionSpread: spreadOf({ mean, each }, band),
    shotFigures: oncePerMeasure((measure) => readAll(each, measure)),
    gridUncertainty: oncePerMeasure((measure) => {
      const [coarse, fine] = [figures[measure], figureOf(measure, finer(), band, anchorHz)];
      return coarse === null || fine === null ? 0 : Math.abs(fine - coarse) / RECTANGULAR;
    }),
    reread: (measure, changed) => figureOf(measure, changed, band, anchorHz),
    sensitivity: oncePerMeasure((measure) => {
      const sides = moved().map((both) => {
        const [up = null, down = null] = readAll(both, measure);
        return { up, down };
      });
      return sensitivityOf(figures[measure], sides, step);
    }),
  };
}

/** Scalar sweeps stay as they are: their dip is a corner that a smooth curve would round off. */
function smoothed({ mean, each }: AlignedShots, band: Band, fitsOf: typeof localFitsOf): AlignedShots {
  if (mean.kind === 'swr') return { mean, each };
  const fits = fitsOf(mean.frequencyHz);
  const nearHz = resonanceFor(mean, band)?.frequencyHz ?? band.fromHz;
  const halfWidth = chooseHalfWidth(mean, Math.min(band.fromHz, nearHz), Math.max(band.toHz, nearHz), fits);
  const smoother = createSmoother(
    mean.frequencyHz,
    band.fromHz / AROUND_BAND,
    band.toHz * AROUND_BAND,
    halfWidth,
    fits,
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
