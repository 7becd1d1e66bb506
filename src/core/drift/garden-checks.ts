import type { CauseName } from './cause.ts';

/** A check with a meter or a pair of eyes, cheapest first; each tells its own cause from all others. */
const CHECKS: readonly (readonly [cause: CauseName, check: string])[] = [
  [
    'intermittent',
    'watch the live sweep while someone wiggles each joint, the feed strap and the connectors one by one: the curve must not jump',
  ],
  [
    'series-joint',
    'with the transmitter off, measure the DC resistance from the feed strap to the radial plate, lead resistance taken off: a sound joint reads well under 0.1 ohm',
  ],
  [
    'instrument',
    'sweep the reference load again on the same adaptor: if it has moved too, the instrument has changed and not the antenna',
  ],
  [
    'element-length',
    'measure the element with a tape and look for a slipped section, ice, wet leaves or a branch that touches it',
  ],
  [
    'feedline',
    'sweep a known load at the far end of the feed line, or the antenna at its feed point without the line',
  ],
  [
    'lost-radials',
    'at low power, read the current in each radial with a clip-on RF meter: one without contact shows none',
  ],
  ['soil-moisture', 'sweep again after the next rain or dry week, with a note of the soil moisture'],
  ['none', 'unplug, clean and plug in again, and take three more shots'],
];

/**
 * The cheapest check that separates two causes.
 *
 * Source: common practice; a clip-on current meter or halving the field for radials, a milliohm reading for joints.
 */
export function checkBetween(first: CauseName, second: CauseName): string {
  const pair = new Set([first, second]);
  if (pair.has('lost-radials') && pair.has('soil-moisture')) {
    return `${checkOf('lost-radials')}; without such a meter, disconnect half of the wires and sweep: if little changes, that half was dead already`;
  }
  for (const [cause, check] of CHECKS) if (pair.has(cause)) return check;
  return checkOf('none');
}

/** The check that confirms one cause. */
export function checkOf(wanted: CauseName): string {
  return CHECKS.find(([cause]) => cause === wanted)?.[1] ?? '';
}
