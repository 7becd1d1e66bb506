import { existsSync, mkdirSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { LOCK_FOLDER, lockLogbook } from '../../../src/logbook/lock.ts';
import { temporaryFolder } from '../../support/logbooks.ts';

/** A lock as a process leaves it, silent for a while. */
function leftLock(folder: string, holder: { process: number; host: string }, silentS: number): void {
  const path = join(folder, LOCK_FOLDER);
  mkdirSync(path);
  writeFileSync(
    join(path, 'holder.json'),
    JSON.stringify({ ...holder, since: '2026-03-01T10:00:00Z', key: 'k' }),
  );
  const then = Date.now() / 1000 - silentS;
  utimesSync(path, then, then);
}

/** A number that no process has: above what Linux gives out. */
const DEAD = 2 ** 22 + 1;

describe('the lock of a logbook', () => {
  it('lets one in at a time', async () => {
    const folder = temporaryFolder();
    let inside = 0;
    let most = 0;
    await Promise.all(
      Array.from({ length: 10 }, async () => {
        const lock = await lockLogbook(folder);
        most = Math.max(most, ++inside);
        await sleep(5);
        inside--;
        await lock.release();
      }),
    );
    expect(most).toBe(1);
    expect(existsSync(join(folder, LOCK_FOLDER))).toBe(false);
  });

  it('says who holds it, since when and what to do, after a bounded wait', async () => {
    const folder = temporaryFolder();
    const lock = await lockLogbook(folder);
    await expect(lockLogbook(folder, 100)).rejects.toThrow(
      new RegExp(`process ${process.pid} on ${hostname()} .* since 2.*wait until it is done, or end it`, 'u'),
    );
    await lock.release();
  });

  it('is taken over from a dead process of this machine after a short silence', async () => {
    const folder = temporaryFolder();
    leftLock(folder, { process: DEAD, host: hostname() }, 3);
    const lock = await lockLogbook(folder, 1000);
    await lock.requireHeld();
    await lock.release();
  });

  it('is taken over from another machine only after a long silence', async () => {
    const folder = temporaryFolder();
    leftLock(folder, { process: DEAD, host: 'elsewhere' }, 3);
    await expect(lockLogbook(folder, 100)).rejects.toMatchObject({ code: 'logbook-locked' });
    utimesSync(join(folder, LOCK_FOLDER), Date.now() / 1000 - 11, Date.now() / 1000 - 11);
    await (await lockLogbook(folder, 1000)).release();
  });

  it('goes to one of many that find it abandoned at the same moment', async () => {
    const folder = temporaryFolder();
    let inside = 0;
    let most = 0;
    for (let round = 0; round < 5; round++) {
      leftLock(folder, { process: DEAD, host: hostname() }, 60);
      await Promise.all(
        Array.from({ length: 10 }, async () => {
          const lock = await lockLogbook(folder);
          most = Math.max(most, ++inside);
          await sleep(1);
          inside--;
          await lock.release();
        }),
      );
    }
    expect(most).toBe(1);
  });

  it('tells a holder that was silent too long that it lost its lock, and leaves the new one alone', async () => {
    const folder = temporaryFolder();
    const slow = await lockLogbook(folder);
    utimesSync(join(folder, LOCK_FOLDER), Date.now() / 1000 - 11, Date.now() / 1000 - 11);
    const next = await lockLogbook(folder, 1000);
    await expect(slow.requireHeld()).rejects.toMatchObject({ code: 'logbook-lock-lost' });
    await slow.release();
    await next.requireHeld();
    await next.release();
  });
});
