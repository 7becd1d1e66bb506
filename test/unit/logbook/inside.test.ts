import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { REAL_DISK } from '../../../src/logbook/disk.ts';
import { fileNameOf, insideLogbook, makeFolderInside } from '../../../src/logbook/inside.ts';
import { temporaryFolder } from '../../support/logbooks.ts';

/** A folder with a secret beside it. */
function folderWithNeighbour() {
  const outer = temporaryFolder();
  const folder = join(outer, 'field');
  mkdirSync(join(folder, 'sweeps'), { recursive: true });
  writeFileSync(join(outer, 'secret.csv'), 'secret');
  writeFileSync(join(folder, 'sweeps', 'own.csv'), 'own');
  return { outer, folder };
}

describe('paths inside a logbook', () => {
  it('are given for files and links that stay inside, and null where there is nothing', async () => {
    const { folder } = folderWithNeighbour();
    symlinkSync('own.csv', join(folder, 'sweeps', 'link.csv'));
    expect(await insideLogbook(folder, 'sweeps/own.csv')).toBe(join(folder, 'sweeps/own.csv'));
    expect(await insideLogbook(folder, 'sweeps/link.csv')).toBe(join(folder, 'sweeps/link.csv'));
    expect(await insideLogbook(folder, 'sweeps/none.csv')).toBeNull();
  });

  it.each([
    '../secret.csv',
    'sweeps/../../secret.csv',
    '/etc/passwd',
    '..',
    '',
    'sweeps/out.csv',
    'away/secret.csv',
  ])('are refused when they lead out: %s', async (file) => {
    const { outer, folder } = folderWithNeighbour();
    symlinkSync(join(outer, 'secret.csv'), join(folder, 'sweeps', 'out.csv'));
    symlinkSync(outer, join(folder, 'away'));
    await expect(insideLogbook(folder, file)).rejects.toMatchObject({
      code: 'outside-logbook',
      kind: 'logbook',
    });
  });

  it('makes no folder through a link that leads out', async () => {
    const { outer, folder } = folderWithNeighbour();
    symlinkSync(outer, join(folder, 'away'));
    await expect(makeFolderInside(REAL_DISK, folder, 'away/2026-03')).rejects.toMatchObject({
      code: 'outside-logbook',
    });
  });
});

describe('names of files made of texts', () => {
  it.each([
    ['../../etc/passwd', 'passwd'],
    ['C:\\sweeps\\one.csv', 'one.csv'],
    ['=cmd|calc.csv', 'cmd-calc.csv'],
    ['.hidden', 'hidden'],
    ['naïve mast №2.s1p', 'naïve-mast-No2.s1p'],
    ['\u001b[31mred.csv', '31mred.csv'],
    ['con.csv', 'xcon.csv'],
    ['', 'x'],
    ['///', 'x'],
    ['a\u0000b', 'a-b'],
    ['a.', 'a'],
    ['two.. ', 'two'],
    ['right\u202eto-left.csv', 'right-to-left.csv'],
    ['com1.tar.gz', 'xcom1.tar.gz'],
    [`${'-a'.repeat(50)}.csv`, `${'a-'.repeat(37)}a.csv`],
    ['海'.repeat(100), '海'.repeat(53)],
    [`${'long'.repeat(60)}.csv`, `${'long'.repeat(19)}.csv`],
  ])('are harmless: %j', (text, expected) => {
    expect(fileNameOf(text)).toBe(expected);
  });
});
