import { rm } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { gatherSweeps } from '../../../src/cli/page/gather-sweeps.ts';
import type { CompareAnswer, PageData } from '../../../src/formats/page-data.ts';
import { openLogbook } from '../../../src/logbook/logbook.ts';
import { comparePair } from '../../../web/model/free-pair.ts';
import { type Layer, layersOfLogbook, looseLayer } from '../../../web/model/layers.ts';
import { demoLogbook } from '../../support/demo-logbook.ts';
import { expectClose } from '../../support/expect-close.ts';
import { runCommand } from '../../support/fake-io.ts';

let folder: string;
let data: PageData;
let layers: readonly Layer[];
beforeAll(async () => {
  folder = await demoLogbook();
  const logbook = await openLogbook(folder);
  const sweeps = await gatherSweeps(logbook, () => {});
  data = { sweeps, site: logbook.site, readings: logbook.readings } as unknown as PageData;
  layers = layersOfLogbook(sweeps);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const layer = (id: string): Layer => layers.find((one) => one.id === id) as Layer;

describe('any two sweeps, compared in the page', () => {
  it.each([
    ['3', '9'],
    ['1', '16'],
    ['12', '11'],
  ])('%s and %s: what the command says of them', async (before, after) => {
    const { out } = await runCommand([
      'compare',
      '--logbook',
      folder,
      '--before',
      before,
      '--after',
      after,
      '--json',
    ]);
    const wanted = JSON.parse(out) as CompareAnswer;
    const found = comparePair({ data, layers, before: layer(before), after: layer(after), units: 'metric' });
    expect(found.measures.map(({ measure, verdict }) => [measure, verdict])).toEqual(
      wanted.measures.map(({ measure, verdict }) => [measure, verdict]),
    );
    expect([found.verdict, found.basis, found.sameField]).toEqual([
      wanted.verdict,
      wanted.basis,
      wanted.sameField,
    ]);
    // The page keeps sweeps to a milliohm, a hundredth of what cheap instruments resolve.
    found.measures.forEach(({ difference }, i) => {
      const { value, expandedUncertainty } = (wanted.measures[i] as (typeof wanted.measures)[number])
        .difference;
      if (value === null || expandedUncertainty === null) expect(difference.value).toBe(value);
      else {
        expectClose(difference.value, value, { absolute: 0.01 * expandedUncertainty });
        expectClose(difference.expandedUncertainty, expandedUncertainty, { relative: 0.01 });
      }
    });
  });

  it('says so where they hold no band in common', () => {
    const { shots } = layer('1');
    const far = looseLayer('file-1', 'far', 'file', [
      { ...(shots[0] as Layer['shots'][number]), frequencyHz: Float64Array.of(21e6, 21.4e6) },
    ]);
    expect(() => comparePair({ data, layers, before: layer('1'), after: far, units: 'metric' })).toThrow(
      expect.objectContaining({ code: 'nothing-to-compare' }),
    );
  });
});
