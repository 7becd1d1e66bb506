import { didYouMean } from '../../core/near-miss.ts';
import { UserError } from '../../core/user-error.ts';
import { FAULT_CODES, type FaultCode } from '../codec/messages.ts';
import { NO_WIRE_FAULTS, type WireFaults } from './faulty-wire.ts';

/** What is connected to the simulated instrument. */
export const SIMULATED_LOADS = ['antenna', 'reference-load', 'open', 'short', 'load'] as const;
/** What is connected to the simulator. */
export type SimulatedLoad = (typeof SIMULATED_LOADS)[number];

/** The language that it speaks: the line protocol, or that of a description shipped with the program. */
export const SIMULATED_LANGUAGES = ['line-protocol', 'scpi', 'plain-lines'] as const;
/** What the simulator speaks. */
export type SimulatedLanguage = (typeof SIMULATED_LANGUAGES)[number];

/** How the simulator behaves. */
export interface SimulatorOptions {
  readonly seed: number;
  readonly connected: SimulatedLoad;
  readonly speaks: SimulatedLanguage;
  /** In series with the antenna at its base. */
  readonly jointOhm: number;
  /** Readings are those of an instrument without calibration. */
  readonly raw: boolean;
  /** Standard deviation of each part of Γ. */
  readonly noise: number;
  /** Time for a point, ms. */
  readonly pointMs: number;
  /** Delay of everything that it sends, ms. */
  readonly lateMs: number;
  readonly silent: boolean;
  readonly resetAtPoint: number | null;
  readonly fault: FaultCode | null;
  readonly wire: WireFaults;
}

/** A healthy instrument at a healthy antenna. */
export const DEFAULT_SIMULATOR_OPTIONS: SimulatorOptions = {
  seed: 1,
  connected: 'antenna',
  speaks: 'line-protocol',
  jointOhm: 0,
  raw: false,
  noise: 0.0003,
  pointMs: 0,
  lateMs: 0,
  silent: false,
  resetAtPoint: null,
  fault: null,
  wire: NO_WIRE_FAULTS,
};

/** One word of the list behind `simulated:`; the help is made of these. */
interface Setting {
  readonly form: string;
  readonly meaning: string;
  apply(options: SimulatorOptions, value: string, word: string): SimulatorOptions;
}

const SETTINGS: Readonly<Record<string, Setting>> = {
  seed: number('N', 'seed of its noise and faults', 0, 2 ** 31 - 1, (o, seed) => ({ ...o, seed })),
  on: choice(SIMULATED_LOADS, 'what is connected (default: what the command asks for)', (o, connected) => ({
    ...o,
    connected,
  })),
  speaks: choice(SIMULATED_LANGUAGES, 'its language', (o, speaks) => ({ ...o, speaks })),
  joint: number('OHM', 'a bad joint in the antenna’s base', 0, 1000, (o, jointOhm) => ({ ...o, jointOhm })),
  raw: flag('without calibration of its own', (o) => ({ ...o, raw: true })),
  noise: number('X', 'standard deviation of each part of the reflection', 0, 1, (o, noise) => ({
    ...o,
    noise,
  })),
  pace: number('MS', 'time for each point', 0, 1000, (o, pointMs) => ({ ...o, pointMs })),
  late: number('MS', 'delay of everything it sends', 0, 60_000, (o, lateMs) => ({ ...o, lateMs })),
  silent: flag('never answers', (o) => ({ ...o, silent: true })),
  reset: number('N', 'resets before point N', 0, 65_534, (o, resetAtPoint) => ({ ...o, resetAtPoint })),
  fault: choice(FAULT_CODES, 'reports a fault in mid-sweep', (o, fault) => ({ ...o, fault })),
  drop: share('lines that are lost', 'drop'),
  corrupt: share('lines with a wrong byte', 'corrupt'),
  duplicate: share('lines that come twice', 'duplicate'),
  reorder: share('lines that come late', 'reorder'),
  halve: share('lines cut in half', 'halve'),
  deaf: share('requests that are not heard', 'deaf'),
  hostile: share('lines with terminal escapes, HTML or a megabyte in front', 'hostile'),
  garble: flag('as heard at a wrong speed', (o) => ({ ...o, wire: { ...o.wire, garble: true } })),
  flood: number('BYTES', 'noise without a line end first', 0, 2 ** 30, (o, flood) => wire(o, { flood })),
  unplug: number('N', 'the wire is cut after N lines', 0, 2 ** 31, (o, unplug) => wire(o, { unplug })),
};

/** The settings with their meaning, one a line, for the help. */
export const SIMULATOR_HELP: string = Object.entries(SETTINGS)
  .map(([word, { form, meaning }]) => `  ${`${word}${form}`.padEnd(46)} ${meaning}`)
  .join('\n');

/**
 * Reads what stands behind `simulated:`, such as `drop=0.1,seed=7`.
 * @param connected - what is connected where the settings do not say
 * @throws UserError `simulator-setting`, of kind `command-line`
 */
export function parseSimulatorOptions(
  text: string,
  connected: SimulatedLoad = DEFAULT_SIMULATOR_OPTIONS.connected,
): SimulatorOptions {
  let options: SimulatorOptions = { ...DEFAULT_SIMULATOR_OPTIONS, connected };
  for (const part of text.split(',').filter((item) => item.trim() !== '')) {
    const [word = '', ...rest] = part.trim().split('=');
    const setting = Object.hasOwn(SETTINGS, word) ? SETTINGS[word] : undefined;
    if (setting === undefined) {
      throw wrong(`the simulator knows no "${word}"${didYouMean(word, Object.keys(SETTINGS))}`);
    }
    options = setting.apply(options, rest.join('='), word);
  }
  return options;
}

function number(
  unit: string,
  meaning: string,
  min: number,
  max: number,
  set: (options: SimulatorOptions, value: number) => SimulatorOptions,
): Setting {
  return {
    form: `=${unit}`,
    meaning,
    apply: (options, text, word) => {
      const value = text === '' ? Number.NaN : Number(text);
      if (value >= min && value <= max) return set(options, value);
      throw wrong(`the simulator's ${word} must be a number from ${min} to ${max}, got "${text}"`);
    },
  };
}

function share(meaning: string, key: keyof WireFaults): Setting {
  return number('SHARE', meaning, 0, 1, (options, value) => wire(options, { [key]: value }));
}

function flag(meaning: string, set: (options: SimulatorOptions) => SimulatorOptions): Setting {
  return {
    form: '',
    meaning,
    apply: (options, text, word) => {
      if (text === '') return set(options);
      throw wrong(`the simulator's ${word} takes no value, got "${text}"`);
    },
  };
}

function choice<const T extends string>(
  choices: readonly T[],
  meaning: string,
  set: (options: SimulatorOptions, value: T) => SimulatorOptions,
): Setting {
  return {
    form: '=WORD',
    meaning: `${meaning}: ${choices.join(', ')}`,
    apply: (options, text, word) => {
      const found = choices.find((item) => item === text);
      if (found !== undefined) return set(options, found);
      throw wrong(
        `the simulator's ${word} must be one of ${choices.join(', ')}, got "${text}"${didYouMean(text, choices)}`,
      );
    },
  };
}

function wire(options: SimulatorOptions, change: Partial<WireFaults>): SimulatorOptions {
  return { ...options, wire: { ...options.wire, ...change } };
}

function wrong(message: string): UserError {
  return new UserError('simulator-setting', message, { kind: 'command-line' });
}
