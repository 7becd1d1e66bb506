import type { FeatureChart } from '../../core/drift/watch.ts';
import { UserError } from '../../core/user-error.ts';
import type { DiagnoseAnswer, PageChanges, PageChart, Part } from '../../formats/page-data.ts';
import type { Logbook } from '../../logbook/logbook.ts';
import { logbookDriftJson } from '../drift-text.ts';
import { diagnoseLogbook } from '../logbook-drift.ts';
import { missing } from './ask.ts';

/** What `diagnose` says of a logbook, with the charts behind it. */
export async function gatherChanges(logbook: Logbook): Promise<Part<PageChanges>> {
  try {
    const found = await diagnoseLogbook(logbook.folder);
    const times = new Map(logbook.visits.map(({ visit, time }) => [visit, Date.parse(time)]));
    return {
      data: {
        answer: logbookDriftJson(found) as DiagnoseAnswer,
        charts: found.watch.charts
          .filter(({ values }) => values.length > 0)
          .map((chart) => chartOf(chart, times)),
      },
      missing: null,
    };
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return missing(error.message, logbook.folder, 'turfwire measure --port PORT');
  }
}

function chartOf(chart: FeatureChart, times: ReadonlyMap<number, number>): PageChart {
  const { feature, visits, values, expected, ewma, ewmaSignals, cusumSignals } = chart;
  return {
    feature,
    visits,
    timeMs: visits.map((visit) => times.get(visit) ?? 0),
    values: sixDigits(values),
    expected: sixDigits(expected),
    smoothed: ewma === null ? null : { average: sixDigits(ewma.average), limit: sixDigits(ewma.limit) },
    signals: [...new Set([...ewmaSignals, ...cusumSignals])].sort((a, b) => a - b),
  };
}

/** No chart shows more, and a year of hourly visits is long. */
function sixDigits(column: Float64Array): number[] {
  return Array.from(column, (value) => (Number.isFinite(value) ? Number(value.toPrecision(6)) : 0));
}
