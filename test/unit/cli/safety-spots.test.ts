import { describe, expect, it } from 'vitest';
import { appendEvents } from '../../../src/logbook/logbook.ts';
import { runCommand } from '../../support/fake-io.ts';
import { newLogbook, SQUARE_LOT } from '../../support/logbooks.ts';

const SITE = {
  version: 1,
  name: 'invented plot',
  antenna: { kind: 'quarter-wave', height: '5.05m', diameter: '20mm', bands: ['20m'], baseHeight: '0m' },
  radials: { diameter: '1.5mm', insulated: true, metal: 'copper', depth: '20mm' },
  transmit: [{ band: '20m', peakPower: '400W', mode: 'ssb', onAirFraction: 0.5 }],
  limits: 'icnirp-2020-general',
};
const WIRE = { time: '2026-04-01T10:00:00Z', text: '', lengthM: 5, route: null } as const;

async function safety(logbook: string): Promise<{ out: string; answer: Record<string, never> }> {
  const { out } = await runCommand(['safety', '--logbook', logbook]);
  return {
    out,
    answer: JSON.parse((await runCommand(['safety', '--logbook', logbook, '--json'])).out),
  };
}

describe('the spots that safety judges', () => {
  it('tells how many planned radials are not judged yet, and which places they will change', async () => {
    const places = [
      { name: 'bench', at: ['25m', '20m'] },
      { name: 'shed', at: ['20m', '30m'] },
    ];
    const logbook = await newLogbook({ ...SITE, lot: { ...SQUARE_LOT, places } });
    await appendEvents(logbook, [
      { ...WIRE, event: 'plan', number: 1, bearingDeg: 90 },
      { ...WIRE, event: 'plan', number: 2, bearingDeg: 270 },
    ]);
    const before = await safety(logbook);
    expect(before.out).toContain(
      'clear: bench and shed. No other spot was judged. Not judged yet: 2 planned radials, for only what is laid now was judged. Once they are laid: keep out: bench; nobody stays within',
    );
    expect(before.out).toContain(
      'Once planned radials lie: bench: the end of radial 1 is less than 0.1 m away',
    );
    expect(before.answer).toMatchObject({
      places: [{ verdict: 'clear' }, { verdict: 'clear' }],
      planned: { numbers: [1, 2], places: [{ name: 'bench', verdict: 'keep out', decidingRadial: 1 }] },
    });

    await appendEvents(logbook, [
      { ...WIRE, event: 'lay', number: 1, bearingDeg: 90, time: '2026-04-02T10:00:00Z' },
      { ...WIRE, event: 'lay', number: 2, bearingDeg: 270, time: '2026-04-02T10:00:00Z' },
    ]);
    const after = await safety(logbook);
    expect(after.out).toContain('keep out: bench; clear: shed. No other spot was judged.');
    expect(after.out).not.toContain('planned radial');
    expect(after.answer).toMatchObject({ places: [{ verdict: 'keep out' }, {}], planned: null });
  });

  it('says that planned radials change no place where they do not', async () => {
    const logbook = await newLogbook({
      ...SITE,
      lot: { ...SQUARE_LOT, places: [{ name: 'shed', at: ['20m', '38m'] }] },
    });
    await appendEvents(logbook, [{ ...WIRE, event: 'plan', number: 1, bearingDeg: 90 }]);
    expect((await safety(logbook)).out).toContain(
      'Not judged yet: 1 planned radial, for only what is laid now was judged. Once it is laid: no place that the site names gets a worse verdict;',
    );
  });

  it('excepts by name and reason each clear place within the distance that all others keep', async () => {
    const places = [
      { name: 'trampoline', at: ['17m', '17m'], height: '1m' },
      { name: 'terrace', at: ['20m', '25m'] },
      { name: 'shed', at: ['20m', '32m'] },
    ];
    const logbook = await newLogbook({
      ...SITE,
      antenna: { ...SITE.antenna, baseHeight: '2.5m' },
      radials: { ...SITE.radials, depth: undefined },
      lot: { ...SQUARE_LOT, places },
    });
    await appendEvents(logbook, [
      { ...WIRE, event: 'lay', number: 1, bearingDeg: 90 },
      { ...WIRE, event: 'lay', number: 2, bearingDeg: 270 },
    ]);
    const { out } = await safety(logbook);
    expect(out).toMatch(
      /^While you send, nobody stays within 5\.\d m of the antenna, or 1\.3 m of a raised radial \(most on 20m, 400 W ssb\), but for the places excepted below\./u,
    );
    expect(out).toContain(
      'Excepted, for they were judged by themselves and are clear: trampoline, 1.0 m up, 4.2 m from the antenna and 3.0 m from radial 2, the nearest, judged at its height and by its distance from each radial; terrace, 5.0 m from the antenna and 5.0 m from radial 1, the nearest, judged by its distance from each radial. That holds at these spots alone, and not on the way there.',
    );
  });

  it('excepts an upper window over the ground that people keep off', async () => {
    const places = [{ name: 'window', at: ['20.8m', '20m'], height: '12m' }];
    const logbook = await newLogbook({ ...SITE, lot: { ...SQUARE_LOT, places } });
    const { out } = await safety(logbook);
    expect(out).not.toContain('clear: window');
    const raised = [{ name: 'window', at: ['25m', '20m'], height: '8m' }];
    const other = await newLogbook({ ...SITE, lot: { ...SQUARE_LOT, places: raised } });
    await appendEvents(other, [{ ...WIRE, event: 'lay', number: 1, bearingDeg: 90 }]);
    expect((await safety(other)).out).toContain(
      'Excepted, for it was judged by itself and is clear: window, 8.0 m up, 5.0 m from the antenna and less than 0.1 m from radial 1, the nearest, judged at its height.',
    );
  });
});
