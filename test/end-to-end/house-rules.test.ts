import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '../..');
const bin = (name: string) => join(ROOT, 'node_modules/.bin', name);

function run(program: string, args: string[], cwd = ROOT): { status: number | null; output: string } {
  const { status, stdout, stderr } = spawnSync(program, args, { cwd, encoding: 'utf8' });
  return { status, output: stdout + stderr };
}

describe('the house keeps its rules', () => {
  it('every file passes the linter, the format and the import rule', () => {
    expect(run(bin('biome'), ['check', '--error-on-warnings', '.'])).toMatchObject({ status: 0 });
  });

  it('every file type-checks, and the core does so without Node or a browser', () => {
    expect(run(bin('tsc'), ['--noEmit'])).toEqual({ status: 0, output: '' });
    expect(run(bin('tsc'), ['--noEmit', '-p', 'src/core/tsconfig.json'])).toEqual({ status: 0, output: '' });
  });
});

/** What the head of a check against a source lacks: sources, a status after each, the tolerance. */
function lacking(text: string): string[] {
  const head = (/^\/\*\*(.*?)\*\//su.exec(text)?.[1] ?? '').replaceAll(/\n \*?\s*/gu, ' ');
  const sources = head.split(/(?<=\s)Source: /u).slice(1);
  const withoutStatus = sources.filter(
    (source) => !/\sStatus: (published|memory|common practice|computed)\b/u.test(source),
  );
  return [
    ...(sources.length === 0 ? ['Source:'] : []),
    ...withoutStatus.map((source) => `Status: of ${source.trim()}`),
    ...(/\sTolerance: \w/u.test(head) ? [] : ['Tolerance:']),
  ];
}

describe('a check against a published source', () => {
  const folder = join(ROOT, 'test/published');
  it.each(readdirSync(folder).filter((file) => file.endsWith('.test.ts')))(
    '%s names its source, its status and its tolerance on top',
    (file) => expect(lacking(readFileSync(join(folder, file), 'utf8'))).toEqual([]),
  );

  it.each([
    [
      'nothing',
      "import { it } from 'vitest';\n/** Source: below. Status: memory. Tolerance: 1. */",
      ['Source:', 'Tolerance:'],
    ],
    ['no source', '/**\n * A. Uthor (1950). Status: published.\n * Tolerance: 1 %.\n */', ['Source:']],
    [
      'no status',
      '/**\n * Source: A. Uthor (1950).\n * Tolerance: 1 %.\n */',
      ['Status: of A. Uthor (1950). Tolerance: 1 %.'],
    ],
    [
      'a status of its own',
      '/**\n * Source: A. Status: sure. Tolerance: 1 %.\n */',
      ['Status: of A. Status: sure. Tolerance: 1 %.'],
    ],
    [
      'no status of the second',
      '/**\n * Source: A. Status: memory.\n * Source: B.\n * Tolerance: 1.\n */',
      ['Status: of B. Tolerance: 1.'],
    ],
    ['no tolerance', '/**\n * Source: A. Status: memory.\n */', ['Tolerance:']],
  ])('that names %s is caught', (_, text, lacks) => {
    expect(lacking(text)).toEqual(lacks);
  });
});

/** The exports of a module that no docstring stands above; what implements an overload has that of the overload. */
function undocumented(text: string): string[] {
  const bare: string[] = [];
  let above = '';
  for (const line of text.split('\n')) {
    const name = /^export (?:async )?(?:function\*?|const|class|interface|type) (\w+)/u.exec(line)?.[1];
    if (name !== undefined && !above.endsWith('*/') && !above.startsWith(`export function ${name}`)) {
      bare.push(name);
    }
    above = line;
  }
  return bare;
}

describe('what the library exports has docstrings', () => {
  const modules = readFileSync(join(ROOT, 'src/index.ts'), 'utf8').matchAll(/ from '\.\/(.+)';/gu);
  it.each([...new Set([...modules].map(([, path]) => path as string))])('%s', (path) => {
    expect(undocumented(readFileSync(join(ROOT, 'src', path), 'utf8'))).toEqual([]);
  });

  it('and one that has none is caught', () => {
    expect(undocumented('/** A. */\nexport const A = 1;\nexport const B = 2;\n')).toEqual(['B']);
  });
});

describe('each rule bites when it is broken', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'turfwire-rules-'));
    for (const file of ['biome.json', '.gitignore', 'tsconfig.json', 'src/core/tsconfig.json']) {
      mkdirSync(dirname(join(folder, file)), { recursive: true });
      cpSync(join(ROOT, file), join(folder, file));
    }
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const lint = (file: string, text: string): string => {
    const path = join(folder, file);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
    const { output } = run(bin('biome'), ['lint', file], folder);
    rmSync(path);
    return output;
  };

  it.each([
    ['core imports Node', 'src/core/planted.ts', "import { readFileSync } from 'node:fs';"],
    ['core imports another room', 'src/core/sweep/planted.ts', "import { a } from '../../formats/a.ts';"],
    ['formats import the logbook', 'src/formats/planted.ts', "import { a } from '../logbook/a.ts';"],
    ['formats import Node', 'src/formats/planted.ts', "import { readFileSync } from 'node:fs';"],
    ['the codec imports Node', 'src/instrument/codec/planted.ts', "import { readFileSync } from 'node:fs';"],
    [
      'the instrument imports the logbook',
      'src/instrument/planted.ts',
      "import { a } from '../logbook/a.ts';",
    ],
    [
      'the logbook imports the instrument',
      'src/logbook/planted.ts',
      "import { a } from '../instrument/a.ts';",
    ],
    ['anything imports the command line', 'src/logbook/planted.ts', "import { a } from '../cli/a.ts';"],
    ['the page imports the logbook', 'web/planted.ts', "import { a } from '../src/logbook/a.ts';"],
    [
      'the page imports the collector',
      'web/planted.ts',
      "import { a } from '../src/instrument/collector.ts';",
    ],
    [
      'the page imports the serial binding',
      'web/planted.ts',
      "import { a } from '../src/instrument/serial/a.ts';",
    ],
    [
      'the page reads a description from a disk',
      'web/planted.ts',
      "import { a } from '../src/instrument/description/read-description.ts';",
    ],
  ])('%s', (_, file, line) => {
    expect(lint(file, `${line}\nexport const b = a;\n`)).toContain('noRestrictedImports');
  });

  it.each(['codec/a.ts', 'description/a.ts', 'line-transport.ts'])('the page may import %s', (file) => {
    const text = `import { a } from '../src/instrument/${file}';\nexport const b = a;\n`;
    expect(lint('web/planted.ts', text)).not.toContain('noRestrictedImports');
  });

  it.each([
    ['console', "console.log('x');"],
    ['process', 'export const a: unknown = process.env;'],
    ['document', 'export const a: unknown = document.title;'],
  ])('core names %s', (name, line) => {
    const path = join(folder, 'src/core/planted.ts');
    writeFileSync(path, `${line}\nexport {};\n`);
    const { status, output } = run(bin('tsc'), ['--noEmit', '-p', join(folder, 'src/core/tsconfig.json')]);
    rmSync(path);
    expect(status).not.toBe(0);
    expect(output).toContain(name);
  });
});
