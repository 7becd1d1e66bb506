import { mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { JournalEvent } from '../../../src/core/journal-event.ts';
import { atPlane, feedLineOf } from '../../../src/core/sweep/feed-line.ts';
import {
  addVisit,
  appendEvents,
  createLogbook,
  loadShot,
  measuredVisit,
  openLogbook,
  withWriter,
} from '../../../src/logbook/logbook.ts';
import { newLogbook, SITE, someSweep, someVisit, temporaryFolder } from '../../support/logbooks.ts';

const TIME = '2026-03-01T10:15:00Z';
const remark = (text: string): JournalEvent => ({
  event: 'text',
  time: TIME,
  text,
  value: null,
  subject: null,
  powerW: null,
});

describe('making a logbook', () => {
  it('writes a site file, a journal and a folder for sweeps', async () => {
    const folder = await newLogbook();
    expect(readdirSync(folder).sort()).toEqual(['journal.csv', 'site.json', 'sweeps']);
    const logbook = await openLogbook(folder);
    expect(logbook).toMatchObject({ visits: [], readings: [], problems: [], site: { name: 'Lakeside' } });
    expect(logbook.events).toEqual([expect.objectContaining({ event: 'begin' })]);
  });

  it('keeps a site file that is there', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'site.json'), JSON.stringify({ ...SITE, name: 'Mine' }));
    await createLogbook(folder, SITE);
    expect((await openLogbook(folder)).site.name).toBe('Mine');
  });

  it('refuses a logbook, a folder with other files, a file, and a site that is wrong, and writes nothing', async () => {
    const folder = await newLogbook();
    await expect(createLogbook(folder, SITE)).rejects.toMatchObject({ code: 'logbook-exists' });
    const other = temporaryFolder();
    writeFileSync(join(other, 'holiday.jpg'), '');
    await expect(createLogbook(other, SITE)).rejects.toMatchObject({ code: 'folder-not-empty' });
    await expect(createLogbook(join(other, 'holiday.jpg'), SITE)).rejects.toMatchObject({
      code: 'not-a-folder',
    });
    const fresh = join(temporaryFolder(), 'a', 'b');
    await expect(createLogbook(fresh, { ...SITE, version: 2 })).rejects.toMatchObject({
      code: 'site-version-newer',
    });
    expect(() => readdirSync(fresh)).toThrow();
  });
});

describe('opening a logbook', () => {
  it('says what is missing: the whole, or the journal', async () => {
    await expect(openLogbook(temporaryFolder())).rejects.toMatchObject({
      code: 'logbook-missing',
      kind: 'input',
    });
    const folder = await newLogbook();
    rmSync(join(folder, 'journal.csv'));
    await expect(openLogbook(folder)).rejects.toMatchObject({ code: 'journal-missing', kind: 'logbook' });
  });

  it('takes a site file alone for a logbook that never was begun, which is no damage', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'site.json'), JSON.stringify(SITE));
    await expect(openLogbook(folder)).rejects.toMatchObject({
      code: 'logbook-missing',
      kind: 'input',
      message: expect.stringContaining('begin it with `turfwire begin`'),
    });
  });

  it('does not follow a journal that is a link out of it', async () => {
    const folder = await newLogbook();
    const elsewhere = join(temporaryFolder(), 'journal.csv');
    writeFileSync(elsewhere, readFileSync(join(folder, 'journal.csv')));
    rmSync(join(folder, 'journal.csv'));
    symlinkSync(elsewhere, join(folder, 'journal.csv'));
    await expect(openLogbook(folder)).rejects.toMatchObject({ code: 'outside-logbook' });
  });

  it('takes the field from the site until the journal tells of one', async () => {
    const folder = await newLogbook({ ...SITE, radials: { count: 8, length: '5m' } });
    expect((await openLogbook(folder)).fieldStates).toMatchObject([{ since: null, wireM: 40 }]);
    const lay = {
      event: 'lay' as const,
      time: TIME,
      text: '',
      number: 1,
      lengthM: 6,
      bearingDeg: 0,
      route: null,
    };
    await appendEvents(folder, [lay]);
    expect((await openLogbook(folder)).fieldStates.at(-1)).toMatchObject({ since: TIME, wireM: 6 });
  });

  it('gives readings and visits, with the last word on each baseline', async () => {
    const folder = await newLogbook();
    await addVisit(folder, someVisit(1, 2));
    await addVisit(folder, someVisit(3));
    const baseline = (visit: number, yes: boolean): JournalEvent => ({
      event: 'baseline',
      time: TIME,
      text: '',
      visit,
      baseline: yes,
    });
    await appendEvents(folder, [baseline(1, false), remark('dry'), baseline(1, true)]);
    const { visits, readings } = await openLogbook(folder);
    expect(visits.map(({ visit, shots, baseline: word }) => [visit, shots.length, word])).toEqual([
      [1, 2, true],
      [2, 1, null],
    ]);
    expect(readings).toEqual([
      { time: TIME, kind: 'text', value: null, subject: null, powerW: null, text: 'dry' },
    ]);
  });
});

describe('storing a visit', () => {
  it('gives the sweeps back to the last digit, with plane and reference', async () => {
    const folder = await newLogbook();
    expect(await addVisit(folder, someVisit(1, 2))).toBe(1);
    const logbook = await openLogbook(folder);
    const [shot] = logbook.visits[0]?.shots ?? [];
    if (shot === undefined) throw new Error('no shot');
    expect(shot).toMatchObject({ fromHz: 7e6, toHz: 7.2e6, referenceOhm: 50, source: 'shot1.csv' });
    expect(shot.file).toMatch(/^sweeps\/2026-03\/2026-03-01-visit-0001-shot-1-[0-9a-f]{8}\.csv$/u);
    expect(await loadShot(logbook, shot)).toEqual(someSweep(1));
  });

  it('adds further shots to a visit that is there', async () => {
    const folder = await newLogbook();
    await addVisit(folder, someVisit(1, 2));
    await addVisit(folder, { ...someVisit(3), joins: { visit: 1, lastShot: 2 } });
    const { visits } = await openLogbook(folder);
    expect(visits).toHaveLength(1);
    expect(visits[0]?.shots.map(({ shot }) => shot)).toEqual([1, 2, 3]);
  });

  it('never rewrites a file that stands in the place of a new sweep', async () => {
    const folder = await newLogbook();
    await addVisit(folder, someVisit(1));
    const file = (await openLogbook(folder)).visits[0]?.shots[0]?.file as string;
    const twin = await newLogbook();
    mkdirSync(join(twin, 'sweeps/2026-03'));
    writeFileSync(join(twin, file), 'something else');
    await expect(addVisit(twin, someVisit(1))).rejects.toMatchObject({ code: 'sweep-file-taken' });
    expect(readFileSync(join(twin, file), 'utf8')).toBe('something else');
  });

  it('writes nothing through a sweeps folder that is a link out of the logbook', async () => {
    const folder = await newLogbook();
    const elsewhere = temporaryFolder();
    rmSync(join(folder, 'sweeps'), { recursive: true });
    symlinkSync(elsewhere, join(folder, 'sweeps'));
    await expect(addVisit(folder, someVisit(1))).rejects.toMatchObject({ code: 'outside-logbook' });
    expect(readdirSync(elsewhere)).toEqual([]);
  });

  it('refuses a visit without a sweep', async () => {
    await expect(addVisit(await newLogbook(), someVisit())).rejects.toMatchObject({ code: 'visit-empty' });
  });
});

describe('a visit in memory', () => {
  const shack = someVisit(1);
  const inShack = {
    ...shack,
    shots: [
      ...shack.shots.map((shot) => ({ ...shot, plane: 'shack' as const })),
      ...someVisit(9).shots.map((shot) => ({
        ...shot,
        plane: 'shack' as const,
        target: 'reference-load' as const,
      })),
    ],
  };

  it('is moved to the plane that is asked for, the reference load left where it stands', async () => {
    const feedline = { type: 'RG-213', length: '10m' };
    const folder = await newLogbook({ ...SITE, feedline });
    await addVisit(folder, inShack);
    const logbook = await openLogbook(folder);
    const [visit] = logbook.visits;
    if (visit === undefined || logbook.site.feedline === null) throw new Error('no visit or no line');
    const measured = await measuredVisit(logbook, visit, { plane: 'feedpoint' });
    const line = feedLineOf(logbook.site.feedline);
    expect(measured.shots).toEqual([atPlane({ ...someSweep(1), plane: 'shack' }, line, 'feedpoint')]);
    expect(measured.referenceLoad).toEqual([{ ...someSweep(9), plane: 'shack' }]);
    expect(measured).toMatchObject({ label: 'visit 1', time: TIME });
  });

  it('cannot be moved without a feed line, and says so', async () => {
    const folder = await newLogbook();
    await addVisit(folder, inShack);
    const logbook = await openLogbook(folder);
    const [visit] = logbook.visits;
    if (visit === undefined) throw new Error('no visit');
    await expect(measuredVisit(logbook, visit, { plane: 'feedpoint' })).rejects.toMatchObject({
      code: 'feedline-needed',
      place: { field: 'feedline' },
    });
    expect((await measuredVisit(logbook, visit, { plane: 'shack' })).shots).toHaveLength(1);
  });

  it('is refused when its file is gone, changed, or a link out', async () => {
    const folder = await newLogbook();
    await addVisit(folder, someVisit(1));
    const logbook = await openLogbook(folder);
    const shot = logbook.visits[0]?.shots[0];
    if (shot === undefined) throw new Error('no shot');
    const path = join(folder, shot.file);
    const bytes = readFileSync(path, 'utf8');
    writeFileSync(path, bytes.replace('36', '37'));
    await expect(loadShot(logbook, shot)).rejects.toMatchObject({ code: 'sweep-changed', kind: 'logbook' });
    rmSync(path);
    await expect(loadShot(logbook, shot)).rejects.toMatchObject({ code: 'sweep-missing', kind: 'logbook' });
    const copy = join(temporaryFolder(), 'copy.csv');
    writeFileSync(copy, bytes);
    symlinkSync(copy, path);
    await expect(loadShot(logbook, shot)).rejects.toMatchObject({ code: 'outside-logbook' });
  });
});

describe('writing rows', () => {
  it('never glues a row to a torn one: the torn bytes move whole to refused/, and the user is told', async () => {
    const folder = await newLogbook();
    const path = join(folder, 'journal.csv');
    const torn = '2,1 of 1,2026-03-01T10:';
    writeFileSync(path, torn, { flag: 'a' });
    const told: string[] = [];
    await appendEvents(folder, [remark('next')], { tell: (message) => told.push(message) });
    expect(told).toEqual([expect.stringContaining('refused/journal-torn.csv')]);
    expect(readFileSync(join(folder, 'refused/journal-torn.csv'), 'utf8')).toBe(torn);
    expect(readFileSync(join(folder, 'refused/journal-torn.csv.why.txt'), 'utf8')).toMatch(/power cut/u);
    const { problems, events } = await openLogbook(folder);
    expect(problems).toEqual([]);
    expect(events.at(-1)?.text).toBe('next');
  });

  it('gives an empty journal its header back', async () => {
    const folder = await newLogbook();
    writeFileSync(join(folder, 'journal.csv'), '');
    await appendEvents(folder, [remark('first')]);
    expect((await openLogbook(folder)).problems).toEqual([]);
  });

  it('lets events be made under the lock, so that numbers are certain', async () => {
    const folder = await newLogbook();
    const lay = () =>
      appendEvents(folder, ({ nextRadial }) => [
        { event: 'lay', time: TIME, text: '', number: nextRadial, lengthM: 6, bearingDeg: null, route: null },
      ]);
    await Promise.all([lay(), lay(), lay(), lay()]);
    const { fieldStates } = await openLogbook(folder);
    expect(fieldStates.at(-1)?.radials.map(({ number }) => number)).toEqual([1, 2, 3, 4]);
  });

  it('lets go of the lock when the work fails', async () => {
    const folder = await newLogbook();
    await expect(
      withWriter(folder, {}, () => {
        throw new Error('mine');
      }),
    ).rejects.toThrow('mine');
    await appendEvents(folder, [remark('after')], { waitMs: 0 });
  });
});
