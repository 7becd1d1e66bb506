import { didYouMean } from '../near-miss.ts';
import { quoted } from '../quoted.ts';
import { UserError } from '../user-error.ts';

/** A kind of emission and the share of its peak power that it averages to while it is sent. */
export interface Mode {
  readonly mode: string;
  readonly dutyFactor: number;
  readonly meaning: string;
  readonly status: 'published' | 'memory' | 'common practice';
}

/**
 * Duty factors of the usual modes.
 *
 * Source: FCC OET Bulletin 65, Supplement B (ed. 97-01), table 2; AM from memory, data modes taken as a
 * full carrier (common practice, the careful side).
 */
export const MODES: readonly Mode[] = [
  { mode: 'ssb', dutyFactor: 0.2, meaning: 'conversation, no speech processing', status: 'published' },
  { mode: 'ssb-processed', dutyFactor: 0.5, meaning: 'conversation, heavy processing', status: 'published' },
  { mode: 'cw', dutyFactor: 0.4, meaning: 'conversation by key', status: 'published' },
  { mode: 'fm', dutyFactor: 1, meaning: 'voice', status: 'published' },
  { mode: 'rtty', dutyFactor: 1, meaning: 'frequency-shift keying', status: 'published' },
  { mode: 'afsk', dutyFactor: 1, meaning: 'audio frequency-shift keying', status: 'published' },
  { mode: 'carrier', dutyFactor: 1, meaning: 'tuning up', status: 'published' },
  { mode: 'am', dutyFactor: 1, meaning: 'unless a lower figure is justified', status: 'memory' },
  { mode: 'data', dutyFactor: 1, meaning: 'any other digital mode', status: 'common practice' },
];

const ALIASES: Readonly<Record<string, string>> = {
  usb: 'ssb',
  lsb: 'ssb',
  fsk: 'rtty',
  digital: 'data',
  tune: 'carrier',
};

/**
 * A mode by name, in any case.
 * @throws UserError `mode-unknown`, with the near miss
 */
export function findMode(name: string, field = 'mode'): Mode {
  const plain = name
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_]+/gu, '-');
  const found = MODES.find(({ mode }) => mode === (ALIASES[plain] ?? plain));
  if (found !== undefined) return found;
  const names = [...MODES.map(({ mode }) => mode), ...Object.keys(ALIASES)];
  throw new UserError(
    'mode-unknown',
    `needs a mode, one of ${MODES.map(({ mode }) => mode).join(', ')}, got ${quoted(name)}${didYouMean(plain, names)}; take data for any digital mode`,
    { place: { field } },
  );
}

/**
 * Mean power over the averaging window: peak envelope power × duty factor × the largest share of the
 * window that is spent sending.
 *
 * Source: FCC OET Bulletin 65, Supplement B (ed. 97-01), whose example is 500 W × 0.40 × 0.125 = 25 W.
 */
export function averagePowerW(peakPowerW: number, dutyFactor: number, onAirFraction: number): number {
  return peakPowerW * dutyFactor * onAirFraction;
}
