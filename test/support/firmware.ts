import { compileC, SANITIZED, STRICT_C99 } from './compile-c.ts';

const folder = 'firmware-protocol/c';
const library = [
  'turfwire.h',
  'layout.h',
  'send.h',
  'checksum.c',
  'grid.c',
  'layout.c',
  'decode.c',
  'encode.c',
  'send.c',
  'device.c',
];

/** The files of the C library, from the root of the project. */
export const FIRMWARE_LIBRARY: readonly string[] = library.map((file) => `${folder}/${file}`);

/** The test programs in `firmware-protocol/c/test`, and what each is made of. */
const tests = {
  vectors: ['check.h', 'check.c', 'vectors.c'],
  exchanges: ['check.h', 'check.c', 'exchanges.c'],
  fuzz: ['check.h', 'check.c', 'fuzz.h', 'fuzz-lines.c', 'fuzz.c'],
} as const;

/** Compiles one of the test programs under the sanitizers. */
export function compileFirmwareTest(name: keyof typeof tests, points: number): Promise<string> {
  const files = [...FIRMWARE_LIBRARY, ...tests[name].map((file) => `${folder}/test/${file}`)];
  return compileC(name, files, [...STRICT_C99, ...SANITIZED, '-O1', `-DTW_POINTS=${points}`]);
}

/** Compiles the instrument with a modelled antenna, which speaks on its standard input and output. */
export function compileModelledAntenna(points = 201): Promise<string> {
  const files = [...FIRMWARE_LIBRARY, `${folder}/example/modelled-antenna.c`];
  return compileC('modelled-antenna', files, [...STRICT_C99, ...SANITIZED, '-O1', `-DTW_POINTS=${points}`]);
}

/**
 * Reflection of the antenna that the example models, in millionths as its integers on the wire:
 * R + jX₀(f/f₀ − f₀/f) with R = 41 Ω, X₀ = 400 Ω, f₀ = 7.1 MHz, against 50 Ω.
 */
export function modelledReflectionMicro(frequencyHz: number): { re: number; im: number } {
  const ratio = frequencyHz / 7.1e6;
  const reactanceOhm = 400 * (ratio - 1 / ratio);
  const size = 91 ** 2 + reactanceOhm ** 2;
  return { re: (1e6 * (-9 * 91 + reactanceOhm ** 2)) / size, im: (1e6 * 100 * reactanceOhm) / size };
}
