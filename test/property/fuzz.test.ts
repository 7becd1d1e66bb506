import { describe, expect, it } from 'vitest';
import { inputsOf } from '../support/fuzz/campaign.ts';
import { keptInputs } from '../support/fuzz/corpus.ts';
import { type FuzzedReader, tryInput } from '../support/fuzz/fuzzed-reader.ts';
import { READERS } from '../support/fuzz/readers.ts';

/** `npm run fuzz` tries a hundred times as many, under a clock and a limit of memory. */
const FRESH_INPUTS = 2000;
const SEED = 20_260_301;

const readers: readonly [string, FuzzedReader][] = READERS.map((reader) => [reader.name, reader]);

describe.each(readers)('the reader of %s', (name, reader) => {
  it('takes its seeds', () => {
    for (const bytes of reader.seeds) expect(tryInput(reader, bytes)).toBeNull();
  });

  it('gives its own error or a good result for all that once broke it', () => {
    for (const { file, bytes } of keptInputs(name)) expect(tryInput(reader, bytes), file).toBeNull();
  });

  it('gives its own error or a good result for what it never saw', () => {
    // Large ones show time and memory, for which no test here has a clock.
    const inputOf = inputsOf(reader, SEED, 0);
    for (let run = 0; run < FRESH_INPUTS; run++) {
      expect(tryInput(reader, inputOf(run)), `run ${run} of seed ${SEED}`).toBeNull();
    }
  });
});
