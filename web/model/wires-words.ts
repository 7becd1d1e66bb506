import type { PageData, PageWire, PlanAnswer } from '../../src/formats/page-data.ts';
import type { Reader } from '../reader.ts';
import { widestGap } from './field-words.ts';

/** Where the answer comes from: a plan that was applied, a proposal of the wire at hand, or what lies there alone. */
export type WiresStage = 'planned' | 'proposed' | 'stop' | 'laid';

/**
 * An applied plan is the user's own decision, and a proposal beside it would only confuse. Where the measured handfuls
 * say that more wire is not worth it, none is proposed either.
 */
export function wiresStage({ plan, progress }: PageData, wires: readonly PageWire[]): WiresStage {
  if (wires.some(({ state }) => state === 'planned')) return 'planned';
  if (plan.data === null || plan.data.radials.length === 0) return 'laid';
  return progress.data?.[0]?.advice === 'stop' ? 'stop' : 'proposed';
}

/** What lies there and what comes next, in a sentence. */
export function wiresSentence(data: PageData, wires: readonly PageWire[], reader: Reader): string {
  const laid = wires.filter(({ state }) => state === 'laid');
  const waiting = wires.filter(({ state }) => state === 'planned');
  const metres = (list: readonly PageWire[]): string =>
    reader.length(
      list.reduce((sum, { lengthM }) => sum + lengthM, 0),
      0,
    );
  const now =
    laid.length === 0
      ? 'No radial is laid yet.'
      : `Laid: ${laid.length} ${laid.length === 1 ? 'radial' : 'radials'}, ${metres(laid)} of wire.`;
  const next: Readonly<Record<WiresStage, () => string>> = {
    planned: () =>
      ` Planned: ${waiting.length} more, ${metres(waiting)}, which the journal holds and nobody has laid yet.`,
    proposed: () => ` ${proposalSentence(data.plan.data as PlanAnswer, reader)}`,
    stop: () => ` Leave it at that: the handfuls that were measured say that more wire is not worth it.`,
    laid: () => '',
  };
  return `${now}${next[wiresStage(data, wires)]()}`;
}

/** What the wire at hand could give. */
export function proposalSentence(plan: PlanAnswer, reader: Reader): string {
  const first = plan.efficiency[0];
  const range = first?.lossRangeDb ?? null;
  const lost =
    first === undefined || range === null
      ? ''
      : `; then ${reader.number(range[0], 1)} to ${reader.number(range[1], 1)} dB is lost in the ground on ${first.band}`;
  const more = `${plan.radials.length}${plan.elevated === undefined ? ' more' : ' tuned raised ones'}`;
  return `Proposed for the wire at hand: ${more}, ${reader.length(plan.wireM, 0)} of it${lost}.${worthSentence(plan, reader)}`;
}

/** A model's gain below this is drowned in the weather between two visits, dB. */
const MEASURABLE_DB = 0.1;

function worthSentence({ gainOverLaidDb: gain }: PlanAnswer, reader: Reader): string {
  if (gain === null || gain === undefined) return '';
  const nothing = gain.highDb < MEASURABLE_DB ? ', worth nothing that could be measured' : '';
  return ` That is ${reader.number(gain.gainDb, 2)} dB over what lies there${nothing}.`;
}

/** Where no wire lies. */
export function coverageSentence(wires: readonly PageWire[]): string {
  const gap = widestGap(wires);
  if (gap === null) return '';
  return `The widest angle without a wire is ${Math.round(gap.widthDeg)}°, toward ${Math.round(gap.middleDeg)}° from true north.`;
}
