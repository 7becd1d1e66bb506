import { ALLOWANCE_M, stockLeft, stockLengths } from '../core/layout/cutting.ts';
import type { WantedField } from '../core/layout/plan.ts';
import { SHORTEST_STRAIGHT_M } from '../core/layout/route.ts';
import { plural } from '../core/plural.ts';
import { formatLength, parseQuantity } from '../core/quantity.ts';
import { quoted } from '../core/quoted.ts';
import { UserError } from '../core/user-error.ts';
import type { PlannedSite, PlanOptions } from './plan-options.ts';

/** Wire to plan with, and what each radial takes of it beyond its route. */
interface WireAtHand {
  /** Single lengths; null when neither site nor command line names any. */
  readonly stockM: readonly number[] | null;
  readonly allowanceM: number;
  readonly notes: readonly string[];
}

/**
 * The stock of the command line as it stands; that of the site less what the journal says was laid of it.
 * @throws UserError `plan-stock-short`, `plan-stock-used`, `plan-allowance`
 */
export function wireAtHand({ site, cutFromStock }: PlannedSite, options: PlanOptions): WireAtHand {
  const allowanceM =
    options.allowance === undefined
      ? ALLOWANCE_M
      : notNegative(parseQuantity(options.allowance, 'length', '--allowance'), options.allowance);
  const leastM = options.count === undefined ? SHORTEST_STRAIGHT_M + allowanceM : 0;
  if (options.stock !== undefined) {
    const stockM = stockLengths(options.stock.map((text) => parseField(text, '--stock')));
    if (Math.max(...stockM) < leastM) {
      const message = `needs a piece of at least ${formatLength(leastM, site.units, 2)}`;
      throw new UserError('plan-stock-short', message, { kind: 'command-line', place: { field: '--stock' } });
    }
    return { stockM, allowanceM, notes: [] };
  }
  if (site.stock.length === 0) return { stockM: null, allowanceM, notes: [] };
  const bought = stockLengths(site.stock);
  if (cutFromStock.length === 0) return { stockM: bought, allowanceM, notes: [] };
  const { stockM, fromElsewhere } = stockLeft(bought, cutFromStock, allowanceM);
  const length = (piecesM: readonly number[]): string =>
    formatLength(
      piecesM.reduce((sum, each) => sum + each, 0),
      site.units,
    );
  const laid = plural(cutFromStock.length, 'laid radial');
  if (Math.max(0, ...stockM) < leastM) {
    throw new UserError(
      'plan-stock-used',
      `${laid} used up the ${length(bought)} that site.json lists: add what you have bought since, or say what is at hand with --stock`,
      { place: { field: 'stock' } },
    );
  }
  const notes = [
    `site.json lists ${length(bought)} of stock; ${laid} used some of it, which leaves ${length(stockM)} (if site.json already lists only what is left, repeat that with --stock)`,
  ];
  if (fromElsewhere > 0)
    notes.push(`${plural(fromElsewhere, 'laid radial')} cannot have come from that stock`);
  return { stockM, allowanceM, notes };
}

/** More wires than any field has: a slip of the keys would fill the memory. */
const MOST_WIRES = 1000;

/** `16x10m` as a count and a length. */
export function parseField(text: string, option: string, most: number = MOST_WIRES): WantedField {
  const match = /^(\d{1,9})\s*[x×]\s*(.+)$/iu.exec(text.trim());
  if (match === null || Number(match[1]) < 1 || Number(match[1]) > most) {
    throw new UserError(
      'plan-field-unclear',
      `needs a count from 1 to ${most} and a length such as 16x10m, got ${quoted(text)}`,
      { kind: 'command-line', place: { field: option } },
    );
  }
  return {
    count: Number(match[1]),
    lengthM: positive(parseQuantity(match[2] as string, 'length', option), match[2] as string, option),
  };
}

function positive(lengthM: number, text: string, field: string): number {
  if (lengthM > 0) return lengthM;
  throw new UserError('plan-length-zero', `needs a length above 0, got ${quoted(text)}`, {
    kind: 'command-line',
    place: { field },
  });
}

function notNegative(lengthM: number, text: string): number {
  if (lengthM >= 0) return lengthM;
  throw new UserError('plan-allowance', `needs a length of 0 or more, got ${quoted(text)}`, {
    kind: 'command-line',
    place: { field: '--allowance' },
  });
}
