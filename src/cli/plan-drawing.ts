import { readFile, writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { drawnRadials } from '../core/layout/drawn-radials.ts';
import { type DrawnWire, drawLot, isLotDrawing } from '../core/layout/lot-drawing.ts';
import { formatLength } from '../core/quantity.ts';
import { UserError } from '../core/user-error.ts';
import { systemWords } from '../formats/system-words.ts';
import type { Io } from './io.ts';
import type { PlannedAnswer } from './plan-on-ground.ts';
import type { PlannedSite } from './plan-options.ts';

/**
 * Draws the lot with what lies there and what is planned to a file. Only a drawing of the lot gives way to it.
 * @throws UserError `plan-svg`, `plan-svg-taken`
 */
export async function writeDrawing(
  io: Io,
  file: string,
  overwrite: boolean,
  { site, laid }: PlannedSite,
  { routes, lot }: PlannedAnswer,
): Promise<void> {
  const planned = routes.map(
    ({ number, points, lengthM, bearingDeg }): DrawnWire => ({
      number,
      points,
      state: 'planned',
      age: 0,
      label: `radial ${number}, planned, ${formatLength(lengthM, site.units, 2)} toward ${bearingDeg.toFixed(0)}°`,
    }),
  );
  const wires = [...drawnRadials(laid, site.units), ...planned];
  const drawing = drawLot(lot, wires, { units: site.units, title: site.name });
  const path = resolve(io.cwd, file);
  if (!overwrite) await requireOurs(path);
  try {
    await writeFile(path, drawing);
  } catch (cause) {
    throw new UserError('plan-svg', `cannot be written: ${systemWords(cause)}`, {
      place: { file: path },
      cause,
    });
  }
  io.err(`turfwire: drew the lot to ${path}`);
}

async function requireOurs(path: string): Promise<void> {
  let there: string;
  try {
    there = await readFile(path, 'utf8');
  } catch {
    // What cannot be read is not there, or writing says why.
    return;
  }
  if (there === '' || isLotDrawing(there)) return;
  throw new UserError(
    'plan-svg-taken',
    'is there and is no drawing of a lot: choose another name, or let it be replaced with --overwrite',
    { place: { file: path } },
  );
}
