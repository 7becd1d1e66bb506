import type { Site } from '../../core/site.ts';
import type { Part, ProgressAnswer } from '../../formats/page-data.ts';
import type { Asker } from './ask.ts';

const COMMAND = 'turfwire measure --port /dev/ttyACM0 --shots 3';

/** What `progress` says of each band of the site, those that were measured first. */
export async function gatherProgress(
  asker: Asker,
  { antenna }: Site,
): Promise<Part<readonly ProgressAnswer[]>> {
  const questions = antenna.bands.length === 0 ? [[]] : antenna.bands.map((band) => ['--band', band]);
  const found: ProgressAnswer[] = [];
  let why: Part<ProgressAnswer> | null = null;
  for (const question of questions) {
    const answer = await asker.ask<ProgressAnswer>(['progress', ...question], COMMAND);
    if (answer.data === null) why = answer;
    else found.push(answer.data);
  }
  if (found.length === 0 && why !== null && why.data === null) return why;
  return { data: found.sort((a, b) => measured(b) - measured(a)), missing: null };
}

/** Steps of which R is known. */
function measured({ steps }: ProgressAnswer): number {
  return steps.filter(({ resistanceAtResonanceOhm }) => resistanceAtResonanceOhm.value !== null).length;
}
