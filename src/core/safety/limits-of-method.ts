import type { Antenna } from '../site.ts';
import type { LimitSet } from './limits.ts';
import type { SiteRadiator } from './site-radiator.ts';

/** What the answer rests on and does not cover, for people; every sentence that does not apply is left out. */
export function limitsOfMethod(antenna: Antenna, radiator: SiteRadiator, limits: LimitSet): string[] {
  const sentences = [
    'Computed, not measured: a sinusoidal current on thin wires over perfect ground. Soil, houses, fences, feed lines that radiate and metal close by change the field, by tens of per cent and locally by more.',
    'Fields are the largest over a person’s height of 2 m, not averaged over the body; distances are rounded up, powers down.',
    'Each band is judged alone. Bands sent at the same time add: the sum of their shares of each limit must stay at or under 1.',
  ];
  if ([...limits.averaged, ...limits.instantaneous].some(({ status }) => status === 'memory')) {
    sentences.push(
      `Some levels of ${limits.title} were recalled and not read in the source: check them against your rule before you rely on them.`,
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
  if (antenna.kind === 'half-wave') {
    sentences.push(
      'Fed near a half wave, the real current at the base is more than the sinusoid’s zero: within a metre or two of the base the magnetic field is told too low, and the base carries high voltage.',
    );
  }
  if (antenna.kind === 'other') {
    sentences.push(
      'Coils, traps and hats change the current: for this kind of antenna take every distance and voltage as an indication.',
    );
  }
  if (radiator.elevated) {
    sentences.push(
      'Elevated radials are taken as evenly spread and sharing the current equally, with the person at the worst bearing; unequal ones carry more, and a feed line that is not choked takes part.',
      'Hang radials over paths and play at 2.5 m or more, out of reach; a lower one is kept off along its whole length.',
    );
  } else if (radiator.knownEnds.length === 0) {
    sentences.push('Where the radials end is not known here: check every place against their ends by eye.');
  }
  return sentences;
}
