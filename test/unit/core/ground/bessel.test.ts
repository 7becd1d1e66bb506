import { describe, expect, test } from 'vitest';
import { besselSequence } from '../../../../src/core/ground/bessel.ts';
import { expectClose } from '../../../support/expect-close.ts';

describe('besselSequence', () => {
  // J0, J1, J5, J12, J25 by an independent library.
  test.each([
    [0.01, [0.9999750001562495, 0.0049999375002604185, 2.6041558159916036e-14]],
    [1, [0.7651976865579666, 0.44005058574493355, 0.00024975773021123466]],
    [5.9, [0.12203335459282275, -0.2951424447290161, 0.3559105272915153]],
    [30, [-0.08636798358104021, -0.11875106261662291, -0.14324029551207706]],
    [100, [0.01998585030422312, -0.07714535201411214, -0.07419573696451393]],
  ])('x = %f', (x, [zero = 0, one = 0, five = 0]) => {
    const values = besselSequence(x, 5);
    expect(values).toHaveLength(6);
    expectClose(values[0], zero, { absolute: 1e-13 });
    expectClose(values[1], one, { absolute: 1e-13 });
    expectClose(values[5], five, { absolute: 1e-13 });
  });

  test('keeps relative digits where the order is far above x', () => {
    expectClose(besselSequence(0.01, 25)[25], 1.9213390604843748e-83, { relative: 1e-12 });
    expectClose(besselSequence(5.9, 25)[25], 2.5622744701334317e-14, { relative: 1e-12 });
  });

  test('is 1, 0, 0 at zero', () => {
    expect([...besselSequence(0, 2)]).toEqual([1, 0, 0]);
  });

  test('does not depend on how many orders are asked for', () => {
    expectClose(besselSequence(7, 40)[3], besselSequence(7, 3)[3] as number, { relative: 1e-13 });
  });
});
