import { FAULT_CODES, type Message, type MessageKind } from './messages.ts';

/** The version of the protocol that this codec speaks. */
export const PROTOCOL_VERSION = 1;

/** The longest line in bytes, its LF included. */
export const LINE_BYTES_LIMIT = 96;

/** The highest id of a request. */
export const REQUEST_ID_LIMIT = 65_535;
/** The largest part of a reflection, in millionths. */
export const REFLECTION_MICRO_LIMIT = 9_999_999;

/** What one field of a line may hold. */
export type FieldForm =
  | { readonly form: 'integer'; readonly min: number; readonly max: number }
  | { readonly form: 'hex' }
  | { readonly form: 'choice'; readonly choices: readonly string[] }
  | { readonly form: 'text'; readonly maxLength: number };

/** The wire's word of a message and its fields in their order. */
export interface MessageLayout {
  readonly kind: MessageKind;
  readonly word: string;
  readonly from: 'host' | 'instrument';
  readonly fields: readonly (FieldForm & { readonly name: string })[];
}

type FieldsOf<K extends MessageKind> = {
  readonly [F in Exclude<keyof Extract<Message, { kind: K }>, 'kind'>]: FieldForm;
};

const id = integer(1, REQUEST_ID_LIMIT);
const idOrNone = integer(0, REQUEST_ID_LIMIT);
const version = integer(1, 99);
const hertz = integer(1, 4_294_967_295);
const points = integer(2, 65_535);
const pointNumber = integer(0, 65_534);
const reflection = integer(-REFLECTION_MICRO_LIMIT, REFLECTION_MICRO_LIMIT);

/** The order and limits of every message's fields; encoder and decoder both read this table. */
export const MESSAGE_LAYOUTS: readonly MessageLayout[] = [
  layout('host', 'who', 'who', { id, oldest: version, newest: version }),
  layout('host', 'walk', 'walk', { id, startHz: hertz, stopHz: hertz, points }),
  layout('host', 'again', 'again', { id, first: pointNumber, last: pointNumber }),
  layout('host', 'halt', 'halt', { id }),
  layout('host', 'there', 'there', { id }),
  layout('instrument', 'woke', 'woke', { oldest: version, newest: version }),
  layout('instrument', 'iam', 'iam', {
    id,
    version,
    lowestHz: hertz,
    highestHz: hertz,
    mostPoints: points,
    correction: choice('raw', 'cal'),
    plane: choice('port', 'lead'),
    referenceMilliohm: integer(1, 999_999),
    model: text(16),
    serial: text(16),
  }),
  layout('instrument', 'begin', 'begin', { id, startHz: hertz, stopHz: hertz, points }),
  layout('instrument', 'point', 'p', { id, number: pointNumber, reMicro: reflection, imMicro: reflection }),
  layout('instrument', 'end', 'end', { id, points, checksum: { form: 'hex' } }),
  layout('instrument', 'still', 'still', { id }),
  layout('instrument', 'alive', 'alive', { id: idOrNone, sweep: idOrNone, sent: integer(0, 65_535) }),
  layout('instrument', 'fault', 'fault', { id: idOrNone, code: choice(...FAULT_CODES), text: text(48) }),
];

const layoutOfWord: ReadonlyMap<string, MessageLayout> = new Map(MESSAGE_LAYOUTS.map((l) => [l.word, l]));
const layoutOfKind: ReadonlyMap<string, MessageLayout> = new Map(MESSAGE_LAYOUTS.map((l) => [l.kind, l]));

/** The layout of the line that begins with a word; undefined for an unknown one. */
export function findLayout(word: string): MessageLayout | undefined {
  return layoutOfWord.get(word);
}

/** The layout of a kind of message. */
export function layoutOf(kind: MessageKind): MessageLayout {
  return layoutOfKind.get(kind) as MessageLayout;
}

/** Whether fields that are right one by one also agree with one another. */
export function isConsistent(message: Message): boolean {
  switch (message.kind) {
    case 'who':
    case 'woke':
      return message.oldest <= message.newest;
    case 'walk':
    case 'begin':
      return message.stopHz - message.startHz >= message.points - 1;
    case 'again':
      return message.first <= message.last;
    case 'iam':
      return message.lowestHz < message.highestHz;
    case 'alive':
      return message.sweep !== 0 || message.sent === 0;
    default:
      return true;
  }
}

function layout<K extends MessageKind>(
  from: MessageLayout['from'],
  kind: K,
  word: string,
  fields: FieldsOf<K>,
): MessageLayout {
  const entries: [string, FieldForm][] = Object.entries(fields);
  return { kind, word, from, fields: entries.map(([name, form]) => ({ name, ...form })) };
}

function integer(min: number, max: number): FieldForm {
  return { form: 'integer', min, max };
}

function choice(...choices: string[]): FieldForm {
  return { form: 'choice', choices };
}

function text(maxLength: number): FieldForm {
  return { form: 'text', maxLength };
}
