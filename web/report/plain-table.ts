import { dataTable } from '../parts/table.ts';

/** A small table for paper, whose caption is heard only: what stands above it says as much. */
export function plainTable(
  name: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
): HTMLElement {
  const table = dataTable(name, head, rows);
  table.classList.add('plain');
  table.querySelector('caption')?.classList.add('only-heard');
  return table;
}
