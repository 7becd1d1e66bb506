import { efficiency, type FeedPointSystem, feedPointImpedanceOhm } from '../ground/feed-point.ts';
import { wavelengthM } from '../ground/free-space.ts';
import { type BiasDb, measuredBiasDb } from '../ground/measured-bias.ts';
import type { Monopole } from '../ground/monopole.ts';
import { type RadialField, uniformField } from '../ground/radial-field.ts';
import { laidWires } from '../layout/planned-field.ts';
import type { SiteSoil } from '../site.ts';
import { type Curve, type FieldFit, fieldFit, parameterQuantity, type Wires } from './field-fit.ts';
import { leastSquares } from './least-squares.ts';
import type { FitPoint } from './progress-steps.ts';

/** What the site knows of the antenna and its ground. */
export interface GroundKnowledge {
  readonly monopole: Monopole;
  readonly wireRadiusM: number;
  /** Where the fit starts, and near which it stays when few points tell. */
  readonly soil: SiteSoil | null;
  readonly radiationResistanceOhm: number | null;
}

/** A soil without a name is as wide a guess as a garden is. */
const USUAL_SOIL = { conductivitySPerM: 0.005, relativePermittivity: 13 };

/**
 * What is believed before anything is measured, as standard uncertainties: conductivity within a factor of three,
 * permittivity of two, some ohms of joints and of a radiation resistance that is not the textbook's, and a reactance
 * that the element's real length sets. Wide enough that four or five points outweigh them.
 */
const LOG_CONDUCTIVITY = Math.log(3);
const LOG_PERMITTIVITY = Math.log(2) / 2;
const EXTRA_OHM = 5;
const EXTRA_REACTANCE_OHM = 200;

/**
 * How well the method itself tells R and X, in ohm: it met a handbook's feed resistances of 16 and more radials within
 * 3 Ω. With fewer it is worse in proportion, for it takes the wires as a sheet.
 */
const METHOD_RESISTANCE_OHM = 0.7;
const METHOD_REACTANCE_OHM = 2;
const FEW_RADIALS = 16;

/** How well it tells a gain beyond its published error, dB. */
const METHOD_DB = 0.02;

/** Soil is not the same from visit to visit, even when nobody noted it: a part of R. */
const SOIL_SCATTER = 0.015;

/**
 * Fits soil and a fixed extra resistance and reactance to measured R and X, each field as it was laid where that is
 * known. What more wires would do is told of even, straight fields, which alone can be told of before they are laid.
 * X is zero at each measured resonance, so that no resonance needs to be searched.
 *
 * @param points - at least one
 * @returns null when the fit does not converge
 */
export function groundFit(points: readonly FitPoint[], knowledge: GroundKnowledge): FieldFit | null {
  const [last] = points.slice(-1);
  if (last === undefined) return null;
  const { conductivitySPerM, relativePermittivity } = knowledge.soil ?? USUAL_SOIL;
  const priors = [Math.log(conductivitySPerM), Math.log(relativePermittivity), 0, 0];
  const over = overSoil((system) => feedPointImpedanceOhm(system), knowledge);
  const measured = points.map((point) => ({
    point,
    impedance: over(fieldOf(point, knowledge), point.resonanceHz),
  }));
  const fit = leastSquares({
    start: priors,
    goodEnough: 1e-3,
    observed: [...points.map(({ resistanceOhm }) => resistanceOhm), ...points.map(() => 0), ...priors],
    uncertainty: [
      ...points.map(resistanceUncertainty),
      ...points.map(({ reactanceUncertaintyOhm, radials }) =>
        Math.hypot(reactanceUncertaintyOhm, methodError(METHOD_REACTANCE_OHM, radials)),
      ),
      LOG_CONDUCTIVITY,
      LOG_PERMITTIVITY,
      EXTRA_OHM,
      EXTRA_REACTANCE_OHM,
    ],
    predict: (parameters) => [
      ...measured.map(({ impedance }) => impedance(parameters).re + (parameters[2] as number)),
      ...measured.map(({ impedance }) => impedance(parameters).im + (parameters[3] as number)),
      ...parameters,
    ],
  });
  const evenAt = remembered((wires: Wires) => over(evenField(wires, knowledge), last.resonanceHz), keyOf);
  const [logConductivity = 0, logPermittivity = 0, extraOhm = 0] = fit.parameters;
  const curve = {
    name: 'soil and ground loss',
    gainMeans: 'of the radiated power, by the ground loss and the published error of the method',
    resistanceOhm: (parameters, wires) => evenAt(wires)(parameters).re + (parameters[2] as number),
    ...fieldLevel(knowledge, last.resonanceHz),
    stepsToStop: 2,
  } as const satisfies Curve;
  return fieldFit(curve, fit, ([u0 = 0, u1 = 0, u2 = 0]) => ({
    conductivitySPerM: parameterQuantity(Math.exp(logConductivity), Math.exp(logConductivity) * u0),
    relativePermittivity: parameterQuantity(Math.exp(logPermittivity), Math.exp(logPermittivity) * u1),
    extraResistanceOhm: parameterQuantity(extraOhm, u2),
  }));
}

/**
 * Level in the field: the radiated share of the power with the |H|² loss, which is not the R at the feed point, less
 * the middle of the published error of the method. The extra resistance counts as loss.
 */
function fieldLevel(
  knowledge: GroundKnowledge,
  frequencyHz: number,
): Pick<Curve, 'levelDb' | 'ownUncertaintyDb'> {
  const over = overSoil(efficiency, knowledge);
  const share = remembered((wires: Wires) => over(evenField(wires, knowledge), frequencyHz), keyOf);
  const wavelength = wavelengthM(frequencyHz);
  const bias = ({ radials, lengthM }: Wires): BiasDb =>
    measuredBiasDb(knowledge.monopole.heightM / wavelength, lengthM / wavelength, radials);
  return {
    levelDb: (parameters, wires) => {
      const { radiationResistanceOhm, lossOhm, conductorOhm } = share(wires)(parameters);
      const lossesOhm = Math.max(lossOhm / 2, lossOhm + conductorOhm + (parameters[2] as number));
      const { low, high } = bias(wires);
      return (
        10 * Math.log10(radiationResistanceOhm / (radiationResistanceOhm + lossesOhm)) - (low + high) / 2
      );
    },
    ownUncertaintyDb: (from, to) => {
      const [a, b] = [bias(from), bias(to)];
      return Math.hypot((a.high - a.low - b.high + b.low) / Math.sqrt(12), METHOD_DB);
    },
  };
}

function resistanceUncertainty({ resistanceUncertaintyOhm, resistanceOhm, radials }: FitPoint): number {
  return Math.hypot(
    resistanceUncertaintyOhm,
    SOIL_SCATTER * resistanceOhm,
    methodError(METHOD_RESISTANCE_OHM, radials),
  );
}

function methodError(errorOhm: number, radials: number): number {
  return errorOhm * Math.max(1, FEW_RADIALS / radials);
}

/** Beyond these no ground is found: the fit may look there, the formulas need not. */
const CONDUCTIVITIES = [1e-5, 10] as const;
const PERMITTIVITIES = [1, 100] as const;

function within(value: number, [least, most]: readonly [number, number]): number {
  return Math.min(most, Math.max(least, value));
}

type Parameters = readonly number[];

function evenField({ radials, lengthM }: Wires, { wireRadiusM }: GroundKnowledge): RadialField {
  return uniformField(radials, lengthM, wireRadiusM);
}

function fieldOf(point: FitPoint, knowledge: GroundKnowledge): RadialField {
  return point.laid === null
    ? evenField(point, knowledge)
    : { wires: laidWires(point.laid, knowledge.wireRadiusM) };
}

function keyOf({ radials, lengthM }: Wires): string {
  return `${radials},${lengthM}`;
}

/**
 * A figure of the antenna over a field and the soil of the first two parameters. The others do not touch it, so that
 * most calls are answered from memory.
 */
function overSoil<T>(
  compute: (system: FeedPointSystem) => T,
  { monopole, radiationResistanceOhm }: GroundKnowledge,
): (field: RadialField, frequencyHz: number) => (parameters: Parameters) => T {
  return (field, frequencyHz) =>
    remembered(
      ([logConductivity = 0, logPermittivity = 0]) =>
        compute({
          monopole,
          soil: {
            conductivitySPerM: within(Math.exp(logConductivity), CONDUCTIVITIES),
            relativePermittivity: within(Math.exp(logPermittivity), PERMITTIVITIES),
          },
          field,
          frequencyHz,
          radiationResistanceOhm: radiationResistanceOhm ?? undefined,
        }),
      ([logConductivity, logPermittivity]) => `${logConductivity},${logPermittivity}`,
    );
}

function remembered<K, V>(find: (key: K) => V, nameOf: (key: K) => string): (key: K) => V {
  const known = new Map<string, V>();
  return (key) => {
    const name = nameOf(key);
    const value = known.get(name) ?? find(key);
    known.set(name, value);
    return value;
  };
}
