import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addVisit, checkLogbook, openLogbook } from '../../../src/logbook/logbook.ts';
import { newLogbook, someVisit, temporaryFolder } from '../../support/logbooks.ts';

/** A logbook of two visits, and the files of its sweeps. */
async function logbookOfThree() {
  const folder = await newLogbook();
  await addVisit(folder, someVisit(1, 2));
  await addVisit(folder, someVisit(3));
  const files = (await openLogbook(folder)).visits.flatMap(({ shots }) => shots.map(({ file }) => file));
  return { folder, files, path: (i: number) => join(folder, files[i] as string) };
}

/** Everything in a folder, to see that nothing was changed. */
function contents(folder: string): Record<string, string> {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  );
  return Object.fromEntries(
    names.map(({ parentPath, name }) => [
      join(parentPath, name),
      readFileSync(join(parentPath, name), 'latin1'),
    ]),
  );
}

const found = async (folder: string) => {
  const before = contents(folder);
  const { damage } = await checkLogbook(folder);
  expect(contents(folder)).toEqual(before);
  return damage.map(({ code, place }) => `${code} ${place.file}`);
};

describe('check', () => {
  it('finds nothing in a logbook that is whole, counts what it looked at, and tells how far it is', async () => {
    const { folder } = await logbookOfThree();
    const progress: number[] = [];
    const report = await checkLogbook(folder, (done, of) => progress.push(done / of));
    expect(report).toEqual({ rows: 4, sweeps: 3, damage: [], siteError: null });
    expect(progress.at(-1)).toBe(1);
  });

  it('names a sweep that is gone, changed by a byte, cut short or grown', async () => {
    const { folder, files, path } = await logbookOfThree();
    const bytes = readFileSync(path(1), 'utf8');
    rmSync(path(0));
    for (const changed of [bytes.replace('7000000', '7000001'), bytes.slice(0, -1), `${bytes}\n`, '']) {
      writeFileSync(path(1), changed);
      expect(await found(folder)).toEqual([`sweep-missing ${files[0]}`, `sweep-changed ${files[1]}`]);
    }
  });

  it('names two sweeps that changed places', async () => {
    const { folder, files, path } = await logbookOfThree();
    renameSync(path(0), `${path(0)}.x`);
    renameSync(path(1), path(0));
    renameSync(`${path(0)}.x`, path(1));
    expect(await found(folder)).toEqual([`sweep-changed ${files[0]}`, `sweep-changed ${files[1]}`]);
  });

  it('names files that no row knows, and what a power cut left half written', async () => {
    const { folder } = await logbookOfThree();
    writeFileSync(join(folder, 'sweeps/2026-03/stray.csv'), 'x');
    writeFileSync(join(folder, 'sweeps/2026-03/.a.csv.7.unfinished'), 'x');
    writeFileSync(join(folder, '.site.json.7.unfinished'), 'x');
    mkdirSync(join(folder, 'refused'));
    writeFileSync(join(folder, 'refused/odd.csv'), 'x');
    expect(await found(folder)).toEqual([
      'sweep-orphan sweeps/2026-03/stray.csv',
      'reason-missing refused/odd.csv',
      'file-unfinished .site.json.7.unfinished',
      'file-unfinished sweeps/2026-03/.a.csv.7.unfinished',
    ]);
  });

  it('lets alone what is not of the logbook, and reasons beside what they explain', async () => {
    const { folder } = await logbookOfThree();
    mkdirSync(join(folder, 'refused'));
    writeFileSync(join(folder, 'refused/odd.csv'), 'x');
    writeFileSync(join(folder, 'refused/odd.csv.why.txt'), 'x');
    writeFileSync(join(folder, 'page.html'), 'x');
    expect(await found(folder)).toEqual([]);
  });

  it('names links that lead out or nowhere, and follows none of them', async () => {
    const { folder, files, path } = await logbookOfThree();
    const elsewhere = temporaryFolder();
    const copy = join(elsewhere, 'copy.csv');
    writeFileSync(copy, readFileSync(path(0)));
    rmSync(path(0));
    symlinkSync(copy, path(0));
    symlinkSync('nothing.csv', join(folder, 'sweeps/dead.csv'));
    symlinkSync(elsewhere, join(folder, 'sweeps/2025-01'));
    expect((await found(folder)).sort()).toEqual(
      [`outside-logbook ${files[0]}`, 'link-dead sweeps/dead.csv', 'outside-logbook sweeps/2025-01'].sort(),
    );
  });

  it('names a row that points out of the logbook', async () => {
    const { folder, files } = await logbookOfThree();
    const journal = join(folder, 'journal.csv');
    const text = readFileSync(journal, 'utf8');
    writeFileSync(journal, text.replace(files[2] as string, '../../outside.csv'));
    expect(await found(folder)).toEqual([
      'row-changed journal.csv',
      'outside-logbook ../../outside.csv',
      `sweep-orphan ${files[2]}`,
    ]);
  });

  it('looks at every sweep even when the site file is wrong, and tells both', async () => {
    const { folder, path } = await logbookOfThree();
    writeFileSync(join(folder, 'site.json'), '{');
    rmSync(path(0));
    const { damage, siteError } = await checkLogbook(folder);
    expect(damage.map(({ code }) => code)).toEqual(['sweep-missing']);
    expect(siteError).toMatchObject({ code: 'json-syntax' });
  });

  it('gives a writer at work the time to end before it speaks of damage', async () => {
    const { folder, path } = await logbookOfThree();
    mkdirSync(join(folder, 'journal.csv.lock'));
    const unfinished = `${path(0)}.7.unfinished`;
    writeFileSync(unfinished, 'x');
    const checking = checkLogbook(folder);
    setTimeout(() => rmSync(unfinished), 100);
    expect((await checking).damage).toEqual([]);
    expect(existsSync(unfinished)).toBe(false);
  });
});
