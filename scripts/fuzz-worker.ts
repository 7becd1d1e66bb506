/** Reads mutated inputs in a thread of its own, so that one that hangs or eats all memory ends this thread alone. */
import { parentPort, workerData } from 'node:worker_threads';
import { inputsOf } from '../test/support/fuzz/campaign.ts';
import { type FuzzedReader, tryInput } from '../test/support/fuzz/fuzzed-reader.ts';
import { minimise } from '../test/support/fuzz/minimise.ts';
import { READERS } from '../test/support/fuzz/readers.ts';

/** What a thread is to do; `at` holds the number of the run in hand. */
export interface Errand {
  readonly reader: string;
  readonly seed: number;
  readonly from: number;
  readonly to: number;
  readonly at: Int32Array;
}

/** A find, in its smallest form. */
export interface Found {
  readonly run: number;
  readonly signature: string;
  readonly detail: string;
  readonly bytes: Uint8Array;
}

/** What an input may take: a start, and so much a byte. Many times what any takes, even on a machine under load. */
const ALLOWED_MS = 100;
const ALLOWED_MS_A_BYTE = 0.05;

const { reader: name, seed, from, to, at } = workerData as Errand;
const reader = READERS.find((one) => one.name === name) as FuzzedReader;
const inputOf = inputsOf(reader, seed);
const known = new Set<string>();

for (let run = from; run < to; run++) {
  Atomics.store(at, 0, run);
  const bytes = inputOf(run);
  const found = look(bytes);
  if (found === null || known.has(found.signature)) continue;
  known.add(found.signature);
  const smallest = minimise(
    bytes,
    (part) => {
      Atomics.add(at, 1, 1);
      return look(part)?.signature === found.signature;
    },
    found.signature === 'slow' ? 60 : 3000,
  );
  parentPort?.postMessage({ run, ...found, bytes: smallest } satisfies Found);
}

function look(bytes: Uint8Array): Omit<Found, 'run' | 'bytes'> | null {
  const allowedMs = ALLOWED_MS + bytes.length * ALLOWED_MS_A_BYTE;
  const [ms, find] = timed(bytes);
  if (find !== null) {
    const { error } = find;
    const detail = error instanceof Error ? (error.stack ?? error.message) : String(error);
    return { signature: find.signature, detail: detail.slice(0, 600) };
  }
  // Once may be the machine; three times is the input.
  if (ms <= allowedMs || timed(bytes)[0] <= allowedMs || timed(bytes)[0] <= allowedMs) return null;
  return { signature: 'slow', detail: `${bytes.length} bytes took ${ms.toFixed(0)} ms` };
}

function timed(bytes: Uint8Array): [ms: number, find: ReturnType<typeof tryInput>] {
  const start = performance.now();
  const find = tryInput(reader, bytes);
  return [performance.now() - start, find];
}
