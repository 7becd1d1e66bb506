import { crc16 } from './crc16.ts';
import {
  findLayout,
  isConsistent,
  LINE_BYTES_LIMIT,
  type MessageLayout,
  REFLECTION_MICRO_LIMIT,
  REQUEST_ID_LIMIT,
} from './message-layouts.ts';
import type { Message, Point } from './messages.ts';
import { asciiText, type FieldFailure, readField, readHex4, readInteger } from './read-field.ts';

/** Why a line is no message; the checks are made in this order and the first that fails is named. */
export type LineFailureReason =
  | 'empty'
  | 'too-long'
  | 'not-ascii'
  | 'no-checksum'
  | 'bad-checksum'
  | 'unknown-word'
  | 'field-count'
  | FieldFailure
  | 'inconsistent';

/** A line that is no message of the protocol. `field` counts from 1, the word not counted. */
export interface Unreadable {
  readonly kind: 'unreadable';
  readonly reason: LineFailureReason;
  readonly field?: number;
}

/**
 * Reads one line of the protocol. Whatever the line holds, the answer is a message or a named failure:
 * nothing is thrown, and no text of the line is passed on unless it keeps the rules for text.
 *
 * @param line - without its line end (CR, LF); text or bytes
 */
export function decodeLine(line: string | Uint8Array): Message | Unreadable {
  if (line.length === 0) return unreadable('empty');
  if (line.length >= LINE_BYTES_LIMIT) return unreadable('too-long');
  const bytes = typeof line === 'string' ? bytesOf(line) : line;
  for (let i = 0; i < bytes.length; i++) {
    const byte = bytes[i] as number;
    if (byte < 0x20 || byte > 0x7e) return unreadable('not-ascii');
  }
  const star = bytes.length - CHECKSUM_LENGTH;
  if (star < 0 || bytes[star] !== STAR) return unreadable('no-checksum');
  const checksum = readHex4(bytes, star + 1);
  if (Number.isNaN(checksum)) return unreadable('no-checksum');
  if (crc16(bytes, 0, star) !== checksum) return unreadable('bad-checksum');
  return decodePoint(bytes, star) ?? decodeFields(bytes, star);
}

const CHECKSUM_LENGTH = '*0000'.length;
const COMMA = 0x2c;
const STAR = 0x2a;
const LETTER_P = 0x70;

/** The hot path: a point without a fault. Anything else is left to {@link decodeFields}, which names what is wrong. */
function decodePoint(bytes: Uint8Array, end: number): Point | undefined {
  if (bytes[0] !== LETTER_P || bytes[1] !== COMMA) return undefined;
  const second = nextComma(bytes, 2, end);
  const third = nextComma(bytes, second + 1, end);
  const fourth = nextComma(bytes, third + 1, end);
  if (fourth >= end) return undefined;
  const id = readInteger(bytes, 2, second);
  const number = readInteger(bytes, second + 1, third);
  const reMicro = readInteger(bytes, third + 1, fourth);
  const imMicro = readInteger(bytes, fourth + 1, end);
  const good =
    id >= 1 &&
    id <= REQUEST_ID_LIMIT &&
    number >= 0 &&
    number < REQUEST_ID_LIMIT &&
    Math.abs(reMicro) <= REFLECTION_MICRO_LIMIT &&
    Math.abs(imMicro) <= REFLECTION_MICRO_LIMIT;
  return good ? { kind: 'point', id, number, reMicro, imMicro } : undefined;
}

function decodeFields(bytes: Uint8Array, end: number): Message | Unreadable {
  const wordEnd = nextComma(bytes, 0, end);
  const layout = findLayout(asciiText(bytes, 0, wordEnd));
  if (layout === undefined) return unreadable('unknown-word');
  if (countCommas(bytes, end) !== layout.fields.length) return unreadable('field-count');
  return readFields(layout, bytes, wordEnd + 1, end);
}

function readFields(
  layout: MessageLayout,
  bytes: Uint8Array,
  from: number,
  end: number,
): Message | Unreadable {
  const message: Record<string, number | string> = { kind: layout.kind };
  let start = from;
  for (const [index, field] of layout.fields.entries()) {
    const stop = nextComma(bytes, start, end);
    const read = readField(field, bytes, start, stop);
    if (typeof read === 'string') return unreadable(read, index + 1);
    message[field.name] = read.value;
    start = stop + 1;
  }
  // The table of layouts is checked against the message types, so a filled layout is a message.
  const filled = message as unknown as Message;
  return isConsistent(filled) ? filled : unreadable('inconsistent');
}

function unreadable(reason: LineFailureReason, field?: number): Unreadable {
  return field === undefined ? { kind: 'unreadable', reason } : { kind: 'unreadable', reason, field };
}

function nextComma(bytes: Uint8Array, from: number, end: number): number {
  let i = from;
  while (i < end && bytes[i] !== COMMA) i++;
  return i;
}

function countCommas(bytes: Uint8Array, end: number): number {
  let count = 0;
  for (let i = 0; i < end; i++) if (bytes[i] === COMMA) count++;
  return count;
}

/** The characters as bytes; what is no ASCII becomes a byte that is none either. */
function bytesOf(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = Math.min(text.charCodeAt(i), 0xff);
  return bytes;
}
