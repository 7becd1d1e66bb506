import { writeSteps } from '../../../src/formats/page-data/steps-text.ts';
import { PAGE_DATA_VERSION, type PageData } from '../../../src/formats/page-data.ts';

const quantity = { value: 1.5, expandedUncertainty: 0.2, coverageFactor: 2 };
const measure = {
  measure: 'resonanceHz',
  before: quantity,
  after: quantity,
  difference: quantity,
  verdict: 'not shown',
  meaning: 'cannot be told from this',
};
const field = { radials: 8, wireM: 48, since: '2026-03-01T10:15:00Z' };
const there = <T>(data: T): { data: T; missing: null } => ({ data, missing: null });

/** Data of a page with something in each part, and no more than the page checks. */
export const PAGE_SEED = {
  version: PAGE_DATA_VERSION,
  made: '2026-03-01T10:15:00Z',
  program: 'Turfwire 0.1.0',
  opens: 'questions',
  commands: { addSweeps: 'turfwire import shot1.csv', compare: 'turfwire compare' },
  otherUnits: {},
  source: 'file',
  site: {
    name: 'Plot seven',
    units: 'metric',
    region: 1,
    bandEdges: { '40m': [7e6, 7.2e6] },
    antenna: { kind: 'quarter-wave', bands: ['40m'], heightM: 10.1 },
    instrument: { referenceOhm: 50 },
  },
  sweeps: {
    fields: [field],
    throughLine: false,
    grids: [[7e6, 7.1e6]],
    leftOut: 0,
    visits: [
      {
        visit: 1,
        time: '2026-03-01T10:15:00Z',
        radials: 8,
        wireM: 48,
        field: 0,
        counts: true,
        referenceLoad: [],
        shots: [
          {
            grid: 0,
            plane: 'feedpoint',
            referenceOhm: 50,
            resistance: writeSteps(Float64Array.of(36.5, 37), 1e3),
            reactance: writeSteps(Float64Array.of(-1, 2), 1e3),
          },
        ],
      },
    ],
  },
  readings: [
    { time: '2026-03-01T10:15:00Z', kind: 'rain', value: 0.003, subject: null, powerW: null, text: '' },
  ],
  lot: there({
    lot: {
      outline: [
        [0, 0],
        [10, 0],
        [10, 20],
      ],
      base: [4, 6],
      northDeg: 0,
      obstacles: [
        {
          name: 'shed',
          kind: 'building',
          outline: [
            [1, 1],
            [2, 1],
            [2, 2],
          ],
        },
      ],
      places: [{ name: 'bench', at: [9, 2] }],
    },
    wires: [
      {
        number: 1,
        lengthM: 6,
        since: null,
        points: [
          [0, 0],
          [3, 5],
        ],
        state: 'laid',
        age: 0,
      },
    ],
  }),
  plan: there({
    radials: [
      {
        route: [
          [0, 0],
          [3, 5],
        ],
        lengthM: 6,
      },
    ],
    wireM: 6,
    efficiency: [{ band: '40m', outside: [] }],
    pattern: [{ band: '40m', azimuthDeg: [0, 90], relativeDb: [0, -1] }],
    moreWire: [{ extraM: 25, gainDb: 0.3 }],
    lesson: null,
    work: ['cut 6 m'],
    notes: [],
  }),
  progress: there([
    {
      band: '40m',
      steps: [
        {
          radials: 8,
          wireM: 48,
          time: null,
          resistanceAtResonanceOhm: quantity,
          resonanceHz: quantity,
          swr2BandwidthHz: quantity,
          gainDb: quantity,
          strengthDb: quantity,
        },
      ],
      model: { name: 'power law', parameters: { a: quantity } },
      curve: [{ radials: 8, resistanceOhm: 40 }],
      next: { gainDb: quantity },
      doubling: { gainDb: quantity },
      advice: 'go on',
      why: 'it helps',
      poorGuide: [],
      reversal: null,
      notes: [],
    },
  ]),
  comparisons: there([
    {
      before: field,
      after: field,
      answer: {
        band: '40m',
        measures: [measure],
        strength: { places: [{ place: 'bench', differenceDb: 0.5 }] },
        notes: [],
      },
    },
  ]),
  changes: there({
    answer: {
      causes: [{ cause: 'none', probability: 1, evidence: ['nothing moved'], checkFirst: 'nothing' }],
      cannotTell: [],
      visitsBefore: [1],
      visitsAfter: [2],
    },
    visits: [1, 2],
    timeMs: [1, 2],
    aheadMin: [60, 60],
    charts: [
      {
        band: '40m',
        feature: 'resonanceHz',
        values: [7e6, null],
        expected: [7e6, 7e6],
        smoothed: { average: [0, 0], limit: [1, 1] },
        signals: [],
      },
    ],
  }),
  safety: { data: null, missing: { why: 'no power is told', command: 'turfwire safety --power 100W' } },
} as unknown as PageData;
