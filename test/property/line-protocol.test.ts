import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeLine } from '../../src/instrument/codec/decode-line.ts';
import { encodeMessage, withChecksum } from '../../src/instrument/codec/encode-message.ts';
import { LineSplitter } from '../../src/instrument/codec/line-splitter.ts';
import { arbitraryMessage } from '../support/arbitrary-message.ts';

const settings = { seed: 20_260_101, numRuns: 2000 };

describe('the line protocol', () => {
  it('survives the wire: every message decodes to itself', () => {
    fc.assert(
      fc.property(arbitraryMessage, (message) => {
        expect(decodeLine(encodeMessage(message).slice(0, -1))).toEqual(message);
      }),
      settings,
    );
  });

  it('makes of arbitrary text a message or a failure, and never throws', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary', maxLength: 120 }),
          fc.string({ maxLength: 90 }).map(withChecksum),
        ),
        (line) => {
          expect(typeof decodeLine(line).kind).toBe('string');
        },
      ),
      settings,
    );
  });

  it('reads no line that is not the one spelling of its message', () => {
    const damaged = fc
      .tuple(arbitraryMessage, fc.nat(94), fc.constantFrom(...'0123456789,-+ '))
      .map(([message, at, mark]) => {
        const body = encodeMessage(message).slice(0, -'*0000\n'.length);
        return withChecksum(body.slice(0, at) + mark + body.slice(at + 1));
      });
    fc.assert(
      fc.property(damaged, (line) => {
        const decoded = decodeLine(line);
        if (decoded.kind !== 'unreadable') expect(encodeMessage(decoded)).toBe(`${line}\n`);
      }),
      settings,
    );
  });

  it('notices every change of one character', () => {
    fc.assert(
      fc.property(arbitraryMessage, fc.nat(94), fc.integer({ min: 0x20, max: 0x7e }), (message, at, code) => {
        const line = encodeMessage(message).slice(0, -1);
        const changed = line.slice(0, at) + String.fromCharCode(code) + line.slice(at + 1);
        fc.pre(at < line.length && changed !== line);
        expect(decodeLine(changed).kind).toBe('unreadable');
      }),
      settings,
    );
  });

  it('splits a stream into the same lines wherever it is cut', () => {
    const stream = fc.array(fc.oneof(fc.uint8Array({ maxLength: 30 }), fc.constant(Uint8Array.of(13, 10))), {
      maxLength: 20,
    });
    fc.assert(
      fc.property(stream, (chunks) => {
        const whole = Uint8Array.from(chunks.flatMap((chunk) => [...chunk]));
        const atOnce = new LineSplitter(20).push(whole).map((line) => line.slice());
        const splitter = new LineSplitter(20);
        expect(chunks.flatMap((chunk) => splitter.push(chunk)).map((line) => line.slice())).toEqual(atOnce);
      }),
      settings,
    );
  });
});
