/** Nominal figures of a coaxial cable class. Cables sold under one number differ by 10 to 20 per cent. */
export interface LineType {
  readonly type: string;
  readonly impedanceOhm: number;
  readonly velocityFactor: number;
  /** Matched loss, dB per 100 m, at two or more frequencies. */
  readonly loss: readonly { readonly frequencyHz: number; readonly dbPer100M: number }[];
}

const FEET_PER_M = 1 / 0.3048;

function cable(
  type: string,
  impedanceOhm: number,
  velocityFactor: number,
  dbPer100FtAt30Mhz: number,
  dbPer100FtAt150Mhz: number,
): LineType {
  return {
    type,
    impedanceOhm,
    velocityFactor,
    loss: [
      { frequencyHz: 30e6, dbPer100M: dbPer100FtAt30Mhz * FEET_PER_M },
      { frequencyHz: 150e6, dbPer100M: dbPer100FtAt150Mhz * FEET_PER_M },
    ],
  };
}

/**
 * Source of the losses: ARRL class manual, ch. 6, Table 6-1 as corrected (dB per 100 ft at 30 and 150 MHz), published.
 * Velocity factor 0.66 for solid polyethylene published; 0.82 for the foam of RG-8X from memory.
 */
export const LINE_TYPES: readonly LineType[] = [
  cable('RG-8', 50, 0.66, 1.08, 2.53),
  cable('RG-213', 50, 0.66, 1.08, 2.53),
  cable('RG-8X', 50, 0.82, 1.96, 4.53),
  cable('RG-58', 50, 0.66, 2.47, 5.63),
  cable('RG-59', 75, 0.66, 1.79, 4.11),
  cable('RG-174', 50, 0.66, 4.56, 10.3),
];
