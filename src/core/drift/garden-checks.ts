import type { CauseName } from './cause.ts';

const NOTHING_ELSE = [
  'none',
  'nothing needs opening; where you doubt it, take the connector off, clean it, put it on again, and take three more shots',
] as const;

/** The check of the instrument where the load is known to have moved. */
export const AFTER_LOAD_MOVED =
  'look over the adaptor, calibrate anew and sweep the reference load again: once it is back where it was, sweep the antenna again';

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
  NOTHING_ELSE,
];

/** A check, and the cause that it tests. */
export interface GardenCheck {
  readonly tests: CauseName;
  readonly check: string;
}

/**
 * The cheapest check that separates two causes; it may be the test of either.
 *
 * Source: common practice; a clip-on current meter or halving the field for radials, a milliohm reading for joints.
 */
export function checkBetween(first: CauseName, second: CauseName): GardenCheck {
  const pair = new Set([first, second]);
  const [tests, check] = CHECKS.find(([cause]) => pair.has(cause)) ?? NOTHING_ELSE;
  return pair.has('lost-radials') && pair.has('soil-moisture')
    ? {
        tests,
        check: `${check}; without such a meter, disconnect half of the wires and sweep: if little changes, that half was dead already`,
      }
    : { tests, check };
}

/** The check that confirms one cause. */
export function checkOf(wanted: CauseName): string {
  return checkBetween(wanted, wanted).check;
}
