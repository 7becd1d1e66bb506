/** One way of making cases. */
export interface Variant {
  readonly name: string;
  readonly physics: 'surface' | 'even' | 'line';
  readonly bands: 'one' | 'several' | 'wide';
  readonly withSite: boolean;
  readonly beforeVisits: readonly [fewest: number, most: number];
  readonly shots: readonly [fewest: number, most: number];
  /** How far the site file is from the truth: 1 as usual, 0 exact. */
  readonly siteError: number;
  /** `usual` draws antennas and instruments as most gardens have them, `hard` the whole range. */
  readonly spread: 'usual' | 'hard';
}

export const VARIANTS: readonly Variant[] = [
  {
    name: 'usual',
    physics: 'surface',
    bands: 'one',
    withSite: true,
    beforeVisits: [3, 6],
    shots: [2, 4],
    siteError: 0.7,
    spread: 'usual',
  },
  {
    name: 'plain',
    physics: 'even',
    bands: 'one',
    withSite: true,
    beforeVisits: [3, 6],
    shots: [2, 4],
    siteError: 0.3,
    spread: 'hard',
  },
  {
    name: 'gaps',
    physics: 'surface',
    bands: 'one',
    withSite: true,
    beforeVisits: [2, 5],
    shots: [2, 4],
    siteError: 1,
    spread: 'hard',
  },
  {
    name: 'bands',
    physics: 'surface',
    bands: 'several',
    withSite: true,
    beforeVisits: [2, 5],
    shots: [1, 3],
    siteError: 1,
    spread: 'hard',
  },
  {
    name: 'wide',
    physics: 'surface',
    bands: 'wide',
    withSite: true,
    beforeVisits: [2, 5],
    shots: [1, 3],
    siteError: 1,
    spread: 'hard',
  },
  {
    name: 'few',
    physics: 'even',
    bands: 'one',
    withSite: true,
    beforeVisits: [1, 2],
    shots: [2, 3],
    siteError: 1,
    spread: 'hard',
  },
  {
    name: 'unlike',
    physics: 'line',
    bands: 'one',
    withSite: true,
    beforeVisits: [3, 5],
    shots: [2, 4],
    siteError: 1,
    spread: 'hard',
  },
  {
    name: 'no site',
    physics: 'even',
    bands: 'one',
    withSite: false,
    beforeVisits: [3, 6],
    shots: [2, 4],
    siteError: 1,
    spread: 'hard',
  },
];
