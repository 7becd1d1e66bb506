import { OpenReading } from '../problem.ts';
import type { AngleUnit, ReadOptions } from '../read-options.ts';

/** No phase of a passive impedance is larger in radians (±π/2), with room for noise. */
const MOST_IMPEDANCE_RAD = 1.6;

/** No phase at all is larger in radians (±π), with room for rounding. */
const MOST_RAD = 3.15;

/**
 * The unit of a column of phases: the user's word, else the header's, else degrees, where some are too large for radians.
 * Where all are small, both are likely: a sweep in radians, or in degrees about a resonance.
 *
 * @param named - the unit in the header, or null
 * @throws UserError `phase-unit-open`
 */
export function choosePhaseUnit(
  phases: Float64Array,
  named: string | null,
  ofImpedance: boolean,
  options: ReadOptions,
): AngleUnit {
  if (options.angle !== undefined) return options.angle;
  if (named === 'deg' || named === 'rad') return named;
  let most = 0;
  for (let i = 0; i < phases.length; i++) most = Math.max(most, Math.abs(phases[i] as number));
  if (most === 0 || most > (ofImpedance ? MOST_IMPEDANCE_RAD : MOST_RAD)) return 'deg';
  throw new OpenReading(
    'phase-unit-open',
    `no unit for the phase, and no value is beyond ±${most}: it may be degrees or radians`,
    [{ angle: 'deg' }, { angle: 'rad' }],
  );
}
