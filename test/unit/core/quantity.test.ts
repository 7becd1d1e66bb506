import { describe, expect, it } from 'vitest';
import { formatLength, formatTemperature, parseQuantity } from '../../../src/core/quantity.ts';
import { expectClose } from '../../support/expect-close.ts';

describe('a quantity is a number and its unit', () => {
  it.each([
    ['7.5m', 'length', 7.5],
    ['25ft', 'length', 7.62],
    ['33ft 6in', 'length', 10.2108],
    ['20 mm', 'length', 0.02],
    ['7.15MHz', 'frequency', 7.15e6],
    ['7150 khz', 'frequency', 7.15e6],
    ['100W', 'power', 100],
    ['1.5kW', 'power', 1500],
    ['5mS/m', 'conductivity', 0.005],
    ['36.5Ω', 'resistance', 36.5],
    ['12mohm', 'resistance', 0.012],
    ['-12.5dB', 'level', -12.5],
    ['1h', 'duration', 3600],
    ['23%', 'fraction', 0.23],
  ] as const)('%s', (text, dimension, expected) => {
    expectClose(parseQuantity(text, dimension), expected, { relative: 1e-12 });
  });

  it('takes a wire by gauge or area', () => {
    // ASTM B258: 14 AWG is 1.6277 mm.
    expectClose(parseQuantity('14AWG', 'wire diameter'), 1.6277e-3, { relative: 1e-4 });
    expectClose(parseQuantity('2.5mm2', 'wire diameter'), 1.7841e-3, { relative: 1e-4 });
  });

  it.each([
    ['7.5', 'needs a unit, such as 6m or 20ft, got "7.5"'],
    ['seven metres', 'needs a length such as'],
    ['7.5 furlongs', 'unit "furlongs" is not one of'],
    ['', 'needs a length such as'],
    ['1e999m', 'needs a length such as'],
    ['1e308km', 'needs a length such as'],
    ['5constructor', 'unit "constructor" is not one of'],
    [`${'9'.repeat(5000)}m\n.`, `got "${'9'.repeat(40)}…"`],
  ])('refuses "%s" in words', (text, message) => {
    expect(() => parseQuantity(text, 'length', 'lot.base')).toThrow(message);
  });

  it.each([
    ['1Mohm', 'resistance'],
    ['1MΩ', 'resistance'],
    ['1M\u2126', 'resistance'],
    ['100MW', 'power'],
    ['1MA', 'current'],
  ] as const)('never takes mega for milli: %s', (text, dimension) => {
    expect(() => parseQuantity(text, dimension)).toThrow('is not one of');
  });

  it('has a diameter above zero and below the sky, or is none', () => {
    expect(() => parseQuantity('-2.5mm2', 'wire diameter')).toThrow('needs a wire diameter');
    expect(() => parseQuantity('-1e9AWG', 'wire diameter')).toThrow('needs a wire diameter');
  });

  it('is shown as the site wants it', () => {
    expect(formatLength(7.62, 'imperial')).toBe('25.0 ft');
    expect(formatLength(7.62, 'metric', 2)).toBe('7.62 m');
  });

  it('is shown in inches below a yard where a site is imperial', () => {
    expect(formatLength(0.15, 'imperial', 2)).toBe('5.9 in');
    expect(formatLength(0.75, 'imperial')).toBe('30 in');
    expect(formatLength(0.9143, 'imperial')).toBe('36 in');
    expect(formatLength(0.9144, 'imperial')).toBe('3.0 ft');
    expect(formatLength(0, 'imperial')).toBe('0.0 ft');
    expect(formatLength(0.15, 'metric', 2)).toBe('0.15 m');
  });
});

describe('a temperature', () => {
  it('may be in degrees of either scale, and is shown in that of the site', () => {
    // NIST SP 811 (2008), B.8: t/°C = (t/°F - 32)/1.8. Water boils at 212 °F, freezes at 32 °F; the scales meet at -40.
    for (const [text, celsius] of [
      ['212F', 100],
      ['32°F', 0],
      ['-40F', -40],
      ['68f', 20],
      ['20C', 20],
    ] as const) {
      expectClose(parseQuantity(text, 'temperature'), celsius, { absolute: 1e-12 });
    }
    expect(formatTemperature(20, 'imperial')).toBe('68 °F');
    expect(formatTemperature(-3.5, 'metric')).toBe('-3.5 °C');
    expect(() => parseQuantity('68', 'temperature')).toThrow('such as 12C or 54F');
  });
});
