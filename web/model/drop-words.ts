import { plural } from '../../src/core/plural.ts';
import type { ReferencePlane } from '../../src/core/record.ts';
import type { PageData } from '../../src/formats/page-data.ts';

/** What became of files that were given to the page. */
export function laidWords(files: number, sweeps: number): string {
  const from = plural(files, 'file');
  return sweeps === 0
    ? `Nothing in ${from} could be read.`
    : `${plural(sweeps, 'sweep')} from ${from} now ${sweeps === 1 ? 'lies' : 'lie'} over the others, in this page alone: the logbook is not changed.`;
}

/** Which plane is shown, and what is missing for the other. */
export function planeWords(plane: ReferencePlane, data: PageData | null): string {
  if (plane === 'feedpoint') return 'Shown as swept at the feed point.';
  if (data === null) {
    return 'Shown as seen in the shack: this page holds no logbook, and so no feed line through which to move them to the feed point. Make it with: turfwire page';
  }
  return data.site?.feedline
    ? 'Swept in the shack, shown at the feed point: moved there through the feed line of the site.'
    : 'Shown as seen in the shack. To move them to the feed point, fill in the feed line in site.json, such as "feedline": { "type": "RG-58", "length": "12m" }, and make the page anew.';
}
