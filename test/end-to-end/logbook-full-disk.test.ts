import { chmodSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  addVisit,
  appendEvents,
  checkLogbook,
  createLogbook,
  openLogbook,
  type WriteOptions,
  withWriter,
} from '../../src/logbook/logbook.ts';
import { FaultyDisk } from '../support/faulty-disk.ts';
import { newLogbook, SITE, someVisit, temporaryFolder } from '../support/logbooks.ts';

const note = (folder: string, options?: WriteOptions) =>
  appendEvents(
    folder,
    ['a', 'b'].map((text) => ({
      event: 'text' as const,
      time: '2026-03-01T10:00:00Z',
      text,
      value: null,
      subject: null,
      powerW: null,
    })),
    options,
  );

/** Every way in which a logbook is written. */
const WRITES: readonly [name: string, write: (folder: string, options: WriteOptions) => Promise<unknown>][] =
  [
    ['events', note],
    ['a visit in a new month', (folder, options) => addVisit(folder, someVisit(1, 2), options)],
    [
      'a refused file',
      (folder, options) =>
        withWriter(folder, options, (writer) => writer.setAside('a.csv', Buffer.from('bad'), 'why')),
    ],
  ];

/** Fails at the first write, the second, and so on, until a run needs no more. */
async function atEveryWrite(run: (faulty: FaultyDisk, failAt: number) => Promise<void>): Promise<number> {
  for (let failAt = 1; ; failAt++) {
    const faulty = new FaultyDisk(failAt);
    await run(faulty, failAt);
    if (faulty.calls < failAt) return failAt - 1;
  }
}

describe.each(WRITES)('a disk that is full while %s are written', (_name, write) => {
  it('at any write: the command says so, nothing acknowledged is lost, nothing is damaged, the next one works', async () => {
    const writes = await atEveryWrite(async ({ disk }, failAt) => {
      const folder = await newLogbook();
      await addVisit(folder, { ...someVisit(7), time: '2026-02-01T10:00:00Z' });
      await note(folder);
      const before = (await openLogbook(folder)).events;
      const failure = await write(folder, { disk }).then(
        () => null,
        (error: unknown) => error,
      );
      if (failure !== null) {
        expect(failure).toMatchObject({ code: 'disk-full', kind: 'input' });
        expect((await openLogbook(folder)).events, `write ${failAt}`).toEqual(before);
      }
      // Sweeps that were stored before the row failed are orphans, and named; nothing else is left behind.
      const codes = new Set((await checkLogbook(folder)).damage.map(({ code }) => code));
      codes.delete('sweep-orphan');
      codes.delete('reason-missing');
      expect([...codes], `write ${failAt}`).toEqual([]);

      await write(folder, {});
      expect((await checkLogbook(folder)).damage, `after write ${failAt}`).toEqual([]);
      expect((await openLogbook(folder)).events.slice(0, before.length)).toEqual(before);
    });
    expect(writes).toBeGreaterThan(2);
  });
});

describe('a disk that is full while a logbook is made', () => {
  it('at any write: the next attempt in the same folder works', async () => {
    const writes = await atEveryWrite(async ({ disk }) => {
      const folder = join(temporaryFolder(), 'field');
      await createLogbook(folder, SITE, { disk }).catch((error: unknown) => {
        expect(error).toMatchObject({ code: 'disk-full' });
      });
      await createLogbook(folder, SITE).catch((error: unknown) => {
        expect(error).toMatchObject({ code: 'logbook-exists' });
      });
      expect((await checkLogbook(folder)).damage).toEqual([]);
    });
    expect(writes).toBeGreaterThan(4);
  });
});

describe('a folder that may not be written', () => {
  it('can be read and checked; a command that writes says why it cannot, and leaves no trace', async () => {
    const folder = await newLogbook();
    await addVisit(folder, someVisit(1));
    const journal = readFileSync(join(folder, 'journal.csv'));
    chmodSync(dirname(folder), 0o755);
    chmodSync(folder, 0o555);
    chmodSync(join(folder, 'journal.csv'), 0o444);
    try {
      await asNobody(async () => {
        await expect(note(folder)).rejects.toMatchObject({
          code: 'disk-refuses',
          message: expect.stringContaining('no permission'),
        });
        expect((await checkLogbook(folder)).damage).toEqual([]);
        expect((await openLogbook(folder)).visits).toHaveLength(1);
      });
    } finally {
      chmodSync(folder, 0o755);
      chmodSync(join(folder, 'journal.csv'), 0o644);
    }
    expect(readFileSync(join(folder, 'journal.csv'))).toEqual(journal);
    await note(folder);
  });

  it.each(['EROFS', 'EACCES', 'EIO'])('%s at any write leaves the journal as it was', async (code) => {
    const folder = await newLogbook();
    for (let failAt = 1; failAt <= 3; failAt++) {
      const { disk } = new FaultyDisk(failAt, code);
      await expect(note(folder, { disk })).rejects.toMatchObject({ code: 'disk-refuses' });
      expect((await checkLogbook(folder)).damage).toEqual([]);
    }
  });
});

/** The superuser may write anywhere: runs something as a user who may not. */
async function asNobody(run: () => Promise<void>): Promise<void> {
  if (process.geteuid?.() !== 0 || process.seteuid === undefined) return run();
  process.seteuid(65_534);
  try {
    await run();
  } finally {
    process.seteuid(0);
  }
}
