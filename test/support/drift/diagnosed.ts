import { join } from 'node:path';
import type { MeasuredVisit } from '../../../src/core/record.ts';
import type { Site } from '../../../src/core/site.ts';
import { addVisit, createLogbook, type NewVisit } from '../../../src/logbook/logbook.ts';
import { temporaryFolder } from '../logbooks.ts';
import { type DriftCase, generateCase } from './generate-case.ts';
import { VARIANTS, type Variant } from './variants.ts';
import { siteText } from './write-case.ts';

/** What `diagnose --json` tells. */
export interface Answer {
  readonly causes: readonly {
    readonly cause: string;
    readonly probability: number;
    readonly estimate: { name: string; value: number; unit: string; expandedUncertainty: number } | null;
    readonly evidence: readonly string[];
    readonly checkFirst: string;
  }[];
}

/** The first case of a variant from a seed on with this cause, of large size. */
export function caseOf(cause: string, from = 1): DriftCase {
  for (let seed = from; ; seed++) {
    const found = generateCase(VARIANTS[0] as Variant, seed);
    if (found.cause === cause && (found.size === 'large' || cause === 'none')) return found;
  }
}

/** A joint gone bad, seen alike by every visit since. */
export const joint: DriftCase = caseOf('series-joint', 200);

/** What it tells besides of a logbook. */
export interface LogbookAnswer {
  readonly visitsBefore: readonly number[];
  readonly visitsAfter: readonly number[];
  readonly ranges: readonly { readonly visitsBefore: number; readonly visitsAfter: number }[];
  readonly charts: readonly { readonly band: string }[];
  readonly fieldChange: { readonly laid: number; readonly lifted: number } | null;
}

/** A visit of a case as a logbook takes it, on a day of March. */
export function visitOf({ shots }: Pick<MeasuredVisit, 'shots'>, day: number, minute = 0): NewVisit {
  return {
    time: `2026-03-${String(day).padStart(2, '0')}T10:${String(minute).padStart(2, '0')}:00Z`,
    shots: shots.map((sweep) => ({ sweep, plane: 'feedpoint', target: 'antenna', source: 'generated' })),
  };
}

/** A logbook of the visits of a case, a day apart: those before twice, those after three times. */
export async function logbookOf({ before, after, site }: DriftCase): Promise<string> {
  const folder = join(temporaryFolder(), 'field');
  await createLogbook(folder, JSON.parse(siteText(site as Site)));
  let day = 1;
  for (const visit of [...before, ...before, ...after, ...after, ...after]) {
    await addVisit(folder, visitOf(visit, day++));
  }
  return folder;
}
