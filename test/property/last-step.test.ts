/**
 * `progress` judges the last step as `compare` judges the visits on both sides of it: the two are asked of one journal,
 * and a user who asks both must not be told two things.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRandomSource } from '../../src/core/proof/random.ts';
import { addVisit, appendEvents } from '../../src/logbook/logbook.ts';
import { measuredVisitOf } from '../support/compared.ts';
import { runCommand } from '../support/fake-io.ts';
import { layEvents, newLogbook, SITE } from '../support/logbooks.ts';

interface State {
  readonly resistanceOhm: number;
  /** Shots of each visit. */
  readonly visits: readonly number[];
  readonly moisture: number | null;
}

/** To a tenth; unlike those of fc.double, spread evenly. */
const tenths = (min: number, max: number) => fc.integer({ min: 10 * min, max: 10 * max }).map((n) => n / 10);

const state: fc.Arbitrary<State> = fc.record({
  resistanceOhm: tenths(38, 60),
  visits: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 2 }),
  moisture: fc.option(fc.constantFrom(0.15, 0.2, 0.3)),
});

/** Steps of a size at which shots and visits decide what is shown. */
const journal = fc
  .tuple(fc.array(state, { minLength: 1, maxLength: 2 }), state, tenths(-6, 3))
  .map(([first, last, stepOhm]): State[] => [
    ...first,
    { ...last, resistanceOhm: (first.at(-1)?.resistanceOhm ?? 50) + stepOhm },
  ]);

async function logbookOf(states: readonly State[], seed: number): Promise<string> {
  const random = createRandomSource(seed);
  const folder = await newLogbook(SITE);
  for (const [i, { resistanceOhm, visits, moisture }] of states.entries()) {
    const day = (k: number): string => `2026-${String(i + 3).padStart(2, '0')}-${String(k).padStart(2, '0')}`;
    await appendEvents(folder, () => layEvents(`${day(1)}T10:00:00Z`, 8 * i + 1, 8));
    for (const [k, shots] of visits.entries()) {
      const time = `${day(5 * k + 2)}T10:00:00Z`;
      if (moisture !== null) {
        const reading = { event: 'soil-moisture', value: moisture, subject: null, powerW: null } as const;
        await appendEvents(folder, [{ ...reading, time, text: '' }]);
      }
      const measured = measuredVisitOf(resistanceOhm, random, { shots }).shots;
      await addVisit(folder, {
        time,
        shots: measured.flatMap((sweep) =>
          sweep.kind === 'swr'
            ? []
            : [{ sweep, plane: 'feedpoint' as const, target: 'antenna' as const, source: 'x' }],
        ),
      });
    }
  }
  return folder;
}

interface Compared {
  readonly measures: readonly { readonly measure: string; readonly verdict: string }[];
}

describe('progress and compare', () => {
  it('say the same of the last step, whatever the journal', async () => {
    const seen = new Set<string>();
    await fc.assert(
      fc.asyncProperty(journal, fc.integer({ min: 1, max: 1000 }), async (states, seed) => {
        const folder = await logbookOf(states, seed);
        const ask = async <T>(command: string): Promise<T> =>
          (await runCommand([command, '--logbook', folder, '--band', '40m', '--json'])).json<T>();
        const { lastStep, reversal } = await ask<{ lastStep: string | null; reversal: string[] | null }>(
          'progress',
        );
        const { measures } = await ask<Compared>('compare');
        const verdict = measures.find(({ measure }) => measure === 'resistanceAtResonanceOhm')?.verdict;
        // Null stands for no uncertainty at all, of which compare shows nothing.
        expect(lastStep ?? 'not shown').toBe(verdict);
        if (lastStep !== null) expect(reversal === null).toBe(verdict === 'improved');
        seen.add(verdict ?? '');
      }),
      { seed: 11, numRuns: 14 },
    );
    expect([...seen].sort()).toEqual(['improved', 'not shown', 'worse']);
  });
});
