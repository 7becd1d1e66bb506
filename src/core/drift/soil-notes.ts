import type { Conditions } from './conditions.ts';
import type { NoteEvidence } from './notes.ts';

/** Moisture this far outside of that of the healthy visits is another soil; this near to it, the same. Fraction. */
const OTHER_MOISTURE = 0.05;
const SAME_MOISTURE = 0.02;
/** Rain in the week before that wets the ground, m. */
const WETTING_RAIN_M = 0.01;

/** Factors on the odds of `soil-moisture`, our own choice: small ones, for a meter in one spot speaks for that spot. */
const FOR = Math.log(3);
const HALF_FOR = Math.log(1.7);
const AGAINST = -Math.log(3);

/** What was noted of the soil, of the visits that are judged against those of the baseline. */
export function soilEvidence(before: readonly Conditions[], after: readonly Conditions[]): NoteEvidence {
  return moistureEvidence(before, after) ?? rainEvidence(before, after) ?? saying(0, null);
}

/** Null where either side lacks a note. */
function moistureEvidence(before: readonly Conditions[], after: readonly Conditions[]): NoteEvidence | null {
  const [was, is] = [before, after].map((all) => rangeOf(all.map(({ moisture }) => moisture)));
  if (was == null || is == null) return null;
  const told = `soil moisture was noted at ${percentText(is)}, against ${percentText(was)} at the baseline visits`;
  const gap = Math.max(is.least - was.most, was.least - is.most);
  if (gap >= OTHER_MOISTURE) return saying(FOR, told);
  const isSame = is.least >= was.least - SAME_MOISTURE && is.most <= was.most + SAME_MOISTURE;
  return isSame ? saying(AGAINST, `against it: ${told}`) : saying(0, told);
}

/** Null without rain to speak of, or where the baseline saw as much. */
function rainEvidence(before: readonly Conditions[], after: readonly Conditions[]): NoteEvidence | null {
  const [was, is] = [before, after].map((all) => rangeOf(all.map(({ rainM }) => rainM)));
  if (was == null || is == null || is.most < Math.max(WETTING_RAIN_M, 2 * was.most)) return null;
  return saying(HALF_FOR, `${Math.round(1000 * is.most)} mm of rain was noted in the week before`);
}

function saying(logFactor: number, text: string | null): NoteEvidence {
  return {
    logFactor: logFactor === 0 ? {} : { 'soil-moisture': logFactor },
    sentences: text === null ? [] : [{ causes: ['soil-moisture'], text }],
    checks: {},
  };
}

interface Range {
  readonly least: number;
  readonly most: number;
}

function rangeOf(values: readonly (number | null)[]): Range | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : { least: Math.min(...known), most: Math.max(...known) };
}

/** `17 to 20 %` */
function percentText({ least, most }: Range): string {
  const [low, high] = [Math.round(100 * least), Math.round(100 * most)];
  return low === high ? `${low} %` : `${low} to ${high} %`;
}
