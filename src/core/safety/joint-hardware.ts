import { findMetal, type Metal } from './metals.ts';

/** Surfaces that can be had as washers, lugs or plating. */
const HARDWARE: readonly Metal[] = ['stainless-18-8', 'tin-plate', 'brass', 'galvanised-steel'].map((name) =>
  findMetal(name),
);

/**
 * What to put between two metals that should not touch, so that the largest step gets smallest, in words.
 * Empty when nothing that can be had makes it smaller.
 *
 * Source: MIL-STD-1250A, sec. 5.7 (plate the cathode towards the anode); stainless steel between copper and
 * aluminium is common practice.
 */
export function betterHardware(anode: Metal, cathode: Metal, allowedMv: number): string[] {
  const directMv = anode.anodicIndexMv - cathode.anodicIndexMv;
  const stepMv = ({ anodicIndexMv }: Metal): number =>
    Math.max(anode.anodicIndexMv - anodicIndexMv, anodicIndexMv - cathode.anodicIndexMv);
  const best = HARDWARE.reduce((a, b) => (stepMv(b) < stepMv(a) ? b : a));
  const advice: string[] = [];
  if (cathode.metal === 'copper' && anode.metal.startsWith('aluminium')) {
    advice.push(
      'A stainless-steel washer between copper and aluminium is better than contact, not perfect: common practice.',
    );
  }
  if (stepMv(best) < directMv) {
    advice.push(
      `With ${best.metal} between them the largest step falls from ${volts(directMv)} to ${volts(stepMv(best))}${stepMv(best) > allowedMv ? ', still too much: seal the joint as well' : ''}.`,
    );
  }
  return advice;
}

/** A difference of anodic index for people. */
export function volts(millivolts: number): string {
  return `${(millivolts / 1000).toFixed(2)} V`;
}
