import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { parseSite } from '../../../src/logbook/site-file.ts';
import { SITE_SCHEMA } from '../../../src/logbook/site-schema.ts';

const TEXT = readFileSync(join(import.meta.dirname, '../../../samples/every-key.json'), 'utf8');

/** The parts of a valibot schema that lead to further keys. */
interface Schema {
  readonly type: string;
  readonly pipe?: readonly Schema[] | undefined;
  readonly getter?: (input: unknown) => Schema;
  readonly wrapped?: Schema;
  readonly item?: Schema;
  readonly value?: Schema;
  readonly entries?: Readonly<Record<string, Schema>>;
}

/** Paths of all keys that a schema knows, `[]` for any item of a list and `*` for a key the user chooses. */
function keysOfSchema(schema: Schema, path = ''): string[] {
  const { type, pipe, getter, wrapped, item, value, entries } = schema;
  if (pipe !== undefined) {
    // The first part of a pipe is the schema itself, whose own pipe is this one.
    return pipe.flatMap((part, i) => keysOfSchema(i === 0 ? { ...part, pipe: undefined } : part, path));
  }
  if (getter !== undefined) return keysOfSchema(getter({}), path);
  if (wrapped !== undefined) return keysOfSchema(wrapped, path);
  if (item !== undefined) return keysOfSchema(item, `${path}[]`);
  if (type === 'record') return [`${path}.*`, ...keysOfSchema(value as Schema, `${path}.*`)];
  return Object.entries(entries ?? {}).flatMap(([key, inner]) => [
    `${path}.${key}`,
    ...keysOfSchema(inner, `${path}.${key}`),
  ]);
}

/** Paths of all keys that a document has, in the same form. */
function keysOfDocument(value: unknown, path = ''): string[] {
  if (Array.isArray(value)) return value.flatMap((item) => keysOfDocument(item, `${path}[]`));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => {
    const own = path === '.bandEdges' ? `${path}.*` : `${path}.${key}`;
    return [own, ...keysOfDocument(inner, own)];
  });
}

describe('samples/every-key.json', () => {
  it('is a valid site file', () => {
    expect(parseSite(TEXT, 'every-key.json').name).toBe('Corner garden by the mill race');
  });

  it('has every key of the site schema, and no other', () => {
    const known = keysOfSchema(SITE_SCHEMA as v.GenericSchema as unknown as Schema);
    expect(known).toEqual(
      expect.arrayContaining([
        '.antenna.radiationResistance',
        '.soil.permittivity',
        '.lot.places[].height',
        '.bandEdges.*',
      ]),
    );
    expect([...new Set(keysOfDocument(JSON.parse(TEXT)))].sort()).toEqual([...new Set(known)].sort());
  });

  it('has an obstacle of every kind', () => {
    const kinds = parseSite(TEXT, 'every-key.json').lot?.obstacles.map(({ kind }) => kind);
    expect(new Set(kinds)).toEqual(new Set(['building', 'path', 'water', 'service']));
  });
});
