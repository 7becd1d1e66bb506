import { readFile } from 'node:fs/promises';
import * as v from 'valibot';
import { BASE_OUTSIDE, isInside, isOnBorder, outlineProblem } from '../core/layout/outline.ts';
import { quoted } from '../core/quoted.ts';
import { findLimitSet } from '../core/safety/limits.ts';
import { findMetal } from '../core/safety/metals.ts';
import { findMode } from '../core/safety/modes.ts';
import type { Lot, Obstacle, Point, Site } from '../core/site.ts';
import { DEFAULT_REGION, findBand } from '../core/sweep/bands.ts';
import { feedLineOf } from '../core/sweep/feed-line.ts';
import { UserError } from '../core/user-error.ts';
import {
  type FieldPath,
  type FieldProblem,
  fieldProblems,
  invalidDocument,
} from '../formats/json/field-problems.ts';
import { parseJsonDocument } from '../formats/json/json-document.ts';
import { systemWords } from '../formats/system-words.ts';
import { SITE_SCHEMA, SITE_VERSION } from './site-schema.ts';

/**
 * Reads the text of a `site.json`. Every problem is told at once, each with its line and the path of its field.
 *
 * @throws UserError `json-syntax` and its like, `site-version-newer`, `site-invalid`
 */
export function parseSite(text: string, fileName: string): Site {
  const document = parseJsonDocument(text, fileName);
  const old = migrate(document.value, fileName);
  const result = v.safeParse(SITE_SCHEMA, old);
  const problems = result.success ? problemsAcross(result.output) : fieldProblems(result.issues);
  if (result.success && problems.length === 0) return result.output;
  throw invalidDocument('site-invalid', document, problems);
}

/**
 * Reads a `site.json` from the disk.
 * @throws UserError `site-missing`, `site-unreadable`, and those of {@link parseSite}
 */
export async function readSite(path: string): Promise<Site> {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(await readFile(path));
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException;
    const place = { file: path };
    if (code === 'ENOENT') {
      throw new UserError('site-missing', 'no such file: `turfwire begin` makes one', { place, cause });
    }
    const why = code === 'ERR_ENCODING_INVALID_ENCODED_DATA' ? 'it is not UTF-8 text' : systemWords(cause);
    throw new UserError('site-unreadable', `cannot be read: ${why}`, { place, cause });
  }
  return parseSite(text, path);
}

/** From each older version to the next; version 1 is the first, so there is none yet. */
const MIGRATIONS: Readonly<Record<number, (older: object) => object>> = {};

/**
 * Brings an older document up to date, step by step, in memory only: the user's file is never rewritten.
 * @throws UserError `site-version-newer`
 */
export function migrate(
  value: unknown,
  fileName: string,
  migrations: typeof MIGRATIONS = MIGRATIONS,
  to: number = SITE_VERSION,
): unknown {
  if (typeof value !== 'object' || value === null || !('version' in value)) return value;
  const { version } = value;
  if (typeof version !== 'number') return value;
  if (version > to) {
    throw new UserError(
      'site-version-newer',
      `is of version ${version}, written by a newer turfwire; this one reads up to version ${to}: update it`,
      { place: { file: fileName, field: 'version' } },
    );
  }
  const step = migrations[version];
  return step === undefined ? value : migrate(step(value), fileName, migrations, to);
}

/** What a field says only with others or a table: bands, modes, metals, limits nobody knows, a cable without figures. */
function problemsAcross(site: Site): FieldProblem[] {
  const problems: FieldProblem[] = [];
  const attempt = (path: FieldPath, check: () => unknown) => {
    try {
      check();
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      problems.push({ path, message: error.message });
    }
  };
  const { feedline, limits } = site;
  const region = site.region ?? DEFAULT_REGION;
  site.antenna.bands.forEach((band, i) => {
    attempt(['antenna', 'bands', i], () => findBand(band, region, site.bandEdges));
  });
  site.transmit.forEach(({ band, mode }, i) => {
    attempt(['transmit', i, 'band'], () => findBand(band, region, site.bandEdges));
    attempt(['transmit', i, 'mode'], () => findMode(mode));
  });
  if (feedline !== null) attempt(['feedline'], () => feedLineOf(feedline));
  site.joints.forEach(({ metals }, i) => {
    metals.forEach((metal, j) => {
      attempt(['joints', i, 'metals', j], () => findMetal(metal));
    });
  });
  if (limits !== null) attempt(['limits'], () => findLimitSet(limits));
  return [
    ...problems,
    ...lotProblems(site.lot),
    ...sameNames(['lot', 'places'], site.lot?.places ?? []),
    ...sameNames(['joints'], site.joints),
  ];
}

/** Names that notes and verdicts tell their owners apart by, given twice; neither case nor spaces around one matter. */
function sameNames(path: FieldPath, owners: readonly { readonly name: string }[]): FieldProblem[] {
  const names = owners.map(({ name }) => name.trim().toLowerCase());
  return names.flatMap((name, i) => {
    const first = names.indexOf(name);
    if (first === i) return [];
    const message = `needs a name of its own, got that of ${path.join('.')}[${first}], ${quoted(owners[i]?.name ?? '')}`;
    return [{ path: [...path, i, 'name'], message }];
  });
}

/** Outlines that do not go once around, and a base outside the lot. */
function lotProblems(lot: Lot | null): FieldProblem[] {
  if (lot === null) return [];
  const problems: FieldProblem[] = [];
  const look = (path: FieldPath, outline: readonly Point[], kind?: Obstacle['kind']) => {
    const message = outlineProblem(outline);
    if (message !== null) problems.push({ path, message: `${message}${lineHint(kind)}` });
  };
  look(['lot', 'outline'], lot.outline);
  // One on the border is a site all the same; `plan` asks for room around it.
  if (problems.length === 0 && !isInside(lot.base, lot.outline) && !isOnBorder(lot.base, lot.outline)) {
    problems.push({ path: ['lot', 'base'], message: BASE_OUTSIDE });
  }
  lot.obstacles.forEach(({ kind, outline, isLine }, i) => {
    if (isLine !== true) look(['lot', 'obstacles', i, 'outline'], outline, kind);
  });
  return problems;
}

/** What is often meant where the corners of a pipe or a path do not go once around. */
function lineHint(kind: Obstacle['kind'] | undefined): string {
  return kind === 'service' || kind === 'path'
    ? '; the course of a pipe, a cable or a path goes under "line" instead of "outline"'
    : '';
}
