import * as v from 'valibot';
import { didYouMean } from '../../core/near-miss.ts';
import { quoted } from '../../core/quoted.ts';
import { DEFAULT_REFERENCE_OHM } from '../../core/sweep/sweep.ts';
import {
  closed,
  count,
  type Field,
  flag,
  given,
  list,
  NOT_NEGATIVE,
  ONE_OR_MORE,
  oneOf,
  POSITIVE,
  quantity,
  text,
} from '../../formats/json/json-fields.ts';
import { DEFAULT_SERIAL_SETTINGS } from '../serial/serial-transport.ts';
import { COLUMN_QUANTITIES, COLUMN_UNITS, columnSet } from './column.ts';
import type { Description, PointsForm } from './description.ts';
import { PLACEHOLDER_NAMES, placeholdersIn } from './placeholders.ts';

/** Text that may hold placeholders. */
function command(what: string): Field<string> {
  return v.pipe(
    text(what),
    v.rawCheck(({ dataset, addIssue }) => {
      if (!dataset.typed) return;
      for (const name of placeholdersIn(dataset.value)) {
        if (PLACEHOLDER_NAMES.includes(name)) continue;
        addIssue({
          message: `unknown placeholder ${quoted(`{${name}}`)}${didYouMean(name, PLACEHOLDER_NAMES) || `; known are ${PLACEHOLDER_NAMES.join(', ')}`}`,
        });
      }
      if (/[\r\n]/u.test(dataset.value))
        addIssue({ message: 'must be one line: give each command a step of its own' });
    }),
  );
}

const WIRE = closed({
  baud: given(count(ONE_OR_MORE)),
  dataBits: given(oneOf([7, 8])),
  stopBits: given(oneOf([1, 2])),
  parity: given(oneOf(['none', 'even', 'odd'])),
  flowControl: given(oneOf(['none', 'rts-cts', 'xon-xoff'])),
  commandEnd: given(oneOf(['\n', '\r\n', '\r'])),
});

const STEP = v.pipe(
  closed({
    send: command('a command'),
    expect: given(command('the answer that is expected')),
    read: given(oneOf(['points'])),
    wait: given(quantity('duration', POSITIVE)),
  }),
  v.check(
    (step) => step.expect === null || step.read === null,
    'has both "expect" and "read": a step has one of them, or neither',
  ),
);

const COLUMN = v.pipe(
  closed({ quantity: oneOf(COLUMN_QUANTITIES), unit: given(text('a unit')) }),
  v.rawTransform(({ dataset: { value }, addIssue, NEVER }) => {
    const units = Object.keys(COLUMN_UNITS[value.quantity]);
    const unit = value.unit ?? (units.length === 1 ? units[0] : undefined);
    if (unit !== undefined && units.includes(unit)) return { quantity: value.quantity, unit };
    addIssue({
      message: `needs the unit of the ${value.quantity}, one of ${units.join(', ')}, got ${quoted(value.unit ?? '')}`,
    });
    return NEVER;
  }),
);

const END = v.pipe(
  closed({
    by: oneOf(['count', 'line', 'silence']),
    line: given(text('the line')),
    wait: given(quantity('duration', POSITIVE)),
  }),
  v.check(
    (end) => (end.by === 'line') === (end.line !== null),
    'needs "line" when, and only when, the end is known by a line',
  ),
);

const POINTS = v.pipe(
  closed({
    layout: oneOf(['line-each', 'one-line']),
    separator: given(v.pipe(v.string(), v.minLength(1))),
    columns: v.pipe(
      list(COLUMN, 1),
      v.check(
        (columns) => columnSet(columns) !== null,
        'must hold one of: resistance and reactance; reflection-real and reflection-imaginary; impedance-magnitude and impedance-phase; reflection-magnitude (or return-loss) and reflection-phase; swr',
      ),
    ),
    end: given(END),
  }),
  v.check(
    (points) => points.layout === 'line-each' || points.end === null,
    'needs no "end" when all points come in one line',
  ),
);

/** A description as it stands in its file; what is left out is null. */
const FILE = v.pipe(
  closed({
    version: v.literal(1, 'must be 1, the version of descriptions that this program reads'),
    name: text('a name'),
    summary: given(text('a sentence')),
    wire: given(WIRE),
    greeting: given(
      closed({ line: given(text('how the greeting begins')), wait: quantity('duration', NOT_NEGATIVE) }),
    ),
    identity: given(
      closed({
        send: text('a command'),
        separator: given(text('what stands between the fields')),
        fields: list(oneOf(['model', 'serial', 'ignore']), 1),
      }),
    ),
    corrected: flag(),
    reference: given(quantity('resistance', POSITIVE)),
    limits: given(
      closed({
        lowest: given(quantity('frequency', POSITIVE)),
        highest: given(quantity('frequency', POSITIVE)),
        points: given(count(ONE_OR_MORE)),
      }),
    ),
    echo: given(flag()),
    prompt: given(text('the prompt')),
    sweep: list(STEP, 1),
    points: POINTS,
    errors: given(
      closed({
        lines: given(list(text('how an error line begins'))),
        query: given(text('a command')),
        none: given(text('the answer when there is none')),
      }),
    ),
    pacing: given(
      closed({
        betweenCommands: given(quantity('duration', NOT_NEGATIVE)),
        reply: given(quantity('duration', POSITIVE)),
        betweenPoints: given(quantity('duration', POSITIVE)),
        sweep: given(quantity('duration', POSITIVE)),
      }),
    ),
  }),
  v.check(
    ({ sweep }) =>
      sweep.filter((step) => step.read === 'points').length === 1 && sweep.at(-1)?.read === 'points',
    'the last step of "sweep", and only that, must read the points',
  ),
);

/** What is taken for granted where a description says nothing; times in ms. */
const DEFAULTS = {
  replyMs: 2000,
  betweenPointsMs: 2000,
  sweepMs: 300_000,
  silenceMs: 1000,
  greetingMs: 2000,
};

/** Reads a description; the output has every default filled in, and times in ms. */
export const DESCRIPTION_SCHEMA: Field<Description> = v.pipe(
  FILE,
  v.transform(({ wire, greeting, identity, limits, errors, pacing, points, ...file }) => ({
    name: file.name,
    summary: file.summary,
    wire: {
      baud: wire?.baud ?? DEFAULT_SERIAL_SETTINGS.baud,
      dataBits: wire?.dataBits ?? DEFAULT_SERIAL_SETTINGS.dataBits,
      stopBits: wire?.stopBits ?? DEFAULT_SERIAL_SETTINGS.stopBits,
      parity: wire?.parity ?? DEFAULT_SERIAL_SETTINGS.parity,
      flowControl: wire?.flowControl ?? DEFAULT_SERIAL_SETTINGS.flowControl,
    },
    commandEnd: wire?.commandEnd ?? '\n',
    prompt: file.prompt,
    greeting: { line: greeting?.line ?? null, waitMs: ms(greeting?.wait) ?? DEFAULTS.greetingMs },
    identity,
    corrected: file.corrected,
    referenceOhm: file.reference ?? DEFAULT_REFERENCE_OHM,
    limits: {
      lowestHz: limits?.lowest ?? null,
      highestHz: limits?.highest ?? null,
      points: limits?.points ?? null,
    },
    echo: file.echo ?? false,
    sweep: file.sweep.map(({ wait, ...step }) => ({ ...step, waitMs: ms(wait) })),
    points: {
      layout: points.layout,
      separator: points.separator ?? ',',
      columns: points.columns,
      end: endOf(points.end),
    },
    errors: { lines: errors?.lines ?? [], query: errors?.query ?? null, none: errors?.none ?? '0' },
    pacing: {
      betweenCommandsMs: ms(pacing?.betweenCommands) ?? 0,
      replyMs: ms(pacing?.reply) ?? DEFAULTS.replyMs,
      betweenPointsMs: ms(pacing?.betweenPoints) ?? DEFAULTS.betweenPointsMs,
      sweepMs: ms(pacing?.sweep) ?? DEFAULTS.sweepMs,
    },
  })),
);

function endOf(end: v.InferOutput<typeof END> | null): PointsForm['end'] {
  if (end === null || end.by === 'count') return { by: 'count' };
  if (end.by === 'line') return { by: 'line', line: end.line as string };
  return { by: 'silence', waitMs: ms(end.wait) ?? DEFAULTS.silenceMs };
}

function ms(seconds: number | null | undefined): number | null {
  return seconds === null || seconds === undefined ? null : seconds * 1000;
}
