import type uPlot from 'uplot';

/**
 * Draws lines of one grid point by point. The places along are turned into pixels once for all of them, which spares
 * most of the work where a hundred lines share their frequencies.
 *
 * @param along - of all lines, rising, none of their values missing
 */
export function straightPaths(along: Float64Array): uPlot.Series.PathBuilder {
  let drawnFor = '';
  const xs = new Float64Array(along.length);
  return (chart, seriesIndex, first, last) => {
    const { bbox, scales } = chart;
    const [xFrom, xTo] = [scales['x']?.min ?? 0, scales['x']?.max ?? 1];
    const [yFrom, yTo] = [scales['y']?.min ?? 0, scales['y']?.max ?? 1];
    const room = `${bbox.left} ${bbox.width} ${xFrom} ${xTo}`;
    if (room !== drawnFor) {
      drawnFor = room;
      const perPlace = bbox.width / (xTo - xFrom);
      for (let i = 0; i < xs.length; i++) xs[i] = bbox.left + ((along[i] as number) - xFrom) * perPlace;
    }
    const values = chart.data[seriesIndex] as Float64Array;
    const perValue = bbox.height / (yTo - yFrom);
    const bottom = bbox.top + bbox.height;
    const stroke = new Path2D();
    stroke.moveTo(xs[first] as number, bottom - ((values[first] as number) - yFrom) * perValue);
    for (let i = first + 1; i <= last; i++) {
      stroke.lineTo(xs[i] as number, bottom - ((values[i] as number) - yFrom) * perValue);
    }
    return { stroke };
  };
}
