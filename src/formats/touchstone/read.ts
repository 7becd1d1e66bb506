import { type AnySweep, DEFAULT_REFERENCE_OHM } from '../../core/sweep/sweep.ts';
import { assembleSweeps } from '../assemble.ts';
import { HZ_PER_UNIT, toHz } from '../frequency-unit.ts';
import { type PairMeaning, pairToImpedance } from '../network-pair.ts';
import { OpenReading, type ProblemList, wholeFile } from '../problem.ts';
import type { ReadOptions } from '../read-options.ts';
import { readPairs, type TouchstonePairs } from './data.ts';
import { readStructure, type TouchstoneStructure } from './structure.ts';

/**
 * Reads a Touchstone text of version 1.0, 1.1, 2.0 or 2.1 with one port, or one port's reflection of several.
 *
 * @param name - its extension tells the number of ports of version 1 where the data do not
 * @returns the sweeps, rising in frequency
 * @throws UserError where the whole file is refused; what is wrong with single points goes to `problems`
 */
export function readTouchstone(
  text: string,
  name: string,
  options: ReadOptions,
  problems: ProblemList,
): AnySweep[] {
  const structure = readStructure(text, problems);
  const ports = structure.ports ?? portsOfVersion1(structure, name);
  const port = choosePort(structure, ports, options.port);
  const meaning = meaningOf(structure, ports, port);
  const pairs = readPairs(structure, ports, port, options.decimal === 'comma', problems);
  const { frequencies } = structure;
  if (frequencies !== null && frequencies !== pairs.frequency.length) {
    problems.note(
      'frequency-count',
      `[Number of Frequencies] says ${frequencies}, got ${pairs.frequency.length}: the file may be cut short`,
    );
  }
  if (pairs.frequency.length === 0) {
    throw wholeFile('data-none', 'needs at least 2 frequencies, got none');
  }
  return sweepsOf(pairs, meaning, HZ_PER_UNIT[structure.option.unit], options, problems);
}

function sweepsOf(
  pairs: TouchstonePairs,
  meaning: PairMeaning,
  hzPerUnit: number,
  options: ReadOptions,
  problems: ProblemList,
): AnySweep[] {
  const frequency: number[] = [];
  const resistance: number[] = [];
  const reactance: number[] = [];
  const line: number[] = [];
  for (let i = 0; i < pairs.frequency.length; i++) {
    const frequencyHz = toHz(pairs.frequency[i] as number, hzPerUnit);
    const at = pairs.line[i] as number;
    const impedance = pairToImpedance(meaning, pairs.first[i] as number, pairs.second[i] as number);
    if (!Number.isFinite(frequencyHz) || frequencyHz < 0) {
      problems.refuse('frequency-negative', `a frequency must be 0 Hz or more, got ${frequencyHz}`, at);
    } else if (impedance === null) {
      problems.note('point-open', 'an open circuit has no impedance in ohms; the point is left out', at);
    } else {
      frequency.push(frequencyHz);
      resistance.push(impedance.re);
      reactance.push(impedance.im);
      line.push(at);
    }
  }
  return assembleSweeps(
    {
      kind: 'impedance',
      frequencyHz: Float64Array.from(frequency),
      first: Float64Array.from(resistance),
      second: Float64Array.from(reactance),
      breaks: [],
      referenceOhm: options.referenceOhm ?? meaning.referenceOhm,
      plane: options.plane ?? 'feedpoint',
      lineOf: (index) => line[index] as number,
    },
    problems,
  );
}

/** What the pairs mean; parameters that hold no reflection of one port are refused. */
function meaningOf(structure: TouchstoneStructure, ports: number, port: number): PairMeaning {
  const { parameter, format, referencesOhm: stated } = structure.option;
  if (parameter === 'G' || parameter === 'H') {
    throw wholeFile(
      'parameter-two-port',
      `${parameter} parameters exist for two ports only: needs S, Y or Z`,
    );
  }
  if (ports > 1 && parameter !== 'S') {
    throw wholeFile(
      'parameter-not-reflection',
      `several ports in ${parameter}: only S holds one port's reflection`,
    );
  }
  const references = structure.referencesOhm ?? stated;
  const referenceOhm = references[port - 1] ?? references[0] ?? DEFAULT_REFERENCE_OHM;
  return { parameter, format, referenceOhm, normalised: structure.version === '1' };
}

/**
 * Version 1 does not state its number of ports: three numbers on the first line can only be one port; more are what
 * the extension says, and else two ports.
 */
function portsOfVersion1(structure: TouchstoneStructure, name: string): number {
  const count = structure.data[0]?.tokens.length ?? 3;
  if (count <= 3) return 1;
  const named = Number(/\.[syzgh](\d+)p$/iu.exec(name)?.[1] ?? 0);
  return named > 1 ? named : count === 9 || count === 5 ? 2 : 1;
}

function choosePort(structure: TouchstoneStructure, ports: number, wanted: number | undefined): number {
  if (wanted !== undefined && wanted > ports) {
    throw wholeFile('port-unknown', `has ${ports} port(s), port ${wanted} was asked for`);
  }
  if (ports === 1) return 1;
  if (wanted !== undefined) return wanted;
  throw new OpenReading(
    'several-ports',
    `has ${ports} ports where one is needed: the reflection of one of them can be taken`,
    [{ port: 1 }],
    { line: structure.data[0]?.line, examples: true },
  );
}
