import { describe, expect, it } from 'vitest';
import type { PageData, PageWire, PlanAnswer } from '../../../src/formats/page-data.ts';
import { proposalSentence, wiresSentence, wiresStage } from '../../../web/model/wires-words.ts';
import type { Reader } from '../../../web/reader.ts';

const wire = (state: PageWire['state']): PageWire => ({
  number: 1,
  lengthM: 6,
  since: null,
  points: [],
  state,
  age: 0,
});
const plan: PlanAnswer = {
  radials: Array.from({ length: 25 }, () => ({ number: 1, route: [], lengthM: 8, bearingDeg: 0 })),
  wireM: 200,
  efficiency: [],
  pattern: [],
  notes: [],
};
const reader = { length: (lengthM: number) => `${lengthM} m` } as Reader;

function told(wires: readonly PageWire[], advice: string): { stage: string; sentence: string } {
  const data = {
    plan: { data: plan, missing: null },
    progress: { data: [{ advice }], missing: null },
  } as unknown as PageData;
  return { stage: wiresStage(data, wires), sentence: wiresSentence(data, wires, reader) };
}

describe('where wires go next', () => {
  it('an applied plan is told as planned, and no proposal beside it', () => {
    const { stage, sentence } = told([wire('laid'), wire('planned'), wire('planned')], 'go on');
    expect(stage).toBe('planned');
    expect(sentence).toBe(
      'Laid: 1 radial, 6 m of wire. Planned: 2 more, 12 m, which the journal holds and nobody has laid yet.',
    );
  });

  it('a proposal is called one', () => {
    expect(told([wire('laid')], 'go on').sentence).toBe(
      'Laid: 1 radial, 6 m of wire. Proposed for the wire at hand: 25 more, 200 m of it.',
    );
  });

  it('a proposal is weighed: a gain below what can be measured is called so', () => {
    const numbers = { ...reader, number: (value: number, places: number) => value.toFixed(places) } as Reader;
    const worth = (gainDb: number): string =>
      proposalSentence({ ...plan, gainOverLaidDb: { gainDb, lowDb: gainDb, highDb: gainDb } }, numbers);
    expect(worth(0.03)).toMatch(/0\.03 dB over what lies there, worth nothing that could be measured\.$/u);
    expect(worth(0.4)).toMatch(/0\.40 dB over what lies there\.$/u);
  });

  it('nothing is proposed where the measured handfuls say to stop', () => {
    const { stage, sentence } = told([wire('laid')], 'stop');
    expect(stage).toBe('stop');
    expect(sentence).not.toContain('25');
  });
});
