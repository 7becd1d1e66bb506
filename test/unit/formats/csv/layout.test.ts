import { describe, expect, it } from 'vitest';
import { cellNumber, hasThousands, saysNoValue } from '../../../../src/formats/csv/cell.ts';
import { findLayout } from '../../../../src/formats/csv/layout.ts';
import { cellColumn, splitCells } from '../../../../src/formats/csv/split-cells.ts';
import { textLines } from '../../../../src/formats/lines.ts';
import type { ReadOptions } from '../../../../src/formats/read-options.ts';

const layout = (text: string, options: ReadOptions = {}) => findLayout([...textLines(text)], options);

describe('the layout of a table', () => {
  it('is found by what makes rows of numbers', () => {
    expect(layout('a;b\n1,5;2\n1,6;3\n')).toMatchObject({
      delimiter: ';',
      decimal: 'comma',
      cells: 2,
      firstRow: 1,
    });
    expect(layout('1,5,2\n1,6,3\n')).toMatchObject({
      delimiter: ',',
      decimal: 'point',
      cells: 3,
      firstRow: 0,
    });
    expect(layout('1,5\t2\n1,6\t3\n')).toMatchObject({ delimiter: '\t', decimal: 'comma' });
    expect(layout('1.5  2\n 1.6\t3\n')).toMatchObject({ delimiter: ' ', decimal: 'point', cells: 2 });
    expect(layout('1;2\n3;4\n')).toMatchObject({ delimiter: ';', decimal: 'point' });
  });

  it('is what the flags say', () => {
    expect(layout('1,5 2,5\n1,6 3,5\n', { delimiter: ' ' })).toMatchObject({ decimal: 'comma', cells: 2 });
    expect(layout('1;2,5\n1;3,5\n', { decimal: 'point' })).toBeNull();
  });

  it('is what a spreadsheet’s first line says', () => {
    expect(layout('sep=,\n1,2;5\n1,2;6\n1,2\n')).toMatchObject({ delimiter: ',' });
  });

  it('is ambiguous where two readings give other numbers equally well', () => {
    // Under blanks 1.5, a text and 2.7; under commas 1, a text and 7.
    expect(layout('1,5 x 2,7\n')).toMatchObject([
      { delimiter: ',', decimal: 'point' },
      { delimiter: ' ', decimal: 'comma' },
    ]);
    expect(layout('1,5;x;2,7\n')).toMatchObject({ delimiter: ';' });
  });

  it('is none without numbers', () => {
    expect(layout('a,b\nc,d\n')).toBeNull();
    expect(layout('')).toBeNull();
  });
});

describe('a cell', () => {
  it('says in many ways that it has no value', () => {
    for (const cell of [
      '',
      ' ',
      '-',
      '---',
      'NaN',
      '-inf',
      '∞',
      'n/a',
      '>10',
      '> 9.99',
      '< 1',
      '#N/A',
      '1.#INF',
      'OVF',
    ]) {
      expect(saysNoValue(cell), cell).toBe(true);
    }
    for (const cell of ['1', 'abc', '-5', 'x---']) expect(saysNoValue(cell), cell).toBe(false);
  });

  it('may part thousands', () => {
    for (const cell of ['7.100,5', '7,100.5', "7'100.5", '7 100,5', '1.000.000', '7,100']) {
      expect(hasThousands(cell), cell).toBe(true);
    }
    for (const cell of ['7.1', '71000.5', '7,1005', 'x']) expect(hasThousands(cell), cell).toBe(false);
    expect(cellNumber('7.100,5', true)).toBeNaN();
  });
});

describe('cutting a line', () => {
  it('heeds quotes and runs blanks together', () => {
    expect(splitCells('"1,5",2,', ',')).toEqual(['1,5', '2', '']);
    expect(splitCells('1;;3', ';')).toEqual(['1', '', '3']);
    expect(splitCells('  1 \t 2  ', ' ')).toEqual(['1', '2']);
  });

  it('tells in which column a cell begins', () => {
    expect(cellColumn('"1,5",2,x', ',', 1)).toBe(7);
    expect(cellColumn('"1,5",2,x', ',', 0)).toBe(1);
    expect(cellColumn('  1 \t 22', ' ', 1)).toBe(7);
    expect(cellColumn('1,2', ',', 5)).toBe(4);
  });
});
