import { behindNetwork, impedanceOf, reflectionOf, throughNetwork } from './base-network.ts';
import type { Baseline } from './baseline.ts';
import { type Columns, differenceOf } from './columns.ts';
import { type FittedAntenna, radiatorImpedance } from './fit-antenna.ts';
import type { GroundTable } from './ground-table.ts';

/** The healthy antenna as measured, ready to be changed by a cause. */
export interface AntennaState {
  readonly frequencyHz: Float64Array;
  /** Geometric middle of all bins, Hz: where figures that depend on frequency are stated. */
  readonly middleHz: number;
  readonly reflection: Columns;
  readonly fitted: FittedAntenna;
  readonly ground: GroundTable;
  /** Change of Γ when this is added to the antenna's impedance, inside of strap and insulator. */
  changeFor(added: Columns): Columns;
  /** Impedance of the radiator alone at a height and thickness near its own. */
  radiator(heightM: number, radiusM: number): Columns;
}

/** The measured mean curve seen from inside the fitted base network. */
export function antennaState(baseline: Baseline, fitted: FittedAntenna, ground: GroundTable): AntennaState {
  const { frequencyHz, before: reflection, referenceOhm } = baseline;
  const { network } = fitted;
  const inner = behindNetwork(impedanceOf(reflection, referenceOhm), frequencyHz, network);
  let logs = 0;
  for (let i = 0; i < frequencyHz.length; i++) logs += Math.log(frequencyHz[i] as number);
  return {
    frequencyHz,
    middleHz: Math.exp(logs / frequencyHz.length),
    reflection,
    fitted,
    ground,
    changeFor(added) {
      const changed = {
        re: inner.re.map((x, i) => x + (added.re[i] as number)),
        im: inner.im.map((x, i) => x + (added.im[i] as number)),
      };
      return differenceOf(
        reflectionOf(throughNetwork(changed, frequencyHz, network), referenceOhm),
        reflection,
      );
    },
    radiator: (heightM, radiusM) => radiatorImpedance(heightM, radiusM, frequencyHz),
  };
}
