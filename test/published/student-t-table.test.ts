/**
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, critical values of Student's t. Status: published
 * to three decimals; the fourth is computed by an independent program.
 *
 * Tolerance: half a unit of the fourth decimal, relative for the long tail.
 */
import { describe, it } from 'vitest';
import { coverageFactor, studentQuantile, twoSidedProbability } from '../../src/core/proof/student.ts';
import { expectClose } from '../support/expect-close.ts';

const LEVELS = [0.9, 0.95, 0.975, 0.99, 0.995, 0.999];
const TABLE = [
  [1, 3.0777, 6.3138, 12.7062, 31.8205, 63.6567, 318.3088],
  [2, 1.8856, 2.92, 4.3027, 6.9646, 9.9248, 22.3271],
  [3, 1.6377, 2.3534, 3.1824, 4.5407, 5.8409, 10.2145],
  [4, 1.5332, 2.1318, 2.7764, 3.7469, 4.6041, 7.1732],
  [5, 1.4759, 2.015, 2.5706, 3.3649, 4.0321, 5.8934],
  [6, 1.4398, 1.9432, 2.4469, 3.1427, 3.7074, 5.2076],
  [7, 1.4149, 1.8946, 2.3646, 2.998, 3.4995, 4.7853],
  [8, 1.3968, 1.8595, 2.306, 2.8965, 3.3554, 4.5008],
  [9, 1.383, 1.8331, 2.2622, 2.8214, 3.2498, 4.2968],
  [10, 1.3722, 1.8125, 2.2281, 2.7638, 3.1693, 4.1437],
  [11, 1.3634, 1.7959, 2.201, 2.7181, 3.1058, 4.0247],
  [12, 1.3562, 1.7823, 2.1788, 2.681, 3.0545, 3.9296],
  [13, 1.3502, 1.7709, 2.1604, 2.6503, 3.0123, 3.852],
  [14, 1.345, 1.7613, 2.1448, 2.6245, 2.9768, 3.7874],
  [15, 1.3406, 1.7531, 2.1314, 2.6025, 2.9467, 3.7328],
  [16, 1.3368, 1.7459, 2.1199, 2.5835, 2.9208, 3.6862],
  [17, 1.3334, 1.7396, 2.1098, 2.5669, 2.8982, 3.6458],
  [18, 1.3304, 1.7341, 2.1009, 2.5524, 2.8784, 3.6105],
  [19, 1.3277, 1.7291, 2.093, 2.5395, 2.8609, 3.5794],
  [20, 1.3253, 1.7247, 2.086, 2.528, 2.8453, 3.5518],
  [21, 1.3232, 1.7207, 2.0796, 2.5176, 2.8314, 3.5272],
  [22, 1.3212, 1.7171, 2.0739, 2.5083, 2.8188, 3.505],
  [23, 1.3195, 1.7139, 2.0687, 2.4999, 2.8073, 3.485],
  [24, 1.3178, 1.7109, 2.0639, 2.4922, 2.7969, 3.4668],
  [25, 1.3163, 1.7081, 2.0595, 2.4851, 2.7874, 3.4502],
  [26, 1.315, 1.7056, 2.0555, 2.4786, 2.7787, 3.435],
  [27, 1.3137, 1.7033, 2.0518, 2.4727, 2.7707, 3.421],
  [28, 1.3125, 1.7011, 2.0484, 2.4671, 2.7633, 3.4082],
  [29, 1.3114, 1.6991, 2.0452, 2.462, 2.7564, 3.3962],
  [30, 1.3104, 1.6973, 2.0423, 2.4573, 2.75, 3.3852],
  [40, 1.3031, 1.6839, 2.0211, 2.4233, 2.7045, 3.3069],
  [60, 1.2958, 1.6706, 2.0003, 2.3901, 2.6603, 3.2317],
  [100, 1.2901, 1.6602, 1.984, 2.3642, 2.6259, 3.1737],
  [120, 1.2886, 1.6577, 1.9799, 2.3578, 2.6174, 3.1595],
  [Number.POSITIVE_INFINITY, 1.2816, 1.6449, 1.96, 2.3263, 2.5758, 3.0902],
];

describe.each(TABLE)('%d degrees of freedom', (degreesOfFreedom, ...quantiles) => {
  it('has the quantiles of the table, and gives their level back', () => {
    quantiles.forEach((quantile, i) => {
      const level = LEVELS[i] as number;
      expectClose(studentQuantile(level, degreesOfFreedom as number), quantile, { absolute: 6e-5 });
      expectClose(twoSidedProbability(quantile, degreesOfFreedom as number), 2 * (1 - level), {
        absolute: 2e-5,
      });
    });
  });
});

it('the coverage factor is that quantile, and 2 from 60 degrees of freedom on', () => {
  expectClose(coverageFactor(4), 2.7764, { absolute: 6e-5 });
  expectClose(coverageFactor(10), 2.2281, { absolute: 6e-5 });
  expectClose(coverageFactor(60), 2.0003, { absolute: 6e-5 });
  expectClose(coverageFactor(120), 2, { absolute: 0 });
  expectClose(coverageFactor(Number.POSITIVE_INFINITY), 2, { absolute: 0 });
});
