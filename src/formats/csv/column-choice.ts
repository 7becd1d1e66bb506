import type { NetworkParameter, PairFormat } from '../network-pair.ts';
import { OpenReading } from '../problem.ts';
import { type Changes, columnsText } from './columns-text.ts';
import type { Header } from './header.ts';
import type { Role } from './header-words.ts';

/** Which columns are read, and as what. */
export type ColumnChoice =
  | {
      readonly kind: 'pair';
      readonly parameter: NetworkParameter;
      readonly format: PairFormat;
      readonly frequency: number;
      readonly first: number;
      readonly second: number;
    }
  | {
      readonly kind: 'scalar';
      readonly quantity: 'swr' | 'reflection-size' | 'reflection-db' | 'reactance-size';
      readonly frequency: number;
      readonly first: number;
      /** The unsigned reactance beside a resistance; else -1. */
      readonly second: number;
    };

/** Why no columns can be chosen, and what the columns would be in each reading that is open. */
interface Open {
  readonly wrong: string;
  readonly readings: readonly Changes[];
}

/**
 * Chooses the columns that tell most: resistance and reactance before size and phase, both before the size of the
 * reflection alone.
 *
 * @param line - where the rows begin, for the message
 * @throws UserError `columns-open` when nothing can be chosen, or two columns have an equal claim
 */
export function chooseColumns(header: Header, line: number): ColumnChoice {
  const chosen = choose(header);
  const open = 'wrong' in chosen ? chosen : twofold(header, chosen);
  if (open === null) return chosen as ColumnChoice;
  const columns = open.readings.map((changes) => columnsText(header, changes));
  throw new OpenReading(
    'columns-open',
    open.wrong,
    (columns.length > 0 ? columns : [EXAMPLE_COLUMNS]).map((columns) => ({ columns })),
    { line, examples: columns.length === 0 },
  );
}

const EXAMPLE_COLUMNS = 'MHz,R,X';

function choose(header: Header): ColumnChoice | Open {
  const at = (role: Role): number => header.findIndex((column) => column?.role === role);
  const frequency = at('frequency');
  if (frequency < 0) return { wrong: 'needs a frequency column', readings: [] };
  const pair = (
    parameter: NetworkParameter,
    format: PairFormat,
    first: number,
    second: number,
  ): ColumnChoice | null =>
    first < 0 || second < 0 ? null : { kind: 'pair', parameter, format, frequency, first, second };
  const sizeDb = firstOf(at('reflection-db'), at('return-loss'));
  const sizeOfReflection = firstOf(at('reflection-size'), at('reflection'));
  const sizeOfImpedance = at('impedance-size');
  const hasReflection = sizeDb >= 0 || sizeOfReflection >= 0;
  const phase = at('phase');
  const choice =
    pair('Z', 'RI', at('resistance'), at('reactance')) ??
    pair('S', 'RI', at('reflection-re'), at('reflection-im')) ??
    pair('Z', 'MA', sizeOfImpedance, firstOf(at('impedance-phase'), hasReflection ? -1 : phase)) ??
    pair('S', 'DB', sizeDb, firstOf(at('reflection-phase'), sizeOfImpedance >= 0 ? -1 : phase)) ??
    pair('S', 'MA', sizeOfReflection, firstOf(at('reflection-phase'), sizeOfImpedance >= 0 ? -1 : phase));
  return choice ?? openPair(at) ?? scalarChoice(at, frequency);
}

/** Two columns that make a pair, of which it is not said of what. */
function openPair(at: (role: Role) => number): Open | null {
  const [re, im, size, phase] = [at('re'), at('im'), at('size'), at('phase')];
  if (phase >= 0 && at('impedance-size') >= 0) {
    return {
      wrong: 'the phase may be that of the impedance or that of the reflection',
      readings: [{ [phase]: 'impedance-phase' }, { [phase]: 'reflection-phase' }],
    };
  }
  if (re >= 0 && im >= 0) {
    return {
      wrong: 'real and imaginary part may be those of the impedance or of the reflection',
      readings: [
        { [re]: 'resistance', [im]: 'reactance' },
        { [re]: 'reflection-re', [im]: 'reflection-im' },
      ],
    };
  }
  if (size >= 0 && phase >= 0) {
    return {
      wrong: 'size and phase may be those of the impedance or of the reflection',
      readings: [
        { [size]: 'impedance-size', [phase]: 'impedance-phase' },
        { [size]: 'reflection-size', [phase]: 'reflection-phase' },
      ],
    };
  }
  return null;
}

function scalarChoice(at: (role: Role) => number, frequency: number): ColumnChoice | Open {
  const scalar = (
    quantity: 'swr' | 'reflection-size' | 'reflection-db',
    first: number,
  ): ColumnChoice | null => (first < 0 ? null : { kind: 'scalar', quantity, frequency, first, second: -1 });
  const [resistance, reactanceSize] = [at('resistance'), at('reactance-size')];
  if (resistance >= 0 && reactanceSize >= 0) {
    return {
      kind: 'scalar',
      quantity: 'reactance-size',
      frequency,
      first: resistance,
      second: reactanceSize,
    };
  }
  return (
    scalar('reflection-db', firstOf(at('return-loss'), at('reflection-db'))) ??
    scalar('reflection-size', firstOf(at('reflection-size'), at('reflection'))) ??
    scalar('swr', at('swr')) ?? {
      wrong: 'needs columns such as R and X, |Z| and phase, S11 real and imaginary, return loss or SWR',
      readings: [],
    }
  );
}

/** Several columns of a role that was chosen: which one is meant cannot be told. */
function twofold(header: Header, choice: ColumnChoice): Open | null {
  const rivals = [choice.frequency, choice.first, choice.second]
    .filter((column) => column >= 0)
    .map((column) => header.flatMap((meaning, k) => (meaning?.role === header[column]?.role ? [k] : [])))
    .filter((columns) => columns.length > 1);
  const [columns] = rivals;
  if (columns === undefined) return null;
  const only = (which: 0 | -1): Changes =>
    Object.fromEntries(rivals.flatMap((own) => own.filter((k) => k !== own.at(which)).map((k) => [k, null])));
  const names = columns.map((k) => k + 1).join(' and ');
  return {
    wrong: `columns ${names} are ${columns.length > 2 ? 'all' : 'both'} the ${header[columns[0] as number]?.role}`,
    readings: [only(0), only(-1)],
  };
}

function firstOf(preferred: number, otherwise: number): number {
  return preferred >= 0 ? preferred : otherwise;
}
