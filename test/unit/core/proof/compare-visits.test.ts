import { describe, expect, it } from 'vitest';
import type { BandComparison } from '../../../../src/core/proof/compare-visits.ts';
import { bracketing, type ComparedVisit, inEqualParts } from '../../../../src/core/proof/compared-visit.ts';
import { comparisonNotes } from '../../../../src/core/proof/comparison-notes.ts';
import type { Measure } from '../../../../src/core/proof/figures.ts';
import { headline } from '../../../../src/core/proof/headline.ts';
import { createRandomSource } from '../../../../src/core/proof/random.ts';
import { UNKNOWN_QUANTITY } from '../../../../src/core/quantity-with-uncertainty.ts';
import { atPlane, feedLineOf } from '../../../../src/core/sweep/feed-line.ts';
import { createScalarSweep, createSweep } from '../../../../src/core/sweep/sweep.ts';
import { grid } from '../../../support/antenna-model.ts';
import { compareSides, GRID, measuredVisitOf, side, vertical, visitOf } from '../../../support/compared.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { userErrorOf } from '../../../support/user-error-of.ts';

const STATED = { referenceOhm: null, reflectionUncertainty: 0.003, phaseUncertaintyDeg: null };

function compare(before: ComparedVisit, after: ComparedVisit, known = {}): BandComparison {
  return compareSides({ before: side(before), after: side(after) }, known);
}

function measure(comparison: BandComparison, name: Measure) {
  return comparison.measures.find((found) => found.measure === name);
}

describe('compareVisits', () => {
  const random = createRandomSource(21);
  const better = compare(measuredVisitOf(55, random), measuredVisitOf(45, random));

  it('shows a fall of R as an improvement, and the match by itself as what it is', () => {
    expect(measure(better, 'resistanceAtResonanceOhm')?.verdict).toBe('improved');
    expect(headline(better)).toMatch(
      /^40m: improved\. R at X = 0 fell from 5\d\.\d to 4\d\.\d ohm, -\d+\.\d ± \d\.\d/u,
    );
    expect(measure(better, 'minSwr')?.direction.tells).toBe('match');
  });

  it('gives a resonance and a bandwidth no better side', () => {
    expect(measure(better, 'resonanceHz')?.verdict).toBe('not shown');
    expect(measure(better, 'swr2BandwidthHz')?.verdict).toBe('not shown');
    expect(measure(better, 'swr2BandwidthHz')?.direction.meaning).toContain('more loss');
  });

  it('warns of a bad joint where the SWR improves while R rises', () => {
    const joint = compare(measuredVisitOf(38, random), measuredVisitOf(48, random));
    expect(measure(joint, 'resistanceAtResonanceOhm')?.verdict).toBe('worse');
    expect(measure(joint, 'minSwr')?.verdict).toBe('improved');
    expect(comparisonNotes(joint).join(' ')).toContain('look for a bad joint');
  });

  it('does not show a difference within its uncertainty, and says what would', () => {
    const little = compare(measuredVisitOf(45, random), measuredVisitOf(44.7, random));
    const r = measure(little, 'resistanceAtResonanceOhm');
    expect(r?.verdict).toBe('not shown');
    expect(r?.wouldShow.smallestDifference).toBeGreaterThan(1);
    expect(r?.wouldShow.shotsAVisit).toBeNull();
    expect(comparisonNotes(little).join(' ')).toContain('no number of shots would show a change this small');
    expect(comparisonNotes(little).join(' ')).toMatch(/visits to each state would, or a reversal/u);
    expect(comparisonNotes(little, true).join(' ')).toMatch(
      /visits to each state would$|visits to each state would /u,
    );
  });

  it('promises nothing of more visits where the soil in between hides the change', () => {
    const wet = (visit: ComparedVisit, moistureFraction: number): ComparedVisit => ({
      ...visit,
      conditions: { moistureFraction, temperatureC: null, rainM: null },
    });
    const hidden = compare(wet(measuredVisitOf(45, random), 0.15), wet(measuredVisitOf(42, random), 0.32));
    const r = measure(hidden, 'resistanceAtResonanceOhm');
    expect(r?.verdict).toBe('not shown');
    expect(r?.wouldShow).toMatchObject({ shotsAVisit: null, visitsAState: null, isHiddenBySoil: true });
    expect(comparisonNotes(hidden).join(' ')).toContain('a reversal within hours would');
    expect(comparisonNotes(hidden, true).join(' ')).not.toContain('disconnect, measure');
  });

  it('tells a bandwidth as a bound where the sweep ends under SWR 2, and the difference as one-sided', () => {
    const narrow = measuredVisitOf(44, createRandomSource(3), { grid: grid(6.9e6, 7.3e6, 41) });
    const narrower = measuredVisitOf(40, createRandomSource(4), { grid: grid(6.95e6, 7.25e6, 31) });
    const closed = measure(better, 'swr2BandwidthHz')?.after.value ?? Number.NaN;
    const opened = measure(compare(measuredVisitOf(45, createRandomSource(5)), narrow), 'swr2BandwidthHz');
    expect(opened?.after).toMatchObject({ value: null, expandedUncertainty: null });
    expectClose(opened?.after.atLeast, 0.4e6, { absolute: 1 });
    expect(closed).toBeGreaterThan(0.4e6);
    expectClose(opened?.difference.atLeast, 0.4e6 - (opened?.before.value ?? 0), { absolute: 1 });
    expect(opened?.difference.atMost).toBeUndefined();
    const both = compare(narrow, narrower);
    expect(measure(both, 'swr2BandwidthHz')?.difference).toEqual(UNKNOWN_QUANTITY);
    expect(comparisonNotes(both).join(' ')).toContain(
      'the sweeps before and after end while the SWR is still 2',
    );
  });

  it('judges R of a half-wave not at all', () => {
    const half = compare(measuredVisitOf(55, random), measuredVisitOf(45, random), {
      antennaKind: 'half-wave',
    });
    expect(measure(half, 'resistanceAtResonanceOhm')?.verdict).toBe('not shown');
  });
});

describe('single shots', () => {
  const single = (r: number): ComparedVisit => measuredVisitOf(r, createRandomSource(r), { shots: 1 });

  it('give values without uncertainty, and no claim', () => {
    const found = compare(single(60), single(40));
    const r = measure(found, 'resistanceAtResonanceOhm');
    expect(r?.verdict).toBe('not shown');
    expect(r?.difference.value).toBeLessThan(-15);
    expect(r?.difference.expandedUncertainty).toBeNull();
    expect(comparisonNotes(found).join(' ')).toContain('single shots (1 before, 1 after)');
  });

  it('give the instrument’s uncertainty where it is stated, and still no claim', () => {
    const r = measure(compare(single(60), single(40), { instrument: STATED }), 'resistanceAtResonanceOhm');
    expect(r?.verdict).toBe('not shown');
    expectClose(r?.difference.expandedUncertainty, 2 * 0.003 * Math.hypot(123, 82), { relative: 0.05 });
  });

  it('may be claimed from when the repeats of a logbook stand behind them', () => {
    const random = createRandomSource(5);
    const [before, after] = [single(60), single(40)];
    const states = [
      [before, measuredVisitOf(60, random), measuredVisitOf(60, random)],
      [after, measuredVisitOf(40, random)],
    ];
    const found = compare(before, after, { states });
    expect(found.repeats).toBe('pooled');
    expect(measure(found, 'resistanceAtResonanceOhm')?.verdict).toBe('improved');
  });
});

describe('visits of one field state', () => {
  const random = createRandomSource(31);
  const states = [
    Array.from({ length: 8 }, () => measuredVisitOf(50 + 2 * random.normal(), random)),
    [measuredVisitOf(46, random)],
  ];

  it('tell how visits repeat, soil and all, and outrank the stated accuracy', () => {
    const [first, second] = [states[0]?.[0], states[1]?.[0]] as [ComparedVisit, ComparedVisit];
    const found = compare(first, second, { states });
    expect(found.visitErrors).toBe('repeated visits');
    const alone = compare(first, second);
    expect(measure(found, 'resistanceAtResonanceOhm')?.difference.expandedUncertainty).toBeGreaterThan(
      2 * (measure(alone, 'resistanceAtResonanceOhm')?.difference.expandedUncertainty ?? Number.NaN),
    );
  });

  it('may be averaged into a side, which halves the error of a visit', () => {
    const visits = (r: number, n: number) => Array.from({ length: n }, () => measuredVisitOf(r, random));
    const of = (n: number) => {
      const sides = { before: inEqualParts(visits(50, n)), after: inEqualParts(visits(46, n)) };
      const found = compareSides(sides);
      return measure(found, 'resistanceAtResonanceOhm')?.difference.expandedUncertainty ?? 0;
    };
    expectClose(of(4) / of(1), 0.5, { relative: 0.15 });
  });
});

describe('a reversal', () => {
  it('takes out a steady drift, weighing the outer visits by time', () => {
    const at = (hour: number, r: number): ComparedVisit =>
      visitOf([vertical(r), vertical(r), vertical(r)], { time: `2026-05-01T${hour}:00:00Z` });
    // R drifts by 1 ohm an hour; disconnecting the wires adds 4 ohm.
    const [first, middle, last] = [at(10, 45), at(13, 48 + 4), at(14, 49)];
    const sides = { before: side(middle), after: bracketing(first, middle, last) };
    expectClose(measure(compareSides(sides), 'resistanceAtResonanceOhm')?.difference.value, -4, {
      absolute: 1e-6,
    });
  });

  it('weighs them alike where no times are known', () => {
    const visit = visitOf([vertical(40)]);
    expect(bracketing(visit, visit, visit).map(({ share }) => share)).toEqual([0.5, 0.5]);
  });
});

describe('bad input', () => {
  const good = visitOf([vertical(45), vertical(45)]);

  it('refuses sweeps of two planes', () => {
    const shack = visitOf([createSweep({ ...vertical(45), plane: 'shack' })]);
    expect(userErrorOf(() => compare(good, shack))).toEqual(['planes-differ', undefined]);
  });

  it('compares nothing over different bands, and says so', () => {
    const other = vertical(
      45,
      14.2e6,
      GRID.map((f) => 2 * f),
    );
    const found = compare(good, visitOf([other, other]));
    expect(measure(found, 'resistanceAtResonanceOhm')).toMatchObject({
      verdict: 'not shown',
      after: { value: null },
    });
    expect(measure(found, 'minSwr')?.before.value).not.toBeNull();
    expect(comparisonNotes(found).join(' ')).toContain('share no part of 40m');
  });

  it('still compares the match where X never crosses zero', () => {
    const short = vertical(45, 9.5e6);
    const found = compare(good, visitOf([short, short]));
    expect(measure(found, 'resistanceAtResonanceOhm')?.after.value).toBeNull();
    expect(measure(found, 'worstSwr')?.difference.value).toBeGreaterThan(1);
    expect(comparisonNotes(found).join(' ')).toContain(
      'never crosses X = 0 near 40m (X stays negative): sweep higher',
    );
    expect(headline(found)).toContain('cannot be had after');
  });

  it('reads scalar sweeps as far as they go', () => {
    const scalar = (least: number) =>
      createScalarSweep({ frequencyHz: GRID, swr: GRID.map((f) => least + Math.abs(f - 7.1e6) / 3e5) });
    const found = compare(visitOf([scalar(1.5), scalar(1.51)]), visitOf([scalar(1.2), scalar(1.21)]));
    expect(measure(found, 'minSwr')?.verdict).toBe('improved');
    expect(measure(found, 'resonanceHz')?.before.value).toBeNull();
    expect(comparisonNotes(found).join(' ')).not.toContain('single shots');
    expect(comparisonNotes(found).join(' ')).toContain('no proof of less loss is possible');
  });

  it('compares over the part of the band that both cover', () => {
    const part = vertical(
      45,
      7.1e6,
      GRID.filter((f) => f < 7.13e6),
    );
    const found = compare(good, visitOf([part, part]));
    expect(found.covered?.toHz).toBeLessThan(7.13e6);
    expect(comparisonNotes(found).join(' ')).toContain('share only 7.000 to 7.120 MHz');
  });

  it('reads SWR of both sides against one reference', () => {
    const other = createSweep({ ...vertical(45), referenceOhm: 75 });
    const found = compare(good, visitOf([other, other]));
    expectClose(measure(found, 'minSwr')?.difference.value, 0, { absolute: 1e-9 });
  });
});

describe('a feed line that was undone', () => {
  it('makes errors of reflection larger by its loss, and its own constants count for each side alone', () => {
    const line = feedLineOf({
      type: 'RG-58',
      lengthM: 30,
      velocityFactor: null,
      impedanceOhm: null,
      loss: [],
    });
    const through = (r: number) => atPlane(atPlane(vertical(r), line, 'shack'), line, 'feedpoint');
    const of = (withLine: boolean) =>
      measure(
        compare(
          visitOf([through(90), through(90)]),
          visitOf([through(86), through(86)]),
          withLine ? { line, instrument: STATED } : { instrument: STATED },
        ),
        'resistanceAtResonanceOhm',
      );
    const [moved, direct] = [of(true), of(false)];
    const ratio =
      (moved?.difference.expandedUncertainty ?? 0) / (direct?.difference.expandedUncertainty ?? 1);
    expect(ratio).toBeGreaterThan(10 ** (1.1 / 10));
    expect(
      (moved?.before.expandedUncertainty ?? 0) / (direct?.before.expandedUncertainty ?? 1),
    ).toBeGreaterThan(ratio);
  });
});
