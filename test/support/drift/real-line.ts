import { add, type Complex, complex, divide, multiply, ONE, scale } from '../../../src/core/complex.ts';
import { type FeedLine, feedLineOf, matchedLossDb } from '../../../src/core/sweep/feed-line.ts';
import type { Random } from '../random.ts';

const LIGHT = 299_792_458;

/** A line of up to two and a half wavelengths: as the site has it by its type, and as it is. */
export function drawLine(
  r: Random,
  middleHz: number,
): { readonly stated: FeedLine; readonly real: FeedLine } {
  const stated = feedLineOf({
    type: r.pick(['RG-58', 'RG-213', 'RG-8X']),
    lengthM: r.between(5, Math.min(45, (2.5 * LIGHT) / middleHz)),
    velocityFactor: null,
    impedanceOhm: null,
    loss: [],
  });
  const losses = 1 + r.between(-0.15, 0.15);
  const real = {
    ...stated,
    impedanceOhm: stated.impedanceOhm * (1 + r.between(-0.02, 0.02)),
    velocityFactor: stated.velocityFactor * (1 + r.between(-0.02, 0.02)),
    conductorLossDb: stated.conductorLossDb * losses,
    dielectricLossDb: stated.dielectricLossDb * losses,
  };
  return { stated, real };
}

/**
 * Reflection in 50 Ω through a line, with the small reactance that loss gives to the line's impedance, which the
 * product leaves out: Z0·(1 − jα/β).
 */
export function seenThrough(line: FeedLine, reflection: Complex, frequencyHz: number): Complex {
  const loss = matchedLossDb(line, frequencyHz) / 8.686;
  const turn = (2 * Math.PI * frequencyHz * line.lengthM) / (LIGHT * line.velocityFactor);
  const own = complex(line.impedanceOhm, (-line.impedanceOhm * loss) / turn);
  const load = scale(divide(add(ONE, reflection), add(ONE, scale(reflection, -1))), 50);
  const far = divide(add(load, scale(own, -1)), add(load, own));
  const size = Math.exp(-2 * loss);
  const near = multiply(far, complex(size * Math.cos(2 * turn), -size * Math.sin(2 * turn)));
  const seen = multiply(own, divide(add(ONE, near), add(ONE, scale(near, -1))));
  return divide(add(seen, complex(-50)), add(seen, complex(50)));
}
