/** The story in `season.json`, typed. */
import { readFileSync } from 'node:fs';
import type { Layout } from './layouts.ts';

export interface SeasonVisit {
  readonly at: string;
  /** Planned radials (numbers of the plan) that are laid just before this visit. */
  readonly laid: readonly number[];
  /** Volumetric moisture of the soil, 0 to 1: the truth, and, to 1 %, what is noted. */
  readonly moisture: number;
  readonly temperatureC: number;
  /** Resistance of the joint between plate and strap, ohm: the truth. */
  readonly jointOhm: number;
  readonly layout: Layout;
}

export interface Season {
  readonly radials: { readonly count: number; readonly length: string };
  readonly visits: readonly SeasonVisit[];
}

export const SEASON: Season = JSON.parse(
  readFileSync(`${import.meta.dirname}/season.json`, 'utf8'),
) as Season;
