import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '../..');
const README = readFileSync(join(ROOT, 'README.md'), 'utf8');

/** The fenced blocks of one language, in order. */
function blocks(language: string): string[] {
  return [...README.matchAll(new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\`$`, 'gmu'))].map(
    ([, text]) => text as string,
  );
}

describe('what the README shows works', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'turfwire-readme-'));
    cpSync(join(ROOT, 'samples'), join(folder, 'samples'), { recursive: true });
    // Stands for npx in the project's own folder, which runs the built command.
    mkdirSync(join(folder, 'bin'));
    const npx = `#!/bin/sh\n[ "$1" = turfwire ] || exit 9\nshift\nexec node ${join(ROOT, 'dist/cli/main.js')} "$@"\n`;
    writeFileSync(join(folder, 'bin/npx'), npx);
    chmodSync(join(folder, 'bin/npx'), 0o755);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('every command of the season, one after the other', () => {
    const script = `set -euo pipefail\n${blocks('sh').join('\n')}`;
    expect(script.match(/npx turfwire/gu)?.length).toBeGreaterThan(15);
    const { status, stderr, stdout } = spawnSync('bash', ['-c', script], {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, PATH: `${join(folder, 'bin')}:${process.env['PATH']}` },
    });
    expect(status, `${stdout.slice(-2000)}\n${stderr}`).toBe(0);
    expect(stdout).toMatch(/^40m: improved/mu);
    expect(existsSync(join(folder, 'my-field/page.html'))).toBe(true);
    expect(existsSync(join(folder, 'my-field/lot.svg'))).toBe(true);
  });

  it('the example of the library', () => {
    const [example] = blocks('ts') as [string];
    expect(example.trim().split('\n').length).toBeLessThanOrEqual(17);
    const file = join(ROOT, 'artefacts/readme-example.mjs');
    mkdirSync(join(ROOT, 'artefacts'), { recursive: true });
    writeFileSync(file, example);
    const { status, stdout, stderr } = spawnSync('node', [file], { encoding: 'utf8' });
    expect(status, stderr).toBe(0);
    expect(stdout).toContain('series resonance at 7.109 MHz, 42.1 ohm');
    expect(stdout).toMatch(/^40m: SWR 1\.\d\d to 1\.\d\d$/mu);
  });

  it('its opening commands and its picture', () => {
    for (const command of ['npm ci && npm start', 'npm ci && npm test']) expect(README).toContain(command);
    expect(README).toContain('](docs/page.png)');
  });

  it.each(['README.md', 'DEVELOPERS.md', 'docs/glossary.md', 'docs/instruments.md', 'docs/methods.md'])(
    '%s links only to what there is',
    (page) => {
      const text = readFileSync(join(ROOT, page), 'utf8');
      for (const [, path] of text.matchAll(/\]\(([^)#]+)\)/gu))
        expect(existsSync(resolve(ROOT, dirname(page), path as string)), path).toBe(true);
    },
  );

  it('the chapter of methods names only tests that there are, and each of a published source', () => {
    const named = readFileSync(join(ROOT, 'docs/methods.md'), 'utf8').matchAll(/`([\w/-]+\.test\.ts)`/gu);
    const paths = [...named].map(([, path]) => (path as string).replace(/^(?!test\/)/u, 'test/published/'));
    expect(paths.length).toBeGreaterThan(30);
    for (const path of paths) expect(existsSync(join(ROOT, path)), path).toBe(true);
    const published = readdirSync(join(ROOT, 'test/published')).filter((file) => file.endsWith('.test.ts'));
    for (const file of published) expect(paths).toContain(`test/published/${file}`);
  });
});
