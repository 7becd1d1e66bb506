import { efficiency } from '../ground/feed-point.ts';
import type { RadialField } from '../ground/radial-field.ts';
import { type BandEfficiency, bandEfficiency, type PlanSetting } from './planned-field.ts';
import { soilsInQuestion } from './soils-in-question.ts';

/** From the least to the most. */
export type Range = readonly [least: number, most: number];

/** Efficiency on a band with the range in which it lies: that of the soil and the published error of the method. */
export interface RangedEfficiency extends BandEfficiency {
  readonly groundLossRangeOhm: Range;
  readonly efficiencyRangePercent: Range;
  readonly lossRangeDb: Range;
  /** In words, each way in which the field is outside what the method is good for. */
  readonly outside: readonly string[];
}

/** Efficiency of a field on every band of the setting; all three figures and their ranges are of one share of the power. */
export function rangedEfficiencies(setting: PlanSetting, field: RadialField): RangedEfficiency[] {
  const { monopole } = setting;
  return setting.bands.map((band) => {
    const { frequencyHz, radiationResistanceOhm } = band;
    const found = soilsInQuestion(setting.soil).map((soil) =>
      efficiency({ monopole, soil, field, frequencyHz, radiationResistanceOhm }),
    );
    const ranges = found.map(({ range }) => range);
    const stated = found[1] as (typeof found)[number];
    const least = (values: number[]): number => Math.min(...values);
    const most = (values: number[]): number => Math.max(...values);
    return {
      ...bandEfficiency(band, stated),
      groundLossRangeOhm: [
        least(ranges.map(({ lossOhm }) => lossOhm.low)),
        most(ranges.map(({ lossOhm }) => lossOhm.high)),
      ],
      efficiencyRangePercent: [
        100 * least(ranges.map(({ fraction }) => fraction.low)),
        100 * most(ranges.map(({ fraction }) => fraction.high)),
      ],
      lossRangeDb: [
        least(ranges.map(({ lossDb }) => -lossDb.high)),
        most(ranges.map(({ lossDb }) => -lossDb.low)),
      ],
      outside: stated.outside,
    };
  });
}
