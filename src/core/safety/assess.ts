import type { FieldState } from '../record.ts';
import type { Lot, Site } from '../site.ts';
import { unitsFirst } from '../units-first.ts';
import { UserError } from '../user-error.ts';
import { type ExposureCase, exposureCase, type KeepOutDistance, keepOutDistance } from './band-exposure.ts';
import { baseToBorderM, type WiresAtBorder, wiresAtBorder } from './border.ts';
import { cautionsFor } from './cautions.ts';
import { type ChosenLimits, chooseLimits } from './choose-limits.ts';
import { personAt } from './exposure-profile.ts';
import { DIPOLE_GAIN } from './far-field.ts';
import { assessJoint, type JointAssessment } from './joints.ts';
import { TOUCH_DISTANCE_M, withinReach } from './keep-off.ts';
import { ACCURACY, limitsOfMethod } from './limits-of-method.ts';
import { averagePowerW } from './modes.ts';
import { type PlaceExposure, placeVerdict, unplacedReachM } from './place-verdict.ts';
import { missingBaseShare } from './radial-current.ts';
import { DISTANCE_STEPS_PER_M, roundDown, roundUp } from './rounding.ts';
import { freeSpaceGain, type RuleOfThumb, ruleOfThumb } from './rule-of-thumb.ts';
import { type SiteRadiator, siteRadiator } from './site-radiator.ts';
import {
  AS_THE_SITE_SAYS,
  type PlannedTransmission,
  plannedTransmissions,
  type TransmissionChoice,
  unmatchedBands,
} from './transmissions.ts';
import { type ExemptionResult, exemption } from './us-exemption.ts';
import { assessWireEnds, type WireEndAssessment } from './wire-end-assessment.ts';

/** What the caller knows beyond the site, and what stands in place of it. */
export interface AssessOptions {
  /** The radials as the journal has them now; null where no journal tells. */
  readonly fieldState: FieldState | null;
  /** Id of a set of limits in place of the site's. */
  readonly limits: string | null;
  readonly choice: TransmissionChoice;
  /** Power radiated over power accepted, measured or computed; 1, the careful side, where it is not known. */
  readonly efficiency: number;
}

const DEFAULT_ASSESS_OPTIONS: AssessOptions = {
  fieldState: null,
  limits: null,
  choice: AS_THE_SITE_SAYS,
  efficiency: 1,
};

/** What one transmission asks of the garden. */
export interface BandAssessment {
  readonly transmission: PlannedTransmission;
  /** Mean over the averaging time, rounded up to a hundredth of a watt. */
  readonly averagePowerW: number;
  readonly keepOut: KeepOutDistance;
  readonly ruleOfThumb: RuleOfThumb;
  /** In the order of the site's places. */
  readonly places: readonly PlaceAssessment[];
  readonly wireEnds: readonly WireEndAssessment[];
}

interface PlaceAssessment extends PlaceExposure {
  /** The US test of whether an evaluation is due; null under other rules. It says nothing about the limits. */
  readonly exemption: ExemptionResult | null;
}

/** What transmitting asks of the garden. */
export interface SafetyAssessment {
  readonly limits: ChosenLimits;
  readonly radials: JudgedRadials;
  /** Null where the site has no lot. */
  readonly border: JudgedBorder | null;
  readonly bands: readonly BandAssessment[];
  readonly joints: readonly JointAssessment[];
  /** How good distances and powers are, to be shown beside them. */
  readonly accuracy: string;
  readonly cautions: readonly string[];
  readonly assumptions: readonly string[];
  readonly limitsOfMethod: readonly string[];
}

/** How the radials were taken into the verdicts on places. */
interface JudgedRadials {
  readonly elevated: boolean;
  /**
   * Radials of which nobody knows the way; null: any. No place was judged against such wires on the ground, and raised
   * ones may point at every place.
   */
  readonly unplaced: number | null;
  /** Whether they can be touched all along, and not at their ends alone. */
  readonly bareOnSurface: boolean;
  /** Whether they hang, or may, for all that the site says. */
  readonly mayHang: boolean;
  /** Whether they can be touched all along: bare on the surface, or hung too low. */
  readonly touchableAlong: boolean;
}

/** What of the antenna comes too near to those beyond the border, whom nobody can ask to keep off. */
interface JudgedBorder extends WiresAtBorder {
  /** From the base to the border, rounded down to a tenth of a metre. */
  readonly distanceM: number;
  /** How far people stay from the wires, and so the wires should from the border, m. */
  readonly keepOffM: number;
  /** Whether a radial of which nobody knows where it lies may end within arm's reach of it. */
  readonly unplacedMayReach: boolean;
}

/**
 * Exposure, wire ends and joints of a site.
 *
 * @throws UserError `site-needs-height`, `transmit-missing` and its like, `limits-unknown`, `place-inside-antenna`,
 * `metal-unknown`, `efficiency-range`
 */
export function assessSafety(site: Site, options: Partial<AssessOptions> = {}): SafetyAssessment {
  const { fieldState, limits, choice, efficiency } = { ...DEFAULT_ASSESS_OPTIONS, ...options };
  possibleEfficiency(efficiency, 'efficiency');
  const chosen = chooseLimits(site, limits);
  const radiator = siteRadiator(site, fieldState);
  const exposures = plannedTransmissions(site, choice).map((transmission) =>
    exposureCase(transmission, chosen.set, radiator, site.antenna, efficiency),
  );
  const bands = exposures.map((exposure) => assessBand(site, exposure));
  return {
    limits: chosen,
    radials: {
      elevated: radiator.elevated,
      unplaced: radiator.unplacedCount,
      bareOnSurface: radiator.bareOnSurface,
      mayHang: radiator.mayHang,
      touchableAlong: radiator.touchableAlong,
    },
    border: site.lot === null ? null : judgeBorder(site.lot, radiator, bands),
    bands,
    joints: site.joints.map((joint, i) => assessJoint(joint, `joints[${i}]`)),
    accuracy: ACCURACY,
    cautions: (['transmitting', 'thunder', 'mains-earth'] as const).flatMap((job) =>
      cautionsFor(job, site.units),
    ),
    assumptions: [
      ...radiator.assumptions,
      ...oneResistance(site),
      ...(choice.band === null ? bandsApart(site) : []),
      ...(efficiency === 1 ? ['no efficiency is given: all power is taken as radiated'] : []),
      ...(site.lot === null ? ['the site has no lot: no places are judged'] : []),
    ],
    limitsOfMethod: limitsOfMethod(site.antenna, radiator, chosen.set, exposures.some(isBaseFloored)).map(
      (sentence) => unitsFirst(sentence, site.units),
    ),
  };
}

function isBaseFloored({ stations }: ExposureCase): boolean {
  return stations.some(({ radiator, frequencyHz }) => missingBaseShare(radiator, frequencyHz) > 0);
}

function judgeBorder(lot: Lot, radiator: SiteRadiator, bands: readonly BandAssessment[]): JudgedBorder {
  const { knownWires, radialHeights, touchableAlong } = radiator;
  const ends = bands.flatMap(({ wireEnds }) => wireEnds.filter(({ end }) => end === 'radial end'));
  const keepOffM = Math.max(TOUCH_DISTANCE_M, ...ends.map((end) => end.keepOffM));
  const reached = withinReach(personAt(0), radialHeights.fromM, radialHeights.toM) ? knownWires : [];
  const distanceM = baseToBorderM(lot);
  return {
    ...wiresAtBorder(reached, lot, keepOffM, touchableAlong),
    distanceM: roundDown(distanceM, DISTANCE_STEPS_PER_M),
    keepOffM,
    unplacedMayReach: distanceM < unplacedReachM(radiator),
  };
}

/** The two lists of bands that a site holds, where they differ. */
function bandsApart(site: Site): string[] {
  const { onlyTransmit, onlyAntenna } = unmatchedBands(site);
  return [
    ...(onlyTransmit.length === 0
      ? []
      : [
          `the site sends on ${onlyTransmit.join(', ')} (transmit), which antenna.bands does not name: the antenna is taken to be fed there all the same`,
        ]),
    ...(onlyAntenna.length === 0
      ? []
      : [`antenna.bands names ${onlyAntenna.join(', ')}, which transmit does not: no field is told there`]),
  ];
}

/** One stated radiation resistance for several bands, of which it can be true for one only. */
function oneResistance({ antenna, transmit }: Site): string[] {
  const bands = new Set([...antenna.bands, ...transmit.map(({ band }) => band)]);
  const asStated = antenna.kind === 'other' && antenna.bands.length === 1;
  if (antenna.radiationResistanceOhm === null || asStated || bands.size < 2) return [];
  return [
    'antenna.radiationResistance is one figure for several bands, and can be true on one only: on each band the smaller of it and the computed one is taken, which makes for the larger distance',
  ];
}

/** @throws UserError `efficiency-range` outside 0 to 1, and for none */
export function possibleEfficiency(efficiency: number, field: string): number {
  if (efficiency > 0 && efficiency <= 1) return efficiency;
  throw new UserError(
    'efficiency-range',
    `needs an efficiency above 0 % and up to 100 %, got ${efficiency * 100} %`,
    { place: { field } },
  );
}

function assessBand(site: Site, exposure: ExposureCase): BandAssessment {
  const { transmission } = exposure;
  const meanW = averagePowerW(
    transmission.peakPowerW,
    transmission.mode.dutyFactor,
    transmission.onAirFraction,
  );
  const places = (site.lot?.places ?? []).map((place, i) => {
    const base = site.lot?.base ?? [0, 0];
    return placeVerdict(place, `lot.places[${i}].at`, base, exposure);
  });
  return {
    transmission,
    averagePowerW: roundUp(meanW, 100),
    keepOut: keepOutDistance(exposure),
    ruleOfThumb: ruleOfThumb(exposure),
    places: places.map((place) => ({ ...place, exemption: exemptionAt(exposure, meanW, place) })),
    wireEnds: assessWireEnds(exposure),
  };
}

/**
 * The separation counts from the nearest part that radiates: from raised radials too, and from their length around the
 * base where the way of any is not known.
 */
function exemptionAt(
  { limits, radiator, stations }: ExposureCase,
  meanW: number,
  { distanceM, nearestWire }: PlaceExposure,
): ExemptionResult | null {
  if (!limits.id.startsWith('fcc')) return null;
  const results = stations.map(({ frequencyHz, gain, radiator: { elevated } }) => {
    const toRadialM =
      radiator.unplacedCount === 0 && nearestWire !== null
        ? nearestWire.distanceM
        : Math.max(0, distanceM - (elevated?.lengthM ?? 0));
    const separationM = elevated === null ? distanceM : Math.min(distanceM, toRadialM);
    return exemption((meanW * freeSpaceGain(gain)) / DIPOLE_GAIN, separationM, frequencyHz);
  });
  return (
    (['test does not apply', 'no exemption'] as const).find((result) => results.includes(result)) ?? 'exempt'
  );
}
