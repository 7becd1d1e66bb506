import type { Reading } from '../record.ts';
import type { CauseName } from './cause.ts';

/** What readings off a meter say of the causes. */
export interface NoteEvidence {
  /** Added to the ln of each cause's evidence. */
  readonly logFactor: Readonly<Partial<Record<CauseName, number>>>;
  /** What was read, in sentences, with the causes they speak of. */
  readonly sentences: readonly { readonly causes: readonly CauseName[]; readonly text: string }[];
  /** Whether such a fault went by itself before: then a contact may come and go from visit to visit, and not within one. */
  readonly isRecurring?: boolean;
  /** What comes first where the reading of a cause's own check is in already. */
  readonly checks: Readonly<Partial<Record<CauseName, string>>>;
}

/** Nothing was noted: no cause is favoured. */
export const NO_NOTES: NoteEvidence = { logFactor: {}, sentences: [], checks: {} };

/** Notes of different kinds together. */
export function withNotes(a: NoteEvidence, b: NoteEvidence): NoteEvidence {
  const logFactor = { ...a.logFactor };
  for (const [cause, factor] of Object.entries(b.logFactor) as [CauseName, number][]) {
    logFactor[cause] = (logFactor[cause] ?? 0) + factor;
  }
  const isRecurring = [a, b].some((notes) => notes.isRecurring === true);
  return {
    isRecurring,
    logFactor,
    sentences: [...a.sentences, ...b.sentences],
    checks: { ...a.checks, ...b.checks },
  };
}

/**
 * A joint above this has corroded, one below is sound: a clean strap joint is a few milliohms, and a meter's leads leave
 * some 50 milliohms. Common practice.
 */
const BAD_JOINT_OHM = 0.5;
const SOUND_JOINT_OHM = 0.15;
/** A radial with less than this part of the median current has no contact. Common practice. */
const DEAD_SHARE = 0.25;

/**
 * Factors by which a reading since the change moves the odds, our own choice: a joint that reads bad makes
 * `series-joint` 50 times as likely (it names itself) and `intermittent` 5 times; joints that all read sound make
 * `series-joint` a fifth as likely, since direct current may find a path that high frequency does not. Dead radials make
 * `lost-radials` 50 times as likely; currents that all agree a tenth.
 */
const STRONGLY_FOR = Math.log(50);
const FOR = Math.log(5);
const AGAINST = -Math.log(5);
const STRONGLY_AGAINST = -Math.log(10);

/** @param readings - those taken since the antenna was last known to be healthy */
export function noteEvidence(readings: readonly Reading[]): NoteEvidence {
  const logFactor: Partial<Record<CauseName, number>> = {};
  const sentences: NoteEvidence['sentences'][number][] = [];
  const checks: Partial<Record<CauseName, string>> = {};
  const joints = newestOfEach(readings, 'joint-resistance');
  const bad = joints.filter(({ value }) => value >= BAD_JOINT_OHM);
  if (bad.length > 0) {
    logFactor['series-joint'] = STRONGLY_FOR;
    logFactor.intermittent = FOR;
    const [worst] = [...bad].sort((a, b) => b.value - a.value);
    checks['series-joint'] =
      `with the transmitter off, open the joint ${quoted(worst?.subject ?? null)}, clean it to bright metal, close it tight, and sweep again`;
    for (const { subject, value } of bad) {
      sentences.push({
        causes: ['series-joint', 'intermittent'],
        text: `the joint ${quoted(subject)} was read at ${figure(value)} ohm: a high joint names itself`,
      });
    }
  } else if (joints.length > 0 && joints.every(({ value }) => value <= SOUND_JOINT_OHM)) {
    logFactor['series-joint'] = AGAINST;
    sentences.push({
      causes: ['series-joint'],
      text: `against it: every joint that was read is sound (at most ${figure(Math.max(...joints.map(({ value }) => value)))} ohm)`,
    });
  }
  const currents = newestOfEach(readings, 'radial-current');
  if (currents.length >= 3) {
    const sorted = currents.map(({ value }) => value).sort((a, b) => a - b);
    const middle = sorted[sorted.length >> 1] as number;
    const dead = currents.filter(({ value }) => value < DEAD_SHARE * middle);
    logFactor['lost-radials'] = dead.length > 0 ? STRONGLY_FOR : STRONGLY_AGAINST;
    if (dead.length > 0) {
      checks['lost-radials'] =
        `follow ${radialsText(dead)} from the plate outwards, mend joint or wire, and read the current again`;
    }
    sentences.push({
      causes: ['lost-radials'],
      text:
        dead.length > 0
          ? `${radialsText(dead)} carried under a quarter of the middle current`
          : `against it: the currents of all ${currents.length} radials that were read agree`,
    });
  }
  for (const { kind, subject, text } of readings) {
    if (kind === 'inspection' && text !== '') {
      sentences.push({
        causes: ['series-joint', 'intermittent'],
        text: `inspection of ${quoted(subject)}: ${text}`,
      });
    }
  }
  return { logFactor, sentences, checks };
}

/** `radial 3`, `radials 3, 7` */
function radialsText(radials: readonly { readonly subject: string | null }[]): string {
  const numbers = radials.map(({ subject }) => subject ?? '?').join(', ');
  return `${radials.length === 1 ? 'radial' : 'radials'} ${numbers}`;
}

/** The last reading of each subject. */
function newestOfEach(
  readings: readonly Reading[],
  kind: Reading['kind'],
): { subject: string | null; value: number }[] {
  const newest = new Map<string | null, { subject: string | null; value: number }>();
  for (const { kind: own, subject, value } of readings) {
    if (own === kind && value !== null) newest.set(subject, { subject, value });
  }
  return [...newest.values()];
}

function quoted(subject: string | null): string {
  return subject === null ? 'without a name' : `"${subject}"`;
}

/** A reading to three digits: units that were converted leave long tails. */
function figure(value: number): string {
  return String(Number(value.toPrecision(3)));
}
