import type { FeatureChart } from '../../core/drift/feature-chart.ts';
import { UserError } from '../../core/user-error.ts';
import { minutesAhead } from '../../formats/clock.ts';
import type { DiagnoseAnswer, GappyColumn, PageChanges, PageChart, Part } from '../../formats/page-data.ts';
import type { Logbook } from '../../logbook/logbook.ts';
import { logbookDriftJson } from '../drift-text.ts';
import { diagnoseLogbook } from '../logbook-drift.ts';
import { missing } from './ask.ts';

/** What `diagnose` says of a logbook, with the charts behind it. */
export async function gatherChanges(logbook: Logbook): Promise<Part<PageChanges>> {
  try {
    const found = await diagnoseLogbook(logbook);
    const { rounds, bands, watch } = found;
    const visits = rounds.map((round) => round.visits[0]?.visit as number);
    return {
      data: {
        answer: logbookDriftJson(found) as DiagnoseAnswer,
        visits,
        timeMs: rounds.map(({ time }) => Date.parse(time)),
        aheadMin: rounds.map(({ time }) => minutesAhead(time)),
        charts: watch.charts
          .filter(({ values }) => values.length > 0)
          .map((chart) => chartOf(chart, bands[chart.band]?.band as string, visits)),
      },
      missing: null,
    };
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return missing(error.message, logbook.folder, 'turfwire measure --port /dev/ttyACM0 --shots 3');
  }
}

function chartOf(chart: FeatureChart, band: string, visits: readonly number[]): PageChart {
  const { feature, places, values, expected, ewma, ewmaSignals, cusumSignals } = chart;
  const signals = new Set([...ewmaSignals, ...cusumSignals]);
  const column = (of: Float64Array): GappyColumn => {
    const filled = visits.map((): number | null => null);
    places.forEach((place, i) => {
      filled[place] = sixDigits(of[i]);
    });
    return filled;
  };
  return {
    band,
    feature,
    values: column(values),
    expected: column(expected),
    smoothed: ewma === null ? null : { average: column(ewma.average), limit: column(ewma.limit) },
    signals: places.flatMap((place, i) =>
      signals.has(chart.visits[i] as number) ? [visits[place] as number] : [],
    ),
  };
}

/** No chart shows more, and a year of hourly visits is long. */
function sixDigits(value: number | undefined): number | null {
  return value === undefined || !Number.isFinite(value) ? null : Number(value.toPrecision(6));
}
