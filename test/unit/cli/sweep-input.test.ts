import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Io } from '../../../src/cli/io.ts';
import { loadVisits } from '../../../src/cli/sweep-input.ts';
import { UserError } from '../../../src/core/user-error.ts';

let folder = '';
const said: string[] = [];
const io = (): Io => ({
  out: () => undefined,
  err: (text) => void said.push(text),
  cwd: folder,
  env: {},
  terminal: false,
  colour: false,
  called: 'turfwire',
  now: () => new Date(0),
  stdin: async () => new TextEncoder().encode('MHz,R,X\n7,40,-10\n7.2,41,10\n'),
});

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'turfwire-input-'));
  const rows = (r: number) => `7,${r},-10\n7.2,${r},10\n`;
  await writeFile(join(folder, 'a-shot2.csv'), `MHz,R,X\n${rows(42)}`);
  await writeFile(join(folder, 'a-shot1.csv'), `MHz,R,X\n${rows(41)}`);
  await writeFile(join(folder, 'b.csv'), `MHz,R,X\n${rows(51)}${rows(52)}${rows(53)}`);
  await writeFile(join(folder, 'torn.csv'), 'MHz,R,X\n7,40,-10\n7.1,40\n7.2,41,10\n');
});

afterAll(() => rm(folder, { recursive: true }));

describe('loading loose files as visits', () => {
  it('groups shots by name and takes several sweeps in one file as shots', async () => {
    const visits = await loadVisits(io(), ['a-shot2.csv', 'b.csv', 'a-shot1.csv', '-'], {});
    expect(visits.map(({ label, files }) => [label, files])).toEqual([
      ['a', ['a-shot1.csv', 'a-shot2.csv']],
      ['b', ['b.csv']],
      ['-', ['-']],
    ]);
    const firstOhm = visits.map(({ shots }) =>
      shots.map((shot) => (shot.kind === 'impedance' ? shot.resistanceOhm[0] : null)),
    );
    expect(firstOhm).toEqual([[41, 42], [51, 52, 53], [40]]);
    expect(said).toEqual(['b.csv: holds 3 sweeps, taken as shots of one visit']);
  });

  it('refuses to go on with half a file, naming the spot', async () => {
    const error = await loadVisits(io(), ['b.csv', 'torn.csv'], {}).catch((caught: unknown) => caught);
    expect(error).toBeInstanceOf(UserError);
    expect(error).toMatchObject({ kind: 'input', code: 'row-width', place: { file: 'torn.csv', line: 3 } });
  });

  it('refuses a file that is not there', async () => {
    await expect(loadVisits(io(), ['none.csv'], {})).rejects.toMatchObject({ code: 'file-missing' });
  });
});
