/**
 * Source: SCPI Consortium, SCPI-1999.0 (May 1999), vol. 1 "Syntax and Style", 6.2.1 (mnemonic rules): a word of up to
 * four letters has no short form; of any other the short form is the first four letters, or three if the fourth is a
 * vowel; only the exact short or long form is valid, in any case. Status: published.
 * Source: the same, vol. 2 "Command Reference", and vol. 1, 4.1.1 and 4.2.1: the words of the mandated and required
 * commands. Status: published.
 * Source: the same, vol. 2: the nodes of a sweep (SENSe, SWEep, CALCulate, TRACe, INITiate), optional nodes and numeric
 * suffixes. Status: memory.
 *
 * Tolerance: none; texts are equal or not.
 */
import { describe, expect, it } from 'vitest';
import { matchesScpiHeader, scpiShortForm } from '../../src/instrument/description/scpi-header.ts';

const SHORT_FORMS = {
  FREQuency: 'FREQ',
  POWer: 'POW',
  VOLTage: 'VOLT',
  IMMediate: 'IMM',
  FORMat: 'FORM',
  DELay: 'DEL',
  OUTPut: 'OUTP',
  STARt: 'STAR',
  STOP: 'STOP',
  POINts: 'POIN',
  SWEep: 'SWE',
  SENSe: 'SENS',
  CALCulate: 'CALC',
  TRACe: 'TRAC',
  INITiate: 'INIT',
  SYSTem: 'SYST',
  ERRor: 'ERR',
  STATus: 'STAT',
} as const;

describe.each(Object.entries(SHORT_FORMS))('%s', (word, short) => {
  it(`has the short form ${short}`, () => expect(scpiShortForm(word)).toBe(short));

  it('is matched in its short and long form only, in any case', () => {
    for (let length = 1; length <= word.length; length++) {
      const spelling = word.slice(0, length);
      const valid = length === short.length || length === word.length;
      expect(matchesScpiHeader(word, spelling.toLowerCase()), spelling).toBe(valid);
      expect(matchesScpiHeader(word, spelling.toUpperCase()), spelling).toBe(valid);
    }
  });
});

describe('whole headers', () => {
  it.each([
    ['SYSTem:PRESet', 'SYSTe:PRESe', false],
    ['SYSTem:PRESet', 'syst:preset', true],
    ['SYSTem:ERRor[:NEXT]?', 'SYST:ERR?', true],
    ['SYSTem:ERRor[:NEXT]?', 'SYSTEM:ERROR:NEXT?', true],
    ['SYSTem:ERRor[:NEXT]?', 'SYST:ERR', false],
    ['[SENSe:]FREQuency:STARt', ':FREQ:STAR', true],
    ['[SENSe:]FREQuency:STARt', 'SENS1:FREQ:STARt', true],
    ['[SENSe:]FREQuency:STARt', 'SENS2:FREQ:STAR', false],
    ['*IDN?', '*idn?', true],
    ['*IDN?', 'IDN?', false],
    ['TCouple', 'TC', true],
    ['TCouple', 'TCOU', false],
  ] as const)('%s and %s: %s', (pattern, header, valid) => {
    expect(matchesScpiHeader(pattern, header)).toBe(valid);
  });
});
