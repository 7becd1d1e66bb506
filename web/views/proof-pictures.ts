import { shownVerdict } from '../../src/core/proof/shown-as.ts';
import { toldMeasure } from '../../src/core/proof/told-measure.ts';
import type { CompareAnswer, ComparedBand } from '../../src/formats/page-data.ts';
import { type Child, h } from '../dom.ts';
import { differenceText, isSoilCorrected, measuresOf, shownAs, sideText } from '../model/comparison-words.ts';
import { dataTable } from '../parts/table.ts';
import { type Interval, intervalPlot } from '../pictures/interval-plot.ts';
import { responsive } from '../pictures/responsive.ts';
import type { Reader } from '../reader.ts';

/** A figure this many uncertainties away from zero is beyond all doubt; the scale need not go further. */
const FARTHEST = 6;

export function measureFigure(band: ComparedBand, reader: Reader): HTMLElement {
  return h(
    'figure',
    {},
    responsive((width) =>
      intervalPlot(measureIntervals(band, reader), width, {
        label: 'in units of its own expanded uncertainty',
        format: (value, decimals) => reader.signed(value, decimals),
        limit: FARTHEST,
      }),
    ),
    h(
      'figcaption',
      {},
      'Each figure after minus before, measured by its own uncertainty: a bar that touches the heavy line shows nothing. ' +
        'Triangle up: improved; triangle down: worse; round: not shown, or neither better nor worse.',
    ),
  );
}

function measureIntervals(band: ComparedBand, reader: Reader): Interval[] {
  return measuresOf(band).map((measure) => {
    const { value, expandedUncertainty: u } = measure.difference;
    const judged = value !== null && u !== null && u > 0;
    return {
      name: shownAs(measure.measure).name,
      value: judged ? value / u : null,
      half: judged ? 1 : null,
      text: differenceText(measure, reader),
      verdict: measure.verdict,
    };
  });
}

export function strengthFigure({ strength }: CompareAnswer, reader: Reader): Child {
  if (strength === null || strength.places.length === 0) return null;
  const rows: Interval[] = strength.places.map(({ place, differenceDb, readingsBefore, readingsAfter }) => ({
    name: place,
    value: differenceDb,
    half: null,
    text: `${reader.signed(differenceDb, 2)} dB of ${readingsBefore} and ${readingsAfter} readings`,
    verdict: 'not shown',
  }));
  const all: Interval = {
    name: 'all places, median',
    value: strength.medianDb,
    half: strength.expandedUncertaintyDb,
    text: `${reader.signed(strength.medianDb, 2)} dB`,
    verdict: strength.verdict,
  };
  return h(
    'figure',
    {},
    responsive((width) =>
      intervalPlot([...rows, all], width, {
        label: 'received strength, dB',
        format: (value, decimals) => reader.signed(value, decimals),
      }),
    ),
    h('figcaption', {}, 'Received strength after minus before, at each place that was read on both sides.'),
  );
}

export function measureTable(band: ComparedBand, reader: Reader): HTMLElement {
  const isCorrected = isSoilCorrected(band);
  const rows = measuresOf(band).map((measure) => {
    const { name, unit } = shownAs(measure.measure);
    const { before, after, byMoisture } = toldMeasure(measure);
    return [
      unit === '' ? name : `${name}, ${unit}`,
      sideText(before, reader),
      sideText(after, reader),
      ...(isCorrected ? [reader.signed(byMoisture.value, byMoisture.decimals)] : []),
      differenceText(measure, reader),
      shownVerdict(measure.measure, measure.verdict),
      measure.meaning,
    ];
  });
  return dataTable(
    `Before and after on ${band.band}`,
    [
      'figure',
      'before',
      'after',
      ...(isCorrected ? ['by moisture'] : []),
      'difference',
      'verdict',
      'what it means',
    ],
    rows,
  );
}
