import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runCommand } from '../../support/fake-io.ts';
import { temporaryFolder } from '../../support/logbooks.ts';

const SITE = {
  version: 1,
  name: 'invented plot',
  antenna: { kind: 'quarter-wave', height: '10.2m', diameter: '30mm', bands: ['40m'], baseHeight: '0.1m' },
  radials: { diameter: '1.5mm', insulated: true, depth: '30mm', count: 8, length: '6m' },
  transmit: [{ band: '40m', peakPower: '500W', mode: 'ssb', onAirFraction: 0.5 }],
  limits: 'fcc-general',
};

async function safety(change: Record<string, unknown> = {}, ...args: string[]): Promise<string> {
  const folder = temporaryFolder();
  await writeFile(join(folder, 'site.json'), JSON.stringify({ ...SITE, ...change }));
  return (await runCommand(['safety', '--site', 'site.json', ...args], { cwd: folder })).out;
}

describe('what safety says', () => {
  it('takes nothing of the radials for granted that the site says by their depth', async () => {
    const given = await safety();
    expect(given).not.toContain('the radials are taken to lie');
    expect(given).toContain(
      'the lead from the raised base down to the radials is taken as part of the element',
    );
    expect(await safety({ radials: { ...SITE.radials, depth: undefined } })).toContain(
      'radials.depth is not given: the radials are taken to lie on or in the ground, but any part',
    );
  });

  it('says that the current at the base was floored wherever it was, whatever the kind is called', async () => {
    const floor = 'at least 0.3 of the loop current is taken there';
    expect(await safety()).not.toContain(floor);
    // 20.4 m are 0.48 wavelengths in the middle of 40m.
    const long = { ...SITE.antenna, kind: 'other', height: '20.4m', baseHeight: '0m' };
    expect(await safety({ antenna: long })).toContain(floor);
  });

  it('rounds distances of the far-field form once, in one unit a row', async () => {
    const inches = await safety({ units: 'imperial' });
    const metres = await safety();
    const row = (text: string) => /^ +40m {2}ssb .*/mu.exec(text)?.[0] ?? '';
    expect(row(inches)).not.toMatch(/ in\b/u);
    const far = (text: string) => [...row(text).matchAll(/([\d.]+) (?:m|ft)\b/gu)].map(([, m]) => Number(m));
    const exact = JSON.parse(await safety({}, '--json')).bands[0].farField;
    expect(far(metres).slice(-3)).toEqual(
      [exact.fullReflectionM, exact.practicalReflectionM, exact.validFromM].map(
        (m) => Math.ceil(m * 10) / 10,
      ),
    );
    expect(far(inches).slice(-3)).toEqual(
      [exact.fullReflectionM, exact.practicalReflectionM, exact.validFromM].map(
        (m) => Math.ceil((m / 0.3048) * 10) / 10,
      ),
    );
  });
});
