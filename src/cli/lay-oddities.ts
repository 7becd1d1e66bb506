import type { RadialEvent } from '../core/journal-event.ts';
import { formatLength } from '../core/quantity.ts';
import type { Lot } from '../core/site.ts';
import type { Logbook } from '../logbook/logbook.ts';

/**
 * What looks like a slip of the pen about wires just laid. They are logged all the same: a wire may leave the lot, and
 * stock may have been bought that the site does not tell.
 *
 * @param logbook - with them in it
 */
export function layOddities(laid: readonly RadialEvent[], { site, fieldStates }: Logbook): string[] {
  const { lot, stock, units } = site;
  const length = (lengthM: number) => formatLength(lengthM, units);
  const longest = laid.reduce(
    (most, each) => (each.lengthM > most.lengthM ? each : most),
    laid[0] as RadialEvent,
  );
  const odd: string[] = [];
  const acrossM = lot === null ? Number.POSITIVE_INFINITY : diagonalM(lot);
  if (longest.lengthM > acrossM) {
    odd.push(
      `radial ${longest.number} is ${length(longest.lengthM)} long, and the lot in site.json only ${length(acrossM)} from ` +
        'end to end: it is logged as typed all the same',
    );
  }
  const stockM = stock.reduce((sum, each) => sum + each.count * each.lengthM, 0);
  const fieldM = fieldStates.at(-1)?.wireM ?? 0;
  if (stock.length > 0 && fieldM > stockM) {
    odd.push(
      `${length(fieldM)} of wire is laid now, and the stock in site.json is only ${length(stockM)} in all: it is logged as ` +
        'typed all the same',
    );
  }
  const pieceM = Math.max(0, ...stock.map(({ lengthM }) => lengthM));
  if (stock.length > 0 && fieldM <= stockM && longest.lengthM > pieceM) {
    odd.push(
      `radial ${longest.number} is ${length(longest.lengthM)} long, and the longest piece of the stock in site.json only ` +
        `${length(pieceM)}: it is logged as typed all the same; look after the joint if it was pieced together`,
    );
  }
  return odd;
}

/** The longest way between two corners of a lot, m. */
function diagonalM({ outline }: Lot): number {
  let longestM = 0;
  for (const [east, north] of outline) {
    for (const [otherEast, otherNorth] of outline) {
      longestM = Math.max(longestM, Math.hypot(east - otherEast, north - otherNorth));
    }
  }
  return longestM;
}
