import { reflectionSizes, reflectionToImpedance, swrOfReflection } from '../sweep/reflection.ts';
import { averageShots, commonGrid, reflectionOnGrid } from '../sweep/repeats.ts';
import {
  type AnySweep,
  createScalarSweep,
  createSweep,
  type ScalarSweep,
  type Sweep,
} from '../sweep/sweep.ts';

/** The shots of a visit and their mean, all on one grid. */
export interface AlignedShots<S extends AnySweep = AnySweep> {
  readonly mean: S;
  readonly each: readonly S[];
}

/**
 * Puts the shots of a visit on one grid; with a scalar sweep among them all are read as scalar.
 * @throws UserError as {@link averageShots}
 */
export function alignShots(shots: readonly AnySweep[]): AlignedShots {
  const impedances = shots.filter((shot) => shot.kind === 'impedance');
  return impedances.length === shots.length ? alignImpedances(impedances) : alignScalars(shots.map(asScalar));
}

function alignImpedances(shots: readonly Sweep[]): AlignedShots<Sweep> {
  const { mean } = averageShots(shots);
  return { mean, each: shots.map((shot) => impedanceOnGrid(shot, mean.frequencyHz)) };
}

function impedanceOnGrid(shot: Sweep, gridHz: Float64Array): Sweep {
  if (sameGrid(shot.frequencyHz, gridHz)) return shot;
  const { re, im } = reflectionOnGrid(shot, shot.referenceOhm, gridHz);
  const resistanceOhm = new Float64Array(gridHz.length);
  const reactanceOhm = new Float64Array(gridHz.length);
  for (let i = 0; i < gridHz.length; i++) {
    const impedance = reflectionToImpedance({ re: re[i] as number, im: im[i] as number }, shot.referenceOhm);
    resistanceOhm[i] = impedance?.re ?? Number.NaN;
    reactanceOhm[i] = impedance?.im ?? Number.NaN;
  }
  const { referenceOhm, plane } = shot;
  return createSweep({ frequencyHz: gridHz, resistanceOhm, reactanceOhm, referenceOhm, plane });
}

/** The mean of sizes is taken over their squares, which is what a detector averages. */
function alignScalars(shots: readonly ScalarSweep[]): AlignedShots<ScalarSweep> {
  const gridHz = shots.length === 1 ? (shots[0] as ScalarSweep).frequencyHz : commonGrid(shots);
  const each = shots.map((shot) => scalarOnGrid(shot, gridHz));
  const squares = new Float64Array(gridHz.length);
  for (const shot of each) {
    const sizes = reflectionSizes(shot);
    for (let i = 0; i < sizes.length; i++)
      squares[i] = (squares[i] as number) + (sizes[i] as number) ** 2 / each.length;
  }
  const mean = scalarOf(squares.map(Math.sqrt), gridHz, each[0] as ScalarSweep);
  return { mean, each };
}

function scalarOnGrid(shot: ScalarSweep, gridHz: Float64Array): ScalarSweep {
  const f = shot.frequencyHz;
  if (sameGrid(f, gridHz)) return shot;
  const sizes = reflectionSizes(shot);
  let j = 0;
  const onGrid = gridHz.map((wanted) => {
    while (j < f.length - 2 && (f[j + 1] as number) < wanted) j++;
    const t = (wanted - (f[j] as number)) / ((f[j + 1] as number) - (f[j] as number));
    return (sizes[j] as number) * (1 - t) + (sizes[j + 1] as number) * t;
  });
  return scalarOf(onGrid, gridHz, shot);
}

function asScalar(sweep: AnySweep): ScalarSweep {
  return sweep.kind === 'swr' ? sweep : scalarOf(reflectionSizes(sweep), sweep.frequencyHz, sweep);
}

function scalarOf(sizes: Float64Array, frequencyHz: Float64Array, like: AnySweep): ScalarSweep {
  const swr = sizes.map((size) => swrOfReflection(size) ?? Number.NaN);
  return createScalarSweep({ frequencyHz, swr, referenceOhm: like.referenceOhm, plane: like.plane });
}

function sameGrid(a: Float64Array, b: Float64Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
