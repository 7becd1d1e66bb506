import type { JournalEvent, ReadingEvent, ShotEvent } from '../core/journal-event.ts';
import { READING_UNITS } from '../core/journal-event.ts';
import { quoted } from '../core/quoted.ts';
import type { ReadingKind } from '../core/record.ts';
import type { Point } from '../core/site.ts';
import { parseStandardText, standardText } from '../core/sweep/calibration-standards.ts';
import { type Cells, COLUMNS, cellToText, textToCell } from './journal-row.ts';

/** The cells that tell of the event itself; the rest belong to the row. */
export type EventCells = Omit<Cells, 'sequence' | 'part' | 'recorded' | 'check'>;

const EMPTY = Object.fromEntries(COLUMNS.map((column) => [column, ''])) as unknown as EventCells;

/** An event as cells of the journal. */
export function eventToCells(event: JournalEvent): EventCells {
  const common = { ...EMPTY, time: event.time, event: event.event, text: textToCell(event.text) };
  switch (event.event) {
    case 'begin':
      return common;
    case 'lay':
    case 'plan':
      return {
        ...common,
        subject: String(event.number),
        value: String(event.lengthM),
        unit: 'm',
        bearing_deg: cell(event.bearingDeg),
        route: (event.route ?? []).map(([east, north]) => `${east} ${north}`).join(';'),
      };
    case 'lift':
      return { ...common, subject: String(event.number) };
    case 'shot':
      return {
        ...common,
        visit: String(event.visit),
        shot: String(event.shot),
        target: event.target,
        plane: event.plane,
        ...fileToCells(event),
      };
    case 'standard':
      return { ...common, subject: standardText(event.definition), ...fileToCells(event) };
    case 'raw':
      return { ...common, visit: String(event.visit), shot: String(event.shot), ...fileToCells(event) };
    case 'baseline':
      return { ...common, visit: String(event.visit), value: event.baseline ? 'yes' : 'no' };
    case 'withdraw':
      return { ...common, subject: String(event.row) };
    default:
      return {
        ...common,
        subject: textToCell(event.subject ?? ''),
        value: cell(event.value),
        unit: READING_UNITS[event.event] ?? '',
        power_w: cell(event.powerW),
        target: textToCell(event.band ?? ''),
      };
  }
}

/**
 * The event behind the cells of a row.
 * @throws Error in words when a cell is not what the event needs; the reader makes a problem of it
 */
export function cellsToEvent(cells: EventCells): JournalEvent {
  const { time } = cells;
  if (Number.isNaN(Date.parse(time))) throw new Error(`time must be ISO 8601, got ${quoted(time)}`);
  const common = { time, text: cellToText(cells.text) };
  const kind = cells.event as JournalEvent['event'];
  switch (kind) {
    case 'begin':
      return { ...common, event: kind };
    case 'lay':
    case 'plan':
      return {
        ...common,
        event: kind,
        number: whole(cells, 'subject'),
        lengthM: number(cells, 'value'),
        bearingDeg: numberOrNull(cells, 'bearing_deg'),
        route: cells.route === '' ? null : cells.route.split(';').map(pointOf),
      };
    case 'lift':
      return { ...common, event: kind, number: whole(cells, 'subject') };
    case 'shot':
      return {
        ...common,
        event: kind,
        visit: whole(cells, 'visit'),
        shot: whole(cells, 'shot'),
        target: oneOf(cells, 'target', ['antenna', 'reference-load']),
        plane: oneOf(cells, 'plane', ['feedpoint', 'shack']),
        ...cellsToFile(cells),
      };
    case 'standard':
      return { ...common, event: kind, definition: parseStandardText(cells.subject), ...cellsToFile(cells) };
    case 'raw':
      return {
        ...common,
        event: kind,
        visit: whole(cells, 'visit'),
        shot: whole(cells, 'shot'),
        ...cellsToFile(cells),
      };
    case 'baseline':
      return {
        ...common,
        event: kind,
        visit: whole(cells, 'visit'),
        baseline: oneOf(cells, 'value', ['yes', 'no']) === 'yes',
      };
    case 'withdraw':
      return { ...common, event: kind, row: whole(cells, 'subject') };
    default:
      return readingOf(kind, common, cells);
  }
}

/** What the journal says of a stored sweep, whatever its kind. */
type StoredFile = Pick<ShotEvent, 'fromHz' | 'toHz' | 'referenceOhm' | 'file' | 'sha256' | 'source'>;

function fileToCells(
  event: StoredFile,
): Pick<EventCells, 'from_hz' | 'to_hz' | 'reference_ohm' | 'file' | 'sha256' | 'source'> {
  return {
    from_hz: String(event.fromHz),
    to_hz: String(event.toHz),
    reference_ohm: String(event.referenceOhm),
    file: event.file,
    sha256: event.sha256,
    source: textToCell(event.source),
  };
}

function cellsToFile(cells: EventCells): StoredFile {
  return {
    fromHz: number(cells, 'from_hz'),
    toHz: number(cells, 'to_hz'),
    referenceOhm: number(cells, 'reference_ohm'),
    file: cells.file,
    sha256: cells.sha256,
    source: cellToText(cells.source),
  };
}

function readingOf(
  kind: ReadingKind,
  common: { time: string; text: string },
  cells: EventCells,
): ReadingEvent {
  if (!Object.hasOwn(READING_UNITS, kind)) throw new Error(`event ${quoted(kind)} is unknown`);
  const unit = READING_UNITS[kind] ?? '';
  if (cells.unit !== unit) throw new Error(`unit of ${kind} must be "${unit}", got ${quoted(cells.unit)}`);
  const band = textOrNull(cells.target);
  return {
    ...common,
    event: kind,
    subject: textOrNull(cells.subject),
    value: numberOrNull(cells, 'value'),
    powerW: numberOrNull(cells, 'power_w'),
    // A level is of a band as a sweep is of the antenna; rows of old name none.
    ...(band === null ? {} : { band }),
  };
}

/** The text of a cell; null for none, and for the bare apostrophe that a spreadsheet may leave of none. */
function textOrNull(cell: string): string | null {
  const text = cellToText(cell);
  return text === '' ? null : text;
}

function cell(value: number | null): string {
  return value === null ? '' : String(value);
}

function number(cells: EventCells, column: keyof EventCells): number {
  const value = Number(cells[column]);
  if (cells[column].trim() !== '' && Number.isFinite(value)) return value;
  throw new Error(`${column} must be a number, got ${quoted(cells[column])}`);
}

function numberOrNull(cells: EventCells, column: keyof EventCells): number | null {
  return cells[column] === '' ? null : number(cells, column);
}

function whole(cells: EventCells, column: keyof EventCells): number {
  const value = number(cells, column);
  if (Number.isSafeInteger(value) && value > 0) return value;
  throw new Error(`${column} must be a whole number of 1 or more, got ${quoted(cells[column])}`);
}

function oneOf<T extends string>(cells: EventCells, column: keyof EventCells, options: readonly T[]): T {
  const found = options.find((option) => option === cells[column]);
  if (found !== undefined) return found;
  throw new Error(`${column} must be ${options.join(' or ')}, got ${quoted(cells[column])}`);
}

function pointOf(text: string): Point {
  // What Number takes for 0, such as nothing at all, becomes none.
  const [east, north, ...rest] = text.split(' ').map((part) => Number(part || 'none'));
  if (east !== undefined && north !== undefined && rest.length === 0 && Number.isFinite(east + north)) {
    return [east, north];
  }
  throw new Error(`route must be pairs of metres, got ${quoted(text)}`);
}
