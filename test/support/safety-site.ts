import type { Site } from '../../src/core/site.ts';

/** An invented plot with a quarter wave for 40 m on the ground and four places around it. */
export function safetySite(change: Partial<Site> = {}): Site {
  return {
    version: 1,
    name: 'invented plot',
    units: 'metric',
    region: 2,
    antenna: {
      kind: 'quarter-wave',
      heightM: 10.1,
      diameterM: 0.025,
      bands: ['40m'],
      baseHeightM: 0,
      radiationResistanceOhm: null,
    },
    radials: { diameterM: 1.6e-3, insulated: true, metal: 'copper', depthM: 0.02, count: 24, lengthM: 6 },
    soil: null,
    lot: {
      outline: [
        [0, 0],
        [20, 0],
        [20, 15],
        [0, 15],
      ],
      base: [4, 6],
      northDeg: 0,
      obstacles: [],
      places: [
        { name: 'bench', at: [9, 2], heightM: 0 },
        { name: 'step', at: [5, 6], heightM: 0 },
        { name: 'sandpit', at: [4, 8], heightM: 0 },
        { name: 'window', at: [12, 6], heightM: 4 },
      ],
    },
    stock: [],
    feedline: null,
    instrument: { referenceOhm: null, reflectionUncertainty: null, phaseUncertaintyDeg: null },
    joints: [],
    transmit: [{ band: '40m', peakPowerW: 100, mode: 'cw', onAirFraction: 0.5 }],
    limits: 'fcc-general',
    worthwhileDb: null,
    bandEdges: {},
    ...change,
  };
}

/** The same with some of the antenna's figures replaced. */
export function withAntenna(change: Partial<Site['antenna']>, rest: Partial<Site> = {}): Site {
  return safetySite({ ...rest, antenna: { ...safetySite().antenna, ...change } });
}
