import type { UnitSystem } from './quantity.ts';

/** A corner or place on the lot: metres east and north of a corner the user chose. */
export type Point = readonly [eastM: number, northM: number];

/** ITU region, which decides the edges of bands. */
export type ItuRegion = 1 | 2 | 3;

/** The site as the rooms see it: everything in SI, what the user did not give is null. */
export interface Site {
  readonly version: 1;
  readonly name: string;
  readonly units: UnitSystem;
  readonly region: ItuRegion | null;
  readonly antenna: Antenna;
  readonly radials: RadialStock | null;
  readonly soil: SiteSoil | null;
  readonly lot: Lot | null;
  readonly stock: readonly StockItem[];
  readonly feedline: SiteFeedline | null;
  readonly instrument: SiteInstrument;
  readonly joints: readonly SiteJoint[];
  readonly transmit: readonly Transmission[];
  readonly limits: string | null;
  readonly worthwhileDb: number | null;
  /** National band edges that replace the ITU ones, by band name. */
  readonly bandEdges: Readonly<Record<string, readonly [fromHz: number, toHz: number]>>;
}

/** The element. */
export interface Antenna {
  readonly kind: 'quarter-wave' | 'half-wave' | 'other';
  readonly heightM: number | null;
  readonly diameterM: number | null;
  readonly bands: readonly string[];
  readonly baseHeightM: number | null;
  readonly radiationResistanceOhm: number | null;
}

/** What the radials are made of, and the field state where no journal tells it. */
export interface RadialStock {
  readonly diameterM: number | null;
  readonly insulated: boolean | null;
  readonly metal: string | null;
  readonly depthM: number | null;
  readonly count: number | null;
  readonly lengthM: number | null;
}

/** The soil under the field. */
export interface SiteSoil {
  /** The name the user chose, or null when figures were given. */
  readonly name: string | null;
  readonly conductivitySPerM: number;
  readonly relativePermittivity: number;
}

/** The garden: coordinates in metres east and north. */
export interface Lot {
  readonly outline: readonly Point[];
  readonly base: Point;
  /**
   * Turns the drawing alone, clockwise: where its north arrow points, degrees from upward. Coordinates are true east
   * and north, and every bearing and azimuth counts clockwise from that north, whatever this says.
   */
  readonly northDeg: number;
  readonly obstacles: readonly Obstacle[];
  readonly places: readonly LotPlace[];
}

/** What wires keep off. */
export interface Obstacle {
  readonly name: string;
  readonly kind: 'building' | 'path' | 'water' | 'service';
  /** Its corners: once around it, or along it where it is a line. */
  readonly outline: readonly Point[];
  /** True for a pipe, a cable or a path that is told by its way, and not by an area; it is open at both ends. */
  readonly isLine?: boolean | undefined;
  readonly clearanceM: number;
}

/** A spot where people stay. */
export interface LotPlace {
  readonly name: string;
  readonly at: Point;
  readonly heightM: number;
}

/** Pieces of wire of one length. */
export interface StockItem {
  readonly lengthM: number;
  readonly count: number;
}

/** The cable between shack and feed point. */
export interface SiteFeedline {
  readonly type: string | null;
  readonly lengthM: number;
  readonly velocityFactor: number | null;
  readonly impedanceOhm: number | null;
  /** The user's own matched loss, dB per 100 m at stated frequencies; replaces the table's. */
  readonly loss: readonly { readonly frequencyHz: number; readonly dbPer100M: number }[];
}

/** What is known of the instrument. */
export interface SiteInstrument {
  readonly referenceOhm: number | null;
  /** Standard uncertainty of |Γ|, dimensionless. */
  readonly reflectionUncertainty: number | null;
  readonly phaseUncertaintyDeg: number | null;
}

/** A joint of metals, by their names in the table. */
export interface SiteJoint {
  readonly name: string;
  readonly metals: readonly string[];
  readonly where: 'outdoor' | 'indoor' | 'controlled';
}

/** What is sent on one band. */
export interface Transmission {
  readonly band: string;
  readonly peakPowerW: number;
  readonly mode: string;
  readonly onAirFraction: number;
}
