import type { Soil } from '../ground/soil.ts';

/** Conductivity of a garden is a guess: half to twice of it is usual within one year. */
const FACTORS = [0.5, 1, 2];

/** The soil as stated, second of three, with half and twice its conductivity around it. */
export function soilsInQuestion(soil: Soil): Soil[] {
  return FACTORS.map((factor) => ({ ...soil, conductivitySPerM: soil.conductivitySPerM * factor }));
}
