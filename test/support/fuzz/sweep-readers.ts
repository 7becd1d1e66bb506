import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { type AnySweep, createScalarSweep, createSweep } from '../../../src/core/sweep/sweep.ts';
import { readCanonical, writeCanonical } from '../../../src/formats/canonical.ts';
import { parseFieldReadings } from '../../../src/formats/field-readings.ts';
import type { ReadOptions } from '../../../src/formats/read-options.ts';
import { type ReadResult, readSweeps } from '../../../src/formats/read-sweeps.ts';
import { readReflections, writeReflections } from '../../../src/formats/reflection-file.ts';
import { parseTime } from '../../../src/logbook/time.ts';
import { TABLES } from '../sweep-tables.ts';
import { type FuzzedReader, require } from './fuzzed-reader.ts';

const SAMPLES = resolve(import.meta.dirname, '../../../samples/sweeps');

/** The first lines of a file: as telling as the whole, and quicker. */
function headOf(file: string): Uint8Array {
  return Buffer.from(`${readFileSync(resolve(SAMPLES, file), 'utf8').split('\n').slice(0, 12).join('\n')}\n`);
}

const samples = readdirSync(SAMPLES).filter((file) => file.includes('shot1'));
const touchstoneTables = TABLES.filter(({ file }) => /\.(?:[syzgh]\d+p|ts)$/u.test(file));
const otherTables = TABLES.filter((table) => !touchstoneTables.includes(table));
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

/** No message about a single line needs more. */
const LONGEST_PROBLEM = 1000;

export const touchstoneReader: FuzzedReader = {
  name: 'touchstone',
  seeds: [
    ...touchstoneTables.map(({ bytes }) => bytes),
    ...samples.filter((file) => file.endsWith('.s1p')).map(headOf),
    utf8('# MHz S RI R 50\n7 -0.15 0.02\n7.1 -0.14 0.03\n'),
    utf8(
      '! two ports\n[Version] 2.1\n# GHz S MA\n[Number of Ports] 2\n[Two-Port Data Order] 21_12\n[Number of Frequencies] 2\n' +
        '[Reference] 50 75\n[Matrix Format] Full\n[Network Data]\n0.007 0.9 -10 0.1 5 0.1 5 0.8 3\n0.0071 0.9 -11 0.1 5 0.1 5 0.8 3\n[End]\n',
    ),
    utf8('#HZ\n7e6 .9 10 .1 5 .1 5 .8 3\n7.1e6 .9 10 .1 5 .1 5 .8 3\n5e6 1 .5 20 .4\n'),
  ],
  words: (
    '# MHz S RI R 50|#|! comment|[Version] 2.0|[Version] 2.1|[Number of Ports] 1|[Number of Ports] 9999999|' +
    '[Reference] 50|[Reference]|[Matrix Format] Lower|[Network Data]|[Noise Data]|[End]|[Begin Information]|' +
    '[End Information]|GHz|Hz|DB|MA|Z|Y|H|G|R 0|R -50'
  ).split('|'),
  read: (bytes) => {
    const names = ['a.s1p', 'a.s2p', 'a.s99p', 'a.ts', 'a.csv'];
    const options: ReadOptions[] = [{}, { port: 1 }, { port: 2 }, { decimal: 'comma' }];
    verify(readSweeps(bytes, pick(names, bytes), pick(options, bytes)), bytes);
  },
};

export const csvReader: FuzzedReader = {
  name: 'csv',
  seeds: [
    ...otherTables.map(({ bytes }) => bytes),
    ...samples.filter((file) => !file.endsWith('.s1p')).map(headOf),
  ],
  words: (
    'Freq (MHz),R (ohm),X (ohm)|f;R;X|Hz\tSWR|S11 dB|return loss|phase|deg|rad|re|im|mag|kohm|sep=;|sep=,|' +
    'BEGIN CHANNEL1|END|# comment|% comment|n/a|OVF|>10|7,100|1.234,5|frequency_hz,resistance_ohm,reactance_ohm'
  ).split('|'),
  read: (bytes) => {
    const options: ReadOptions[] = [
      {},
      {},
      { columns: 'MHz,R,X' },
      { columns: 'Hz,S11 dB,phase' },
      { decimal: 'comma' },
      { delimiter: ' ' },
      { delimiter: ';', unit: 'MHz' },
      { unit: 'Hz', referenceOhm: 75 },
    ];
    verify(readSweeps(bytes, 'a.csv', pick(options, bytes)), bytes);
  },
};

export const canonicalReader: FuzzedReader = {
  name: 'canonical',
  seeds: [
    utf8(
      'frequency_hz,resistance_ohm,reactance_ohm\n7000000,36.5,-12.25\n7100000,37.5,0.5\n7200000,38.25,13\n',
    ),
    utf8('frequency_hz,resistance_ohm,reactance_ohm\n0,0,0\n1e-7,1e+21,-1.5e-300\n1e308,0.1,123456789.125\n'),
  ],
  words: ['frequency_hz,resistance_ohm,reactance_ohm', '7300000,1,2', ','],
  read: (bytes) => {
    const sweep = readCanonical(textOf(bytes), { referenceOhm: 50 });
    verifySweep(sweep);
    const again = readCanonical(writeCanonical(sweep));
    require(sameColumn(sweep.reactanceOhm, again.reactanceOhm), 'a sweep does not survive being written');
  },
};

export const reflectionReader: FuzzedReader = {
  name: 'reflection-file',
  seeds: [utf8('frequency_hz,reflection_re,reflection_im\n7000000,-0.15,0.02\n7100000,-0.14,0.03\n')],
  words: ['frequency_hz,reflection_re,reflection_im', '7200000,0,0', ','],
  read: (bytes) => {
    const sweep = readReflections(textOf(bytes), 50);
    const again = readReflections(writeReflections(sweep), 50);
    require(sameColumn(sweep.reflectionIm, again.reflectionIm), 'readings do not survive being written');
  },
};

export const fieldReadingsReader: FuzzedReader = {
  name: 'field-readings',
  seeds: [
    utf8('time,place,level_db,power_w\n2026-03-01T10:15Z,bench,-12.5,100\n2026-03-01T10:20Z,gate,-14,100\n'),
    utf8('time;place;level;power;text\r\n2026-03-01 10:15+01:00;"by; the gate";-12,5dB;100W;=1+1\r\n'),
  ],
  words: [
    'time',
    'place',
    'level',
    'level_db',
    'power',
    'text',
    '2026-02-30T10:00Z',
    '2026-03-01T10:15Z',
    'dB',
  ],
  read: (bytes) => {
    const now = new Date('2026-03-02T00:00:00Z');
    const readings = parseFieldReadings(textOf(bytes), 'a.csv', (time) => parseTime(time, now, 'time'));
    for (const { value, powerW, time } of readings) {
      require(Number.isFinite(value) && Number.isFinite(powerW ?? 0), 'a reading without a number');
      require(!Number.isNaN(Date.parse(time)), 'a reading without a time');
    }
  },
};

/** The bytes decide, so that a smaller input is read under the options of its own. */
function pick<T>(items: readonly T[], bytes: Uint8Array): T {
  return items[bytes.length % items.length] as T;
}

function textOf(bytes: Uint8Array): string {
  return new TextDecoder().decode(bytes);
}

function verify({ sweeps, problems }: ReadResult, bytes: Uint8Array): void {
  sweeps.forEach(verifySweep);
  require(sweeps.length > 0 || problems.length > 0, 'nothing was read, and nothing is said');
  for (const { line, column, message } of problems) {
    require(line === null || (line >= 1 && line <= bytes.length + 1), 'a problem in no line of the file');
    require(column === null || column >= 1, 'a problem in no column of its line');
    require(message.length <= LONGEST_PROBLEM, 'a message as long as a file');
  }
}

/** What a reader gives must pass what makes a sweep. */
function verifySweep(sweep: AnySweep): void {
  if (sweep.kind === 'swr') createScalarSweep(sweep);
  else createSweep(sweep);
}

function sameColumn(one: Float64Array, other: Float64Array): boolean {
  return one.length === other.length && one.every((value, i) => value === other[i]);
}
