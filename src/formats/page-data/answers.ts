import type { BoundedQuantity, Quantity } from '../../core/quantity-with-uncertainty.ts';

// What the page uses of the documents that the commands print with `--json`; the README lists their keys.

/** `plan`: the proposed radials and what they bring. */
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
  /** What is cut from each piece of stock; without any where the stock is not known or does not suffice. */
  readonly cuttingPlan?: readonly StockCut[] | null | undefined;
  /** How much longer than its route each piece is cut. */
  readonly allowanceM?: number | undefined;
  /** Only of radials on or in the ground. */
  readonly moreWire?: readonly MoreWire[] | undefined;
  readonly lesson?: string | null | undefined;
  readonly work?: readonly string[] | undefined;
  /** Only of radials in the air. */
  readonly elevated?: readonly ElevatedRadials[] | undefined;
  readonly notes: readonly string[];
}

interface StockCut {
  readonly stockM: number;
  readonly pieces: readonly number[];
  readonly offcutM: number;
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

/** The pattern around the horizon on one band, at one elevation. */
export interface PlannedPattern {
  readonly band: string;
  readonly elevationDeg: number;
  readonly azimuthDeg: readonly number[];
  readonly relativeDb: readonly number[];
}

/** What a comparison claims of a figure. */
export type Verdict = 'improved' | 'worse' | 'not shown';

/** `compare`: what differs between two sides, and whether that is shown. */
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

/** The figures of one band on both sides. */
export interface ComparedBand {
  readonly band: string;
  readonly measures: readonly ComparedMeasure[];
  readonly qualityFactor?: ComparedMeasure | undefined;
}

/** One figure on both sides, in its SI unit. */
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

/** Received levels at the places that were read on both sides. */
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

/** `progress`: a row for each field state, the fit, and what to do next. */
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

/** One field state with its measured figures. */
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

/** Wires that would be added, and what they would bring; null where no fit tells. */
export interface NextWiresAnswer {
  readonly radials: number | null;
  readonly wireM: number | null;
  readonly gainDb: Quantity;
}

/** `diagnose`: the causes of a change, likeliest first. */
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
  /** Faults that came and went, each in a sentence. */
  readonly standApart: readonly { readonly meaning: string }[];
  /** The visit at which a lasting step seems to have begun. */
  readonly changeAt: number | null;
  /** Whether the newest visit is beyond what the site does by itself; null while too few visits show how much that is. */
  readonly beyond: boolean | null;
}
