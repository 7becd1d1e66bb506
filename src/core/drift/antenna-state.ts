import type { Baseline } from './baseline.ts';
import { type Columns, differenceOf } from './columns.ts';
import { behindPath, reflectionThrough } from './feed-path.ts';
import { type FittedAntenna, radiatorImpedance } from './fit-antenna.ts';
import type { GroundTable } from './ground-table.ts';

/** The healthy antenna as measured, ready to be changed by a cause. */
export interface AntennaState {
  readonly frequencyHz: Float64Array;
  /** Where figures that depend on frequency are stated: X = 0 where the bins hold it, else the middle of the first stretch. */
  readonly middleHz: number;
  readonly reflection: Columns;
  readonly fitted: FittedAntenna;
  readonly ground: GroundTable;
  /** Change of Γ when this is added to the antenna's impedance, inside of line, strap and insulator. */
  changeFor(added: Columns): Columns;
  /** Impedance of the radiator alone at a height and thickness near its own. */
  radiator(heightM: number, radiusM: number): Columns;
}

/** The measured mean curve seen from inside the fitted path. */
export function antennaState(baseline: Baseline, fitted: FittedAntenna, ground: GroundTable): AntennaState {
  const { frequencyHz, before: reflection, plane } = baseline;
  const { path } = fitted;
  const inner = behindPath(reflection, frequencyHz, path, plane);
  return {
    frequencyHz,
    middleHz: statedAt(baseline),
    reflection,
    fitted,
    ground,
    changeFor(added) {
      const changed = {
        re: inner.re.map((x, i) => x + (added.re[i] as number)),
        im: inner.im.map((x, i) => x + (added.im[i] as number)),
      };
      return differenceOf(reflectionThrough(changed, frequencyHz, path, plane), reflection);
    },
    radiator: (heightM, radiusM) => radiatorImpedance(heightM, radiusM, frequencyHz),
  };
}

function statedAt({ frequencyHz, before, spans }: Baseline): number {
  for (const { from, to } of spans) {
    for (let i = from; i + 1 < to; i++) {
      // Im Γ has the sign of X.
      const [x1, x2] = [before.im[i] as number, before.im[i + 1] as number];
      if (x1 <= 0 && x2 > 0) return frequencyHz[x2 > -x1 ? i : i + 1] as number;
    }
  }
  const { from, to } = spans[0] as Baseline['spans'][number];
  return frequencyHz[(from + to) >> 1] as number;
}
