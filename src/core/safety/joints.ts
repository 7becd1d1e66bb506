import type { SiteJoint } from '../site.ts';
import { UserError } from '../user-error.ts';
import { betterHardware, volts } from './joint-hardware.ts';
import { findMetal, type Metal } from './metals.ts';

/**
 * `compatible`: every pair that touches is within the allowance for its surroundings.
 * `corrodes`: one is not, and its anode is eaten wherever the joint is wet.
 */
type JointVerdict = 'compatible' | 'corrodes';

/** How the metals of one joint get on, and when to look at it. */
export interface JointAssessment {
  readonly name: string;
  readonly where: SiteJoint['where'];
  /** In the order of the stack, by their names in the table. */
  readonly metals: readonly string[];
  /** Largest difference of anodic index between neighbours, V. */
  readonly differenceV: number;
  readonly allowedV: number;
  readonly verdict: JointVerdict;
  /** The pair of neighbours with the largest difference; null for a joint of one metal. */
  readonly worst: { readonly anode: string; readonly cathode: string } | null;
  /** The largest difference between any two of the stack, which counts where a bolt or water bridges it, V. */
  readonly bridgedDifferenceV: number;
  readonly inspectionMonths: number;
  readonly advice: readonly string[];
}

/**
 * Allowed difference by surroundings, mV. Outdoors counts as the harsh kind.
 * Source: practice with MIL-DTL-14072F table VI: 0.15 V harsh, 0.25 V normal indoor, 0.50 V controlled.
 */
const ALLOWED_MV: Readonly<Record<SiteJoint['where'], number>> = {
  outdoor: 150,
  indoor: 250,
  controlled: 500,
};

/**
 * Judges a joint by the anodic indices of the metals that touch, in whole millivolts.
 *
 * An index is a sea-water figure: soil, rain and the oxide on aluminium or stainless steel change it, so this
 * tells which joint to look at first and not how long one lasts.
 *
 * @throws UserError `metal-unknown`, `joint-empty`
 * Source: MIL-DTL-14072F, sec. 3.13 and 3.13.1 (the higher index is the anode; keep the cathode small; plating
 * counts); MIL-STD-1250A, sec. 5.7 (seal, insulate, or plate the cathode towards the anode).
 */
export function assessJoint(joint: SiteJoint, field = 'joints'): JointAssessment {
  const metals = joint.metals.map((name, i) => findMetal(name, `${field}.metals[${i}]`));
  if (metals.length === 0) {
    throw new UserError('joint-empty', 'needs at least one metal', { place: { field: `${field}.metals` } });
  }
  const neighbours = metals.slice(1).map((metal, i) => pairOf(metals[i] as Metal, metal));
  const worst = neighbours.reduce<Pair | null>(
    (a, b) => (a !== null && a.differenceMv >= b.differenceMv ? a : b),
    null,
  );
  const indices = metals.map(({ anodicIndexMv }) => anodicIndexMv);
  const differenceMv = worst?.differenceMv ?? 0;
  const bridgedMv = Math.max(...indices) - Math.min(...indices);
  const allowedMv = ALLOWED_MV[joint.where];
  const corrodes = differenceMv > allowedMv;
  return {
    name: joint.name,
    where: joint.where,
    metals: metals.map(({ metal }) => metal),
    differenceV: differenceMv / 1000,
    allowedV: allowedMv / 1000,
    verdict: corrodes ? 'corrodes' : 'compatible',
    worst:
      worst === null || differenceMv === 0
        ? null
        : { anode: worst.anode.metal, cathode: worst.cathode.metal },
    bridgedDifferenceV: bridgedMv / 1000,
    inspectionMonths: inspectionMonths(joint.where, differenceMv, allowedMv),
    advice: [
      ...(corrodes && worst !== null ? adviceFor(worst, allowedMv) : []),
      ...(bridgedMv > Math.max(differenceMv, allowedMv)
        ? [
            `A bolt or water that bridges the stack brings ${volts(bridgedMv)} together: sleeve the bolt and keep the joint dry.`,
          ]
        : []),
    ],
  };
}

interface Pair {
  readonly anode: Metal;
  readonly cathode: Metal;
  readonly differenceMv: number;
}

function pairOf(a: Metal, b: Metal): Pair {
  const [cathode, anode] = a.anodicIndexMv <= b.anodicIndexMv ? [a, b] : [b, a];
  return { anode, cathode, differenceMv: anode.anodicIndexMv - cathode.anodicIndexMv };
}

function adviceFor({ anode, cathode, differenceMv }: Pair, allowedMv: number): string[] {
  return [
    `The ${anode.metal} corrodes where it meets ${cathode.metal} (${volts(differenceMv)}).`,
    `Keep the ${cathode.metal} area small against the ${anode.metal}, never the other way round; coat the ${cathode.metal} and seal out water.`,
    ...betterHardware(anode, cathode, allowedMv),
  ];
}

/**
 * How often to look, months: our own proposal, for no published interval was found. Twice as often with each
 * allowance that the difference exceeds.
 */
function inspectionMonths(where: SiteJoint['where'], differenceMv: number, allowedMv: number): number {
  const longest = { outdoor: 12, indoor: 24, controlled: 36 }[where];
  if (differenceMv <= allowedMv) return longest;
  return differenceMv <= 2 * allowedMv ? longest / 2 : longest / 4;
}
