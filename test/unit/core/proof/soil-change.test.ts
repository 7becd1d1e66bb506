import { describe, expect, it } from 'vitest';
import type { ComparedVisit } from '../../../../src/core/proof/compared-visit.ts';
import { NO_CONDITIONS } from '../../../../src/core/proof/conditions.ts';
import { createRandomSource } from '../../../../src/core/proof/random.ts';
import { compareSides, measuredVisitOf, side } from '../../../support/compared.ts';
import { expectClose } from '../../../support/expect-close.ts';

const random = createRandomSource(41);

/** R falls by 0.3 ohm for each per cent of moisture; the wires took away what `wiresOhm` says. */
function wetVisit(moistureFraction: number, wiresOhm = 0): ComparedVisit {
  const visit = measuredVisitOf(55 - 30 * moistureFraction - wiresOhm, random);
  return { ...visit, conditions: { ...NO_CONDITIONS, moistureFraction } };
}

function resistanceOf(before: ComparedVisit, after: ComparedVisit, states: readonly ComparedVisit[][] = []) {
  const { measures, soilNotes } = compareSides({ before: side(before), after: side(after) }, { states });
  return { r: measures[1], soilNotes };
}

describe('soil that changed between the sides', () => {
  it('widens the uncertainty where the logbook cannot tell what it does', () => {
    const dry = wetVisit(0.15);
    const wet = wetVisit(0.3, 2);
    const { r, soilNotes } = resistanceOf(dry, wet);
    const quiet = resistanceOf({ ...dry, conditions: NO_CONDITIONS }, { ...wet, conditions: NO_CONDITIONS });
    expect(quiet.r?.verdict).toBe('improved');
    expect(r?.verdict).toBe('not shown');
    // A third of 44 ohm for the ground, half of ln 2 of it, at k = 2.
    const widened = 2 * ((44 / 3) * (Math.log(2) / 2));
    expectClose(
      r?.difference.expandedUncertainty,
      Math.hypot(quiet.r?.difference.expandedUncertainty ?? Number.NaN, widened),
      { relative: 0.05 },
    );
    expect(soilNotes.join()).toContain('15 % to 30 %');
  });

  it('is corrected where visits of single field states tell how R follows moisture', () => {
    const moistures = [0.1, 0.15, 0.2, 0.25, 0.3, 0.35];
    const states = [moistures.map((m) => wetVisit(m)), moistures.map((m) => wetVisit(m, 2))];
    const [before, after] = [states[0]?.[0], states[1]?.[5]] as [ComparedVisit, ComparedVisit];
    const { r, soilNotes } = resistanceOf(before, after, states);
    // Plainly after minus before would be −9.5: the wires took 2 ohm of it, the water 7.5.
    expectClose(r?.difference.value, -2, { absolute: r?.difference.expandedUncertainty ?? 0 });
    expect(Math.abs(r?.difference.value ?? -9)).toBeLessThan(4);
    expect(soilNotes.join()).toMatch(/lowers R by \d\.\d ohm: the differences are what is left/u);
  });

  it('says at which visits nobody noted the moisture, where it was noted at others', () => {
    const noted = { ...wetVisit(0.2), label: 'visit 1' };
    const bare = { ...wetVisit(0.2), label: 'visit 2', conditions: NO_CONDITIONS };
    expect(resistanceOf(noted, bare).soilNotes).toEqual([
      'no soil moisture was noted within two days of visit 2: noted at every visit, it could be corrected for',
    ]);
    expect(resistanceOf(bare, bare).soilNotes).toEqual([]);
  });

  it('is minded for frost, warmth and rain too, and not for small changes', () => {
    const at = (temperatureC: number | null, rainM: number | null) => ({
      ...measuredVisitOf(45, random),
      conditions: { moistureFraction: null, temperatureC, rainM },
    });
    expect(resistanceOf(at(-3, null), at(12, null)).soilNotes.join()).toContain('from -3 °C to 12 °C');
    const sides = { before: side(at(-5, null)), after: side(at(15, null)) };
    expect(compareSides(sides, { units: 'imperial' }).soilNotes.join()).toContain('from 23 °F to 59 °F');
    expect(resistanceOf(at(null, 0.012), at(null, 0)).soilNotes.join()).toContain(
      'rain was noted for one side',
    );
    expect(resistanceOf(at(10, 0), at(12, 0)).soilNotes).toEqual([]);
  });
});
