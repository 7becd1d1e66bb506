/**
 * Annual flow of the Nile at Aswan, 1871–1970, in 10^8 m³.
 *
 * Source: G. W. Cobb, "The problem of the Nile: conditional solution to a changepoint problem", Biometrika 65(2),
 * 243–251, 1978; the series as in J. Durbin and S. J. Koopman, Time Series Analysis by State Space Methods (2001).
 * Status: memory, verified by the published sum of squares.
 * Source: J. Bai and P. Perron, "Computation and analysis of multiple structural change models", J. Applied
 * Econometrics 18(1), 1–22, 2003: the usual one-break analysis by least squares gives RSS 2835157 → 1597457 and BIC
 * 1318 → 1270 with the break after observation 28 (1898). Status: memory.
 *
 * Tolerance: half of the last digit.
 */
import { describe, expect, it } from 'vitest';
import { findChangePoint } from '../../src/core/drift/change-point.ts';
import { expectClose } from '../support/expect-close.ts';

const NILE = Float64Array.from(
  `1120 1160 963 1210 1160 1160 813 1230 1370 1140 995 935 1110 994 1020 960 1180 799 958 1140
  1100 1210 1150 1250 1260 1220 1030 1100 774 840 874 694 940 833 701 916 692 1020 1050 969
  831 726 456 824 702 1120 1100 832 764 821 768 845 864 862 698 845 744 796 1040 759
  781 865 845 944 984 897 822 1010 771 676 649 846 812 742 801 1040 860 874 848 890
  744 749 838 1050 918 986 797 923 975 815 1020 906 901 1170 912 746 919 718 714 740`.split(/\s+/u),
  Number,
);

describe('the Nile', () => {
  it('changed after observation 28, with the published sums of squares and criteria', () => {
    const change = findChangePoint(NILE, 15);
    expect(change?.index).toBe(28);
    expectClose(change?.rssWithout, 2_835_157, { absolute: 0.51 });
    expectClose(change?.rssWith, 1_597_457, { absolute: 0.51 });
    expectClose(change?.bicWithout, 1318, { absolute: 0.5 });
    expectClose(change?.bicWith, 1270, { absolute: 0.5 });
    expect(change?.evidence).toBeGreaterThan(10);
  });

  it('shows no further change within either part', () => {
    expect(findChangePoint(NILE.subarray(0, 28), 5)?.evidence).toBeLessThan(0);
    expect(findChangePoint(NILE.subarray(28), 10)?.evidence).toBeLessThan(0);
  });
});
