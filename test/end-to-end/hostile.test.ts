import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { basename, join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { runCommand } from '../support/fake-io.ts';
import { newLogbook, temporaryFolder } from '../support/logbooks.ts';

const GOOD = 'MHz,R,X\n7.0,40,-10\n7.1,41,1\n7.2,42,12\n';
const BAD = 'MHz,R,X\n7.0,forty,-10\n';

let folder = '';
let outer = '';
beforeEach(async () => {
  folder = await newLogbook();
  outer = temporaryFolder();
});

const turfwire = (...args: string[]) =>
  runCommand([...args], { cwd: outer, env: { TURFWIRE_LOGBOOK: folder } });

function write(name: string, text: string): string {
  const path = join(outer, name);
  writeFileSync(path, text);
  return path;
}

/** Every file below a folder with its content. */
function contentOf(root: string): Record<string, string> {
  const files = readdirSync(root, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(
    files.map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return [path, readFileSync(path, 'latin1')];
    }),
  );
}

describe('names of files that play tricks', () => {
  const NAMES = [
    '..csv',
    '...',
    '-rf.csv',
    'CON.csv',
    'lpt1',
    'aux .txt',
    'dots.csv...',
    'blank .csv ',
    'fdp\u202evsc.csv',
    '\u001b]0;title\u0007.csv',
    'two\nlines.csv',
    'back\\slash\\..\\x.csv',
    '=cmd|calc.csv',
    `${'海'.repeat(80)}.csv`,
    'x'.repeat(250),
    '%2e%2e%2f.csv',
    '／etc／passwd',
  ];

  it.each(NAMES)('are kept harmless in refused/: %j', async (name) => {
    const before = contentOf(outer);
    const ran = await turfwire('import', write(name, BAD));
    expect(ran.code).toBe(1);
    const kept = readdirSync(join(folder, 'refused'));
    expect(kept).toHaveLength(2);
    for (const file of kept) expect(file).toMatch(/^[\p{L}\p{N}_]([\p{L}\p{N}._-]*[\p{L}\p{N}_])?$/u);
    expect(readFileSync(join(folder, 'refused', kept[0] as string), 'utf8')).toBe(BAD);
    expect(Object.keys(contentOf(outer))).toEqual([...Object.keys(before), join(outer, name)].sort());
    expect((await turfwire('check')).code).toBe(0);
  });

  it.each(NAMES)('are told as they are, and used for nothing, when the file is good: %j', async (name) => {
    expect((await turfwire('import', write(name, GOOD))).code).toBe(0);
    const { events } = (await turfwire('history', '--json')).json<{
      events: { source: string; file: string }[];
    }>();
    expect(events.at(-1)?.source).toBe(basename(join(outer, name)));
    expect(events.at(-1)?.file).toMatch(/^sweeps\/\d{4}-\d\d\/[\w-]+\.csv$/u);
    expect((await turfwire('check')).code).toBe(0);
  });
});

describe('links out of a logbook', () => {
  /** Puts a link into the place of a part of the logbook; what was there lies outside now. */
  function leadOut(part: string, isFolder: boolean): string {
    const target = join(outer, 'elsewhere');
    if (existsSync(join(folder, part))) renameSync(join(folder, part), target);
    else if (isFolder) mkdirSync(target);
    else writeFileSync(target, 'secret');
    symlinkSync(target, join(folder, part));
    return target;
  }

  const everyCommand = async () => {
    const good = write('good.csv', GOOD.replace('40', '50'));
    const bad = write('bad.csv', BAD);
    return [
      await turfwire('import', good),
      await turfwire('import', bad),
      await turfwire('note', 'text', 'hello'),
      await turfwire('lay', '--length', '6m'),
      await turfwire('history'),
      await turfwire('check'),
      await turfwire('diagnose'),
      await turfwire('export', '--all', '--out', 'out'),
    ];
  };

  it.each([
    ['sweeps', true],
    ['sweeps/2026-03', true],
    ['refused', true],
    ['journal.csv', false],
    ['site.json', false],
    ['derived', true],
  ])('%s: nothing is written there, and a command that would says so', async (part, isFolder) => {
    await turfwire('import', write('first.csv', GOOD), '--at', '2026-03-01T10:00Z');
    const target = leadOut(part, isFolder);
    const before = isFolder ? contentOf(target) : readFileSync(target, 'latin1');
    const ran = await everyCommand();
    expect(isFolder ? contentOf(target) : readFileSync(target, 'latin1')).toEqual(before);
    const refused = ran.filter(({ err, out }) => `${err}${out}`.includes('leads out of the logbook'));
    // What can be computed anew is done without, and that needs no words.
    expect(refused.length > 0).toBe(part !== 'derived');
    for (const { code, err } of ran) expect([0, 1, 4], err).toContain(code);
  });

  it('a link in the place of the lock is removed, and not what it leads to', async () => {
    const target = join(outer, 'elsewhere');
    mkdirSync(target);
    writeFileSync(join(target, 'precious.txt'), 'precious');
    symlinkSync(target, join(folder, 'journal.csv.lock'));
    const { lutimesSync } = await import('node:fs');
    lutimesSync(join(folder, 'journal.csv.lock'), 0, 0);
    expect((await turfwire('note', 'text', 'hello')).code).toBe(0);
    expect(contentOf(target)).toEqual({ [join(target, 'precious.txt')]: 'precious' });
    expect(existsSync(join(folder, 'journal.csv.lock'))).toBe(false);
  });

  it('a name in the journal that climbs out is not read', async () => {
    await turfwire('import', write('first.csv', GOOD), '--at', '2026-03-01T10:00Z');
    write('secret.csv', GOOD);
    const journal = join(folder, 'journal.csv');
    const climbing = `../${basename(outer)}/secret.csv`;
    writeFileSync(journal, readFileSync(journal, 'utf8').replace(/sweeps\/2026-03\/[^,]+/u, climbing));
    cpSync(join(outer, 'secret.csv'), join(folder, '..', 'secret.csv'));
    expect(await turfwire('export', '--all', '--out', 'out')).toMatchObject({
      code: 4,
      err: expect.stringContaining('leads out of the logbook'),
    });
    expect((await turfwire('check')).out).toContain('leads out of the logbook');
  });
});
