import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { expectClose } from '../support/expect-close.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const MINUTES = 60_000;

let folder = '';
let tarball = '';
let packed: string[] = [];

function run(
  program: string,
  args: string[],
  cwd: string,
): { status: number | null; stdout: string; stderr: string } {
  const { NODE_OPTIONS: _, ...env } = process.env;
  return spawnSync(program, args, { cwd, encoding: 'utf8', env });
}

describe('the package', () => {
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'turfwire-package-'));
    const { stdout, stderr } = run('npm', ['pack', '--json', '--pack-destination', folder], ROOT);
    expect(stdout, stderr).toContain('"filename"');
    const [entry] = Object.values(JSON.parse(stdout)) as { filename: string; files: { path: string }[] }[];
    tarball = join(folder, entry?.filename as string);
    packed = entry?.files.map(({ path }) => path) ?? [];
  }, 2 * MINUTES);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('holds the command, the library, the page, the demo and the protocol, and nothing of the workshop', () => {
    for (const needed of [
      'dist/cli/main.js',
      'dist/index.js',
      'dist/index.d.ts',
      'dist/web/page.html',
      'samples/season.json',
      'samples/site.json',
      'firmware-protocol/README.md',
      'firmware-protocol/c/turfwire.h',
      'README.md',
      'CHANGELOG.md',
      'LICENSE',
    ]) {
      expect(packed).toContain(needed);
    }
    const workshop = packed.filter((path) => /^(test|bench|scripts|src|web)\//u.test(path));
    expect(workshop).toEqual([]);
  });

  it('holds every file that its README links to or shows', () => {
    const readme = readFileSync(join(ROOT, 'README.md'), 'utf8');
    const links = [...readme.matchAll(/\]\(([^)#]+)\)/gu)].map(([, path]) => path as string);
    expect(links.length).toBeGreaterThan(5);
    for (const link of links) {
      expect(
        packed.some((path) => path === link || path.startsWith(`${link}/`)),
        link,
      ).toBe(true);
    }
  });

  it('passes the linter for packages', () => {
    const { status, stdout, stderr } = run(
      join(ROOT, 'node_modules/.bin/publint'),
      [tarball, '--strict'],
      ROOT,
    );
    expect(stdout + stderr).toMatch(/all good/iu);
    expect(status).toBe(0);
  });

  it(
    'installs into an empty folder, where the demo runs and the library can be imported',
    () => {
      const install = run('npm', ['install', '--no-audit', '--no-fund', '--omit=dev', tarball], folder);
      expect(install.status, install.stderr).toBe(0);
      const demo = run(join(folder, 'node_modules/.bin/turfwire'), ['demo', '--out', 'demo'], folder);
      expect(demo.status, demo.stderr).toBe(0);
      expect(demo.stdout).toContain('page.html');
      expect(readdirSync(join(folder, 'demo'))).toContain('page.html');
      const code = "import { swrOfReflection } from 'turfwire'; console.log(swrOfReflection(1 / 3))";
      const library = run('node', ['--input-type=module', '-e', code], folder);
      expectClose(Number(library.stdout), 2, { relative: 1e-12 });
      const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { version: string };
      expect(run(join(folder, 'node_modules/.bin/turfwire'), ['--version'], folder).stdout.trim()).toBe(
        version,
      );
    },
    8 * MINUTES,
  );
});
