import { cpSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.ts';
import type { FailureJson } from '../../src/cli/failure.ts';
import { addVisit, createLogbook } from '../../src/logbook/logbook.ts';
import { demoLogbook } from '../support/demo-logbook.ts';
import { runCommand } from '../support/fake-io.ts';
import { lastingFolder, SITE, someVisit } from '../support/logbooks.ts';

const SAMPLES = resolve(import.meta.dirname, '../../samples');
const GOOD = 'MHz,R,X\n7.0,40,-10\n7.1,41,1\n7.2,42,12\n';

/** Where the commands run: files of every kind beside logbooks of every kind. */
let place = '';

beforeAll(async () => {
  place = lastingFolder();
  const files = {
    'good.csv': GOOD,
    'good2.csv': GOOD.replace('40', '41'),
    'bad.csv': 'MHz,R,X\n7.0,forty,-10\n7.1,41,1\n',
    'swr.csv': 'MHz,SWR\n7.0,1.5\n7.1,1.2\n7.2,1.9\n',
    'empty.csv': '',
    'binary.csv': '\0\u0001',
    'open.csv': '7.0,40,-10\n7.1,41,1\n',
    'bare-site.json': '{ "version": 1, "name": "x", "antenna": { "kind": "quarter-wave" } }',
    'readings.csv': 'time,place,level_db\n2026-03-01T10:00Z,bench,-12\n',
    'far.csv': GOOD.replaceAll('7.', '1.'),
    'wrong.json': '{ "version": 1, "name": "x",\n "antena": {} }',
    'torn.json': '{ "version": 1, "name": ',
    'taken.html': 'not a page',
  };
  for (const [name, text] of Object.entries(files)) writeFileSync(join(place, name), text);
  mkdirSync(join(place, 'folder'));
  cpSync(join(SAMPLES, 'site.json'), join(place, 'site.json'));
  const season = await demoLogbook();
  cpSync(season, join(place, 'season'), { recursive: true });
  rmSync(season, { recursive: true });
  for (const name of ['new', 'trial', 'damaged', 'headless']) await createLogbook(join(place, name), SITE);
  await addVisit(join(place, 'damaged'), someVisit(1, 2));
  await addVisit(join(place, 'damaged'), someVisit(3));
  rmSync(join(place, 'damaged/sweeps'), { recursive: true });
  rmSync(join(place, 'headless/journal.csv'));
}, 120_000);

afterAll(() => rmSync(place, { recursive: true, force: true }));

const turfwire = (line: string) =>
  runCommand(line.match(/"[^"]*"|\S+/gu)?.map((word) => word.replaceAll('"', '')) ?? [], { cwd: place });

const L = '--logbook season';
const SIMULATED = '--port simulated --band 40m --points 5 --shots 1';

const SUCCESSES: readonly string[] = [
  'begin fresh --name Lakeside --band 40m --json',
  'lay --logbook new --count 2 --length 6m --json',
  'lift --logbook new 2 --json',
  'note text hello --logbook new --json',
  'note baseline 1 yes --logbook season --json',
  'note field --from readings.csv --logbook new --json',
  `measure --logbook trial ${SIMULATED} --json`,
  `measure --no-store ${SIMULATED} --json`,
  'measure --logbook trial --port simulated:raw,on=open --standard open --band 40m --points 5 --json',
  `watch --logbook trial ${SIMULATED} --every 1s --rounds 1 --json`,
  'ports --json',
  'import good.csv --logbook new --json',
  'import good.csv --logbook new --json',
  `export ${L} --visit 1 --out out --json`,
  `history ${L} --json`,
  'read good.csv swr.csv --json',
  `plan ${L} --count 8 --length 5m --json`,
  'plan --site site.json --json',
  `progress ${L} --json`,
  `compare ${L} --before 1 --after 8 --band 40m --json`,
  'compare --before good.csv --after good2.csv --band 40m --json',
  `diagnose ${L} --json`,
  'diagnose --before good.csv --after good2.csv --json',
  `check ${L} --json`,
  `safety ${L} --json`,
  'safety --site site.json --json',
  `page ${L} --out page.html --json`,
  'demo --out demo --json',
];

it.each(SUCCESSES)('turfwire %s prints one JSON document and ends with 0', async (line) => {
  const ran = await turfwire(line);
  expect(ran.code, ran.err).toBe(0);
  expect(typeof ran.json()).toBe('object');
});

/** The command line, its exit code, and what the message must hold. */
const FAILURES: readonly (readonly [line: string, code: number, message: string])[] = [
  ['frobnicate', 2, "unknown command 'frobnicate'"],
  ['raed good.csv', 2, 'Did you mean read?'],
  ['begin nameless', 2, '--name: is needed'],
  ['begin season --name x', 1, 'season: there is a logbook here already'],
  ['begin good.csv --name x', 1, 'good.csv: needs a folder, got a file'],
  ['begin f --name x --height 10', 2, '--height: needs a unit, such as 10.1m or 33ft, got "10"'],
  [
    'begin f --name x --kind quarterwave',
    2,
    '--kind: must be one of quarter-wave, half-wave, other, got "quarterwave"',
  ],
  ['begin f --name x --band 43m', 2, '--band: band "43m" is not one of 160m,'],
  ['begin f --name x --region 4', 2, '--region: must be one of 1, 2, 3, got 4'],
  ['begin f --name x --feedline RG-58', 2, '--feedline-length: is needed with --feedline'],
  ['begin f --name x --at noon', 2, '--at: needs a time such as '],
  ['lay --logbook new', 2, '--length: is needed, such as --length 6m'],
  ['lay --logbook new --count 0 --length 6m', 2, '--count: needs a whole number from 1 to 1000, got "0"'],
  ['lay --logbook new --count 2 --length 6', 2, '--length: needs a unit, such as 6m or 20ft, got "6"'],
  ['lay --logbook new --lenght 6m', 2, 'Did you mean --length?'],
  ['lay --logbook new --planned 1', 1, 'radial 1 is not planned'],
  ['lay --logbook nowhere --length 6m', 1, 'nowhere: no logbook here: name its folder with --logbook'],
  ['lift --logbook new 99', 1, 'radial 99 does not lie there'],
  ['lift --logbook new x', 2, 'NUMBERS: needs numbers such as 5-8 or 5,7, got "x"'],
  ['note moisture 23 --logbook new', 2, 'PERCENT: needs a unit, such as 23%, got "23"'],
  ['note rian 3mm --logbook new', 2, 'Did you mean rain?'],
  ['note baseline 1 maybe --logbook new', 2, 'must be yes or no, got "maybe"'],
  ['note field -12dB --logbook new', 2, '--place: is needed'],
  ['note field --from nowhere.csv --logbook new', 1, 'nowhere.csv: cannot be read: no such file'],
  ['note field --from good.csv --logbook new', 1, 'good.csv:1: unknown column "MHz"'],
  ['measure --logbook new', 2, "required option '--port <PORT>' not specified"],
  ['measure --logbook trial --port simulated --band 41m', 2, 'did you mean "40m"?'],
  [`measure ${L} --port simulated --band 40m`, 2, '--port: the logbook has visits of the real antenna'],
  [
    'measure --logbook trial --port simulated --shots 0',
    2,
    '--shots: needs a whole number from 1 to 1000, got "0"',
  ],
  ['measure --logbook trial --port simulated --description spci', 2, 'did you mean "scpi"?'],
  [
    'measure --logbook trial --port simulated --describe torn.json',
    1,
    'torn.json:1:25: this is not JSON: value expected',
  ],
  [
    'measure --logbook trial --port simulated --describe good.csv/d.json',
    1,
    'd.json: cannot be read: a part of the path that should be a folder is a file',
  ],
  [
    'measure --logbook trial --port simulated --keep-raw nowhere/raw.bin',
    1,
    'raw.bin: cannot be opened for --keep-raw: no such file or folder',
  ],
  ['measure --no-store --port /dev/nowhere --band 40m', 3, '/dev/nowhere is not there'],
  [
    'measure --logbook trial --port simulated:silent --band 40m --patience 0.05',
    3,
    'nothing at simulated answers',
  ],
  [
    'measure --logbook headless --port simulated --band 40m',
    4,
    'journal.csv: there is a site.json but no journal.csv',
  ],
  ['watch --logbook new --port simulated --every 0s', 2, '--every: needs a time of 1s or more, got "0s"'],
  ['watch --logbook nowhere --port simulated --rounds 1', 1, 'nowhere: no logbook here'],
  ['ports extra', 2, "too many arguments for 'ports'"],
  ['import --logbook new', 2, "missing required argument 'FILE'"],
  ['import nowhere.csv --logbook new', 1, 'nowhere.csv: no such file'],
  ['import bad.csv --logbook new', 1, 'bad.csv:2:5: resistance must be a number, got "forty"'],
  ['import swr.csv --logbook new', 1, 'swr.csv: holds only SWR'],
  ['import good.csv --logbook headless', 4, 'bring it back from a copy'],
  ['import good.csv --logbook new --unit furlong', 2, '--unit: needs Hz, kHz, MHz or GHz, got "furlong"'],
  [`export ${L}`, 2, "required option '--out <DIR>' not specified"],
  [`export ${L} --out o`, 2, 'needs one of --visit, --all and --since'],
  [`export ${L} --visit 99 --out o`, 1, 'there is no visit 99'],
  [
    `export ${L} --all --out good.csv`,
    1,
    'cannot be read: a part of the path that should be a folder is a file',
  ],
  ['export --logbook damaged --all --out o', 4, 'the file is gone: bring it back from a copy'],
  ['history --logbook nowhere', 1, 'nowhere: no logbook here'],
  ['history --logbook headless', 4, 'bring it back from a copy'],
  ['read', 2, "missing required argument 'FILE'"],
  ['read nowhere.csv', 1, 'nowhere.csv: no such file'],
  ['read bad.csv', 1, 'bad.csv:2:5: resistance must be a number, got "forty"'],
  ['read empty.csv', 1, 'empty.csv: needs rows of numbers'],
  ['read binary.csv', 1, 'binary.csv: needs a text file, got binary data'],
  [
    'read open.csv',
    1,
    'open.csv:1: no line above the numbers says what the 3 columns are; say which, such as --columns MHz,R,X',
  ],
  ['read folder', 1, 'folder: is a folder: name the files in it'],
  ['read good.csv --region 4', 2, "argument '4' is invalid. Allowed choices are 1, 2, 3"],
  ['read good.csv --reference 0', 2, '--reference: needs ohms above 0, such as 50, got "0"'],
  [
    'read good.csv --delimiter constructor',
    2,
    '--delimiter: needs comma, semicolon, tab or blanks, got "constructor"',
  ],
  ['read good.csv --site wrong.json', 1, 'wrong.json:2: antena: unknown key, did you mean "antenna"?'],
  ['plan --site nowhere.json', 1, 'nowhere.json: no such file'],
  ['plan --site bare-site.json', 1, "lot: plan needs the lot's outline"],
  [`plan ${L} --count 8`, 2, '--count and --length go together'],
  [
    `plan ${L} --stock 2000000000x25m`,
    2,
    '--stock: needs a count from 1 to 1000 and a length such as 16x10m',
  ],
  ['plan --site site.json --svg nowhere/x.svg', 1, 'x.svg: cannot be written: no such file or folder'],
  [`progress ${L} --next x`, 2, '--next: needs a count of wires, got "x"'],
  [`progress ${L} --band 43m`, 2, '--band: band "43m" is not one of'],
  ['progress --logbook damaged', 4, 'the file is gone'],
  [`compare ${L} --before 1`, 2, '--before and --after are needed together, got only --before'],
  [`compare ${L} --before 1 --after 99`, 2, '--after: there is no visit 99'],
  ['compare --before good.csv --after bad.csv', 1, 'bad.csv:2:5: resistance must be a number, got "forty"'],
  ['compare --logbook damaged --before 1 --after 2', 4, 'the file is gone'],
  ['diagnose --before good.csv', 2, 'needs sweeps before and after'],
  ['diagnose --before good.csv --after far.csv', 1, 'share no frequencies'],
  ['diagnose --before swr.csv --after swr.csv', 1, 'holds only SWR'],
  ['diagnose --logbook damaged', 4, 'the file is gone'],
  ['check --logbook nowhere', 1, 'nowhere: no logbook here'],
  ['check --logbook headless', 4, 'bring it back from a copy'],
  ['check --logbook new --fix', 2, "unknown option '--fix'"],
  ['demo --out good.csv', 1, 'good.csv: needs a folder, got a file'],
  ['demo --out season', 1, 'season: holds something else'],
  ['safety --site bare-site.json', 1, 'antenna.height: is needed to compute the fields, such as "10.1m"'],
  ['safety --site site.json --power 100', 2, '--power: needs a unit, such as 100W, got "100"'],
  ['safety --site site.json --mode smoke', 2, '--mode: needs a mode, one of ssb,'],
  ['safety --site site.json --limits none', 2, '--limits: needs one of fcc-general,'],
  [`page ${L} --out taken.html`, 1, 'taken.html: is there already and is not a page of Turfwire'],
  [
    `page ${L} --out good.csv/p.html`,
    1,
    'p.html: cannot be written: a part of the path that should be a folder is a file',
  ],
  [`page ${L} --out nowhere/p.html`, 1, 'p.html: cannot be written: no such file or folder'],
];

it.each(FAILURES)('turfwire %s ends with %i, says why, and prints no data', async (line, code, message) => {
  const { code: came, out, err } = await turfwire(line);
  expect({ code: came, out }, err).toEqual({ code, out: '' });
  expect(err).toContain(message);
});

it.each(FAILURES)('turfwire %s --json prints one document with the failure in it', async (line, code) => {
  const { code: came, err, json } = await turfwire(`${line} --json`);
  const { error } = json<FailureJson>();
  expect({ code: came, exitCode: error.exitCode }, err).toEqual({ code, exitCode: code });
  expect(error.code).toMatch(/^[a-z][a-z0-9]*(?:-[a-z0-9]+)*$/u);
  expect(Object.keys(error.where)).toEqual(['file', 'line', 'column', 'field']);
  expect(error.message).not.toBe('');
  expect(err).toContain(error.message);
});

it('the failure tells its place part by part', async () => {
  const { json } = await turfwire('compare --before good.csv --after bad.csv --json');
  expect(json()).toEqual({
    error: {
      code: 'number-wrong',
      exitCode: 1,
      where: { file: 'bad.csv', line: 2, column: 5, field: null },
      message: 'resistance must be a number, got "forty" (and 1 more in this file)',
    },
  });
});

/** What was done or found is told, although it is not all well. */
it.each([
  ['check --logbook damaged', 4, '3 findings'],
  ['page --logbook damaged --out p.html', 4, 'the page leaves out 2 visits'],
  ['import good2.csv bad.csv --logbook new', 1, 'bad.csv: not stored; everything else is'],
  ['read good.csv bad.csv', 1, '1 file of 2 could not be read'],
])('turfwire %s ends with %i, and prints the document of what there is', async (line, code, message) => {
  const ran = await turfwire(`${line} --json`);
  expect(ran.code).toBe(code);
  const { error, ...rest } = ran.json<FailureJson>();
  expect(error.exitCode).toBe(code);
  expect(Object.keys(rest)).not.toEqual([]);
  expect(ran.err).toContain(message);
});

it('every command is in both tables', () => {
  const lines = [...SUCCESSES, ...FAILURES.map(([line]) => line)];
  for (const { name } of COMMANDS) {
    expect(lines.filter((line) => line.startsWith(name)).length, name).toBeGreaterThan(1);
  }
});
