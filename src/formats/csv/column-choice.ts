import type { NetworkParameter, PairFormat } from '../network-pair.ts';
import { wholeFile } from '../problem.ts';
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

/**
 * Chooses the columns that tell most: resistance and reactance before size and phase, both before the size of the
 * reflection alone.
 *
 * @param line - where the rows begin, for the message
 * @throws UserError `columns-open` when nothing can be chosen, or two columns have an equal claim
 */
export function chooseColumns(header: Header, line: number): ColumnChoice {
  const chosen = choose(header);
  const wrong = 'wrong' in chosen ? chosen.wrong : twofold(header, chosen);
  if ('wrong' in chosen || wrong !== null) {
    throw wholeFile('columns-open', `${wrong}; say --columns, such as "MHz,R,X"`, line);
  }
  return chosen;
}

function choose(header: Header): ColumnChoice | { readonly wrong: string } {
  const at = (role: Role): number => header.findIndex((column) => column?.role === role);
  const frequency = at('frequency');
  if (frequency < 0) return { wrong: 'needs a frequency column' };
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
  if (choice === null && phase >= 0 && sizeOfImpedance >= 0 && hasReflection) {
    return { wrong: 'the phase may be that of the impedance or that of the reflection' };
  }
  if (choice === null && at('re') >= 0 && at('im') >= 0) {
    return {
      wrong:
        'real and imaginary part may be those of the impedance (R,X) or of the reflection (S11 re,S11 im)',
    };
  }
  if (choice === null && at('size') >= 0 && phase >= 0) {
    return {
      wrong: 'size and phase may be those of the impedance (|Z|,phase) or of the reflection (|S11|,phase)',
    };
  }
  return choice ?? scalarChoice(at, frequency);
}

function scalarChoice(
  at: (role: Role) => number,
  frequency: number,
): ColumnChoice | { readonly wrong: string } {
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
    }
  );
}

/** Two columns of the role that was chosen: which one is meant cannot be told. */
function twofold(header: Header, choice: ColumnChoice): string | null {
  for (const column of [choice.frequency, choice.first, choice.second]) {
    const role = header[column]?.role;
    const other = header.findIndex(
      (meaning, k) => k !== column && role !== undefined && meaning?.role === role,
    );
    if (other >= 0) return `columns ${column + 1} and ${other + 1} are both the ${role}`;
  }
  return null;
}

function firstOf(preferred: number, otherwise: number): number {
  return preferred >= 0 ? preferred : otherwise;
}
