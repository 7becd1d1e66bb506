import type { Problem } from '../src/formats/problem.ts';
import { DELIMITER_NAMES, type ReadOptions } from '../src/formats/read-options.ts';
import { h } from './dom.ts';

/** Buttons for the readings that a refused file leaves open, with a field for its columns; null where none settles it. */
export function openReading(
  { severity, settledBy }: Problem,
  choose: (choice: ReadOptions) => void,
): HTMLElement | null {
  if (severity !== 'refused' || settledBy === null) return null;
  const { choices, examples } = settledBy;
  const columns = choices[0]?.columns;
  return h(
    'div',
    { class: 'open-reading' },
    choices.map((choice) =>
      h('button', { type: 'button', onclick: () => choose(choice) }, `Read as ${readingText(choice)}`),
    ),
    examples && columns !== undefined ? columnsField(columns, choose) : null,
  );
}

function columnsField(example: string, choose: (choice: ReadOptions) => void): HTMLElement {
  const input = h('input', { type: 'text', required: true, value: example, spellcheck: 'false' });
  const take = (event: Event): void => {
    event.preventDefault();
    choose({ columns: input.value });
  };
  return h(
    'form',
    { onsubmit: take },
    h('label', {}, 'Or name each column: ', input),
    h('button', { type: 'submit' }, 'Read again'),
  );
}

function readingText({ columns, delimiter, decimal, unit, angle, referenceOhm, port }: ReadOptions): string {
  return [
    columns === undefined ? null : `columns ${columns}`,
    delimiter === undefined ? null : `cells separated by ${DELIMITER_NAMES[delimiter]}`,
    decimal === undefined ? null : `decimal ${decimal}`,
    unit ?? null,
    angle === undefined ? null : { deg: 'degrees', rad: 'radians' }[angle],
    referenceOhm === undefined ? null : `against ${referenceOhm} ohm`,
    port === undefined ? null : `port ${port}`,
  ]
    .filter((part) => part !== null)
    .join(', ');
}
