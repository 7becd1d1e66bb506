import { describe, expect, it } from 'vitest';
import { partOddVisits } from '../../../../src/core/proof/odd-visits.ts';
import { visitInBand } from '../../../../src/core/proof/visit-in-band.ts';
import { BAND, vertical } from '../../../support/compared.ts';

const visits = (...resistances: number[]) => resistances.map((r) => visitInBand([vertical(r)], BAND, 0.005));

describe('partOddVisits', () => {
  it('parts off the one that went bad', () => {
    const all = visits(44, 44.6, 45, 45.3, 61);
    const { usual, odd } = partOddVisits(all, 0.003);
    expect(odd).toEqual([all[4]]);
    expect(usual).toHaveLength(4);
  });

  it('condemns nobody for good luck of the others: the instrument may scatter as it is stated', () => {
    expect(partOddVisits(visits(45, 45, 45, 45.01, 45.9), 0.003).odd).toEqual([]);
  });

  it('cannot tell among three', () => {
    expect(partOddVisits(visits(44, 45, 61), 0.003).odd).toEqual([]);
  });
});
