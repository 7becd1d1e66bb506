import type { Antenna } from '../site.ts';
import { REACH_UP_M } from './keep-off.ts';
import type { LimitSet } from './limits.ts';
import type { SiteRadiator } from './site-radiator.ts';

/**
 * How good distances and powers are, to stand beside them. A reflection doubles the field at most where it comes in
 * phase (FCC OET Bulletin 65, eq. 6); the tens of per cent are common practice.
 */
export const ACCURACY =
  'Distances and powers are computed, not measured: the near fields of thin wires over perfect ground, and the power averaged as said above. Real ground, houses and metal close by change the field by tens of per cent, a good reflector up to twice, which is four times in power. Rounding (distances to keep up, distances of places and powers down) covers the arithmetic and not this: where people stay long, plan with a quarter of the power told.';

/**
 * What the answer rests on and does not cover, for people; every sentence that does not apply is left out.
 *
 * @param baseFloored - whether more current was taken at the base than the sinusoid has there
 */
export function limitsOfMethod(
  antenna: Antenna,
  radiator: SiteRadiator,
  limits: LimitSet,
  baseFloored: boolean,
): string[] {
  const sentences = [
    'The current is taken as sinusoidal. A feed line that radiates, a coil, a trap or a hat is not in it.',
    'Fields are the largest over the height of a person of 2 m (6.6 ft) who stands on the ground, or on or under the height that a place has; they are not averaged over the body.',
    'Each band is judged alone and none are summed. Bands sent at the same time add: the sum of their shares of each limit must stay at or under 1.',
  ];
  if ([...limits.averaged, ...limits.instantaneous].some(({ status }) => status === 'memory')) {
    sentences.push(
      `Some or all levels of ${limits.title} were recalled and not read in the source: check them against your rule before you rely on them.`,
    );
  }
  if (limits.covers === 'informed') {
    sentences.push(
      `${limits.title}: only for people who know of the exposure and agree to it${limits.id === 'fcc-controlled' ? ', such as a household that was told how to keep clear (47 CFR 97.13(c))' : ''}. Neighbours, visitors and children need a set for the general public.`,
    );
  }
  if (limits.instantaneous.length > 0) {
    sentences.push(
      'Below 10 MHz levels against nerve stimulation hold at every moment, so they are held against peak power; averaging over time does not ease them.',
    );
  }
  if (limits.id.startsWith('icnirp')) {
    sentences.push(
      'Whole-body levels; the local levels (6 min) are not checked. There is no power-density level at or below 30 MHz.',
    );
  }
  if (baseFloored || antenna.kind === 'half-wave') {
    sentences.push(
      'Fed near a half wave, the current at the base is small and not told by a sinusoid: at least 0.3 of the loop current is taken there and in the counterpoise, which is more than a feed resistance of some kilohms lets in. The base carries high voltage.',
    );
  }
  if (antenna.kind === 'other') {
    sentences.push(
      'Coils, traps and hats change the current: for this kind of antenna take every distance and voltage as an indication.',
    );
  }
  if (radiator.elevated) {
    sentences.push(
      `Elevated radials are taken as level, at the height of the base, and sharing the current equally; ${radiator.unplacedCount === 0 ? 'a place is judged by its distance from each, their fields added as if in phase, and the distance to keep at the worst bearing' : 'the way of some is not known, so that every place is judged at the worst bearing of evenly spread ones'}. Unequal ones carry more, and a feed line that is not choked takes part.`,
      `Hang radials over paths and play more than ${REACH_UP_M} m (8.3 ft) up, out of reach. A lower one is kept off along its way where the journal tells that of every radial, and else all round, as far as its end.`,
    );
  } else if (radiator.grounded !== null) {
    sentences.push(
      'Beside a radial on the ground the field is an upper figure, right to a factor of two or three, with the current shared equally. Its end counts as touchable whatever covers it, for how well it is capped is not known here.',
    );
  }
  return sentences;
}
