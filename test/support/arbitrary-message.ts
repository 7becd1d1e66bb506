import fc from 'fast-check';
import { type FieldForm, isConsistent, MESSAGE_LAYOUTS } from '../../src/instrument/codec/message-layouts.ts';
import type { Message } from '../../src/instrument/codec/messages.ts';

/** Any message of the protocol that keeps its limits. */
export const arbitraryMessage: fc.Arbitrary<Message> = fc.oneof(
  ...MESSAGE_LAYOUTS.map(({ kind, fields }) =>
    fc
      .record(Object.fromEntries(fields.map((field) => [field.name, arbitraryField(field)])), {
        noNullPrototype: true,
      })
      .map((values) => ({ kind, ...values }) as unknown as Message)
      .filter(isConsistent),
  ),
);

function arbitraryField(field: FieldForm): fc.Arbitrary<number | string> {
  switch (field.form) {
    case 'integer':
      return fc.oneof(fc.integer({ min: field.min, max: field.max }), fc.constantFrom(field.min, field.max));
    case 'hex':
      return fc.integer({ min: 0, max: 0xffff });
    case 'choice':
      return fc.constantFrom(...field.choices);
    case 'text':
      return fc.stringMatching(
        new RegExp(`^[A-Za-z0-9]([A-Za-z0-9 ._+/():-]{0,${field.maxLength - 2}}[A-Za-z0-9.)])?$`),
      );
  }
}
