import { describe, expect, it } from 'vitest';
import { formatAddress, parseAddress, START } from '../../../web/address.ts';

describe('the address of what is looked at', () => {
  it.each([
    START,
    {
      view: 'change',
      visit: '16',
      before: '3',
      band: '40m',
      change: 'pair',
      also: ['1', '2'],
      plane: 'shack',
    },
    { view: 'report', visit: null, before: 'none', band: null, change: null, also: [], plane: 'feedpoint' },
  ] as const)('comes back as it was written: %j', (address) => {
    expect(parseAddress(formatAddress(address))).toEqual(address);
  });

  it('says no more than it must', () => {
    expect(formatAddress({ ...START, visit: '7' })).toBe('#view=sweep&visit=7');
  });

  it('with a view that nobody knows shows the first', () => {
    expect(parseAddress('#view=<script>&visit=2')).toEqual({ ...START, visit: '2' });
  });
});
