import type { FeatureChart } from '../../core/drift/watch.ts';
import { UserError } from '../../core/user-error.ts';
import type { DiagnoseAnswer, GappyColumn, PageChanges, PageChart, Part } from '../../formats/page-data.ts';
import type { Logbook } from '../../logbook/logbook.ts';
import { logbookDriftJson } from '../drift-text.ts';
import { diagnoseLogbook } from '../logbook-drift.ts';
import { missing } from './ask.ts';

/** What `diagnose` says of a logbook, with the charts behind it. */
export async function gatherChanges(logbook: Logbook): Promise<Part<PageChanges>> {
  try {
    const found = await diagnoseLogbook(logbook.folder);
    const shown = new Set(found.watch.charts.flatMap((chart) => chart.visits));
    const visits = logbook.visits
      .filter(({ visit }) => shown.has(visit))
      .sort((a, b) => Date.parse(a.time) - Date.parse(b.time) || a.visit - b.visit);
    const numbers = visits.map(({ visit }) => visit);
    return {
      data: {
        answer: logbookDriftJson(found) as DiagnoseAnswer,
        visits: numbers,
        timeMs: visits.map(({ time }) => Date.parse(time)),
        charts: found.watch.charts
          .filter(({ values }) => values.length > 0)
          .map((chart) => chartOf(chart, numbers)),
      },
      missing: null,
    };
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return missing(error.message, logbook.folder, 'turfwire measure --port PORT');
  }
}

function chartOf(chart: FeatureChart, visits: readonly number[]): PageChart {
  const { feature, values, expected, ewma, ewmaSignals, cusumSignals } = chart;
  const places = new Map(chart.visits.map((visit, i) => [visit, i]));
  const column = (of: Float64Array): GappyColumn =>
    visits.map((visit) => sixDigits(of[places.get(visit) ?? -1]));
  return {
    feature,
    values: column(values),
    expected: column(expected),
    smoothed: ewma === null ? null : { average: column(ewma.average), limit: column(ewma.limit) },
    signals: [...new Set([...ewmaSignals, ...cusumSignals])].sort((a, b) => a - b),
  };
}

/** No chart shows more, and a year of hourly visits is long. */
function sixDigits(value: number | undefined): number | null {
  return value === undefined || !Number.isFinite(value) ? null : Number(value.toPrecision(6));
}
