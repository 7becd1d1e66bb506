import { rmSync } from 'node:fs';
import { readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { demoLogbook } from '../../support/demo-logbook.ts';
import { expectClose } from '../../support/expect-close.ts';
import { lastingFolder } from '../../support/logbooks.ts';
import { onPlanningDay, SAMPLE_SITE as SITE, siteWith } from '../../support/planning.ts';

const folder = lastingFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const turfwire = onPlanningDay(folder);

describe('turfwire plan', () => {
  it('ends no wire within arm’s reach of a place, and says so; what it could not avoid has a line of its own', async () => {
    const { out } = await turfwire('plan', '--site', SITE, '--json');
    const { radials, notes } = JSON.parse(out);
    const places = JSON.parse(await readFile(SITE, 'utf8')).lot.places as { at: string[] }[];
    for (const { route } of radials) {
      const [e, n] = route.at(-1);
      for (const { at } of places) {
        const [x = 0, y = 0] = at.map(Number.parseFloat);
        expect(Math.hypot(e - x, n - y)).toBeGreaterThanOrEqual(1.3);
      }
    }
    expect(notes.join()).toContain(
      'no wire of this plan ends within arm’s reach (1.3 m) of bench, sandpit and',
    );
    const crowded = await siteWith((site) => {
      (site['lot'] as { places: unknown[] }).places.push({ name: 'step', at: ['5.5m', '11m'] });
      (site['radials'] as Record<string, unknown>)['insulated'] = false;
      (site['radials'] as Record<string, unknown>)['depth'] = '0m';
    });
    const text = (await turfwire('plan', '--site', crowded, '--count', '8', '--length', '7m')).out;
    expect(text).toContain('"step" is within arm’s reach (1.3 m) of the antenna itself');
    expect(text).toMatch(/Radials [\d, toand]+ of this plan pass within arm’s reach \(1\.3 m\) of "step"/u);
  });

  it('names insulated wires that pass within arm’s reach of a place', async () => {
    const byDeck = await siteWith((s) => {
      (s['lot'] as { places: object[] }).places = [{ name: 'deck', at: ['4.6m', '15m'] }];
    });
    const args = ['plan', '--site', byDeck, '--length', '7m', '--count'];
    expect((await turfwire(...args, '16')).out).toMatch(
      /Radials? [\d, toand]+ of this plan pass(es)? within arm’s reach \(1\.3 m\) of "deck", for a plan keeps only the ends of wires clear/u,
    );
    expect((await turfwire(...args, '2')).out).not.toContain('of this plan pass');
  });

  it('names the places that the fields of its wires reach at the powers of the site', async () => {
    const sending = (peakPower: string, baseHeight: string, place: string[]) =>
      siteWith((s) => {
        Object.assign(s['antenna'] as object, { baseHeight });
        s['transmit'] = [{ band: '40m', peakPower, mode: 'cw', onAirFraction: 1 }];
        (s['lot'] as { places: object[] }).places = [{ name: 'deck', at: place }];
      });
    const notes = async (site: string, ...args: string[]) =>
      JSON.parse((await turfwire('plan', '--site', site, '--json', ...args)).out).notes.join() as string;
    const two = ['--count', '2', '--length', '7m'];
    // The first of two wires runs east and passes 2 m south of it.
    expect(await notes(await sending('1500W', '0m', ['9.4m', '9m']), ...two)).toMatch(
      /radial 1 passes 2\.0 m from "deck", where its field is over the limit at 1500 W cw on 40m \(allowed there: \d+ W while no other wire of this plan lies, \d+ W once all do\)/u,
    );
    expect(await notes(await sending('100W', '0m', ['9.4m', '9m']), ...two)).not.toContain('over the limit');
    // Raised ends keep people off farther than an arm reaches.
    const raised = await notes(await sending('1500W', '2m', ['2.7m', '22.9m']));
    const said =
      /radial \d ends ([\d.]+) m from "deck", and at 1500 W cw on 40m people keep off its end by ([\d.]+) m/u;
    const [, awayM, keptM] = said.exec(raised)?.map(Number) ?? [];
    expect(awayM).toBeGreaterThan(1.3);
    expect(keptM).toBeGreaterThan(awayM as number);
    expect(await notes(await sending('10W', '2m', ['2.7m', '22.9m']))).not.toContain('people keep');
  });

  it('names the radials that end within arm’s reach of the border, in the answer and in the JSON', async () => {
    const site = await siteWith((changed) => {
      changed['lot'] = {
        outline: [
          ['0m', '0m'],
          ['10m', '0m'],
          ['10m', '40m'],
          ['0m', '40m'],
        ],
        base: ['5m', '20m'],
      };
    });
    const six = ['plan', '--site', site, '--count', '6', '--length', '4.2m'] as const;
    const { radials, endsNearBorder, notes } = JSON.parse((await turfwire(...six, '--json')).out);
    const near = radials.flatMap(({ route }: { route: number[][] }, i: number) => {
      const [e = 0] = route.at(-1) ?? [];
      return Math.min(e, 10 - e) < 1.3 ? [i + 1] : [];
    });
    expect(endsNearBorder).toEqual(near);
    expect(near.length).toBeGreaterThan(0);
    expect(notes.join()).toContain('of the border: whoever stands beyond can touch');
    expect((await turfwire(...six)).out).toContain('within arm’s reach (1.3 m) of the border');
  });

  it('prints the public JSON: routes within the lot, wire, efficiency, pattern, cuts', async () => {
    const { code, out } = await turfwire('plan', '--site', SITE, '--json');
    const plan = JSON.parse(out);
    expect(code).toBe(0);
    const wireM = plan.radials.reduce((sum: number, { lengthM }: { lengthM: number }) => sum + lengthM, 0);
    expectClose(plan.wireM, wireM, { relative: 1e-9 });
    expect(plan.wireM).toBeLessThanOrEqual(225);
    for (const { route, bearingDeg } of plan.radials) {
      expect(route[0]).toEqual([4.6, 11]);
      expect(bearingDeg).toBeGreaterThanOrEqual(0);
      for (const [east, north] of route) {
        expect(east).toBeGreaterThan(1.1);
        expect(east).toBeLessThan(10.5);
        // The water pipe at 3 m north keeps wires 0.6 m off.
        expect(north).toBeGreaterThan(3.6);
      }
    }
    expect(plan.efficiency).toHaveLength(1);
    expect(plan.efficiency[0]).toMatchObject({ band: '40m', lossDb: expect.any(Number) });
    expectClose(plan.efficiency[0].lossDb, -10 * Math.log10(plan.efficiency[0].efficiencyPercent / 100), {
      absolute: 1e-9,
    });
    expect(plan.pattern[0].azimuthDeg).toHaveLength(72);
    expect(plan.pattern[0].relativeDb).toHaveLength(72);
    expect(plan.cuttingPlan[0]).toEqual({
      stockM: expect.any(Number),
      pieces: expect.any(Array),
      offcutM: expect.any(Number),
    });
  });

  it('answers people in a sentence first, with the cautions for the work', async () => {
    const { out } = await turfwire('plan', '--site', SITE, '--count', '16', '--length', '7m');
    expect(out).toMatch(
      /^Lay 16 radials of .* On 40m, \d+ to \d+ % of the power is radiated: [\d.]+ to [\d.]+ dB is lost/u,
    );
    expect(out).toContain('call 811');
    expect(out).not.toMatch(/\bsafe\b/iu);
  });

  it('takes a pipe by its way, and asks whether a wide service is one', async () => {
    const way = [
      ['0m', '3m'],
      ['5m', '3m'],
      ['5m', '1m'],
      ['10.5m', '1m'],
    ];
    const withService = async (service: object) => {
      const site = await siteWith((s) => {
        (s['lot'] as { obstacles: object[] }).obstacles[2] = { name: 'main', kind: 'service', ...service };
      });
      const { out } = await turfwire('plan', '--site', site, '--count', '16', '--length', '9m', '--json');
      return JSON.parse(out) as { radials: { route: [number, number][] }[]; notes: string[] };
    };
    const { radials, notes } = await withService({ line: way, clearance: '0.6m' });
    expect(notes.join()).not.toContain('"line"');
    for (const [east, north] of radials.flatMap(({ route }) => route)) {
      expect(north).toBeGreaterThanOrEqual(east < 4.4 ? 3.599 : 1.599);
    }
    // East of the elbow wires come farther south.
    expect(Math.min(...radials.flatMap(({ route }) => route.map(([, north]) => north)))).toBeLessThan(3);
    const area = await withService({ outline: [...way.slice(0, 3), ['0m', '1m']] });
    expect(area.notes.join()).toContain('"main" is kept clear as an area about 1.4 m across');
  });

  it('draws the lot to a file', async () => {
    const { code, err } = await turfwire('plan', '--site', SITE, '--svg', 'lot.svg');
    expect([code, err]).toEqual([0, expect.stringContaining('drew the lot to')]);
    expect(await readFile(join(folder, 'lot.svg'), 'utf8')).toMatch(
      /^<svg[\s\S]*<polyline[\s\S]*<\/svg>\n$/u,
    );
  });

  it('replaces an earlier drawing, and no other file unless it is told', async () => {
    await writeFile(join(folder, 'letter.svg'), 'Dear neighbour');
    const draw = (...more: string[]) => turfwire('plan', '--site', SITE, '--svg', 'letter.svg', ...more);
    const refused = await draw();
    expect([refused.code, refused.err]).toEqual([1, expect.stringContaining('no drawing of a lot')]);
    expect(await readFile(join(folder, 'letter.svg'), 'utf8')).toBe('Dear neighbour');
    expect((await draw('--overwrite')).code).toBe(0);
    expect((await draw()).code).toBe(0);
  });

  it('speaks in the units of the site, and never says a range of one length', async () => {
    const site = await siteWith((s) => {
      s['units'] = 'imperial';
    });
    const { out } = await turfwire('plan', '--site', site, '--count', '1', '--length', '10ft');
    expect(out).toMatch(/^Lay 1 radial of 10\.00 ft, 10\.0 ft of wire in all\./u);
    expect(out.replaceAll(/\(\d[\d.]* (?:m|mm|km)\)/gu, '')).not.toMatch(/\d m\b|\d mm\b/u);
    expect(out).toContain('Pin it every 30 in and at');
    expect(out).toContain('each is 5.9 in longer than its route');
    expect(out).not.toMatch(/\b[0-2]\.\d+ ft\b/u);
  });

  it('says when a lot has no room for all radials that are asked for', async () => {
    const { out } = await turfwire('plan', '--site', SITE, '--count', '120', '--length', '3m');
    expect(out).toMatch(
      /There is no room for the rest of the 120: they would come within 0\.2 m of another wire/u,
    );
  });

  it('shows every field that its sentences weigh, and no direction of a pattern that has none', async () => {
    const args = ['plan', '--site', SITE];
    const { out } = await turfwire(...args);
    const [, count, length] =
      /^Count and length hardly .* and (\d+) radials of up to ([\d.]+ m) come/mu.exec(out) ?? [];
    expect(out).toMatch(new RegExp(`^${count} radials +${length} `, 'mu'));
    const flat = [...args, '--count', '8', '--length', '2m', '--compare', '3x2m'];
    const text = (await turfwire(...flat)).out;
    expect(text.match(/the same all round \(within 0\.05 dB\)/gu)?.length).toBeGreaterThan(2);
    expect(text).not.toMatch(/[+-]?0\.00 dB at/u);
    const { otherFields } = JSON.parse((await turfwire(...flat, '--json')).out);
    expect(otherFields[0].leaning[0]).toMatchObject({ sameAllRound: true, most: { azimuthDeg: null } });
  });

  it('turns the drawing by lot.north, and no route, bearing or azimuth', async () => {
    const plan = async (north: string) => {
      const site = await siteWith((s) => Object.assign(s['lot'] as object, { north }));
      const args = ['--site', site, '--count', '12', '--length', '6m', '--json', '--svg', 'turned.svg'];
      const { radials, pattern } = JSON.parse((await turfwire('plan', ...args)).out);
      return { radials, pattern, svg: await readFile(join(folder, 'turned.svg'), 'utf8') };
    };
    const [straight, turned] = [await plan('0deg'), await plan('90deg')];
    expect(turned.radials).toEqual(straight.radials);
    expect(turned.pattern).toEqual(straight.pattern);
    // A bearing is that of the way from the base, clockwise from the north of the coordinates.
    for (const { route, bearingDeg } of turned.radials) {
      const [east, north] = [route[1][0] - route[0][0], route[1][1] - route[0][1]];
      expectClose((Math.atan2(east, north) * 180) / Math.PI + (east < 0 ? 360 : 0), bearingDeg, {
        absolute: 1e-6,
      });
    }
    expect([straight.svg, turned.svg].map((svg) => /rotate\((.*?)\)/u.exec(svg)?.[1])).toEqual([
      '0.0',
      '90.0',
    ]);
  });

  it('says first what the measured handfuls advise, where that is not to go on', async () => {
    const season = await demoLogbook();
    const { advice, why } = JSON.parse((await turfwire('progress', '--logbook', season, '--json')).out);
    const args = ['plan', '--logbook', season, '--stock', '1x12m'];
    expect(JSON.parse((await turfwire(...args, '--json')).out).measured).toEqual({ advice, why });
    const { out } = await turfwire(...args);
    expect(out.startsWith(`What was measured says ${advice}`)).toBe(advice !== 'go on');
    expect(out).toContain('less than the 0.25 dB that the site calls worthwhile');
    await rm(season, { recursive: true });
  });

  it('takes a stated radiation resistance on the band where it can be true, and says so', async () => {
    const on = async (bands: string[], stated?: string) => {
      const site = await siteWith((s) => {
        const given = stated === undefined ? {} : { radiationResistance: stated };
        s['antenna'] = { kind: 'quarter-wave', height: '5m', diameter: '25mm', bands, ...given };
      });
      const { out } = await turfwire('plan', '--site', site, '--count', '24', '--length', '5m', '--json');
      return JSON.parse(out) as { efficiency: { efficiencyPercent: number }[]; notes: string[] };
    };
    const [stated, computed, alone] = [
      await on(['40m', '20m'], '30ohm'),
      await on(['40m', '20m']),
      await on(['40m'], '30ohm'),
    ];
    expect(stated.efficiency[0]).toEqual(computed.efficiency[0]);
    expect(stated.efficiency[1]).not.toEqual(computed.efficiency[1]);
    expect(stated.notes.filter((note) => note.includes('20m suits the antenna’s height best'))).toHaveLength(
      1,
    );
    // A loaded radiator of one band is known to its owner alone.
    expect(alone.efficiency[0]?.efficiencyPercent).toBeGreaterThan(85);
    expect(alone.notes.join()).not.toContain('radiationResistance');
  });

  it('gives null, not a number, on a band on which the antenna is too tall', async () => {
    const plan = JSON.parse(
      (await turfwire('plan', '--site', SITE, '--band', '40m', '--band', '10m', '--json')).out,
    );
    expect(plan.efficiency[1]).toMatchObject({
      band: '10m',
      groundLossOhm: null,
      efficiencyPercent: null,
      lossDb: null,
    });
  });

  it.each<[string, (site: Record<string, unknown>) => void, string]>([
    ['a missing lot', (s) => delete s['lot'], 'lot: plan needs the lot'],
    ['a missing soil', (s) => delete s['soil'], 'soil: plan needs the soil'],
    ['a missing height', (s) => delete (s['antenna'] as Record<string, unknown>)['height'], 'antenna.height'],
    ['no stock', (s) => delete s['stock'], 'stock: plan needs the wire at hand'],
    ['a base outside', (s) => Object.assign(s['lot'] as object, { base: ['50m', '6m'] }), 'lot.base'],
    [
      'an outline that crosses itself',
      (s) =>
        Object.assign(s['lot'] as object, {
          outline: [
            ['0m', '0m'],
            ['9m', '9m'],
            ['9m', '0m'],
            ['0m', '9m'],
          ],
        }),
      'lot.outline',
    ],
    [
      'a negative soil',
      (s) => Object.assign(s, { soil: { conductivity: '-5mS/m', permittivity: 13 } }),
      'soil',
    ],
    ['an unknown unit', (s) => Object.assign(s['antenna'] as object, { height: '33cubits' }), 'cubits'],
  ])('asks about %s by the field’s name', async (_, change, message) => {
    const { code, out, err } = await turfwire('plan', '--site', await siteWith(change));
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain(message);
  });

  it.each<[string, string[], string]>([
    ['radials that are too short', ['--count', '4', '--length', '0.2m'], '--length: needs at least 1.0 m'],
    ['more radials than make sense', ['--count', '500', '--length', '3m'], 'needs a count from 1 to 120'],
    ['wire that is too short', ['--stock', '3x1m'], '--stock: needs a piece of at least 1.15 m'],
    ['an elevation of the zenith', ['--elevation', '90deg'], '--elevation: needs an angle above 0deg'],
    ['an allowance below nothing', ['--allowance', '-1m'], '--allowance: needs a length of 0 or more'],
    ['a field without its x', ['--compare', '8y12m'], '--compare: needs a count'],
  ])('refuses %s by the name of the option alone', async (_, options, message) => {
    const { code, out, err } = await turfwire('plan', '--site', SITE, ...options);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(
      `turfwire: ${message.startsWith('--') ? message : `--count, --length: ${message}`}`,
    );
  });
});
