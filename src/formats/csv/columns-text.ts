import { frequencyUnit } from '../frequency-unit.ts';
import type { Header } from './header.ts';
import type { ColumnMeaning, Role } from './header-words.ts';

/** Words that mean a role whatever its unit, as the `columns` option takes them. */
const WORDS: Readonly<Record<Role, string>> = {
  frequency: 'f',
  resistance: 'R',
  reactance: 'X',
  'reactance-size': '|X|',
  'impedance-size': '|Z|',
  'impedance-phase': 'Z phase',
  'reflection-re': 'S11 re',
  'reflection-im': 'S11 im',
  'reflection-size': '|S11|',
  'reflection-db': 'S11 dB',
  reflection: 'S11',
  'reflection-phase': 'S11 phase',
  phase: 'phase',
  'return-loss': 'return loss',
  swr: 'SWR',
  re: 're',
  im: 'im',
  size: 'mag',
};

/** Other roles, or none, for some columns by their index. */
export type Changes = Readonly<Record<number, Role | null>>;

/**
 * A header as the `columns` option takes it, so that a reading can be asked for: `MHz,R,X,-`.
 * @param changes - what the columns are in this reading
 */
export function columnsText(header: Header, changes: Changes): string {
  return header
    .map((meaning, k) => {
      const role = k in changes ? (changes[k] ?? null) : (meaning?.role ?? null);
      return role === null ? '-' : columnText({ role, unit: meaning?.unit ?? null });
    })
    .join(',');
}

function columnText({ role, unit }: ColumnMeaning): string {
  if (role === 'frequency') return frequencyUnit(unit ?? '') ?? WORDS.frequency;
  return unit === null || unit === 'db' ? WORDS[role] : `${WORDS[role]} ${unit}`;
}
