import { type Limit, NOT_NEGATIVE, POSITIVE, upTo } from '../formats/json/json-fields.ts';

/**
 * Longer or higher than anything a radio amateur puts up: a quarter wave of the 630 m band is 159 m. All ends here are
 * our own choices, wide enough for any real site, so that a slip of the unit (km for m, m for mm) is told at once.
 */
const TALLEST: readonly [number, string] = [300, '300 m (984 ft)'];

/** Of antennas and radials. */
export const WIRE_LENGTH: Limit = upTo(...TALLEST, POSITIVE);
/** Over the ground. */
export const HEIGHT: Limit = upTo(...TALLEST, NOT_NEGATIVE);
/** The thickest cage or lattice mast. */
export const ELEMENT_DIAMETER: Limit = upTo(3, '3 m (118 in)', POSITIVE);
/** A wide strap or a pipe. */
export const RADIAL_DIAMETER: Limit = upTo(0.2, '200 mm (7.9 in)', POSITIVE);
/** Nothing is ploughed in deeper. */
export const DEPTH: Limit = upTo(2, '2 m (79 in)', NOT_NEGATIVE);
/** Fence wire comes in reels of some kilometres. */
export const REEL_LENGTH: Limit = upTo(10_000, '10 km (32800 ft)', POSITIVE);
/** Of a feed line. */
export const LINE_LENGTH: Limit = upTo(1000, '1 km (3280 ft)', NOT_NEGATIVE);
/** Of an obstacle. */
export const CLEARANCE: Limit = upTo(100, '100 m (328 ft)', NOT_NEGATIVE);
/** East or north: farther than any lot reaches. */
export const ON_LOT: Limit = {
  words: 'within 10 km (32800 ft) of the corner',
  holds: (lengthM) => Math.abs(lengthM) <= 10_000,
};
