import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { MeasuredVisit } from '../../../src/core/record.ts';
import type { Site } from '../../../src/core/site.ts';
import { writeCanonical } from '../../../src/formats/canonical.ts';

/** Writes every shot of some visits as a file of its own; returns the names, as a command line takes them. */
export function writeVisits(folder: string, group: string, visits: readonly MeasuredVisit[]): string[] {
  mkdirSync(folder, { recursive: true });
  return visits.flatMap(({ shots }, i) =>
    shots.map((shot, k) => {
      const name = `${group}${i + 1}-shot${k + 1}.csv`;
      writeFileSync(join(folder, name), writeCanonical(shot));
      return name;
    }),
  );
}

/** The site file that says what a site of {@link siteOf} holds. */
export function siteText({ antenna, radials, soil }: Site): string {
  return JSON.stringify({
    version: 1,
    name: 'generated',
    antenna: {
      kind: antenna.kind,
      height: `${antenna.heightM}m`,
      diameter: `${antenna.diameterM}m`,
      bands: ['40m'],
    },
    radials: { diameter: `${radials?.diameterM}m`, count: radials?.count, length: `${radials?.lengthM}m` },
    soil: { conductivity: `${soil?.conductivitySPerM}S/m`, permittivity: soil?.relativePermittivity },
  });
}
