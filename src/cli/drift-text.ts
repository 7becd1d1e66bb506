import type { Charted, FeatureChart } from '../core/drift/feature-chart.ts';
import type { Round } from '../core/drift/rounds.ts';
import { reachesInto } from '../core/visits-in-band.ts';
import { plural } from '../formats/words.ts';
import { table } from './answer.ts';
import { apartSentences, JUDGED_BECAUSE, numbersOf, toldApart } from './apart-text.ts';
import { diagnosisJson, diagnosisText } from './diagnose-text.ts';
import type { Propose } from './drift-refusals.ts';
import type { LogbookDrift } from './logbook-drift.ts';
import { lostNotes } from './logbook-visits.ts';
import { numbered, numbersText } from './numbers.ts';
import { commandOf } from './pasteable.ts';
import { simulatedNotes } from './simulated-apart.ts';
import { wiresText } from './wires-text.ts';

/** The public JSON of `diagnose` for a logbook: that of loose files, with what was compared and what the charts say. */
export function logbookDriftJson(found: LogbookDrift, propose?: Propose): object {
  const { bands, diagnosis, watch, baseline, judged, judgedBy, wires, rounds } = found;
  const apart = apartSentences(found);
  return {
    ...diagnosisJson({ ...diagnosis, cannotTell: limitsOf(found) }),
    visitsBefore: numbersOf(baseline),
    visitsAfter: numbersOf(judged),
    changeAt: watch.changeAt === null ? null : firstVisit(rounds[watch.changeAt] as Round),
    beyond: watch.beyond,
    judgedBecause: judgedBy === null ? null : JUDGED_BECAUSE[judgedBy],
    standApart: toldApart(found).map((told, i) => ({ ...told, meaning: apart[i] })),
    fieldChange: wires.between,
    fieldChangedSince: wires.since,
    notes: notesOf(found, propose),
    charts: watch.charts.map(({ band, feature, standardDeviation, ewmaSignals, cusumSignals, trend }) => ({
      band: bands[band]?.band,
      feature,
      standardDeviation,
      ewmaSignals: ewmaSignals.length,
      cusumSignals: cusumSignals.length,
      trendPerYear: trend === null ? null : trend.slope,
      trendInterval: trend === null ? null : trend.interval,
    })),
  };
}

/**
 * First whether anything is beyond what the site does by itself, and what was held against what; then causes and charts.
 *
 * @param propose - how a command is called
 */
export function logbookDriftText(found: LogbookDrift, propose?: Propose): string {
  const { diagnosis, watch } = found;
  const shown = watch.charts.filter(({ values }) => values.length > 0);
  return [
    ...wiresSentences(found, propose),
    stepSentence(found),
    ...apartSentences(found),
    ...comparedLines(found),
    ...notesOf(found, propose).map((note) => `- ${note}.`),
    '',
    diagnosisText({ ...diagnosis, cannotTell: limitsOf(found) }),
    ...(shown.length === 0 ? [] : ['', chartsTable(found, shown), CHARTS_KEY]),
  ].join('\n');
}

const CHARTS_KEY =
  'EWMA and CUSUM are control charts: they signal where the newest visit is beyond what healthy visits do by themselves. ' +
  'sd: standard deviation. -: not shown, or too few visits.';

/** What cannot be told, above all across a change of the wires. */
function limitsOf({ diagnosis: { cannotTell }, wires: { between } }: LogbookDrift): readonly string[] {
  return between === null ? cannotTell : [FIELD_LIMIT, ...cannotTell];
}

const FIELD_LIMIT =
  'the wires that were laid or lifted moved resistance, Q and SWR without any fault, and no cause stands for that: soil, ' +
  'joint, radials and even the element can be blamed for it; a jump from shot to shot and a moved reference load still tell';

/** What the answer did without, and what may have spoilt its baseline. */
function notesOf({ lost, repairs, baseline, judged }: LogbookDrift, propose: Propose = commandOf): string[] {
  const rounds = [...baseline, ...judged];
  const visits = rounds.flatMap((round) => round.visits);
  return [
    ...simulatedNotes({ visits }, numbersOf(rounds)),
    ...lostNotes(lost),
    ...repairs.map(
      (day) =>
        `a repair was noted on ${day}, amid the baseline: where visits before it show the fault, keep them out by ` +
        `\`${propose(['note', 'baseline', 'N', 'no'])}\``,
    ),
  ];
}

/** What was done to the field, before anything else: it may explain all of the change. */
function wiresSentences(
  { wires: { between, since }, baseline, judged }: LogbookDrift,
  propose: Propose = commandOf,
): string[] {
  const told: string[] = [];
  if (between !== null) {
    told.push(
      `The field itself changed between these visits: ${wiresText(between)}. Whether the wires helped is another question: ` +
        `\`${propose(['compare', '--before', numbersText(numbersOf(baseline)), '--after', numbersText(numbersOf(judged))])}\``,
      '',
    );
  }
  if (since !== null) {
    told.push(
      `No visit has been made since the field changed: ${wiresText(since)}. This speaks of the field before.`,
      '',
    );
  }
  return told;
}

/** What the charts say; they look at one figure at a time, causes at all of the curve: where they disagree, both are told. */
function stepSentence({ watch: { changeAt, beyond }, rounds, judged, diagnosis }: LogbookDrift): string {
  const newest = rounds.at(-1) as Round;
  const isUnchanged = diagnosis.causes[0]?.cause === 'none';
  const signals = changeAt !== null || beyond === true;
  const disagrees = judged.includes(newest) && signals === isUnchanged;
  if (changeAt !== null) {
    const step = `A step ${disagrees ? 'in single figures ' : ''}shows at ${dated([rounds[changeAt] as Round])}`;
    if (disagrees) return `${step}; ${WHOLE_IS_CALM}.`;
    return beyond === false
      ? `${step}; ${named([newest])}, the newest, is back within what this site does by itself.`
      : `${step}, and ${named([newest])}, the newest, still shows it.`;
  }
  if (beyond === null) {
    return 'The charts cannot signal yet: that takes three healthy visits before the newest.';
  }
  if (disagrees) {
    return beyond
      ? `No lasting step shows. A chart of a single figure signals at the newest, ${named([newest])}; ${WHOLE_IS_CALM}.`
      : `No lasting step shows, and no chart signals at the newest, ${named([newest])}; weighed as a whole, its curve has changed all the same.`;
  }
  return `No lasting step shows, and the newest, ${named([newest])}, is ${beyond ? 'beyond' : 'within'} what this site does by itself.`;
}

const WHOLE_IS_CALM = 'weighed as a whole, the curve is within what the healthy visits do';

/** Which visits were judged by which, and over which frequencies. */
function comparedLines({
  bands,
  baseline,
  judged,
  judgedBy,
  chosenFrom,
  wires,
  diagnosis,
}: LogbookDrift): string[] {
  const chosen =
    chosenFrom === null || chosenFrom <= baseline.length
      ? ''
      : ` (of ${chosenFrom} healthy ones, the most alike in weather and season)`;
  const over =
    wires.between !== null
      ? ''
      : `, over the same ${wires.radials === 0 ? 'field' : plural(wires.radials, 'radial')}`;
  const left =
    wires.roundsElsewhere === 0
      ? ''
      : `; ${plural(wires.roundsElsewhere, 'visit')} over another field left out`;
  const ranges = diagnosis.ranges.map(({ fromHz, toHz, visitsBefore, visitsAfter }) => {
    const part =
      visitsBefore < baseline.length || visitsAfter < judged.length
        ? ` (${plural(visitsBefore, 'visit')} against ${visitsAfter})`
        : '';
    return `${(fromHz / 1e6).toFixed(2)} to ${(toHz / 1e6).toFixed(2)} MHz${part}`;
  });
  const unread = bands.filter((band) => !diagnosis.ranges.some((range) => reachesInto(range, band)));
  const charted =
    unread.length === 0 ? '' : `; ${unread.map(({ band }) => band).join(', ')}: by charts alone`;
  const isEarlier = Date.parse((judged.at(-1) as Round).time) < Date.parse((baseline[0] as Round).time);
  const because = judgedBy === null ? '' : `: ${JUDGED_BECAUSE[judgedBy]}`;
  return [
    `Judged: ${dated(judged)}${isEarlier ? ', older than the baseline' : ''}${because}.`,
    `Baseline: ${dated(baseline)}${chosen}${over}${left}.`,
    `Weighed: ${ranges.join(' and ')}${charted}.`,
  ];
}

function firstVisit({ visits }: Round): number {
  return visits[0]?.visit as number;
}

function named(rounds: readonly Round[]): string {
  return numbered(
    'visit',
    numbersOf(rounds).sort((a, b) => a - b),
  );
}

/** `visits 7-9 (2025-03-01 to 2025-06-10)` */
function dated(rounds: readonly Round[]): string {
  const days = [rounds[0], rounds.at(-1)].map((round) => (round as Round).time.slice(0, 10));
  return `${named(rounds)} (${[...new Set(days)].join(' to ')})`;
}

/** How each chart is called, and the factor and decimals of its figures. */
const CHARTS: Readonly<Record<Charted, readonly [name: string, factor: number, decimals: number]>> = {
  resistanceAtResonanceOhm: ['R at X = 0, ohm', 1, 2],
  resonanceHz: ['resonance, kHz', 1e-3, 1],
  qualityFactor: ['Q', 1, 2],
  minSwr: ['best SWR', 1, 3],
  curve: ['curve, |Γ|', 1, 4],
};

function chartsTable({ bands }: LogbookDrift, charts: readonly FeatureChart[]): string {
  return table([
    ['band', 'figure', 'newest', 'expected', 'sd of a visit', 'EWMA', 'CUSUM', 'trend a year'],
    ...charts.map((chart) => [bands[chart.band]?.band ?? '', ...chartRow(chart)]),
  ]);
}

function chartRow(chart: FeatureChart): string[] {
  const [name, factor, decimals] = CHARTS[chart.feature];
  const shown = (value: number | null | undefined): string =>
    value === null || value === undefined || !Number.isFinite(value)
      ? '-'
      : (value * factor).toFixed(decimals);
  const newest = chart.visits.at(-1);
  const signal = (signals: readonly number[]): string =>
    chart.standardDeviation === null ? '-' : signals.at(-1) === newest ? 'signals' : 'quiet';
  const { slope, interval = null } = chart.trend ?? {};
  return [
    name,
    shown(chart.values.at(-1)),
    shown(chart.expected.at(-1)),
    shown(chart.standardDeviation),
    signal(chart.ewmaSignals),
    signal(chart.cusumSignals),
    interval === null ? '-' : `${shown(slope)} (${shown(interval[0])} to ${shown(interval[1])})`,
  ];
}
