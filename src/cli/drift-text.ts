import type { Charted, FeatureChart } from '../core/drift/watch.ts';
import { table } from './answer.ts';
import { diagnosisJson, diagnosisText } from './diagnose-text.ts';
import type { LogbookDrift } from './logbook-drift.ts';
import { numbered } from './numbers.ts';

/** The public JSON of `diagnose` for a logbook: that of loose files, with what was compared and what the charts say. */
export function logbookDriftJson({ diagnosis, watch, before, after }: LogbookDrift): object {
  return {
    ...diagnosisJson(diagnosis),
    visitsBefore: before,
    visitsAfter: after,
    changeAt: watch.changeAt,
    beyond: watch.beyond,
    charts: watch.charts.map(({ feature, standardDeviation, ewmaSignals, cusumSignals, trend }) => ({
      feature,
      standardDeviation,
      ewmaSignals: ewmaSignals.length,
      cusumSignals: cusumSignals.length,
      trendPerYear: trend === null ? null : trend.slope,
      trendInterval: trend === null ? null : trend.interval,
    })),
  };
}

/** First whether anything is beyond what the site does by itself, then the causes, then the charts. */
export function logbookDriftText({ diagnosis, watch, before, after }: LogbookDrift): string {
  const step = watch.changeAt === null ? 'No lasting step shows' : `A step shows at visit ${watch.changeAt}`;
  const now = watch.beyond
    ? 'the newest visit is beyond what this site does by itself'
    : 'the newest visit is within what this site does by itself';
  return [
    `${step}, and ${now}. ${numbered('Visit', after)} ${after.length === 1 ? 'is' : 'are'} held against ${numbered('visit', before)}.`,
    diagnosisText(diagnosis),
    '',
    table([
      ['chart', 'newest', 'expected', 'sd of a visit', 'EWMA', 'CUSUM', 'trend a year'],
      ...watch.charts.filter(({ values }) => values.length > 0).map(chartRow),
    ]),
  ].join('\n');
}

/** How each chart is called, and the factor and decimals of its figures. */
const CHARTS: Readonly<Record<Charted, readonly [name: string, factor: number, decimals: number]>> = {
  resistanceAtResonanceOhm: ['R at X = 0, ohm', 1, 2],
  resonanceHz: ['resonance, kHz', 1e-3, 1],
  qualityFactor: ['Q', 1, 2],
  minSwr: ['best SWR', 1, 3],
  curve: ['curve, |Γ|', 1, 4],
};

function chartRow(chart: FeatureChart): string[] {
  const [name, factor, decimals] = CHARTS[chart.feature];
  const shown = (value: number | null | undefined): string =>
    value === null || value === undefined || !Number.isFinite(value)
      ? '-'
      : (value * factor).toFixed(decimals);
  const newest = chart.visits.at(-1);
  const signal = (signals: readonly number[]): string =>
    chart.standardDeviation === null ? '-' : signals.at(-1) === newest ? 'signals' : 'quiet';
  const { trend } = chart;
  const interval =
    trend?.interval == null ? '' : ` (${shown(trend.interval[0])} to ${shown(trend.interval[1])})`;
  return [
    name,
    shown(chart.values.at(-1)),
    shown(chart.expected.at(-1)),
    shown(chart.standardDeviation),
    signal(chart.ewmaSignals),
    signal(chart.cusumSignals),
    `${shown(trend?.slope)}${interval}`,
  ];
}
