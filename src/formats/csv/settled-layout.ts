import { quoted } from '../../core/quoted.ts';
import type { UserError } from '../../core/user-error.ts';
import type { TextLine } from '../lines.ts';
import { OpenReading, wholeFile } from '../problem.ts';
import { DELIMITER_NAMES, type ReadOptions } from '../read-options.ts';
import { plural } from '../words.ts';
import { hasThousands, hasUnit, THOUSANDS } from './cell.ts';
import { findLayout, type Layout } from './layout.ts';

/**
 * The one layout of a table.
 * @throws UserError `layout-ambiguous`; where there is no table, `units-in-cells`, `thousands` or `table-none`
 */
export function settledLayout(head: readonly TextLine[], options: ReadOptions): Layout {
  const layout = findLayout(head, options);
  if (layout === null) throw noTable(head);
  if ('delimiter' in layout) return layout;
  const [one, other] = layout.map(
    ({ delimiter, decimal }) => `cells separated by ${DELIMITER_NAMES[delimiter]} with a decimal ${decimal}`,
  );
  throw new OpenReading(
    'layout-ambiguous',
    `may be read as ${one} or as ${other}`,
    layout.map(({ delimiter, decimal }) => ({ delimiter, decimal })),
  );
}

/** Why there is no row of numbers, as far as the cells tell. */
function noTable(head: readonly TextLine[]): UserError {
  for (const { text, number } of head) {
    const cells = text.split(/[;,\t]/u);
    const withUnit = cells.find(hasUnit);
    if (withUnit !== undefined && cells.length > 1) {
      const message = `units belong in the header, and cells must be bare numbers, got ${quoted(withUnit)}`;
      return wholeFile('units-in-cells', message, number);
    }
    const grouped = text.split(/[;\t]/u).find(hasThousands);
    if (grouped !== undefined) {
      return wholeFile(
        'thousands',
        `a frequency or value must be a number, got ${quoted(grouped)}: ${THOUSANDS}`,
        number,
      );
    }
  }
  return wholeFile(
    'table-none',
    `needs rows of numbers (frequency and at least one value), found none in ${plural(head.length, 'line')}`,
  );
}
