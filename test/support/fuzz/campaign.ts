import { random } from '../random.ts';
import type { FuzzedReader } from './fuzzed-reader.ts';
import { byteText, mutate, type Stock } from './mutate.ts';
import { mutateJson } from './mutate-json.ts';

/** Inputs that show what takes more than linear time: few, because each takes a hundred times as long. */
const PUMPED = 1 / 250;

/** One in so many inputs of a sealed format has its checksums left wrong. */
const UNSEALED = 0.3;

/** One in so many documents is damaged as text, and so mostly no JSON any more. */
const AS_TEXT = 0.4;

/**
 * Makes the inputs of a reader, each from the seed and its own number alone, so that any of them can be made again.
 *
 * @param pumpedShare - of those that are pumped up until they are large
 */
export function inputsOf(
  reader: FuzzedReader,
  seed: number,
  pumpedShare: number = PUMPED,
): (run: number) => Uint8Array {
  const stock: Stock = {
    seeds: reader.seeds.map((bytes) => Buffer.from(bytes).toString('latin1')),
    words: reader.words,
  };
  return (run) => {
    const source = random((Math.imul(seed, 0x9e3779b1) + run) | 0);
    const start = source.pick(stock.seeds);
    let text =
      reader.isJson === true && !source.chance(AS_TEXT)
        ? byteText(mutateJson(source, Buffer.from(start, 'latin1').toString(), reader.words))
        : mutate(source, start, stock, pumpedShare);
    if (reader.seal !== undefined && !source.chance(UNSEALED)) text = reader.seal(text);
    return Buffer.from(text, 'latin1');
  };
}
