import { describe, expect, it } from 'vitest';
import { formatLength } from '../../../src/core/quantity.ts';
import { carefulFigures } from '../../../src/formats/careful-figures.ts';

const figures = (units: 'metric' | 'imperial') =>
  carefulFigures(units, {
    length: (lengthM, decimals) => formatLength(lengthM, units, decimals),
    watts: String,
  });

describe('carefulFigures', () => {
  it('rounds what people keep up and what is there down, in the unit that is shown', () => {
    expect(figures('metric').kept(1.21)).toBe('1.3 m');
    expect(figures('metric').present(1.29)).toBe('1.2 m');
    // 1.3 m is 4.27 ft.
    expect(figures('imperial').kept(1.3)).toBe('4.3 ft');
    expect(figures('imperial').present(1.3)).toBe('4.2 ft');
  });

  it('tells short lengths in inches, to the same sides', () => {
    // 0.1 m is 3.94 in, 0.3 m 11.81 in.
    expect([figures('imperial').kept(0.1), figures('imperial').present(0.1)]).toEqual(['4 in', '3 in']);
    expect([figures('imperial').kept(0.3), figures('imperial').present(0.3)]).toEqual(['12 in', '11 in']);
    expect(figures('metric').present(0.3)).toBe('0.3 m');
  });

  it('tells no power that is under a watt, nor more than any transmitter gives', () => {
    const { allowed } = figures('metric');
    expect([allowed(0.99), allowed(148), allowed(20_000)]).toEqual(['none', '148 W', 'over 10000 W']);
  });
});
