import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { rename, symlink } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { measureBand } from '../../src/cli/measure-band.ts';
import { findBand } from '../../src/core/sweep/bands.ts';
import { openInstrument } from '../../src/instrument/open-instrument.ts';
import { simulatedAntenna } from '../../src/instrument/simulator/simulated-antenna.ts';
import { type Disk, REAL_DISK } from '../../src/logbook/disk.ts';
import { lockLogbook } from '../../src/logbook/lock.ts';
import { checkLogbook, openLogbook } from '../../src/logbook/logbook.ts';
import { runCommand } from '../support/fake-io.ts';
import { instrumentOnPty } from '../support/instrument-on-pty.ts';
import { newLogbook, temporaryFolder } from '../support/logbooks.ts';

const QUICK = ['--every', '1s', '--shots', '1', '--points', '21', '--patience', '0.15'];

describe('watch', () => {
  it('survives that the instrument is pulled and plugged in again', async () => {
    const folder = await newLogbook();
    // A lasting name, as the system keeps them for USB devices.
    const port = join(temporaryFolder(), 'instrument');
    const first = await instrumentOnPty('pace=20');
    await symlink(first.path, port);
    const watching = runCommand(['watch', '--port', port, '--logbook', folder, '--rounds', '5', ...QUICK]);
    await visitsIn(folder, 1);
    await first.unplug();
    await sleep(1500);
    const second = await instrumentOnPty('pace=5,seed=2');
    await symlink(second.path, `${port}.new`);
    await rename(`${port}.new`, port);
    const ran = await watching;
    expect(ran.code, ran.err).toBe(0);
    expect(ran.err).toMatch(/(went away|is not there).*the watch goes on and tries again/u);
    expect(ran.err).toMatch(/it works again/u);
    expect((await openLogbook(folder)).visits.length).toBeGreaterThan(1);
    expect((await checkLogbook(folder)).damage).toEqual([]);
  });

  it('tries again after a reset in mid-sweep', async () => {
    const folder = await newLogbook();
    const { path } = await instrumentOnPty('reset=10');
    const ran = await runCommand(['watch', '--port', path, '--logbook', folder, '--rounds', '2', ...QUICK]);
    expect(ran.code).toBe(0);
    expect(ran.err).toMatch(/was reset in mid-sweep.*goes on/u);
    expect((await openLogbook(folder)).visits).toHaveLength(0);
  });

  it('waits for a logbook that is locked for a while', async () => {
    const folder = await newLogbook();
    const lock = await lockLogbook(folder);
    const watching = runCommand([
      'watch',
      '--port',
      'simulated',
      '--logbook',
      folder,
      '--rounds',
      '1',
      ...QUICK,
    ]);
    await sleep(800);
    expect((await openLogbook(folder)).visits).toHaveLength(0);
    await lock.release();
    expect((await watching).code).toBe(0);
    expect((await openLogbook(folder)).visits).toHaveLength(1);
  });

  it('prints one JSON document a round', async () => {
    const folder = await newLogbook();
    const ran = await runCommand([
      'watch',
      '--port',
      'simulated',
      '--logbook',
      folder,
      '--rounds',
      '2',
      '--json',
      ...QUICK,
      // Long enough for a round on a busy machine: one that lasts longer lets the next one go.
      '--every',
      '4s',
    ]);
    const documents = ran.out.split('\n').map((line) => JSON.parse(line) as { bands: unknown[] });
    expect(documents).toHaveLength(2);
  });

  it('drops the sweep in hand on SIGTERM and ends well', async () => {
    const folder = await newLogbook();
    const child = spawn(
      process.execPath,
      ['--import', 'tsx', 'src/cli/main.ts', 'watch', '--port', 'simulated:pace=200', '--logbook', folder],
      { stdio: ['ignore', 'pipe', 'pipe'] },
    );
    let messages = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      messages += text;
    });
    const ended = once(child, 'exit');
    // The cautions come just before the sweep, which would take twenty seconds.
    while (!messages.includes('thunder')) await once(child.stderr, 'data');
    await sleep(500);
    child.kill('SIGTERM');
    const [code] = await ended;
    expect(code, messages).toBe(0);
    expect(messages).toMatch(/stopped after 0 rounds/u);
    expect((await openLogbook(folder)).visits).toHaveLength(0);
    expect((await checkLogbook(folder)).damage).toEqual([]);
  });
});

it('a full disk costs the sweep in hand and nothing else, and the next one is stored', async () => {
  const folder = await newLogbook();
  const connection = {
    port: 'simulated',
    description: null,
    baud: null,
    patience: 1,
    antenna: async () => simulatedAntenna(null, [], 'feedpoint'),
  };
  const instrument = await openInstrument(connection);
  const full: Disk = {
    ...REAL_DISK,
    open: () => Promise.reject(Object.assign(new Error('no space left'), { code: 'ENOSPC' })),
  };
  const wish = {
    points: 21,
    asked: { fromHz: null, toHz: null },
    shots: 1,
    pauseMs: 0,
    plane: 'feedpoint',
    target: 'antenna',
    uncorrected: false,
    text: '',
  } as const;
  const heard = { pause: () => {}, progress: () => {}, done: () => {} };
  const measure = async (disk: Disk): Promise<unknown> => {
    const logbook = await openLogbook(folder);
    const session = {
      instrument,
      logbook,
      writing: { now: () => new Date(), disk },
      signal: new AbortController().signal,
      proposeMeasure: () => '',
    };
    return await measureBand(session, findBand('40m', 1), wish, heard);
  };
  await expect(measure(full)).rejects.toMatchObject({ code: 'disk-full' });
  expect((await checkLogbook(folder)).damage).toEqual([]);
  await measure(REAL_DISK);
  expect((await openLogbook(folder)).visits).toHaveLength(1);
  await instrument.close();
});

async function visitsIn(folder: string, count: number): Promise<void> {
  while ((await openLogbook(folder)).visits.length < count) await sleep(50);
}
