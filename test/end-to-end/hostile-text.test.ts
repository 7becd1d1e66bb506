import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { runCommand } from '../support/fake-io.ts';
import { newLogbook, SITE, temporaryFolder } from '../support/logbooks.ts';

const GOOD = 'MHz,R,X\n7.0,40,-10\n7.1,41,1\n7.2,42,12\n';

/** What a spreadsheet computes, or takes for the beginning of a command. */
const FORMULA = /^[=+\-@\t|%＝＋－＠]/u;
const NUMBER = /^-?\d+(?:\.\d+)?$/u;

describe('texts that a spreadsheet would compute', () => {
  const FORMULAS = [
    '=1+1',
    '+1+1',
    "-1+cmd|' /C calc'!A0",
    '@SUM(1)',
    '\t=1+1',
    '|pipe',
    '%0A=1+1',
    '＝1+1',
    'first;=1+1;',
    'first\t=1+1\tlast',
    'first","=1+1',
    '"=1+1',
    "'=1+1",
    'first\n=1+1',
    'first;\\=1+1',
  ];

  it.each(FORMULAS)(
    'are text in the journal, however it is parted, and come back as they were: %j',
    async (text) => {
      const [folder, outer] = [await newLogbook(), temporaryFolder()];
      const turfwire = (...args: string[]) =>
        runCommand(args, { cwd: outer, env: { TURFWIRE_LOGBOOK: folder } });
      const file = join(outer, `${text.replaceAll('/', '')}.csv`);
      writeFileSync(file, GOOD);
      for (const args of [
        ['note', 'text', '--', text],
        ['note', 'inspection', '--', text, text],
        ['note', 'field', '-12.5dB', `--place=${text}`],
        ['lay', '--count', '1', '--length', '6m', `--text=${text}`],
        ['import', file],
      ]) {
        expect(await turfwire(...args)).toMatchObject({ code: 0 });
      }
      const journal = readFileSync(join(folder, 'journal.csv'), 'utf8');
      for (const delimiter of [',', ';', '\t']) {
        const options = { delimiter, relax_quotes: true, relax_column_count: true, skip_empty_lines: true };
        for (const cell of (parse(journal, options) as string[][]).flat()) {
          expect(!FORMULA.test(cell) || NUMBER.test(cell), cell).toBe(true);
        }
      }
      const { events } = (await turfwire('history', '--json')).json<{
        events: { text: string; subject: string | null; source: string }[];
      }>();
      expect(events.map((event) => event.text)).toEqual(['', text, text, '', text, '']);
      expect(events.slice(2, 4).map(({ subject }) => subject)).toEqual([text, text]);
      expect(events.at(-1)?.source).toBe(`${text.replaceAll('/', '')}.csv`);
    },
  );

  it('are text where the reason of a refusal is told', async () => {
    const [folder, outer] = [await newLogbook(), temporaryFolder()];
    writeFileSync(join(outer, '=cmd|calc.csv'), 'MHz,R,X\n7.0,=1+1,-10\n7.1,+1+1,3\n7.2,1,2\n');
    await runCommand(['import', '=cmd|calc.csv'], { cwd: outer, env: { TURFWIRE_LOGBOOK: folder } });
    const reasons = readdirSync(join(folder, 'refused')).filter((name) => name.endsWith('.why.txt'));
    expect(reasons).toHaveLength(1);
    const lines = readFileSync(join(folder, 'refused', reasons[0] as string), 'utf8')
      .trimEnd()
      .split('\n');
    expect(lines.length).toBeGreaterThan(1);
    for (const line of lines) expect(line).not.toMatch(FORMULA);
  });
});

/** What would clear a terminal, colour it, name its window, ring, go back over what stands there, or turn text round. */
const ESCAPES = '\u001b[2J\u001b]0;owned\u0007\u009b31m\b\b\r\u202ered\u2066\u061c\u007f';

/** What no output may hold. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: finding control characters is the purpose
const OBEYED = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/u;

describe('texts that a terminal would obey', () => {
  const NAMED_SITE = {
    ...SITE,
    name: `Plot ${ESCAPES}\nturfwire: all is well`,
    antenna: { kind: 'quarter-wave', height: '10.1m', diameter: '25mm', bands: ['40m'] },
    radials: { diameter: '1.6mm', insulated: true, metal: 'copper', depth: '20mm' },
    soil: 'average',
    lot: {
      outline: [
        ['0m', '0m'],
        ['20m', '0m'],
        ['20m', '20m'],
        ['0m', '20m'],
      ],
      base: ['10m', '10m'],
      obstacles: [
        {
          name: `shed ${ESCAPES}`,
          kind: 'building',
          outline: [
            ['1m', '1m'],
            ['3m', '1m'],
            ['3m', '3m'],
          ],
        },
      ],
      places: [{ name: `bench ${ESCAPES}\nturfwire: clear`, at: ['12m', '10m'] }],
    },
    joints: [{ name: `lug ${ESCAPES}`, metals: ['copper', 'brass'] }],
    transmit: [{ band: '40m', peakPower: '100W', mode: 'ssb', onAirFraction: 0.5 }],
  };

  /** A logbook, and files beside it, in which every text is one. */
  async function nastyPlace() {
    const [folder, outer] = [await newLogbook(NAMED_SITE), temporaryFolder()];
    const good = `good ${ESCAPES}.csv`;
    writeFileSync(join(outer, good), GOOD);
    writeFileSync(join(outer, `bad ${ESCAPES}.csv`), `MHz,R,X\n7.0,${ESCAPES},1\n7.1,1,2\n7.2,3,4\n`);
    writeFileSync(
      join(outer, 'site.json'),
      `{ "version": 1, "name": "x", "${JSON.stringify(ESCAPES).slice(1, -1)}": 1 }`,
    );
    writeFileSync(join(outer, 'readings.csv'), `time,place,level,${ESCAPES}\n`);
    return { folder, outer, good };
  }

  it.each([[[]], [['--json']]])('are shown and not obeyed, by no command (%j)', async (flags) => {
    const { folder, outer, good } = await nastyPlace();
    const bad = good.replace('good', 'bad');
    const journal = join(folder, 'journal.csv');
    const commands = [
      ['import', good, '--text', ESCAPES],
      ['import', bad, good, good],
      ['note', 'text', ESCAPES],
      ['note', 'inspection', `lug ${ESCAPES}`, ESCAPES],
      ['note', 'joint', ESCAPES, '12mohm'],
      ['note', 'field', '-12dB', '--place', `bench ${ESCAPES}`],
      ['note', 'field', '--from', 'readings.csv'],
      ['lay', '--count', '2', '--length', '6m', '--text', ESCAPES],
      ['lay', '--count', '2', '--length', ESCAPES],
      ['lift', ESCAPES],
      ['read', good, bad, 'site.json', ESCAPES],
      ['read', good, '--unit', ESCAPES],
      ['read', good, '--site', 'site.json'],
      ['compare', '--before', good, '--after', bad, '--band', ESCAPES],
      ['compare', '--before', good, '--after', good, '--band', '40m'],
      ['diagnose', '--before', good, '--after', bad],
      ['plan', '--stock', '2x25m'],
      ['plan', '--stock', ESCAPES],
      ['safety'],
      ['safety', '--site', 'site.json'],
      ['progress', '--band', ESCAPES],
      ['measure', '--port', ESCAPES],
      ['measure', '--port', 'simulated', '--describe', 'site.json'],
      ['measure', '--port', 'simulated', '--description', ESCAPES],
      ['export', '--all', '--out', `out ${ESCAPES}`],
      ['begin', folder, '--name', ESCAPES],
      ['begin', `new ${ESCAPES}`, '--name', ESCAPES],
      ['history'],
      ['history', '--logbook', ESCAPES],
      ['check'],
      [ESCAPES],
      ['help', ESCAPES],
      ['note', ESCAPES],
    ];
    for (const args of commands) {
      const ran = await runCommand([...args, ...flags], { cwd: outer, env: { TURFWIRE_LOGBOOK: folder } });
      expect(ran.out, args.join(' ')).not.toMatch(OBEYED);
      expect(ran.err, args.join(' ')).not.toMatch(OBEYED);
      expect(ran.out, args.join(' ')).not.toMatch(/^turfwire: (?:all is well|clear)/mu);
    }
    writeFileSync(journal, readFileSync(journal, 'utf8').replaceAll('text', ESCAPES));
    for (const args of [['history'], ['check']]) {
      const ran = await runCommand([...args, ...flags], { cwd: outer, env: { TURFWIRE_LOGBOOK: folder } });
      expect(ran.out + ran.err).not.toMatch(OBEYED);
    }
    for (const [path, text] of contentsOf(join(folder, 'refused'))) {
      if (path.endsWith('.why.txt')) expect(text).not.toMatch(OBEYED);
    }
  });
});

function contentsOf(folder: string): [string, string][] {
  return readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'utf8')]);
}
