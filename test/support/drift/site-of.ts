import type { Site } from '../../../src/core/site.ts';

/** The figures of a site that shape what causes do. */
export interface SiteFigures {
  readonly heightM: number;
  readonly diameterM: number;
  readonly count: number;
  readonly lengthM: number;
  readonly radialDiameterM: number;
  readonly conductivitySPerM?: number;
  readonly relativePermittivity?: number;
}

/** A site of these figures, on average soil unless given. */
export function siteOf(figures: SiteFigures): Site {
  return {
    version: 1,
    name: 'generated',
    units: 'metric',
    region: 1,
    antenna: {
      kind: 'other',
      heightM: figures.heightM,
      diameterM: figures.diameterM,
      bands: [],
      baseHeightM: null,
      radiationResistanceOhm: null,
    },
    radials: {
      diameterM: figures.radialDiameterM,
      insulated: null,
      metal: null,
      depthM: null,
      count: figures.count,
      lengthM: figures.lengthM,
    },
    soil: {
      name: null,
      conductivitySPerM: figures.conductivitySPerM ?? 0.005,
      relativePermittivity: figures.relativePermittivity ?? 13,
    },
    lot: null,
    stock: [],
    feedline: null,
    instrument: { referenceOhm: null, reflectionUncertainty: null, phaseUncertaintyDeg: null },
    joints: [],
    transmit: [],
    limits: null,
    worthwhileDb: null,
    bandEdges: {},
  };
}
