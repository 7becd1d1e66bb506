import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { appendEvents, checkLogbook, openLogbook } from '../../src/logbook/logbook.ts';
import { newLogbook } from '../support/logbooks.ts';
import { startWriter, toldBy } from '../support/written.ts';

describe('several writers at once', () => {
  it.each([
    [2, 12],
    [10, 3],
  ])('%i processes of %i rounds each lose no row and mix none', async (writers, rounds) => {
    const folder = await newLogbook();
    const children = Array.from({ length: writers }, (_, i) => startWriter(folder, `w${i}`, rounds));
    for (const child of children) expect(await child.ended()).toBe(0);

    const logbook = await openLogbook(folder);
    const acknowledged = children.flatMap((child) => child.acknowledged());
    expect(acknowledged).toHaveLength(writers * rounds * 3);
    const told = toldBy(logbook);
    expect(new Set(told)).toEqual(new Set(acknowledged));
    // A remark is one row; two radials and two shots are two rows each.
    expect(told).toHaveLength(writers * rounds * 5);
    const numbers = logbook.fieldStates.at(-1)?.radials.map(({ number }) => number) ?? [];
    expect(numbers).toEqual(Array.from({ length: writers * rounds * 2 }, (_, i) => i + 1));
    expect(logbook.visits.map(({ shots }) => shots.length)).toEqual(Array(writers * rounds).fill(2));
    expect((await checkLogbook(folder)).damage).toEqual([]);
  });
});

describe('a writer that dies with the lock in its hand', () => {
  it('holds nobody up for longer than a few seconds', async () => {
    const folder = await newLogbook();
    const holder = spawn(
      process.execPath,
      [
        '--import',
        'tsx',
        '--input-type=module',
        '--eval',
        `import { lockLogbook } from './src/logbook/lock.ts';
         await lockLogbook(process.env.FOLDER);
         console.log('held');
         setInterval(() => {}, 1000);`,
      ],
      { stdio: ['ignore', 'pipe', 'inherit'], env: { ...process.env, FOLDER: folder } },
    );
    await once(holder.stdout, 'data');
    holder.kill('SIGKILL');
    await once(holder, 'close');
    expect(existsSync(join(folder, 'journal.csv.lock'))).toBe(true);
    await appendEvents(folder, [{ event: 'lift', time: '2026-03-01T10:00:00Z', text: '', number: 1 }], {
      waitMs: 15_000,
    });
    expect(existsSync(join(folder, 'journal.csv.lock'))).toBe(false);
  });
});
