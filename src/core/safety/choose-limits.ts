import type { Site } from '../site.ts';
import { findLimitSet, type LimitSet } from './limits.ts';

/** The set of limits that counts, and why that one. */
export interface ChosenLimits {
  readonly set: LimitSet;
  readonly why: string;
}

/**
 * The set asked for, else the site's, else one for the general public, which is the right kind wherever others
 * stay: the FCC's in ITU Region 2, ICNIRP 2020 elsewhere and where the region is not given, being the lower in
 * electric field on HF.
 *
 * @throws UserError `limits-unknown`
 */
export function chooseLimits(site: Site, asked: string | null): ChosenLimits {
  if (asked !== null) return { set: findLimitSet(asked), why: 'as asked' };
  if (site.limits !== null) return { set: findLimitSet(site.limits), why: 'as the site says' };
  const id = site.region === 2 ? 'fcc-general' : 'icnirp-2020-general';
  const region = site.region === null ? 'no region is given' : `the site is in ITU Region ${site.region}`;
  return {
    set: findLimitSet(id),
    why: `the site names no limits and ${region}; your own rule may be another: set limits in site.json`,
  };
}
