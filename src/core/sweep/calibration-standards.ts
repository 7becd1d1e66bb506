import { type Complex, complex, multiply, polar, scale } from '../complex.ts';
import { quoted } from '../quoted.ts';
import { UserError } from '../user-error.ts';
import { impedanceToReflection } from './reflection.ts';

/** The standards of a one-port calibration. */
export const STANDARD_NAMES = ['open', 'short', 'load'] as const;
/** The name of a calibration standard. */
export type StandardName = (typeof STANDARD_NAMES)[number];

/** What a calibration standard is known to be. Zero everywhere (and the reference as load) is the ideal one. */
export interface StandardDefinition {
  readonly standard: StandardName;
  /** One-way delay of the line between the reference plane and the standard, s. */
  readonly offsetDelayS: number;
  /** Across the standard, F: the fringing of an open, or the strays of a load. */
  readonly shuntCapacitanceF: number;
  /** In series with the standard, H: the lead of a short or load. */
  readonly seriesInductanceH: number;
  /** Resistance of the load, ohm; null for the reference itself. Open and short have none. */
  readonly loadOhm: number | null;
}

/** The standard that textbooks assume. */
export function idealStandard(standard: StandardName): StandardDefinition {
  return { standard, offsetDelayS: 0, shuntCapacitanceF: 0, seriesInductanceH: 0, loadOhm: null };
}

/**
 * Reflection coefficient of a standard at the reference plane. The resistance R of the kind (∞, 0 or the load)
 * has L in series and C across both; a line of the reference impedance and no loss turns the result:
 * Y = 1/(R + jωL) + jωC, Γ = (1 − Y·R0)/(1 + Y·R0) · exp(−2jωτ).
 *
 * Source: the lumped termination behind an offset line of the usual definition of coaxial standards,
 * e.g. D. M. Pozar, Microwave Engineering, ch. 2 and 4; identity.
 *
 * @throws UserError `standard-impossible` for a negative figure or a load of no resistance
 */
export function standardReflection(
  definition: StandardDefinition,
  frequencyHz: number,
  referenceOhm: number,
): Complex {
  check(definition);
  const omega = 2 * Math.PI * frequencyHz;
  const admittance = admittanceS(definition, omega, referenceOhm);
  // A perfect short has no finite admittance.
  const seen = admittance === null ? null : impedanceToReflection(admittance, 1 / referenceOhm);
  // Γ of an admittance is minus that of an impedance of the same figures.
  const termination = seen === null ? complex(-1) : scale(seen, -1);
  return multiply(termination, polar(1, -2 * omega * definition.offsetDelayS));
}

/** A definition as one line of text, `open; offset delay 3e-11 s`; what is zero is left out. */
export function standardText(definition: StandardDefinition): string {
  const figures = FIGURES.map(({ name, unit, key }) => {
    const value = definition[key];
    return value === 0 || value === null ? null : `${name} ${value} ${unit}`;
  });
  return [definition.standard, ...figures.filter((figure) => figure !== null)].join('; ');
}

/**
 * The definition behind a {@link standardText}.
 * @throws UserError `standard-text`, `standard-impossible`
 */
export function parseStandardText(text: string): StandardDefinition {
  const [first, ...figures] = text.split('; ');
  const standard = STANDARD_NAMES.find((name) => name === first);
  if (standard === undefined) throw notAStandard(text);
  const given: Partial<Record<FigureKey, number>> = {};
  for (const figure of figures) {
    const known = FIGURES.find(
      ({ name, unit }) => figure.startsWith(`${name} `) && figure.endsWith(` ${unit}`),
    );
    const number = known === undefined ? '' : figure.slice(known.name.length, -known.unit.length).trim();
    const value = Number(number);
    // Number takes nothing at all for 0.
    if (known === undefined || number === '' || !Number.isFinite(value)) throw notAStandard(text);
    given[known.key] = value;
  }
  const definition = { ...idealStandard(standard), ...given };
  check(definition);
  return definition;
}

type FigureKey = Exclude<keyof StandardDefinition, 'standard'>;

const FIGURES: readonly { readonly name: string; readonly unit: string; readonly key: FigureKey }[] = [
  { name: 'offset delay', unit: 's', key: 'offsetDelayS' },
  { name: 'shunt capacitance', unit: 'F', key: 'shuntCapacitanceF' },
  { name: 'series inductance', unit: 'H', key: 'seriesInductanceH' },
  { name: 'resistance', unit: 'ohm', key: 'loadOhm' },
];

function notAStandard(text: string): UserError {
  return new UserError(
    'standard-text',
    `a standard must read like "open; offset delay 3e-11 s", got ${quoted(text)}`,
  );
}

function admittanceS(definition: StandardDefinition, omega: number, referenceOhm: number): Complex | null {
  const { standard, shuntCapacitanceF, seriesInductanceH, loadOhm } = definition;
  const shunt = complex(0, omega * shuntCapacitanceF);
  if (standard === 'open') return shunt;
  const resistance = standard === 'short' ? 0 : (loadOhm ?? referenceOhm);
  const reactance = omega * seriesInductanceH;
  const square = resistance * resistance + reactance * reactance;
  if (square === 0) return null;
  return { re: resistance / square, im: shunt.im - reactance / square };
}

function check(definition: StandardDefinition): void {
  const { standard, offsetDelayS, shuntCapacitanceF, seriesInductanceH, loadOhm } = definition;
  const figures = {
    'offset delay': offsetDelayS,
    'shunt capacitance': shuntCapacitanceF,
    'series inductance': seriesInductanceH,
  };
  for (const [name, value] of Object.entries(figures)) {
    if (Number.isFinite(value) && value >= 0) continue;
    throw new UserError(
      'standard-impossible',
      `the ${name} of the ${standard} must be zero or more, got ${value}`,
    );
  }
  if (loadOhm !== null && !(loadOhm > 0 && standard === 'load')) {
    throw new UserError(
      'standard-impossible',
      `only a load has a resistance, and more than zero, got ${loadOhm} ohm for the ${standard}`,
    );
  }
}
