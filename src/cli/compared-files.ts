import { resolve } from 'node:path';
import { type ComparedVisit, inEqualParts } from '../core/proof/compared-visit.ts';
import { NO_CONDITIONS } from '../core/proof/conditions.ts';
import { assumedBandNotes } from '../core/proof/strength-sides.ts';
import { feedLineOf } from '../core/sweep/feed-line.ts';
import { readSite } from '../logbook/site-file.ts';
import type { CompareFlags } from './compare.ts';
import { bandOfSweeps, bandsNamed } from './compared-bands.ts';
import { type ComparisonAsked, reversalNote, reversalSides } from './compared-sides.ts';
import type { Io } from './io.ts';
import { looseStrength } from './strength-input.ts';
import { loadVisits } from './sweep-input.ts';

/** The question that loose files put: each name without its shot number is a visit. */
export async function askedOfFiles(io: Io, flags: CompareFlags): Promise<ComparisonAsked> {
  const site = flags.site === undefined ? null : await readSite(resolve(io.cwd, flags.site));
  const load = async (files: readonly string[] = []): Promise<ComparedVisit[]> =>
    (await loadVisits(io, files, { ...flags, site })).map(({ label, shots }) => ({
      label,
      time: null,
      shots,
      referenceLoad: [],
      conditions: NO_CONDITIONS,
    }));
  const reversal = await load(flags.reversal);
  const [before, after] = [await load(flags.before), await load(flags.after)];
  const all = [...reversal, ...before, ...after];
  const bands = bandsNamed(flags, site) ?? [
    bandOfSweeps(
      all.flatMap(({ shots }) => shots),
      flags,
      site,
    ),
  ];
  const isReversal = flags.reversal !== undefined;
  const severalVisits = before.length > 1 || after.length > 1;
  const question = {
    line: flags.plane === 'shack' && site?.feedline ? feedLineOf(site.feedline) : null,
    states: severalVisits ? [before, after] : [],
    sides: isReversal
      ? reversalSides(reversal)
      : { before: inEqualParts(before), after: inEqualParts(after) },
  };
  const strength = await looseStrength(io, flags, site);
  const assumedBand = bands[0]?.band ?? '';
  const names = bands.map(({ band }) => band);
  return {
    site,
    questions: bands.map((band) => ({ band, ...question })),
    visits: [],
    lost: [],
    strength,
    assumedBand,
    sameField: false,
    isReversal,
    notes: [
      ...(isReversal ? [reversalNote(reversal)] : []),
      ...assumedBandNotes([...(strength?.before ?? []), ...(strength?.after ?? [])], assumedBand, names),
    ],
  };
}
