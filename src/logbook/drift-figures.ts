import { lstatSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { setImmediate as otherWork } from 'node:timers/promises';
import { type BandFigures, bandFigures, meanFigures } from '../core/drift/band-figures.ts';
import type { WatchedFigures } from '../core/drift/feature-chart.ts';
import type { Round } from '../core/drift/rounds.ts';
import { FEATURES } from '../core/drift/visit-features.ts';
import type { ShotRecord } from '../core/record.ts';
import type { Band } from '../core/sweep/bands.ts';
import { atPlane, feedLineOf } from '../core/sweep/feed-line.ts';
import type { Sweep } from '../core/sweep/sweep.ts';
import { UserError } from '../core/user-error.ts';
import {
  FIGURES_KEPT,
  figuresKey,
  type KeptFigures,
  readKeptFigures,
  writeKeptFigures,
} from './drift-cache.ts';
import { insideLogbook } from './inside.ts';
import type { Logbook } from './open-logbook.ts';
import { storedSweep } from './sweep-file.ts';
import { loadShot, type OnLost } from './visit.ts';

const ROUNDS_AT_ONCE = 64;
/** Raised whenever the figures change, so that older ones are never taken for them. */
const FORM = 'figures of one sweep in one band, form 2';

/**
 * Figures of many rounds, band by band. Each sweep is read once in its life: its figures are kept in the derived folder.
 * Sweeps are read one after the other and let go, so memory is that of the figures, about 400 bytes a sweep. A sweep
 * that is gone or changed counts as not there.
 *
 * @param onLost - hears of such sweeps
 * @param onProgress - hears how many rounds are done
 * @returns one entry per round, in the order given, with one per band, null where the round holds nothing of it
 */
export async function driftFigures(
  logbook: Logbook,
  rounds: readonly Round[],
  bands: readonly Band[],
  onLost: OnLost,
  onProgress: (done: number, of: number) => void = () => {},
): Promise<(WatchedFigures | null)[][]> {
  const question = FORM + JSON.stringify([logbook.site.feedline, bands]);
  const kept = readKeptFigures(logbook.folder, question);
  const known = kept.size;
  const figures = new FiguresOfShots(logbook, kept, onLost);
  const all: (WatchedFigures | null)[][] = [];
  for (const [i, { ofBand }] of rounds.entries()) {
    const own: (WatchedFigures | null)[] = [];
    for (const [index, band] of bands.entries()) {
      const visit = ofBand[index] ?? null;
      const shots = visit === null ? [] : await figures.ofShots(visit.shots, index, band);
      own.push(visit === null || shots.length === 0 ? null : { visit: visit.visit, ...meanFigures(shots) });
    }
    all.push(own);
    if (i % ROUNDS_AT_ONCE === ROUNDS_AT_ONCE - 1) {
      onProgress(i + 1, rounds.length);
      await otherWork();
    }
  }
  if (kept.size > known) writeKeptFigures(logbook.folder, question, kept);
  return all;
}

/** Takes figures out of the cache, or out of the sweep and into the cache. */
class FiguresOfShots {
  readonly #logbook: Logbook;
  readonly #kept: KeptFigures;
  readonly #onLost: OnLost;
  readonly #isInside = new Map<string, boolean>();

  constructor(logbook: Logbook, kept: KeptFigures, onLost: OnLost) {
    this.#logbook = logbook;
    this.#kept = kept;
    this.#onLost = onLost;
  }

  async ofShots(shots: readonly ShotRecord[], index: number, band: Band): Promise<BandFigures[]> {
    const found: BandFigures[] = [];
    for (const shot of shots) {
      if (shot.target !== 'antenna') continue;
      const key = figuresKey(shot.sha256, index);
      let own = this.#kept.get(key);
      if (own === undefined) {
        const sweep = await this.#sweepOf(shot);
        if (sweep === null) continue;
        own = toColumn(bandFigures(this.#atFeedpoint(sweep), band));
        this.#kept.set(key, own);
      }
      found.push(fromColumn(own));
    }
    return found;
  }

  async #sweepOf(shot: ShotRecord): Promise<Sweep | null> {
    try {
      return (await this.#isPlainInside(shot))
        ? storedSweep(readFileSync(join(this.#logbook.folder, shot.file)), shot)
        : await loadShot(this.#logbook, shot);
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      this.#onLost(error, shot);
      return null;
    }
  }

  /** A plain file in a folder known to be inside: the disk need not be asked thrice for each. */
  async #isPlainInside({ file }: ShotRecord): Promise<boolean> {
    const folder = dirname(file);
    let isInside = this.#isInside.get(folder);
    if (isInside === undefined) {
      const found = await insideLogbook(this.#logbook.folder, folder).catch(() => null);
      isInside = found !== null && !file.split('/').includes('..');
      this.#isInside.set(folder, isInside);
    }
    const path = join(this.#logbook.folder, file);
    return isInside && lstatSync(path, { throwIfNoEntry: false })?.isFile() === true;
  }

  #atFeedpoint(sweep: Sweep): Sweep {
    const { feedline } = this.#logbook.site;
    return sweep.plane === 'shack' && feedline !== null
      ? atPlane(sweep, feedLineOf(feedline), 'feedpoint')
      : sweep;
  }
}

const CURVE_AT = FEATURES.length;

function toColumn({ features, curve }: BandFigures): Float64Array {
  const column = new Float64Array(FIGURES_KEPT).fill(Number.NaN);
  FEATURES.forEach((feature, i) => {
    column[i] = features[feature] ?? Number.NaN;
  });
  if (curve !== null) column.set([curve.fromHz, curve.toHz, ...curve.reflection], CURVE_AT);
  return column;
}

function fromColumn(column: Float64Array): BandFigures {
  const value = (i: number): number | null => (Number.isNaN(column[i]) ? null : (column[i] as number));
  const [fromHz, toHz] = [value(CURVE_AT), value(CURVE_AT + 1)];
  return {
    features: {
      resistanceAtResonanceOhm: value(0),
      resonanceHz: value(1),
      qualityFactor: value(2),
      minSwr: value(3),
    },
    curve:
      fromHz === null || toHz === null ? null : { fromHz, toHz, reflection: column.subarray(CURVE_AT + 2) },
  };
}
