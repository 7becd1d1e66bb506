import type { DrawnWire } from '../../core/layout/lot-drawing.ts';
import type { Reading, ReferencePlane } from '../../core/record.ts';
import type { Site } from '../../core/site.ts';
import type { CompareAnswer, DiagnoseAnswer, PlanAnswer, ProgressAnswer } from './answers.ts';
import type { SafetyAnswer } from './safety-answer.ts';

/** Raised whenever a page of an older command could not be shown by a newer script, or the other way round. */
export const PAGE_DATA_VERSION = 2;

/** Everything that one page shows: the figures as the rooms computed them, nothing the page would have to guess. */
export interface PageData {
  readonly version: typeof PAGE_DATA_VERSION;
  /** When the page was made, ISO 8601 with zone. */
  readonly made: string;
  /** What made it, such as `Turfwire 0.1.0`. */
  readonly program: string;
  /** What is shown first when the address says nothing. */
  readonly opens: 'questions' | 'report';
  /** Where the page comes from: a file, or a server that tells of changes. */
  readonly source: 'file' | 'loopback' | 'network';
  /** Command lines for what the page itself proposes. */
  readonly commands: { readonly addSweeps: string; readonly compare: string };
  readonly site: PageSite | null;
  readonly sweeps: PageSweeps;
  readonly readings: readonly Reading[];
  readonly lot: Part<PageLot>;
  readonly plan: Part<PlanAnswer>;
  /** One for each band of the site, at least one. */
  readonly progress: Part<readonly ProgressAnswer[]>;
  readonly comparisons: Part<readonly PageComparison[]>;
  readonly changes: Part<PageChanges>;
  readonly safety: Part<SafetyAnswer>;
  /** Under each text of the answers that holds units: the same in the units that are not the site's. */
  readonly otherUnits: Readonly<Record<string, string>>;
}

/** What a view needs, or why it is not there and which command brings it. */
export type Part<T> =
  | { readonly data: T; readonly missing: null }
  | { readonly data: null; readonly missing: Missing };

/** Why a part of the page has no data, and what would give it some. */
export interface Missing {
  /** A sentence for people. */
  readonly why: string;
  /** A command line that can be pasted. */
  readonly command: string;
}

/** What of the site the page uses. */
export type PageSite = Pick<
  Site,
  | 'name'
  | 'units'
  | 'instrument'
  | 'region'
  | 'bandEdges'
  | 'antenna'
  | 'radials'
  | 'soil'
  | 'feedline'
  | 'worthwhileDb'
>;

/** Every stored sweep. Sweeps mostly share their frequencies, so these are kept once. */
export interface PageSweeps {
  /** Frequencies in Hz, strictly rising. */
  readonly grids: readonly (readonly number[])[];
  /** The states of the field, rising in time. */
  readonly fields: readonly PageField[];
  /** In the order of their time. */
  readonly visits: readonly PageVisit[];
  /** Whether sweeps were moved to the feed point through the line of the site. */
  readonly throughLine: boolean;
  /** Visits of the logbook for whose sweeps the page has no room. */
  readonly leftOut: number;
}

/** A visit with its shots. */
export interface PageVisit {
  /** The number in the journal. */
  readonly visit: number;
  /** ISO 8601 with zone. */
  readonly time: string;
  /** The radials that lay there then. */
  readonly radials: number;
  readonly wireM: number;
  /** Index into `fields`. */
  readonly field: number;
  /** False where the user said that the visit does not stand for the antenna as it should be. */
  readonly counts: boolean;
  readonly shots: readonly PageSweep[];
  /** Of the reference load, which watches the instrument. */
  readonly referenceLoad: readonly PageSweep[];
}

/** A sweep as columns; its frequencies are shared with others. */
export interface PageSweep {
  /** Index into `grids`. */
  readonly grid: number;
  readonly plane: ReferencePlane;
  readonly referenceOhm: number;
  /** Whole milliohms, written by `writeSteps`. */
  readonly resistance: string;
  readonly reactance: string;
}

/** The lot, to be drawn by `drawLot`, and what a plan says of it. */
export interface PageLot {
  readonly lot: NonNullable<Site['lot']>;
  readonly wires: readonly PageWire[];
}

/** A wire of the drawing; its label is made on the page, in the reader's units. */
export interface PageWire extends Omit<DrawnWire, 'label'> {
  readonly lengthM: number;
  /** When it was laid or planned; null for one that is only proposed, or that `site.json` alone tells of. */
  readonly since: string | null;
}

/** Two states of the field held against each other. */
export interface PageComparison {
  readonly before: PageField;
  readonly after: PageField;
  readonly answer: CompareAnswer;
}

/** A field state in numbers. */
export interface PageField {
  readonly radials: number;
  readonly wireM: number;
  readonly since: string | null;
}

/** What is watched since the field last changed, and what it means. */
export interface PageChanges {
  readonly answer: DiagnoseAnswer;
  /** Numbers of the visits, rising in time; of several made one after the other for different bands, the first. */
  readonly visits: readonly number[];
  /** When they were, milliseconds since 1970. */
  readonly timeMs: readonly number[];
  /** How far the clock by which each was noted is ahead of UTC, minutes. */
  readonly aheadMin: readonly number[];
  readonly charts: readonly PageChart[];
}

/** One feature of one band over time: columns with one entry a visit, null where a visit does not show it. */
export interface PageChart {
  readonly band: string;
  readonly feature: 'resistanceAtResonanceOhm' | 'resonanceHz' | 'qualityFactor' | 'minSwr' | 'curve';
  readonly values: GappyColumn;
  /** What healthy visits lead one to expect under the conditions of each visit. */
  readonly expected: GappyColumn;
  /** Smoothed difference from the expected, and how far it may go; null for too few healthy visits. */
  readonly smoothed: { readonly average: GappyColumn; readonly limit: GappyColumn } | null;
  /** Visits at which a chart signals. */
  readonly signals: readonly number[];
}

/** Figures over time; null where a visit does not show one. */
export type GappyColumn = readonly (number | null)[];
