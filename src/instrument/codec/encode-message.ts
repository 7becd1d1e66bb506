import { crc16 } from './crc16.ts';
import { decodeLine } from './decode-line.ts';
import { type FieldForm, layoutOf } from './message-layouts.ts';
import type { Message } from './messages.ts';

/**
 * The line of a message, checksum and LF included, ready to be written.
 *
 * @throws RangeError when a field breaks its limits; the line is read back, so that nothing leaves
 * that the other side would refuse
 */
export function encodeMessage(message: Message): string {
  const line = withChecksum(bodyOf(message));
  const readBack = decodeLine(line);
  if (readBack.kind === 'unreadable') {
    const place = readBack.field === undefined ? '' : ` in field ${readBack.field}`;
    throw new RangeError(`${message.kind} cannot be sent: ${readBack.reason}${place}`);
  }
  return `${line}\n`;
}

/** Appends `*` and the checksum to the body of a line, right or wrong as the body may be. */
export function withChecksum(body: string): string {
  return `${body}*${hex4(crc16(new TextEncoder().encode(body)))}`;
}

function bodyOf(message: Message): string {
  const { word, fields } = layoutOf(message.kind);
  const values = message as unknown as Readonly<Record<string, number | string>>;
  return [word, ...fields.map((field) => spell(field, values[field.name] as number | string))].join(',');
}

function spell(form: FieldForm, value: number | string): string {
  return form.form === 'hex' ? hex4(value as number) : String(value);
}

function hex4(value: number): string {
  return value.toString(16).toUpperCase().padStart(4, '0');
}
