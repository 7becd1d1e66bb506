import { type PlannedResistance, plannedWords } from '../core/proof/planned-resistance.ts';
import type { Progress } from '../core/proof/progress.ts';
import type { ProgressStep } from '../core/proof/progress-steps.ts';
import type { StrengthComparison } from '../core/proof/strength.ts';
import { UNKNOWN_QUANTITY } from '../core/quantity-with-uncertainty.ts';
import type { ProgressFound } from './progress.ts';
import { progressNotes } from './progress-notes.ts';

/** The JSON document of `progress`; what cannot be had is null. */
export function progressJson(found: ProgressFound): object {
  const { band, progress, strength, planned, reversal, lastStep } = found;
  const { advice, why, doubling, worthwhileDb, poorGuide } = progress;
  return {
    band: band.band,
    steps: progress.steps.map((step, i) => stepJson(step, strength[i] ?? null, planned[i] ?? null)),
    model: modelJson(progress),
    curve: curveJson(progress),
    next: progress.next ?? NO_WIRES,
    advice,
    why,
    doubling: doubling ?? NO_WIRES,
    worthwhileDb,
    poorGuide,
    lastStep,
    reversal,
    planned: plannedWords(planned) || null,
    notes: progressNotes(found),
  };
}

const NO_WIRES = {
  radials: null,
  wireM: null,
  gainDb: UNKNOWN_QUANTITY,
  gainPerWireDb: null,
  gainPerMetreDb: null,
};

function stepJson(
  { point: _, ...step }: ProgressStep,
  strength: StrengthComparison | null,
  planned: PlannedResistance | null,
): object {
  const places = strength?.places.length ?? 0;
  return {
    ...step,
    strengthDb: {
      value: strength?.medianDb ?? null,
      expandedUncertainty: strength?.expandedUncertaintyDb ?? null,
      coverageFactor: 2,
    },
    strengthPlaces: places,
    planned,
  };
}

/** The fitted curve from few radials to twice as many as there are, of wires as long as the last ones. */
function curveJson({ fit, steps }: Progress): { radials: number; resistanceOhm: number }[] {
  const now = steps.findLast(({ point }) => point !== null)?.point;
  if (fit === null || now === null || now === undefined) return [];
  const counts = Array.from({ length: CURVE_POINTS }, (_, i) =>
    Math.round(2 * now.radials * ((i + 1) / CURVE_POINTS) ** 2),
  );
  return [...new Set(counts)]
    .filter((radials) => radials >= FEWEST_ON_CURVE)
    .map((radials) => ({ radials, resistanceOhm: fit.resistanceOhm({ radials, lengthM: now.lengthM }) }));
}

/** With less than these the methods behind the curve do not hold. */
const FEWEST_ON_CURVE = 4;
const CURVE_POINTS = 24;

function modelJson({ fit, whyNotGround }: Progress): object {
  return {
    name: fit?.name ?? null,
    parameters: fit?.parameters ?? {},
    quality: fit?.quality ?? null,
    gainMeans: fit?.gainMeans ?? null,
    whyNotGround,
  };
}
