import type { BoundedQuantity, Quantity } from '../../core/quantity-with-uncertainty.ts';
import type { LevelStatus } from '../../core/safety/level-status.ts';

/** What the page uses of the documents that the commands print with `--json`; the README tells all of them. */

export interface PlanAnswer {
  readonly radials: readonly {
    /** The one that the journal would give it. */
    readonly number: number;
    readonly route: readonly (readonly [number, number])[];
    readonly lengthM: number;
    readonly bearingDeg: number;
  }[];
  readonly wireM: number;
  /** What the proposed wires gain over what lies there, and how far the soil moves it; null where nothing lies. */
  readonly gainOverLaidDb?: Omit<MoreWire, 'extraM' | 'radials'> | null | undefined;
  readonly efficiency: readonly {
    readonly band: string;
    readonly groundLossOhm: number | null;
    readonly efficiencyPercent: number | null;
    readonly lossDb: number | null;
    readonly lossRangeDb?: readonly [number, number] | null | undefined;
    readonly outside: readonly string[];
  }[];
  readonly pattern: readonly PlannedPattern[];
  /** Only of radials on or in the ground. */
  readonly moreWire?: readonly MoreWire[] | undefined;
  readonly lesson?: string | null | undefined;
  readonly work?: readonly string[] | undefined;
  /** Only of radials in the air. */
  readonly elevated?: readonly ElevatedRadials[] | undefined;
  readonly notes: readonly string[];
}

interface MoreWire {
  readonly extraM: number;
  readonly radials: number;
  readonly gainDb: number;
  readonly lowDb: number;
  readonly highDb: number;
}

interface ElevatedRadials {
  readonly band: string;
  readonly radials: number;
  readonly cutLengthM: number;
  readonly velocityFactor: number;
}

export interface PlannedPattern {
  readonly band: string;
  readonly elevationDeg: number;
  readonly azimuthDeg: readonly number[];
  readonly relativeDb: readonly number[];
}

export type Verdict = 'improved' | 'worse' | 'not shown';

export interface CompareAnswer extends ComparedBand {
  /** All bands, where there are several; else the one of the answer itself. */
  readonly bands?: readonly ComparedBand[] | undefined;
  readonly verdict: Verdict;
  readonly basis: string;
  readonly agree: boolean | null;
  readonly resistanceGainDb: number | null;
  readonly strength: ComparedStrength | null;
  /** True where no wire was laid or lifted between the sides. */
  readonly sameField?: boolean | undefined;
  readonly notes: readonly string[];
}

export interface ComparedBand {
  readonly band: string;
  readonly measures: readonly ComparedMeasure[];
  readonly qualityFactor?: ComparedMeasure | undefined;
}

export interface ComparedMeasure {
  readonly measure: string;
  readonly before: BoundedQuantity;
  readonly after: BoundedQuantity;
  readonly difference: BoundedQuantity;
  /** What was added to after minus before for the soil between them. */
  readonly soilCorrection?: number | undefined;
  readonly verdict: Verdict;
  readonly meaning: string;
}

export interface ComparedStrength {
  readonly places: readonly {
    readonly place: string;
    readonly differenceDb: number;
    readonly readingsBefore: number;
    readonly readingsAfter: number;
  }[];
  readonly medianDb: number | null;
  readonly expandedUncertaintyDb: number | null;
  readonly verdict: Verdict;
}

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
  readonly bands: readonly (Sent & {
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
  })[];
  readonly places: readonly (Sent & {
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
  })[];
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

export interface ProgressAnswer {
  readonly band: string;
  readonly steps: readonly ProgressStepAnswer[];
  readonly model: {
    readonly name: string | null;
    readonly parameters: Readonly<Record<string, Quantity>>;
    readonly gainMeans: string | null;
    readonly whyNotGround: string | null;
  };
  readonly curve: readonly { readonly radials: number; readonly resistanceOhm: number }[];
  readonly next: NextWiresAnswer;
  readonly doubling: NextWiresAnswer;
  readonly advice: 'go on' | 'stop' | 'measure again';
  readonly why: string;
  readonly worthwhileDb: number;
  readonly poorGuide: readonly string[];
  /** Command lines, one after the other; null where no reversal is called for. */
  readonly reversal: readonly string[] | null;
  readonly notes: readonly string[];
}

export interface ProgressStepAnswer {
  readonly radials: number;
  readonly wireM: number;
  readonly time: string | null;
  readonly visits: number;
  readonly resistanceAtResonanceOhm: Quantity;
  readonly resonanceHz: Quantity;
  /** Added to R, for the moisture of the first step, before its gain is taken. */
  readonly soilCorrectionOhm?: number | undefined;
  readonly swr2BandwidthHz: BoundedQuantity;
  readonly gainDb: Quantity;
  readonly strengthDb: Quantity;
  readonly strengthPlaces: number;
}

export interface NextWiresAnswer {
  readonly radials: number | null;
  readonly wireM: number | null;
  readonly gainDb: Quantity;
}

export interface DiagnoseAnswer {
  readonly causes: readonly {
    readonly cause: string;
    readonly probability: number;
    readonly estimate: {
      readonly name: string;
      readonly value: number;
      readonly unit: string;
      readonly expandedUncertainty: number;
    } | null;
    readonly evidence: readonly string[];
    readonly checkFirst: string;
  }[];
  readonly cannotTell: readonly string[];
  readonly visitsBefore: readonly number[];
  readonly visitsAfter: readonly number[];
  /** The visit at which a lasting step seems to have begun. */
  readonly changeAt: number | null;
  /** Whether the newest visit is beyond what the site does by itself; null while too few visits show how much that is. */
  readonly beyond: boolean | null;
}
