import { add, type Complex, complex, polar } from '../../core/complex.ts';
import type { RandomSource } from '../../core/proof/random.ts';
import { distortReflection, type ErrorTerms } from '../../core/sweep/calibration.ts';
import { impedanceToReflection } from '../../core/sweep/reflection.ts';
import type { ReflectionAt } from './device.ts';
import type { SimulatorOptions } from './simulator-options.ts';

/** The antenna's impedance at the instrument's reference plane. */
export type ImpedanceAt = (frequencyHz: number) => Complex;

const REFERENCE_OHM = 50;
const FREQUENCIES_KEPT = 5000;

/** What the simulated instrument sees of whatever is connected to it, with its errors and its noise. */
export function simulatedReflection(
  options: SimulatorOptions,
  antenna: ImpedanceAt,
  random: RandomSource,
): ReflectionAt {
  const seen = connectedReflection(options, antenna);
  return (frequencyHz) => {
    const actual = seen(frequencyHz);
    const shown = options.raw ? distortReflection(actual, errorsOfPort(frequencyHz)) : actual;
    return add(shown, complex(options.noise * random.normal(), options.noise * random.normal()));
  };
}

/** A port without calibration: directivity 26 dB, source match 22 dB, and 0.3 m of lead that was never measured out. */
export function errorsOfPort(frequencyHz: number): ErrorTerms {
  return {
    directivity: polar(0.05, 0.4),
    sourceMatch: polar(0.08, -0.9),
    tracking: polar(0.93, -4 * Math.PI * frequencyHz * 1.5e-9),
  };
}

function connectedReflection({ connected, jointOhm }: SimulatorOptions, antenna: ImpedanceAt): ReflectionAt {
  switch (connected) {
    case 'open':
      return () => complex(1);
    case 'short':
      return () => complex(-1);
    case 'load':
      return () => complex(0);
    case 'reference-load':
      return () => impedanceToReflection({ re: 49.6, im: 0.1 }, REFERENCE_OHM) ?? complex(0);
    case 'antenna':
      return remembered(
        (frequencyHz) =>
          impedanceToReflection(add(antenna(frequencyHz), complex(jointOhm)), REFERENCE_OHM) ?? complex(1),
      );
  }
}

/** The antenna's model takes a millisecond a point, and sweeps repeat their frequencies. */
function remembered(reflectionAt: ReflectionAt): ReflectionAt {
  const known = new Map<number, Complex>();
  return (frequencyHz) => {
    let reflection = known.get(frequencyHz);
    if (reflection === undefined) {
      if (known.size >= FREQUENCIES_KEPT) known.clear();
      reflection = reflectionAt(frequencyHz);
      known.set(frequencyHz, reflection);
    }
    return reflection;
  };
}
