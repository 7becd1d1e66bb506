import { type InsulatedWire, insulatedVelocityFactor, quarterWaveM } from './wire-velocity.ts';

/** What a source says of elevated radials; they disagree, and none is ours to overrule. */
interface ElevatedFinding {
  readonly says: string;
  readonly source: string;
  readonly status: 'published' | 'common practice';
}

const ELEVATED_FINDINGS: readonly ElevatedFinding[] = [
  {
    says: 'two tuned radials per band, with the base about 3 m (10 ft) up, work well',
    source: 'common practice',
    status: 'common practice',
  },
  {
    says: 'four elevated quarter-wave radials can equal 120 buried ones',
    source: 'A. Christman et al., IEEE Trans. Broadcasting, March 1988',
    status: 'published',
  },
  {
    says: 'ten to twelve radials, because fewer share the current unevenly',
    source: 'R. Severns, QEX, March to June 2012',
    status: 'published',
  },
];

/** Elevated radials for one band. */
export interface ElevatedAdvice {
  readonly frequencyHz: number;
  readonly velocityFactor: number;
  readonly cutLengthM: number;
  /** Radials per band: from the fewest that anyone advises to the most. */
  readonly count: { readonly low: number; readonly high: number };
  /** Height of base and radials that common practice asks for, m. */
  readonly usualHeightM: number;
  /** Field against a full field of ground radials, dB: the sources range from equal to this much less. */
  readonly againstGroundRadialsDb: { readonly low: number; readonly high: number };
  readonly findings: readonly ElevatedFinding[];
  readonly notes: readonly string[];
}

const COUNT = { low: 2, high: 12 };
const USUAL_HEIGHT_M = 3;
/** The sources conflict by 3 to 7 dB, which is no figure to average. */
const AGAINST_GROUND_DB = { low: -7, high: 0 };

/**
 * How to cut elevated radials for a band, and how far the literature agrees on their worth. There is
 * no computation of their loss here: the surface-impedance method is for wires on the ground.
 *
 * @param wire - at its height; or give a velocity factor from a measurement
 * @throws UserError `not-positive`, `bad-insulation`, `bad-velocity-factor`
 */
export function elevatedAdvice(options: {
  readonly frequencyHz: number;
  readonly wire: InsulatedWire;
  readonly velocityFactor?: number | undefined;
}): ElevatedAdvice {
  const { frequencyHz, wire } = options;
  const velocityFactor = options.velocityFactor ?? insulatedVelocityFactor(wire);
  return {
    frequencyHz,
    velocityFactor,
    cutLengthM: quarterWaveM(frequencyHz, velocityFactor),
    count: COUNT,
    usualHeightM: USUAL_HEIGHT_M,
    againstGroundRadialsDb: AGAINST_GROUND_DB,
    findings: ELEVATED_FINDINGS,
    notes: notesFor(wire.heightM),
  };
}

function notesFor(heightM: number): string[] {
  const notes = [
    'cut each radial a little long and trim it to resonance: unlike wires on the ground, these are tuned',
    'their far ends are at high voltage: insulate or cap them, and keep them out of reach',
  ];
  if (heightM < USUAL_HEIGHT_M) {
    notes.push(
      'these hang lower than common practice advises: the velocity factor is less certain, the soil absorbs more, and a head or a hand reaches the wire',
    );
  }
  return notes;
}
