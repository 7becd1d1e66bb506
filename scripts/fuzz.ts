/**
 * Feeds every reader mutated inputs: `npm run fuzz -- [--runs N] [--reader NAME...] [--seed S] [--from RUN]`. Only a
 * UserError or a good result may come out, within 256 MB and a time that grows with the size. What breaks that is
 * made small, kept in `test/corpus/<reader>/`, and read again by every `npm test`.
 */
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { SingleBar } from 'cli-progress';
import { inputsOf } from '../test/support/fuzz/campaign.ts';
import { keepInput } from '../test/support/fuzz/corpus.ts';
import type { FuzzedReader } from '../test/support/fuzz/fuzzed-reader.ts';
import { READERS } from '../test/support/fuzz/readers.ts';
import type { Errand, Found } from './fuzz-worker.ts';

const MEMORY_MB = 256;
const HANGING_MS = 60_000;
const LOOK_MS = 500;

/** A thread does not inherit tsx, and has to ask for it. */
const WORKER = `import('tsx/esm/api').then(({ register }) => {
  register();
  return import('${new URL('./fuzz-worker.ts', import.meta.url)}');
});`;

const { values } = parseArgs({
  options: {
    runs: { type: 'string', default: '100000' },
    reader: { type: 'string', multiple: true },
    seed: { type: 'string', default: '1' },
    from: { type: 'string', default: '0' },
  },
});
const [runs, seed, from] = [values.runs, values.seed, values.from].map(Number) as [number, number, number];
const wanted = values.reader ?? READERS.map(({ name }) => name);
const unknown = wanted.find((name) => !READERS.some((reader) => reader.name === name));
if (unknown !== undefined || ![runs, seed, from].every(Number.isSafeInteger)) {
  const names = READERS.map(({ name }) => name).join(', ');
  process.stderr.write(`fuzz: needs whole numbers, and readers out of ${names}\n`);
  process.exit(2);
}

const terminal = process.stderr.isTTY === true;
const bar = new SingleBar({ format: '{bar} {value} of {total} inputs to {reader}', hideCursor: true });
let finds = 0;
for (const reader of READERS.filter(({ name }) => wanted.includes(name))) {
  const start = performance.now();
  if (terminal) bar.start(from + runs, from, { reader: reader.name });
  const found = await fuzz(reader);
  if (terminal) bar.stop();
  finds += found;
  const seconds = ((performance.now() - start) / 1000).toFixed(0);
  process.stdout.write(`${reader.name}: ${runs} inputs in ${seconds} s, ${found} finds\n`);
}
process.exitCode = finds === 0 ? 0 : 1;

/** Runs one reader through all its inputs; a thread that dies is followed by another. */
async function fuzz(reader: FuzzedReader): Promise<number> {
  const signatures = new Set<string>();
  const tell = (found: Found): void => {
    if (signatures.has(found.signature)) return;
    signatures.add(found.signature);
    const path = keepInput(reader.name, found.bytes);
    process.stdout.write(
      `${reader.name}: run ${found.run}: ${found.signature}\n  kept as ${path}\n  ${found.detail}\n`,
    );
  };
  for (let next = from; next < from + runs; ) {
    const ended = await thread({ reader: reader.name, seed, from: next, to: from + runs }, tell);
    if (ended === null) break;
    tell({ run: ended.run, signature: ended.why, detail: '', bytes: inputsOf(reader, seed)(ended.run) });
    next = ended.run + 1;
  }
  return signatures.size;
}

/** One thread to its end; null when it did all, else the run at which it died and why. */
function thread(
  errand: Omit<Errand, 'at'>,
  tell: (found: Found) => void,
): Promise<{ run: number; why: string } | null> {
  return new Promise((resolve, reject) => {
    const at = new Int32Array(new SharedArrayBuffer(8));
    at[0] = errand.from;
    const worker = new Worker(WORKER, {
      eval: true,
      workerData: { ...errand, at },
      resourceLimits: { maxOldGenerationSizeMb: MEMORY_MB },
    });
    let [lastSeen, since] = ['', performance.now()];
    const watch = setInterval(() => {
      const run = at[0] as number;
      if (terminal) bar.update(run);
      const seen = at.join();
      if (seen !== lastSeen) [lastSeen, since] = [seen, performance.now()];
      else if (performance.now() - since > HANGING_MS) end({ run, why: 'hangs' });
    }, LOOK_MS);
    const end = (result: { run: number; why: string } | null): void => {
      clearInterval(watch);
      void worker.terminate();
      resolve(result);
    };
    worker.on('message', tell);
    worker.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'ERR_WORKER_OUT_OF_MEMORY') end({ run: at[0] as number, why: 'eats memory' });
      else reject(error);
    });
    worker.on('exit', () => end(null));
  });
}
