import { expect, it } from 'vitest';
import { conditionsAt } from '../../../../src/core/proof/conditions.ts';
import type { Reading, ReadingKind } from '../../../../src/core/record.ts';

function reading(kind: ReadingKind, time: string, value: number): Reading {
  return { kind, time, value, subject: null, powerW: null, text: '' };
}

it('conditionsAt takes the nearest readings that still speak for the ground, and the rain of two days before', () => {
  const readings = [
    reading('soil-moisture', '2026-04-01T09:00:00Z', 0.2),
    reading('soil-moisture', '2026-04-03T09:00:00Z', 0.3),
    reading('temperature', '2026-04-02T02:00:00Z', -1),
    reading('rain', '2026-03-28T10:00:00Z', 0.05),
    reading('rain', '2026-04-01T10:00:00Z', 0.004),
    reading('rain', '2026-04-02T08:00:00Z', 0.003),
    reading('rain', '2026-04-02T18:00:00Z', 0.02),
  ];
  expect(conditionsAt(readings, '2026-04-02T13:00:00Z')).toEqual({
    moistureFraction: 0.3,
    temperatureC: null,
    rainM: 0.007,
  });
});
