import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UserError } from '../../src/core/user-error.ts';
import { parseSite } from '../../src/logbook/site-file.ts';

const parameters = { seed: 20_260_301, numRuns: 400 };

const SAMPLE = readFileSync(join(import.meta.dirname, '../../samples/site.json'), 'utf8');

/** Reads a text; a refusal must be our own, and must name the file. */
function readOrRefuse(text: string): void {
  try {
    const site = parseSite(text, 'site.json');
    JSON.stringify(site, (_, value) => {
      if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
      return value;
    });
  } catch (error) {
    expect(error).toBeInstanceOf(UserError);
    expect((error as UserError).place.file).toBe('site.json');
  }
}

describe('a site file', () => {
  it('of the samples is accepted', () => {
    expect(parseSite(SAMPLE, 'site.json').version).toBe(1);
  });

  it('of any text is read or refused in words', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 60 }), readOrRefuse), parameters);
  });

  it('of any JSON is read or refused in words', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 5 }), (json) => {
        readOrRefuse(json);
        readOrRefuse(`{ "version": 1, "name": "x", "antenna": ${json} }`);
        readOrRefuse(
          `{ "version": 1, "name": "x", "antenna": { "kind": "other" }, "lot": ${json}, "soil": ${json} }`,
        );
      }),
      parameters,
    );
  });

  it('with any piece of it replaced is read or refused in words', () => {
    const piece = fc.oneof(
      fc.constantFrom('"', '{', '}', '[', ',', '-', '0', 'e9', 'null', '__proto__'),
      fc.string(),
    );
    fc.assert(
      fc.property(fc.nat(SAMPLE.length), fc.nat(12), piece, (at, length, text) => {
        readOrRefuse(SAMPLE.slice(0, at) + text + SAMPLE.slice(at + length));
      }),
      parameters,
    );
  });
});
