import { expect, it } from 'vitest';
import { columnsText } from '../../../../src/formats/csv/columns-text.ts';
import { columnMeaning } from '../../../../src/formats/csv/header-words.ts';

it('a header as text is understood as the same header', () => {
  const words =
    'f,MHz,R,X kohm,|X|,|Z| ohm,Z phase deg,S11 re,S11 im,|S11|,S11 dB,S11,S11 phase rad,phase,return loss,SWR,re,im,mag,remark';
  const header = words.split(',').map((word) => columnMeaning(word));
  expect(header.filter((meaning) => meaning === null)).toHaveLength(1);
  const text = columnsText(header, {});
  expect(text.split(',').map((word) => columnMeaning(word))).toEqual(header);
});

it('a header as text can have other roles for some columns, or none', () => {
  const header = ['kHz', 'mag ohm', 'phase deg', 'SWR'].map((word) => columnMeaning(word));
  expect(columnsText(header, { 2: 'impedance-phase', 3: null })).toBe('kHz,|Z| ohm,Z phase deg,-');
});
