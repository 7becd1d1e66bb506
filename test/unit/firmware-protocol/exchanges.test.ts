import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { decodeLine } from '../../../src/instrument/codec/decode-line.ts';
import { encodeMessage } from '../../../src/instrument/codec/encode-message.ts';
import { layoutOf } from '../../../src/instrument/codec/message-layouts.ts';
import type { Message } from '../../../src/instrument/codec/messages.ts';
import { SweepAssembler } from '../../../src/instrument/codec/sweep-assembler.ts';
import {
  type ExchangeRow,
  parseExchanges,
  readRows,
  readWorkedExchangeRows,
} from '../../support/protocol-vectors.ts';

const worked = parseExchanges(readWorkedExchangeRows());
const exchanges = [...worked, ...parseExchanges(readRows('vectors/exchanges.txt'))];

function read(line: string): Message {
  const decoded = decodeLine(line);
  if (decoded.kind === 'unreadable') throw new Error(`${line}: ${decoded.reason}`);
  return decoded;
}

/** Plays the host: collects each sweep and gives every one that came whole, beside what was measured for it. */
function collect(rows: readonly ExchangeRow[]): { measured: string[]; collected: string[] }[] {
  const whole: { measured: string[]; collected: string[] }[] = [];
  let assembler: SweepAssembler | undefined;
  let measured: string[] = [];
  for (const { mark, text } of rows) {
    if (mark === '=') measured.push(text);
    if (mark !== '<' && mark !== '>') continue;
    const message = read(text);
    if (message.kind === 'walk') {
      assembler = new SweepAssembler(message.id, message);
      measured = [];
    }
    assembler?.accept(message);
    const sweep = message.kind === 'end' ? assembler?.sweep() : null;
    if (!sweep) continue;
    const micro = (column: Float64Array, number: number): number =>
      Math.round((column[number] as number) * 1e6);
    const collected = Array.from(
      sweep.frequencyHz,
      (hz, number) => `${hz} ${micro(sweep.reflectionRe, number)} ${micro(sweep.reflectionIm, number)}`,
    );
    whole.push({ measured, collected });
  }
  return whole;
}

describe('the exchanges', () => {
  it.each(exchanges)('of $title can be read, each side speaking its own words', ({ rows }) => {
    for (const { mark, text } of rows) {
      if (mark === '<' || mark === 'x<') expect(layoutOf(read(text).kind).from).toBe('instrument');
      // An echo is the exception that the vectors show.
      else if (mark === '>' || mark === 'x>') expect(encodeMessage(read(text))).toBe(`${text}\n`);
    }
  });

  it('bring the host exactly what was measured, whenever a sweep comes whole', () => {
    const sweeps = exchanges.flatMap(({ rows }) => collect(rows));
    expect(sweeps.length).toBeGreaterThan(15);
    for (const { measured, collected } of sweeps) expect(collected).toEqual(measured);
  });

  it('of the prose ask for missing points as the assembler does', () => {
    let asked = 0;
    for (const { rows } of worked) {
      let assembler: SweepAssembler | undefined;
      for (const { mark, text } of rows.filter((row) => row.mark === '<' || row.mark === '>')) {
        const message = read(text);
        if (message.kind === 'walk') assembler = new SweepAssembler(message.id, message);
        if (message.kind === 'again') {
          expect(assembler?.nextAgain(), mark).toEqual(message);
          asked++;
        }
        assembler?.accept(message);
      }
    }
    expect(asked).toBe(2);
  });
});

describe('the prose', () => {
  const prose = readFileSync(new URL('../../../firmware-protocol/README.md', import.meta.url), 'utf8');

  it('shows only lines with true checksums', () => {
    const lines = [...prose.matchAll(/^ *(?:x?[<>] )?([a-z]+,[^\n]*\*[0-9A-F]{4})$/gm)].map(
      ([, line = '']) => line,
    );
    expect(lines.length).toBeGreaterThan(70);
    for (const line of lines) expect(decodeLine(line).kind, line).not.toBe('unreadable');
  });

  it('names every word of the wire, every fault code and every failure', () => {
    const words = readRows('vectors/lines.txt').map((row) => row.split(/[\t ]/)[0]);
    for (const word of new Set(words)) expect(prose).toContain(`\`${word}\``);
  });
});
