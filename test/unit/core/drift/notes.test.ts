import { describe, expect, it } from 'vitest';
import { conditionTeller } from '../../../../src/core/drift/conditions.ts';
import { noteEvidence } from '../../../../src/core/drift/notes.ts';
import type { Reading, ReadingKind } from '../../../../src/core/record.ts';
import { expectClose } from '../../../support/expect-close.ts';

const reading = (
  kind: ReadingKind,
  value: number | null,
  subject: string | null = null,
  day = 1,
): Reading => ({
  time: `2026-05-${String(day).padStart(2, '0')}T12:00:00Z`,
  kind,
  value,
  subject,
  powerW: null,
  text: '',
});

describe('readings as evidence', () => {
  it('let a joint that reads high name itself', () => {
    const { logFactor, sentences, checks } = noteEvidence([
      reading('joint-resistance', 0.9, 'strap'),
      reading('joint-resistance', 1.8, 'plate'),
    ]);
    expect(logFactor['series-joint']).toBeGreaterThan(3);
    expect(checks['series-joint']).toContain('open the joint "plate"');
    expect(sentences[1]?.text).toContain('"plate" was read at 1.8 ohm');
  });

  it('speak against a joint when every joint that was read is sound, the newest reading of each counting', () => {
    const readings = [
      reading('joint-resistance', 2, 'plate', 1),
      reading('joint-resistance', 0.0008131737919999999, 'plate', 2),
    ];
    const { logFactor, sentences } = noteEvidence(readings);
    expect(logFactor['series-joint']).toBeLessThan(0);
    expect(sentences[0]?.text).toMatch(
      /^against it: every joint that was read is sound \(at most 0.000813 ohm\)/u,
    );
    expect(
      noteEvidence([reading('joint-resistance', 0.3, 'plate')]).logFactor['series-joint'],
    ).toBeUndefined();
  });

  it('find radials that carry no current, and speak against lost ones where all agree', () => {
    const currents = (values: readonly number[]) =>
      values.map((value, i) => reading('radial-current', value, String(i + 1)));
    const dead = noteEvidence(currents([0.2, 0.21, 0.01, 0.19]));
    expect(dead.logFactor['lost-radials']).toBeGreaterThan(3);
    expect(dead.sentences[0]?.text).toContain('radial 3 carried');
    expect(dead.checks['lost-radials']).toContain('follow radial 3 from the plate');
    expect(noteEvidence(currents([0.2, 0.21, 0.18, 0.19])).logFactor['lost-radials']).toBeLessThan(0);
  });

  it('that are none say nothing', () => {
    expect(noteEvidence([])).toEqual({ logFactor: {}, sentences: [], checks: {} });
  });
});

describe('the conditions of a visit', () => {
  const at = conditionTeller([
    reading('soil-moisture', 0.2, null, 1),
    reading('soil-moisture', 0.3, null, 4),
    reading('rain', 0.01, null, 2),
    reading('rain', 0.004, null, 6),
  ]);

  it('take the nearest moisture within two days', () => {
    expect(at('2026-05-03T12:00:00Z').moisture).toBe(0.3);
    expect(at('2026-05-09T12:00:00Z').moisture).toBeNull();
  });

  it('add up the rain of the week before', () => {
    expectClose(at('2026-05-07T12:00:00Z').rainM, 0.014, { absolute: 1e-12 });
    expect(at('2026-06-07T12:00:00Z').rainM).toBe(0);
    expect(conditionTeller([])('2026-05-07T12:00:00Z').rainM).toBeNull();
  });
});
