/** The data of a page: what they are, as text that may stand in a page, and back. */

export type {
  CompareAnswer,
  ComparedBand,
  ComparedMeasure,
  DiagnoseAnswer,
  NextWiresAnswer,
  PlanAnswer,
  PlannedPattern,
  ProgressAnswer,
  ProgressStepAnswer,
} from './page-data/answers.ts';
export type { SafetyAnswer } from './page-data/safety-answer.ts';
export { SweepPacker, unpackVisits } from './page-data/sweep-columns.ts';
export { parsePageData, serialisePageData } from './page-data/text.ts';
export type {
  GappyColumn,
  Missing,
  PageChanges,
  PageChart,
  PageComparison,
  PageData,
  PageField,
  PageLot,
  PageSite,
  PageSweep,
  PageSweeps,
  PageVisit,
  PageWire,
  Part,
} from './page-data/types.ts';
export { PAGE_DATA_VERSION } from './page-data/types.ts';
