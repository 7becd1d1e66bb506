/**
 * Measures every speed that matters, each as a ratio against something named in the same run:
 * `npm run bench`, or `npm run bench -- plan logbook` for some rooms.
 * Ends with 1 when a ratio misses its target by more than 20 %. `--readme` writes the table into the README.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { table } from '../src/cli/answer.ts';
import type { BenchCase } from './bench-case.ts';

const TOLERANCE = 1.2;
const START = '<!-- bench: begin -->';
const END = '<!-- bench: end -->';

interface Row {
  readonly bench: BenchCase;
  readonly ratio: number;
}

const wanted = process.argv.slice(2).filter((arg) => !arg.startsWith('--'));
const files = readdirSync(import.meta.dirname).filter(
  (file) =>
    file.endsWith('.bench.ts') && (wanted.length === 0 || wanted.some((room) => file.startsWith(`${room}.`))),
);
const rows: Row[] = [];
for (const file of files.sort()) {
  const { cases } = (await import(join(import.meta.dirname, file))) as { cases: readonly BenchCase[] };
  for (const bench of cases) {
    process.stderr.write(`${bench.name} … `);
    const ratio = await bench.run();
    rows.push({ bench, ratio });
    process.stderr.write(`${ratio.toPrecision(3)}\n`);
  }
}

const cells = [
  ['what', 'ratio', 'against', 'target', 'met'],
  ...rows.map(({ bench, ratio }) => [
    bench.name,
    ratio.toPrecision(3),
    bench.against,
    'atMost' in bench.target ? `at most ${bench.target.atMost}` : `at least ${bench.target.atLeast}`,
    met({ bench, ratio }, 1) ? 'yes' : met({ bench, ratio }, TOLERANCE) ? 'nearly' : 'no',
  ]),
];
process.stdout.write(`${table(cells)}\n`);
if (process.argv.includes('--readme')) writeToReadme(cells);
if (rows.some((row) => !met(row, TOLERANCE))) process.exitCode = 1;

function met({ bench: { target }, ratio }: Row, tolerance: number): boolean {
  return 'atMost' in target ? ratio <= target.atMost * tolerance : ratio >= target.atLeast / tolerance;
}

function writeToReadme(lines: readonly (readonly string[])[]): void {
  const readme = readFileSync('README.md', 'utf8');
  const [head, ...body] = lines.map((line) => `| ${line.join(' | ')} |`);
  const markdown = [head, `|${' --- |'.repeat(lines[0]?.length ?? 0)}`, ...body].join('\n');
  const [before, rest] = readme.split(START);
  const after = rest?.split(END)[1];
  if (before === undefined || after === undefined)
    throw new Error(`README.md needs the marks ${START} and ${END}`);
  writeFileSync('README.md', `${before}${START}\n${markdown}\n${END}${after}`);
}
