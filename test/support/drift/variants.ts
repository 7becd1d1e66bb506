/** One way of making cases. */
export interface Variant {
  readonly name: string;
  readonly physics: 'surface' | 'even' | 'line';
  /** `segments` is one sweep over two or three bands with nothing between them. */
  readonly bands: 'one' | 'several' | 'wide' | 'segments';
  readonly withSite: boolean;
  readonly beforeVisits: readonly [fewest: number, most: number];
  readonly shots: readonly [fewest: number, most: number];
  /** How far the site file is from the truth: 1 as usual, 0 exact. */
  readonly siteError: number;
  /** `usual` draws antennas and instruments as most gardens have them, `hard` the whole range. */
  readonly spread: 'usual' | 'hard';
  /** Swept in the shack, through a line whose constants are up to 2 % off those of the site. */
  readonly line: boolean;
  /** How often lost radials lie side by side. */
  readonly neighbouring: number;
  /** Standard deviation of ln σ from visit to visit; the usual range of its spread unless given. */
  readonly soilScatter?: readonly [least: number, most: number];
}

const HARD = { withSite: true, siteError: 1, spread: 'hard', line: false, neighbouring: 0.35 } as const;

export const VARIANTS: readonly Variant[] = [
  {
    ...HARD,
    name: 'usual',
    physics: 'surface',
    bands: 'one',
    beforeVisits: [3, 6],
    shots: [2, 4],
    siteError: 0.7,
    spread: 'usual',
  },
  {
    ...HARD,
    name: 'plain',
    physics: 'even',
    bands: 'one',
    beforeVisits: [3, 6],
    shots: [2, 4],
    siteError: 0.3,
  },
  { ...HARD, name: 'gaps', physics: 'surface', bands: 'one', beforeVisits: [2, 5], shots: [2, 4] },
  { ...HARD, name: 'bands', physics: 'surface', bands: 'several', beforeVisits: [2, 5], shots: [1, 3] },
  { ...HARD, name: 'wide', physics: 'surface', bands: 'wide', beforeVisits: [2, 5], shots: [1, 3] },
  { ...HARD, name: 'few', physics: 'even', bands: 'one', beforeVisits: [1, 2], shots: [2, 3] },
  { ...HARD, name: 'unlike', physics: 'line', bands: 'one', beforeVisits: [3, 5], shots: [2, 4] },
  {
    ...HARD,
    name: 'no site',
    physics: 'even',
    bands: 'one',
    withSite: false,
    beforeVisits: [3, 6],
    shots: [2, 4],
  },
  { ...HARD, name: 'segments', physics: 'surface', bands: 'segments', beforeVisits: [2, 5], shots: [2, 3] },
  {
    ...HARD,
    name: 'shack',
    physics: 'surface',
    bands: 'one',
    beforeVisits: [2, 5],
    shots: [2, 3],
    line: true,
  },
  {
    ...HARD,
    name: 'shack segments',
    physics: 'surface',
    bands: 'segments',
    beforeVisits: [2, 5],
    shots: [2, 3],
    line: true,
  },
  {
    ...HARD,
    name: 'scatter',
    physics: 'surface',
    bands: 'one',
    beforeVisits: [2, 4],
    shots: [2, 3],
    neighbouring: 1,
    soilScatter: [0.03, 0.2],
  },
];
