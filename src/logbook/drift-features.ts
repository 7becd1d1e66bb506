import { lstatSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { setImmediate as otherWork } from 'node:timers/promises';
import { type CoarseCurve, coarseCurve, meanCurve } from '../core/drift/coarse-curve.ts';
import { FEATURES, meanFeatures, type VisitFeatures, visitFeatures } from '../core/drift/visit-features.ts';
import type { ShotRecord, VisitRecord } from '../core/record.ts';
import { atPlane, feedLineOf } from '../core/sweep/feed-line.ts';
import type { Sweep } from '../core/sweep/sweep.ts';
import { UserError } from '../core/user-error.ts';
import { FIGURES_PER_SWEEP, readDriftCache, writeDriftCache } from './drift-cache.ts';
import { insideLogbook } from './inside.ts';
import type { Logbook } from './open-logbook.ts';
import { storedSweep } from './sweep-file.ts';
import { loadShot } from './visit.ts';

/** What is watched of one visit. */
export interface VisitFigures {
  readonly features: VisitFeatures;
  /** Of the band with the lowest resonance. */
  readonly curve: CoarseCurve | null;
}

const VISITS_AT_ONCE = 64;
const FORM = 'features and coarse curve of one sweep, form 1';

/**
 * Figures of many visits. Each sweep is read once in its life: its figures are kept in the derived folder. Sweeps are
 * read one after the other and let go, so memory is that of the figures, about 400 bytes a sweep. A sweep that is gone
 * or changed counts as not there; `check` names it.
 *
 * @param onProgress - hears how many visits are done
 * @returns one entry per visit, in the order given
 */
export async function driftFeatures(
  logbook: Logbook,
  visits: readonly VisitRecord[],
  onProgress: (done: number, of: number) => void = () => {},
): Promise<VisitFigures[]> {
  const question = FORM + JSON.stringify(logbook.site.feedline);
  const kept = readDriftCache(logbook.folder, question);
  const known = kept.size;
  const read = reader(logbook);
  const all: VisitFigures[] = [];
  for (const [i, visit] of visits.entries()) {
    const ofShots: VisitFigures[] = [];
    for (const shot of visit.shots) {
      if (shot.target !== 'antenna') continue;
      let own = kept.get(shot.sha256);
      if (own === undefined) {
        const sweep = await readOrNull(() => read(shot));
        if (sweep === null) continue;
        own = toFigures(atFeedpoint(logbook, sweep));
        kept.set(shot.sha256, own);
      }
      ofShots.push(fromFigures(own));
    }
    all.push(ofVisit(ofShots));
    if (i % VISITS_AT_ONCE === VISITS_AT_ONCE - 1) {
      onProgress(i + 1, visits.length);
      await otherWork();
    }
  }
  if (kept.size > known) writeDriftCache(logbook.folder, question, kept);
  return all;
}

/** Shots of several bands: the one with the lowest resonance is followed. */
function ofVisit(shots: readonly VisitFigures[]): VisitFigures {
  const resonances = shots.map(({ features }) => features.resonanceHz ?? Number.POSITIVE_INFINITY);
  const lowest = Math.min(...resonances);
  const followed = Number.isFinite(lowest)
    ? shots.filter((_, i) => (resonances[i] as number) < SAME_RESONANCE * lowest)
    : shots;
  return {
    features: meanFeatures(followed.map(({ features }) => features)),
    curve: meanCurve(followed.map(({ curve }) => curve)),
  };
}

const SAME_RESONANCE = 1.25;

async function readOrNull(read: () => Promise<Sweep>): Promise<Sweep | null> {
  try {
    return await read();
  } catch (error) {
    if (error instanceof UserError) return null;
    throw error;
  }
}

function atFeedpoint({ site }: Logbook, sweep: Sweep): Sweep {
  return sweep.plane === 'shack' && site.feedline !== null
    ? atPlane(sweep, feedLineOf(site.feedline), 'feedpoint')
    : sweep;
}

function toFigures(sweep: Sweep): Float64Array {
  const features = visitFeatures({ label: '', time: null, shots: [sweep], referenceLoad: [] });
  const curve = coarseCurve(sweep);
  const figures = new Float64Array(FIGURES_PER_SWEEP).fill(Number.NaN);
  FEATURES.forEach((feature, i) => {
    figures[i] = features[feature] ?? Number.NaN;
  });
  if (curve !== null) {
    figures[FEATURES.length] = curve.fromHz;
    figures[FEATURES.length + 1] = curve.toHz;
    figures.set(curve.reflection, FEATURES.length + 2);
  }
  return figures;
}

function fromFigures(figures: Float64Array): VisitFigures {
  const value = (i: number): number | null => (Number.isNaN(figures[i]) ? null : (figures[i] as number));
  const fromHz = value(FEATURES.length);
  const toHz = value(FEATURES.length + 1);
  return {
    features: {
      resistanceAtResonanceOhm: value(0),
      resonanceHz: value(1),
      qualityFactor: value(2),
      minSwr: value(3),
    },
    curve:
      fromHz === null || toHz === null
        ? null
        : { fromHz, toHz, reflection: figures.subarray(FEATURES.length + 2) },
  };
}

/** Reads plain files in folders known to be inside without asking the disk thrice for each; others the slow way. */
function reader(logbook: Logbook): (shot: ShotRecord) => Promise<Sweep> {
  const inside = new Map<string, boolean>();
  return async (shot) => {
    const folder = dirname(shot.file);
    let isInside = inside.get(folder);
    if (isInside === undefined) {
      const found = await insideLogbook(logbook.folder, folder).catch(() => null);
      isInside = found !== null && !shot.file.split('/').includes('..');
      inside.set(folder, isInside);
    }
    const path = join(logbook.folder, shot.file);
    const isPlain = isInside && lstatSync(path, { throwIfNoEntry: false })?.isFile() === true;
    return isPlain ? storedSweep(readFileSync(path), shot) : loadShot(logbook, shot);
  };
}
