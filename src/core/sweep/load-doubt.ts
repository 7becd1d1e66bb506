import { reflectionSizes, swrOfReflection } from './reflection.ts';
import { findResonances } from './resonance.ts';
import type { Sweep } from './sweep.ts';

/** What a sweep of a reference load shows that such a load does not show as a rule. */
export interface LoadDoubt {
  /** Over the whole sweep; null where |Γ| reaches 1. */
  readonly worstSwr: number | null;
  /** Where the reactance passes zero as that of an antenna does; null when it does not. */
  readonly resonanceHz: number | null;
}

/**
 * A resistor made to match stays under this by far at these frequencies, also behind adapters (20.8 dB return loss,
 * |Γ| = 0.09). A resistor of another value does its duty as well, so that this is a question and no refusal.
 * Common practice.
 */
const MOST_SWR = 1.2;

/**
 * The reactance of a resistor stays within parts of an ohm, and its noise passes zero many times; that of an antenna
 * swings by tens of ohms over a band. As a part of the reference resistance.
 */
const LEAST_SWING = 0.1;

/** Whether a sweep of a reference load looks like one of something else, such as the antenna; null when it does not. */
export function loadDoubt(sweep: Sweep): LoadDoubt | null {
  const worst = reflectionSizes(sweep).reduce((most, size) => Math.max(most, size), 0);
  const worstSwr = swrOfReflection(worst);
  const [resonance] = swingOf(sweep) > LEAST_SWING * sweep.referenceOhm ? findResonances(sweep) : [];
  if (resonance === undefined && worstSwr !== null && worstSwr <= MOST_SWR) return null;
  return { worstSwr, resonanceHz: resonance?.frequencyHz ?? null };
}

/** Ohms from the least reactance to the largest. */
function swingOf({ reactanceOhm }: Sweep): number {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < reactanceOhm.length; i++) {
    least = Math.min(least, reactanceOhm[i] as number);
    most = Math.max(most, reactanceOhm[i] as number);
  }
  return most - least;
}
