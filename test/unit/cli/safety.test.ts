import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { appendEvents } from '../../../src/logbook/logbook.ts';
import { type Ran, runCommand } from '../../support/fake-io.ts';
import { newLogbook, temporaryFolder } from '../../support/logbooks.ts';

const SITE = {
  version: 1,
  name: 'invented plot',
  antenna: { kind: 'quarter-wave', height: '10.1m', diameter: '25mm', bands: ['40m'], baseHeight: '0m' },
  radials: { diameter: '1.6mm', insulated: true, metal: 'copper', depth: '20mm', count: 24, length: '6m' },
  lot: {
    outline: [
      ['0m', '0m'],
      ['20m', '0m'],
      ['20m', '15m'],
      ['0m', '15m'],
    ],
    base: ['4m', '6m'],
    places: [
      { name: 'bench', at: ['9m', '2m'], height: '0m' },
      { name: 'step', at: ['5m', '6m'] },
    ],
  },
  joints: [{ name: 'plate to strap', metals: ['copper', 'stainless-18-8'], where: 'outdoor' }],
  transmit: [{ band: '40m', peakPower: '500W', mode: 'cw', onAirFraction: 0.125 }],
  limits: 'fcc-general',
};

async function safety(args: readonly string[], change: Record<string, unknown> = {}): Promise<Ran> {
  const folder = temporaryFolder();
  await writeFile(join(folder, 'site.json'), JSON.stringify({ ...SITE, ...change }));
  return runCommand(['safety', ...args], { cwd: folder, now: () => new Date('2026-05-01T12:00:00Z') });
}

describe('turfwire safety', () => {
  it('prints the shape that other programs read', async () => {
    const { code, out, err } = await safety(['--site', 'site.json', '--json']);
    expect([code, err]).toEqual([0, '']);
    const answer = JSON.parse(out);
    expect(answer.bands).toMatchObject([
      { band: '40m', limit: 'fcc-general', averagePowerW: 25, distanceM: 1.3 },
    ]);
    expect(answer.places).toMatchObject([
      { name: 'bench', distanceM: 6.4, band: '40m', verdict: 'clear' },
      { name: 'step', distanceM: 1, band: '40m', verdict: 'keep out', maxPowerW: 0 },
    ]);
    expect(answer.places[0].maxPowerW).toBeGreaterThan(500);
    expect(answer.wireEnds[0]).toMatchObject({ band: '40m', end: 'element tip' });
    expect(answer.wireEnds[0].peakVoltageV).toBeGreaterThan(0);
    expect(answer.joints).toMatchObject([
      { metals: ['copper', 'stainless-18-8'], differenceV: 0.15, verdict: 'compatible' },
    ]);
    expect(answer.cautions.length).toBeGreaterThan(3);
  });

  it('answers people in a sentence first, with each caution once and the word safe nowhere', async () => {
    const { out } = await safety(['--site', 'site.json']);
    expect(out).toMatch(
      /^While you send, nobody stays within 1\.3 m of the antenna, or 1\.3 m of the end of a radial \(most on 40m, 500 W cw\)\. Of the places that the site names, keep out: step; clear: bench\. No other spot was judged\. Not judged: where 24 radials lie is not known here, and one may end within arm’s reach of bench, step and the border, so look for the ends yourself\./u,
    );
    const cautions = out.split('\n').filter((line) => line.startsWith('- '));
    expect(new Set(cautions).size).toBe(cautions.length);
    expect(out).not.toMatch(/\bsafe\b/iu);
  });

  it('shows distances in feet where the site is imperial, still rounded to the careful side', async () => {
    const { out } = await safety(['--site', 'site.json'], { units: 'imperial' });
    // 1.3 m is 4.27 ft: kept as 4.3; the bench is 6.4 m or 20.997 ft off: told as 20.9.
    expect(out).toContain('within 4.3 ft');
    expect(out).toContain('20.9 ft');
  });

  it('takes power, mode, share and limits from the command line', async () => {
    const { out } = await safety(
      '--site site.json --power 1kW --mode carrier --on-air 50% --limits eu-public --json'.split(' '),
    );
    expect(JSON.parse(out).bands).toMatchObject([
      { limit: 'eu-public', averagePowerW: 500, mode: 'carrier' },
    ]);
  });

  it.each([
    [{ transmit: [] }, 'transmit: is missing', 'add a row such as { "band": "40m", "peakPower"'],
    [{ region: '2' }, 'region: must be one of 1, 2, 3, a number without quotes, got "2"', ''],
    [{ antenna: { kind: 'quarter-wave', bands: ['40m'] } }, 'antenna.height: is needed', '"10.1m"'],
    [
      { lot: { ...SITE.lot, places: [{ name: 'pole', at: ['4m', '6m'] }] } },
      'lot.places[0].at: "pole" lies on the antenna',
      'move it',
    ],
    [
      { joints: [{ name: 'lug', metals: ['copper', 'steal'] }] },
      'joints[0].metals[1]: needs one of',
      'did you mean "steel"',
    ],
    [
      { transmit: [{ band: '40m', peakPower: '20kW', mode: 'cw', onAirFraction: 1 }] },
      'transmit[0].peakPower: needs a peak power above 0 W',
      'got 20000 W',
    ],
    [{ transmit: [{ band: '40m', peakPower: '5W', onAirFraction: 1 }] }, 'transmit[0].mode: is required', ''],
  ])('refuses a site with %j by file and field', async (change, field, hint) => {
    const { code, out, err } = await safety(['--site', 'site.json'], change);
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain('site.json');
    expect(err).toContain(field);
    expect(err).toContain(hint);
  });

  it.each([
    ['--limits', 'fcc-genral', 'did you mean "fcc-general"'],
    ['--power', '0W', 'needs a peak power above 0 W and up to 10000 W, got 0 W'],
    ['--power', '20kW', 'got 20000 W'],
    ['--power', '100', 'needs a unit'],
    ['--mode', 'cv', 'did you mean "cw"'],
    ['--band', '41m', 'is not one of'],
    ['--on-air', '150%', 'up to 1, got 1.5'],
    ['--on-air', '60', 'needs a part of 1 or a percentage, got "60"; did you mean "60%"?'],
    ['--efficiency', '0%', 'needs an efficiency above 0 %'],
  ])('refuses %s %s by the option, and ends with 2', async (option, value, hint) => {
    const { code, out, err } = await safety(['--site', 'site.json', option, value]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(`${option}: `);
    expect(err).toContain(hint);
  });

  it('prints the cautions alone, all or those of some work, without a site', async () => {
    const all = await runCommand(['safety', '--cautions'], { cwd: temporaryFolder() });
    expect(all.out).toMatch(/^digging:\n- Before you cut.*\n\nladders:\n- Nothing/su);
    const some = await runCommand(['safety', '--cautions', 'digging', 'laying', '--json']);
    expect(Object.keys(JSON.parse(some.out).cautions)).toEqual(['digging', 'laying']);
    expect((await runCommand(['safety', '--cautions', 'diging'])).code).toBe(2);
  });

  it('says that a band has no row, which have, and how one is written', async () => {
    const { code, err } = await safety(['--site', 'site.json', '--band', '20m']);
    expect(code).toBe(1);
    expect(err).toContain('site.json: transmit: has no row for 20m, only for 40m');
    const [, row = ''] = /such as (\{.*\}) with/u.exec(err) ?? [];
    const { code: taken } = await safety(['--site', 'site.json', '--band', '20m'], {
      transmit: [JSON.parse(row)],
    });
    expect(taken).toBe(0);
  });

  it('asks for the mode where the site sends nothing and only a power is given', async () => {
    const { code, err } = await safety(['--site', 'site.json', '--power', '5W'], { transmit: [] });
    expect(code).toBe(1);
    expect(err).toContain('transmit.mode: is missing');
  });

  it('takes the radials that lie, and the inspections, from a logbook', async () => {
    const logbook = await newLogbook({ ...SITE, radials: { ...SITE.radials, insulated: false } });
    const common = { time: '2026-04-01T10:00:00Z', text: '' };
    await appendEvents(logbook, [
      { ...common, event: 'lay', number: 1, lengthM: 6, bearingDeg: 130, route: null },
      { ...common, event: 'inspection', subject: 'plate to strap', value: null, powerW: null },
    ]);
    const { code, out } = await safety(['--logbook', logbook, '--json']);
    const told = (await safety(['--logbook', logbook])).out;
    expect(code).toBe(0);
    const answer = JSON.parse(out);
    // The end lies at 4.60 m east and 3.86 m south of the base; the bench 5 m and 4 m: 0.42 m apart.
    expect(answer.places[0]).toMatchObject({ verdict: 'keep out', nearestRadialEndM: 0.4 });
    expect(answer.wireEnds.at(-1)).toMatchObject({ end: 'radial end', sharedBy: 1 });
    expect(answer.joints[0].due).toMatchObject({ due: '2027-04-01T10:00:00Z', overdue: false });
    expect(told).toContain('plate to strap: due 2027-04-01 UTC.');
    expect(told).toContain('bench: the end of radial 1 is 0.4 m away, within arm’s reach (1.3 m): keep out');
  });

  it('says the deciding distance once where rounded figures would contradict a verdict at the edge', async () => {
    for (const [units, told] of [
      ['metric', '1.30 m'],
      ['imperial', '4.27 ft'],
    ] as const) {
      // The step stands 1.3 m from the base, the kerb 1.2 m, the tree 1.5 m.
      const places = Object.entries({ step: '5.3m', kerb: '5.2m', tree: '5.5m' }).map(([name, east]) => ({
        name,
        at: [east, '6m'],
      }));
      const { out } = await safety(['--site', 'site.json'], { units, lot: { ...SITE.lot, places } });
      expect(out).toContain(
        `step: at the very edge, ${told} from the antenna or a little more, which is just what people keep: clear.`,
      );
      expect(out.match(/at the very edge/gu)).toHaveLength(1);
    }
  });

  it('names the radials that end within arm’s reach of the border, for people and for programs', async () => {
    const logbook = await newLogbook(SITE);
    const wire = { time: '2026-04-01T10:00:00Z', text: '', event: 'lay', route: null } as const;
    // The base stands 4 m off the border in the west, and 6 m off that in the south.
    await appendEvents(logbook, [
      { ...wire, number: 1, lengthM: 3, bearingDeg: 270 },
      { ...wire, number: 2, lengthM: 3, bearingDeg: 90 },
      { ...wire, number: 3, lengthM: 5.5, bearingDeg: 180 },
    ]);
    const answer = JSON.parse((await safety(['--logbook', logbook, '--json'])).out);
    expect(answer.radials.endsNearBorder).toEqual([1, 3]);
    expect((await safety(['--logbook', logbook])).out).toContain(
      'The ends of radials 1 and 3 come within arm’s reach (1.3 m) of the border: whoever stands beyond can touch them or come near, so put up a fence there, or end them earlier.',
    );
  });

  it('tells of what reaches over the border: raised wire all along, ends beyond it and the distance itself', async () => {
    const logbook = await newLogbook({
      ...SITE,
      units: 'imperial',
      antenna: { ...SITE.antenna, baseHeight: '2.4m' },
      radials: { ...SITE.radials, depth: undefined },
      transmit: [{ band: '40m', peakPower: '1500W', mode: 'data', onAirFraction: 1 }],
    });
    const wire = { time: '2026-04-01T10:00:00Z', text: '', event: 'lay', route: null } as const;
    await appendEvents(logbook, [
      { ...wire, number: 1, lengthM: 5, bearingDeg: 270 },
      { ...wire, number: 2, lengthM: 12, bearingDeg: 90 },
      {
        ...wire,
        number: 3,
        lengthM: 9,
        bearingDeg: null,
        route: [
          [0, 0],
          [-3, 0],
          [-3, 3],
          [0, 3],
        ],
      },
    ]);
    const { border } = JSON.parse((await safety(['--logbook', logbook, '--json'])).out);
    expect(border).toMatchObject({ distanceM: 4, ends: [1], beyond: [1], passing: [3] });
    const { out } = await safety(['--logbook', logbook]);
    expect(out).toContain(
      'Radial 1 ends beyond the border, where nobody can be asked to keep off: end it earlier.',
    );
    expect(out).toMatch(
      /Radial 3 passes within the distance to keep off \(\d\.\d ft\) of the border and can be touched all along: put up a fence there, or hang it higher\./u,
    );
    expect(out).toMatch(
      /On 40m the distance to keep from the antenna \(\d+\.\d ft\) reaches over the border, 13\.1 ft off: name places/u,
    );
  });

  it('keeps the US question of an evaluation apart from the verdicts, with why and what follows', async () => {
    const places = Object.entries({ step: '4.5m', bench: '10m', barn: '60m' }).map(([name, east]) => ({
      name,
      at: [east, '6m'],
    }));
    const { out } = await safety(['--site', 'site.json'], {
      limits: 'fcc-general',
      lot: { ...SITE.lot, places },
    });
    expect(out).toMatch(
      /no verdict above changes by it\..*\n40m \w+: not for barn; for step and bench yes: they are nearer to the antenna than λ\/2π \(6\.9 m\), where the test does not apply and nothing over 1 mW is exempt\./u,
    );
    const table = out.split('\n').filter((line) => /^(?:place|step|bench|barn) /u.test(line));
    expect(table.join('\n')).not.toContain('exempt');
    expect((await safety(['--site', 'site.json'], { limits: 'icnirp-2020-general' })).out).not.toContain(
      'US rule',
    );
  });
});
