import { rmSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { expectClose } from '../../support/expect-close.ts';
import { lastingFolder } from '../../support/logbooks.ts';
import { onPlanningDay, siteWith } from '../../support/planning.ts';

const folder = lastingFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const turfwire = onPlanningDay(folder);

describe('turfwire plan of raised radials and half waves', () => {
  it('hangs tuned radials from a raised base, and lets 15 m share the 40 m wires', async () => {
    const site = await siteWith((s) => {
      s['antenna'] = { kind: 'quarter-wave', height: '10.1m', baseHeight: '3m', bands: ['40m', '15m'] };
    });
    const plan = JSON.parse((await turfwire('plan', '--site', site, '--json')).out);
    expect(plan.efficiency[0]).toMatchObject({ band: '40m', lossDb: null, againstGroundRadialsDb: [-7, 0] });
    expect(plan.elevated[1]).toMatchObject({ band: '15m', servedBy: '40m', radials: 0 });
    expectClose(plan.elevated[0].cutLengthM, 10.28, { absolute: 0.05 });
  });

  it('hangs as many from a raised base as the site counts, unless it says how long they are', async () => {
    const hung = async (radials: object, ...args: string[]) => {
      const site = await siteWith((s) => {
        s['antenna'] = { kind: 'quarter-wave', height: '10.1m', baseHeight: '3m', bands: ['40m'] };
        s['radials'] = { diameter: '1.6mm', ...radials };
        delete s['stock'];
      });
      return JSON.parse((await turfwire('plan', '--site', site, '--json', ...args)).out);
    };
    const four = await hung({ count: 4 });
    expect(four.radials).toHaveLength(4);
    expect(four.notes).toContainEqual(expect.stringContaining('radials.count is 4: planned as 4 a band'));
    expect((await hung({ count: 4 }, '--count', '3')).radials).toHaveLength(3);
    expect((await hung({})).radials).toHaveLength(2);
    expect((await hung({ count: 1 })).radials).toHaveLength(2);
  });

  it('says of laid radials whose ways nobody logged that their directions are assumed', async () => {
    const site = await siteWith((s) => {
      s['radials'] = { diameter: '1.6mm', insulated: true, depth: '0mm', count: 4, length: '3m' };
    });
    const { out } = await turfwire('plan', '--site', site, '--stock', '1x25m');
    expect(out).toContain(
      "of bench, sandpit and neighbour's gate; of those that lie there already it is not known.",
    );
    expect(out).toContain('The directions of 4 radials that lie there already are assumed');
    expect(out).toContain('then lay the wire on top of the ground, pinned flat.');
  });

  it('says where the site sends on bands that the plan is not made for', async () => {
    const site = await siteWith((s) => {
      s['transmit'] = ['40m', '20m'].map((band) => ({ band, peakPower: '5W', mode: 'cw', onAirFraction: 1 }));
    });
    const few = ['plan', '--site', site, '--count', '2', '--length', '5m'];
    expect((await turfwire(...few)).out).toContain('the plan is made for antenna.bands alone');
    expect((await turfwire(...few, '--band', '20m')).out).not.toContain('antenna.bands alone');
  });

  it('hangs no radial again that the journal says hangs already', async () => {
    const logbook = join(folder, 'raised');
    await turfwire('begin', logbook, '--name', 'test');
    const site = await siteWith((s) => {
      s['antenna'] = { kind: 'quarter-wave', height: '10.1m', baseHeight: '3m', bands: ['40m', '20m'] };
    });
    await writeFile(join(logbook, 'site.json'), await readFile(site));
    const plan = async (...args: string[]) =>
      JSON.parse((await turfwire('plan', '--logbook', logbook, '--json', ...args)).out);
    const bearings = (of: { radials: { bearingDeg: number }[] }) => of.radials.map((r) => r.bearingDeg);
    expect((await plan()).radials).toHaveLength(4);
    // Trimmed a little, as tuned wires are.
    await turfwire('lay', '--logbook', logbook, '--length', '10.1m', '--bearing', '10deg', '190deg');
    const next = await plan();
    expect(next.elevated).toMatchObject([
      { band: '40m', hanging: 2, radials: 0 },
      { band: '20m', hanging: 0, radials: 2 },
    ]);
    expect(next.radials.map(({ number }: { number: number }) => number)).toEqual([3, 4]);
    // Four of 40 m are those two and what an even set still lacks.
    const four = await plan('--count', '4', '--band', '40m');
    expect(bearings(four)).toEqual([100, 280]);
    await turfwire('lay', '--logbook', logbook, '--length', '8m', '--bearing', '100deg');
    const { out } = await turfwire('plan', '--logbook', logbook, '--band', '40m');
    expect(out).toContain('Nothing more to hang: the 3 radials');
    expect(out).not.toContain('no wire of this plan');
    expect(out).toContain('radial 3 (8.0 m) hangs there, tuned to none of these bands');
    const applied = await turfwire('plan', '--logbook', logbook, '--band', '40m', '--apply');
    expect([applied.code, applied.err]).toEqual([0, expect.stringContaining('nothing is written')]);
  });

  it('plans beside the radials that a site file says hang', async () => {
    const site = await siteWith((s) => {
      s['antenna'] = { kind: 'quarter-wave', height: '10.1m', baseHeight: '3m', bands: ['40m'] };
      s['radials'] = { diameter: '1.6mm', count: 2, length: '10.3m' };
      delete s['stock'];
    });
    const { radials, elevated } = JSON.parse((await turfwire('plan', '--site', site, '--json')).out);
    expect([radials, elevated[0].hanging]).toEqual([[], 2]);
  });

  it('sets a half wave beside a quarter wave on the same wires', async () => {
    // The first is so near to half a wavelength that its base current cannot be told, the other is not.
    for (const height of ['20.2m', '17m']) {
      const site = await siteWith((s) => {
        s['antenna'] = { kind: 'half-wave', height, diameter: '25mm', bands: ['40m'] };
      });
      const args = ['plan', '--site', site, '--count', '8', '--length', '5m'];
      const { halfWave, efficiency } = JSON.parse((await turfwire(...args, '--json')).out);
      expect(halfWave.halfWaveGainDb).toBeGreaterThan(0);
      // One antenna on the same wires has one loss.
      expectClose(-halfWave.halfWave.lossDb, efficiency[0].lossDb, { absolute: 1e-9 });
    }
    const raised = await siteWith((s) => {
      s['antenna'] = {
        kind: 'half-wave',
        height: '20.2m',
        diameter: '25mm',
        baseHeight: '3m',
        bands: ['40m'],
      };
    });
    const told = (await turfwire('plan', '--site', raised, '--count', '8', '--length', '5m')).out;
    expect(told).toContain('every other figure takes the antenna on the ground');
  });
});
