import type { LevelStatus } from '../../core/safety/level-status.ts';

/** What the page uses of the document of `safety`: distances, places, wire ends, joints and cautions. */
export interface SafetyAnswer {
  readonly limits: {
    readonly id: string;
    readonly title: string;
    readonly why: string;
    readonly source: string;
    /** The day on which the levels under `read` were read. */
    readonly readOn: string;
    readonly levels: LevelStatus;
    readonly averagingMinutes: number;
  };
  readonly touchDistanceM: number;
  readonly radials: {
    readonly elevated: boolean;
    readonly unplaced: number | null;
    readonly bareOnSurface: boolean;
    readonly mayHang: boolean;
    /** Bare on the surface, or hung within reach. */
    readonly touchableAlong: boolean;
    /** As `border.ends`. */
    readonly endsNearBorder: readonly number[];
  };
  /** Null where the site has no lot. */
  readonly border: {
    /** From the base. */
    readonly distanceM: number;
    /** How far people stay from the wires. */
    readonly keepOffM: number;
    /** Numbers of radials that end nearer to the border than that, or beyond it. */
    readonly ends: readonly number[];
    readonly beyond: readonly number[];
    /** Those that can be touched all along and pass as near. */
    readonly passing: readonly number[];
    readonly unplacedMayReach: boolean;
  } | null;
  /** What the figures are good to. */
  readonly accuracy: string;
  readonly bands: readonly Band[];
  readonly places: readonly Place[];
  /** Radials that are planned and not laid yet, which the rest leaves out; null where there are none. */
  readonly planned: {
    readonly numbers: readonly number[];
    /** The places that will not be clear with them, and where less power will be allowed than now. */
    readonly places: readonly Place[];
    /** The distances to keep that will grow. */
    readonly bands: readonly Band[];
    /** How far people will keep off their ends, where that is more than now. */
    readonly radialKeepOffM: number | null;
    readonly endsNearBorder: readonly number[];
  } | null;
  readonly wireEnds: readonly (Sent & {
    readonly end: string;
    readonly sharedBy: number;
    readonly peakVoltageV: number;
    readonly accuracy: string;
    readonly keepOffM: number;
  })[];
  readonly joints: readonly {
    readonly name: string;
    readonly metals: readonly string[];
    readonly differenceV: number;
    readonly allowedV: number;
    readonly verdict: string;
    readonly inspectionMonths: number;
    readonly advice: readonly string[];
    readonly due: {
      readonly last: string | null;
      readonly due: string | null;
      readonly overdue: boolean;
    } | null;
  }[];
  readonly cautions: readonly string[];
  readonly assumptions: readonly string[];
  readonly limitsOfMethod: readonly string[];
}

interface Sent {
  readonly band: string;
  readonly mode: string;
  readonly peakPowerW: number;
}

interface Band extends Sent {
  readonly averagePowerW: number;
  readonly distanceM: number;
  readonly decidedBy: string;
  readonly dutyFactor: number;
  readonly onAirFraction: number;
  readonly farField: {
    readonly validFromM: number;
    readonly fullReflectionM: number | null;
    readonly practicalReflectionM: number | null;
  };
}

interface Place extends Sent {
  readonly name: string;
  readonly distanceM: number;
  readonly verdict: 'clear' | 'reduce power' | 'keep out';
  readonly maxPowerW: number;
  readonly decidedBy: string;
  readonly decidingRadial: number | null;
  readonly nearestRadialEnd: number | null;
  readonly nearestRadialEndM: number | null;
  readonly nearestWire: number | null;
  readonly nearestWireM: number | null;
  readonly unplacedRadialMayReach: boolean;
  readonly heightM: number;
  readonly usExemption: string | null;
}
