import type { StockItem } from '../site.ts';

/** One piece of stock and what is cut from it. */
export interface StockCut {
  readonly stockM: number;
  /** Lengths cut from it, longest first, m. */
  readonly pieces: readonly number[];
  readonly offcutM: number;
}

const NEAR_M = 1e-9;

/** Wire beyond the route that each radial is cut with: the way up the plate, the lug, the far end bent back, m. */
export const ALLOWANCE_M = 0.15;

/** Cuts radials: each piece is its route and the allowance. See {@link cutStock}. */
export function cutRadials(
  stockM: readonly number[],
  routes: readonly { readonly lengthM: number }[],
  allowanceM: number,
): StockCut[] | null {
  return cutStock(
    stockM,
    routes.map(({ lengthM }) => lengthM + allowanceM),
  );
}

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
  const { cuts, missing } = cutAsFarAsItGoes(stockM, piecesM);
  return missing > 0 ? null : cuts.filter(({ pieces }) => pieces.length > 0);
}

/** What radials that were laid have left of the stock. */
export interface StockLeft {
  /** Single lengths, longest first, m. */
  readonly stockM: readonly number[];
  /** Laid radials that cannot have come from it. */
  readonly fromElsewhere: number;
}

/** The stock after radials were cut from it, by the rule by which they would be planned. */
export function stockLeft(
  stockM: readonly number[],
  laid: readonly { readonly lengthM: number }[],
  allowanceM: number,
): StockLeft {
  const pieces = laid.map(({ lengthM }) => lengthM + allowanceM);
  const { cuts, missing } = cutAsFarAsItGoes(stockM, pieces);
  const left = cuts.map(({ offcutM }) => offcutM).filter((offcutM) => offcutM > NEAR_M);
  return { stockM: left.sort((a, b) => b - a), fromElsewhere: missing };
}

function cutAsFarAsItGoes(
  stockM: readonly number[],
  piecesM: readonly number[],
): { readonly cuts: StockCut[]; readonly missing: number } {
  const bins = stockM.map((lengthM) => ({ stockM: lengthM, pieces: [] as number[], offcutM: lengthM }));
  let missing = 0;
  for (const piece of [...piecesM].sort((a, b) => b - a)) {
    let best: (typeof bins)[number] | null = null;
    for (const bin of bins) {
      if (bin.offcutM + NEAR_M >= piece && (best === null || bin.offcutM < best.offcutM)) best = bin;
    }
    if (best === null) {
      missing++;
      continue;
    }
    best.pieces.push(piece);
    best.offcutM = Math.max(0, best.offcutM - piece);
  }
  return { cuts: bins, missing };
}
