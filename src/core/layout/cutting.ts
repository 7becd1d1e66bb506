import type { StockItem } from '../site.ts';

/** One piece of stock and what is cut from it. */
export interface StockCut {
  readonly stockM: number;
  /** Lengths cut from it, longest first, m. */
  readonly pieces: readonly number[];
  readonly offcutM: number;
}

const NEAR_M = 1e-9;

/** Single stock lengths, longest first. */
export function stockLengths(stock: readonly StockItem[]): number[] {
  return stock.flatMap(({ lengthM, count }) => Array<number>(count).fill(lengthM)).sort((a, b) => b - a);
}

/**
 * Cuts pieces from stock: longest piece first, each from the stock that it leaves the least of ("best fit
 * decreasing", never more than 11/9 of the least stock plus one; D. S. Johnson, SIAM J. Comput. 3, 1974).
 *
 * @returns one entry per stock piece that is used, or null when the stock does not suffice
 */
export function cutStock(stockM: readonly number[], piecesM: readonly number[]): StockCut[] | null {
  const bins = stockM.map((lengthM) => ({ stockM: lengthM, pieces: [] as number[], offcutM: lengthM }));
  for (const piece of [...piecesM].sort((a, b) => b - a)) {
    let best: (typeof bins)[number] | null = null;
    for (const bin of bins) {
      if (bin.offcutM + NEAR_M >= piece && (best === null || bin.offcutM < best.offcutM)) best = bin;
    }
    if (best === null) return null;
    best.pieces.push(piece);
    best.offcutM = Math.max(0, best.offcutM - piece);
  }
  return bins.filter((bin) => bin.pieces.length > 0);
}
