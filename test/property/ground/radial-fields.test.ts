import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { groundIntegrals } from '../../../src/core/ground/ground-integrals.ts';
import { anySheet, meanSheet } from '../../../src/core/ground/mean-sheet.ts';
import { azimuthPatterns } from '../../../src/core/ground/pattern.ts';
import {
  type RadialField,
  type RadialWire,
  sectorField,
  uniformField,
} from '../../../src/core/ground/radial-field.ts';
import { emptyRing, groundSurface } from '../../../src/core/ground/surface-impedance.ts';
import { expectClose } from '../../support/expect-close.ts';

const SEED = { seed: 20_250_101, numRuns: 40 };
const monopole = { heightM: 10.2, radiusM: 0.01 };

const soils = fc.record({
  conductivitySPerM: fc.double({ min: 5e-4, max: 0.03, noNaN: true }),
  relativePermittivity: fc.double({ min: 4, max: 30, noNaN: true }),
});
const frequencies = fc.double({ min: 1.8e6, max: 15e6, noNaN: true });

/** A wire that leaves the base, bends once and may turn back. */
const wires: fc.Arbitrary<RadialWire> = fc
  .tuple(
    fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
    fc.double({ min: 0.5, max: 10, noNaN: true }),
    fc.double({ min: -2.5, max: 2.5, noNaN: true }),
    fc.double({ min: 0.2, max: 8, noNaN: true }),
  )
  .map(([bearing, first, turn, second]) => {
    const east = first * Math.sin(bearing);
    const north = first * Math.cos(bearing);
    return {
      route: [
        [0, 0],
        [east, north],
        [east + second * Math.sin(bearing + turn), north + second * Math.cos(bearing + turn)],
      ],
      radiusM: 0.8e-3,
    };
  });
const fields = fc.array(wires, { minLength: 2, maxLength: 14 }).map((list) => ({ wires: list }));

function rotate(field: RadialField, angleRad: number): RadialField {
  const cosine = Math.cos(angleRad);
  const sine = Math.sin(angleRad);
  return {
    wires: field.wires.map((wire) => ({
      ...wire,
      route: wire.route.map(
        ([east, north]) => [east * cosine + north * sine, north * cosine - east * sine] as const,
      ),
    })),
  };
}

describe('any field of wires', () => {
  test('one more wire, however it runs, never raises the loss', () => {
    fc.assert(
      fc.property(fields, wires, soils, frequencies, (field, wire, soil, frequencyHz) => {
        const more = { wires: [...field.wires, wire] };
        const before = groundIntegrals({ monopole, soil, field, frequencyHz });
        const after = groundIntegrals({ monopole, soil, field: more, frequencyHz });
        const slack = before.quadratureErrorOhm + after.quadratureErrorOhm;
        expect(after.lossOhm).toBeLessThanOrEqual(before.lossOhm + slack);
      }),
      SEED,
    );
  });

  test('turning the lot turns the pattern and leaves the loss', () => {
    fc.assert(
      fc.property(
        fields,
        soils,
        frequencies,
        fc.integer({ min: 1, max: 359 }),
        (field, soil, frequencyHz, turnDeg) => {
          const azimuths = Float64Array.from({ length: 12 }, (_, i) => 30 * i);
          const turned = rotate(field, (turnDeg * Math.PI) / 180);
          const system = { monopole, soil, frequencyHz };
          const [still] = azimuthPatterns({ ...system, field }, [15], azimuths);
          const [moved] = azimuthPatterns(
            { ...system, field: turned },
            [15],
            azimuths.map((deg) => deg + turnDeg),
          );
          azimuths.forEach((_, i) => {
            expectClose(moved?.relativeDb[i], still?.relativeDb[i] ?? Number.NaN, { absolute: 1e-6 });
          });
          const loss = groundIntegrals({ ...system, field });
          expectClose(groundIntegrals({ ...system, field: turned }).lossOhm, loss.lossOhm, {
            relative: 1e-6,
          });
        },
      ),
      { ...SEED, numRuns: 15 },
    );
  });

  test('the order of the wires does not matter', () => {
    fc.assert(
      fc.property(fields, soils, frequencies, (field, soil, frequencyHz) => {
        const reversed = { wires: field.wires.toReversed() };
        const loss = groundIntegrals({ monopole, soil, field, frequencyHz }).lossOhm;
        expectClose(groundIntegrals({ monopole, soil, field: reversed, frequencyHz }).lossOhm, loss, {
          relative: 1e-9,
        });
      }),
      { ...SEED, numRuns: 15 },
    );
  });
});

describe('a circle made of sectors equals the circle', () => {
  const cuts = fc.record({
    perSector: fc.integer({ min: 1, max: 12 }),
    sectors: fc.integer({ min: 2, max: 6 }),
    lengthM: fc.double({ min: 1, max: 20, noNaN: true }),
    startDeg: fc.double({ min: 0, max: 90, noNaN: true }),
  });

  test('in its losses', () => {
    fc.assert(
      fc.property(
        cuts,
        soils,
        frequencies,
        ({ perSector, sectors, lengthM, startDeg }, soil, frequencyHz) => {
          const width = 360 / sectors;
          const cut = sectorField(
            Array.from({ length: sectors }, (_, i) => ({
              fromDeg: startDeg + i * width,
              toDeg: startDeg + (i + 1) * width,
              count: perSector,
              lengthM,
            })),
            1e-3,
          );
          const whole = uniformField(perSector * sectors, lengthM, 1e-3);
          const system = { monopole, soil, frequencyHz };
          const a = groundIntegrals({ ...system, field: cut });
          const b = groundIntegrals({ ...system, field: whole });
          expectClose(a.lossOhm, b.lossOhm, { relative: 1e-9 });
          expectClose(a.reactionOhm.re, b.reactionOhm.re, { absolute: 1e-7 });
          expectClose(a.reactionOhm.im, b.reactionOhm.im, { absolute: 1e-7 });
        },
      ),
      SEED,
    );
  });

  test('ring by ring, when every gap is added up instead of one taken for all', () => {
    fc.assert(
      fc.property(
        cuts,
        soils,
        frequencies,
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (cut, soil, frequencyHz, part) => {
          const field = uniformField(cut.perSector * cut.sectors, cut.lengthM, 1e-3);
          const slow = emptyRing();
          const fast = emptyRing();
          anySheet(field, groundSurface(soil, frequencyHz), frequencyHz).at(part * cut.lengthM, slow);
          meanSheet(field, soil, frequencyHz).at(part * cut.lengthM, fast);
          expectClose(slow.resistanceOhm, fast.resistanceOhm, { relative: 1e-9 });
          expectClose(slow.reactanceOhm, fast.reactanceOhm, { relative: 1e-9 });
          expectClose(slow.wireOhm, fast.wireOhm, { relative: 1e-9 });
        },
      ),
      SEED,
    );
  });
});
