import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeCanonical } from '../../../src/formats/canonical.ts';
import { grid, seriesCircuit } from '../../support/antenna-model.ts';
import { expectClose } from '../../support/expect-close.ts';
import { type Ran, runCommand } from '../../support/fake-io.ts';
import { newLogbook, SITE } from '../../support/logbooks.ts';

interface ReadJson {
  readonly sweeps: readonly {
    readonly file: string;
    readonly shot: number;
    readonly plane: string;
    readonly points: number;
    readonly fromHz: number;
    readonly toHz: number;
    readonly referenceOhm: number;
    readonly minSwr: number | null;
    readonly minSwrHz: number | null;
    readonly resonances: readonly { frequencyHz: number; resistanceOhm: number; kind: string }[];
    readonly bands: readonly {
      readonly band: string;
      readonly fromHz: number;
      readonly toHz: number;
      readonly worstSwr: number | null;
      readonly bestSwr: number | null;
      readonly bestSwrHz: number | null;
      readonly worstReturnLossDb: number | null;
      readonly swr2BandwidthHz: number | null;
      readonly swr2OpenEnded: boolean;
    }[];
    readonly notes: readonly string[];
  }[];
  readonly region: number;
  readonly refused: readonly { readonly file: string; readonly problems: readonly object[] }[];
  readonly error?: object;
}

let folder = '';
const read = (...args: string[]): Promise<Ran> => runCommand(['read', ...args], { cwd: folder });

/** R 40 ohm, resonant at 7.1 MHz, Q 12: a vertical over a modest field. */
const CIRCUIT = seriesCircuit(
  { resistanceOhm: 40, resonanceHz: 7.1e6, qualityFactor: 12 },
  grid(6e6, 8.2e6, 221),
);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'turfwire-read-'));
  const put = (name: string, text: string) => writeFile(join(folder, name), text);
  await put('own.csv', writeCanonical(CIRCUIT));
  await put('swr.csv', 'MHz,SWR\n6.9,1.9\n7.0,1.5\n7.1,1.2\n7.2,1.6\n7.3,2.5\n');
  await put('two.csv', 'MHz,R,X\n7,40,-10\n7.2,41,10\n7,42,-11\n7.2,43,9\n');
  await put('torn.csv', 'MHz,R,X\n7,40,-10\n7.1,4x,0\n7.2,41,10\n');
  await put('high.s1p', '# MHz Z RI R 50\n7 4 -0.1\n7.2 4 0.1\n');
  await mkdir(join(folder, 'sub'));
  await put(
    'site.json',
    JSON.stringify({
      version: 1,
      name: 'plot',
      antenna: { kind: 'quarter-wave' },
      region: 2,
      instrument: { reference: '75ohm' },
      feedline: { type: 'RG-58', length: '12m' },
    }),
  );
});

afterAll(() => rm(folder, { recursive: true }));

describe('turfwire read --json', () => {
  it('gives the documented figures of a sweep, in SI', async () => {
    const ran = await read('own.csv', '--region', '1', '--json');
    expect(ran).toMatchObject({ code: 0, err: '' });
    const [sweep] = ran.json<ReadJson>().sweeps;
    expect(sweep).toMatchObject({ file: 'own.csv', points: 221, fromHz: 6e6, toHz: 8.2e6, referenceOhm: 50 });
    expectClose(sweep?.minSwr, 1.25, { relative: 1e-3 });
    expectClose(sweep?.minSwrHz, 7.1e6, { absolute: 5e3 });
    expect(sweep?.resonances).toHaveLength(1);
    expect(sweep?.resonances[0]?.kind).toBe('series');
    expectClose(sweep?.resonances[0]?.frequencyHz, 7.1e6, { absolute: 200 });
    expectClose(sweep?.resonances[0]?.resistanceOhm, 40, { relative: 1e-9 });
    expect(sweep?.bands.map(({ band }) => band)).toEqual(['40m']);
    const [band] = sweep?.bands ?? [];
    expect(band).toMatchObject({ fromHz: 7e6, toHz: 7.2e6, swr2OpenEnded: false });
    // X at the limit of SWR 2 with R 40 against 50 ohm: |Γ| = 1/3 gives X² = (90² − 9·10²)/8 = 900.
    expectClose(band?.swr2BandwidthHz, (30 / 40 / 12) * 7.1e6, { relative: 2e-3 });
  });

  it('has no bandwidth where the SWR never gets under 2, and no resonance that is not there', async () => {
    const [sweep] = (await read('high.s1p', '--json')).json<ReadJson>().sweeps;
    expect(sweep?.bands[0]).toMatchObject({ swr2BandwidthHz: null, swr2OpenEnded: false });
    const against200 = (await read('high.s1p', '--json', '--reference', '200ohm')).json<ReadJson>().sweeps[0];
    expect(against200).toMatchObject({ referenceOhm: 200 });
    expect(against200?.bands[0]).toMatchObject({ swr2OpenEnded: true });
    expectClose(against200?.bands[0]?.swr2BandwidthHz, 2e5, { relative: 1e-12 });
  });

  it('says of SWR alone that resonance cannot be had', async () => {
    const [sweep] = (await read('swr.csv', '--json')).json<ReadJson>().sweeps;
    expect(sweep?.resonances).toEqual([]);
    expect(sweep?.notes.join()).toContain('no resonance can be found');
    expectClose(sweep?.minSwr, 1.2, { relative: 1e-15 });
    expect(sweep?.minSwrHz).toBe(7.1e6);
  });

  it('gives each sweep of a file with several its own entry', async () => {
    const { sweeps } = (await read('two.csv', '--json')).json<ReadJson>();
    expect(sweeps.map(({ file, shot }) => `${file} ${shot}`)).toEqual(['two.csv 1', 'two.csv 2']);
  });

  it('prints what could be read, and lists what could not with line and column', async () => {
    const some = await read('two.csv', 'missing.csv', 'torn.csv', '--json');
    expect(some.code).toBe(1);
    const { sweeps, refused, error } = some.json<ReadJson>();
    expect(sweeps.map(({ file }) => file)).toEqual(['two.csv', 'two.csv', 'torn.csv']);
    expect(refused[0]).toEqual({
      file: 'missing.csv',
      problems: [{ code: 'file-missing', message: 'no such file', line: null, column: null, settledBy: [] }],
    });
    expect(refused[1]).toMatchObject({ file: 'torn.csv', problems: [{ line: 3, column: 5 }] });
    expect(error).toMatchObject({ code: 'files-refused', exitCode: 1 });
    expect((await read('missing.csv')).out).toBe('');
  });

  it('takes region and band edges of the logbook that is named, of TURFWIRE_LOGBOOK, or of the current folder', async () => {
    const site = { ...SITE, region: 2, bandEdges: { '40m': ['7.0MHz', '7.25MHz'] } };
    const logbook = await newLogbook(site);
    const file = join(folder, 'own.csv');
    const ways: [string[], { cwd: string; env?: Record<string, string> }][] = [
      [['--logbook', logbook], { cwd: folder }],
      [[], { cwd: folder, env: { TURFWIRE_LOGBOOK: logbook } }],
      [[], { cwd: logbook }],
    ];
    for (const [flags, world] of ways) {
      const ran = await runCommand(['read', file, '--json', ...flags], world);
      expect([ran.code, ran.err]).toEqual([0, '']);
      const { region, sweeps } = ran.json<ReadJson>();
      expect([region, sweeps[0]?.bands.map(({ toHz }) => toHz)]).toEqual([2, [7.25e6]]);
    }
    expect((await read('own.csv', '--logbook', 'nowhere')).code).toBe(1);
    const env = { TURFWIRE_LOGBOOK: 'nowhere' };
    expect((await runCommand(['read', 'own.csv'], { cwd: folder, env })).code).toBe(0);
  });

  it('names the region of the bands, and says once when none was named', async () => {
    const assumed = await read('own.csv', 'two.csv', '--json');
    expect(assumed.json<ReadJson>().region).toBe(1);
    expect(
      assumed.err.match(/ITU region 1, taken because none is named: --region names another/gu),
    ).toHaveLength(1);
    const chosen = await read('own.csv', '--region', '2', '--json');
    expect(chosen.json<ReadJson>().region).toBe(2);
    expect(chosen.err).not.toContain('region');
  });
});

describe('turfwire read', () => {
  it('says in a sentence where the dip is, R at X = 0 and which bands are under 2, then the table', async () => {
    const { out } = await read('own.csv');
    const [sentence, ...rest] = out.split('\n');
    expect(sentence).toMatch(
      /^own\.csv: lowest SWR 1\.25 at 7\.1\d\d MHz; X = 0 at 7\.100 MHz with R 40\.0 ohm; SWR stays/u,
    );
    expect(rest.join('\n')).toMatch(/band +covered MHz/u);
  });

  it('goes on after a file that cannot be read, tells file, line and column, and exits 1', async () => {
    const ran = await read('missing.csv', 'torn.csv', 'sub', 'own.csv');
    expect(ran.code).toBe(1);
    expect(ran.out).toContain('own.csv: lowest SWR');
    expect(ran.err).toContain('missing.csv: no such file');
    expect(ran.err).toContain('torn.csv:3:5: resistance must be a number, got "4x"');
    expect(ran.err).toContain('sub: is a folder');
    expect(ran.err).toContain('turfwire: 3 files of 4 could not be read in full');
  });

  it('takes a file that is named twice once, and points out a copy', async () => {
    const ran = await read('own.csv', './own.csv');
    expect(ran.out.match(/lowest SWR/gu)).toHaveLength(1);
    expect(ran.err).toContain('./own.csv: is named twice');
    await writeFile(join(folder, 'copy.csv'), writeCanonical(CIRCUIT));
    expect((await read('own.csv', 'copy.csv')).err).toContain(
      'copy.csv: is a copy of own.csv, byte for byte',
    );
  });

  it('reads standard input', async () => {
    const text = new TextEncoder().encode('7,40,-10\n7.2,41,10\n');
    const ran = await runCommand(['read', '-', '--columns', 'MHz,R,X'], {
      cwd: folder,
      stdin: async () => text,
    });
    expect(ran.out).toContain('-: lowest SWR');
  });

  it('refuses a wrong flag as a wrong command line', async () => {
    for (const flags of [
      ['--unit', 'THz'],
      ['--reference', '0'],
      ['--delimiter', 'dash'],
      ['--port-of-file', '0'],
      ['--region', '4'],
      ['--plane', 'roof'],
      ['--columns', 'nonsense'],
    ]) {
      expect((await read('own.csv', ...flags)).code, flags.join(' ')).toBe(2);
    }
    expect((await read()).code).toBe(2);
  });

  it('makes text from a file harmless for a terminal', async () => {
    await writeFile(join(folder, 'evil.csv'), 'MHz,R,X\n7,\u001b[2J,1\n7.1,40,1\n7.2,41,2\n');
    expect((await read('evil.csv')).err).toContain('\\u{1b}[2J');
  });
});

describe('turfwire read --site', () => {
  it('takes region and reference from the site, and moves nothing by its feed line alone', async () => {
    const [bare] = (await read('own.csv', '--json', '--reference', '75')).json<ReadJson>().sweeps;
    const [sited] = (await read('own.csv', '--json', '--site', 'site.json')).json<ReadJson>().sweeps;
    expect(sited?.resonances).toEqual(bare?.resonances);
    expect(sited).toMatchObject({ plane: 'feedpoint', referenceOhm: 75, minSwr: bare?.minSwr });
    expect(sited?.bands[0]?.toHz).toBe(7.3e6);
  });

  it('moves a sweep of --plane shack to the feed point', async () => {
    const [shack] = (await read('own.csv', '--json', '--plane', 'shack')).json<ReadJson>().sweeps;
    expect(shack?.plane).toBe('shack');
    const [moved] = (
      await read('own.csv', '--json', '--plane', 'shack', '--site', 'site.json')
    ).json<ReadJson>().sweeps;
    expect(moved?.plane).toBe('feedpoint');
    expect(moved?.resonances).not.toEqual(shack?.resonances);
  });

  it('leaves SWR alone where it was seen, and says so', async () => {
    const ran = await read('swr.csv', '--plane', 'shack', '--site', 'site.json');
    expect(ran.err).toContain('cannot be moved through the feed line');
    expect(ran.out).toContain('as seen in the shack');
  });

  it('takes the region from the flag before the site', async () => {
    const [sweep] = (await read('own.csv', '--json', '--site', 'site.json', '--region', '1')).json<ReadJson>()
      .sweeps;
    expect(sweep?.bands[0]?.toHz).toBe(7.2e6);
  });
});
