import type { ReferencePlane } from '../src/core/record.ts';

/** The six questions, in the words of whoever asks them; the name stands in the address. */
export const QUESTIONS = [
  { name: 'sweep', question: 'What does this sweep say?', short: 'Sweep' },
  { name: 'wires', question: 'Where should wires go?', short: 'Wires' },
  { name: 'handful', question: 'Did that handful help?', short: 'Handful' },
  { name: 'proof', question: 'Is the improvement real?', short: 'Proof' },
  { name: 'change', question: 'What changed?', short: 'Change' },
  { name: 'garden', question: 'What does transmitting ask of the garden?', short: 'Garden' },
] as const;

export type QuestionName = (typeof QUESTIONS)[number]['name'];

/** What the reader looks at; kept in the address, so that a link shows the same. */
export interface Address {
  readonly view: QuestionName | 'report';
  /** The layer that is spoken of. */
  readonly visit: string | null;
  /** The layer it is held against; `none` for nothing. */
  readonly before: string | null;
  /** The band that fills the pictures; null for all that was swept. */
  readonly band: string | null;
  /** The change that is judged, by its field states, or `pair` for the two layers; null for the newest. */
  readonly change: string | null;
  /** The other layers that are shown; null for all. */
  readonly also: readonly string[] | null;
  /** Where the files that are laid over were swept. */
  readonly plane: ReferencePlane;
}

export const START: Address = {
  view: 'sweep',
  visit: null,
  before: null,
  band: null,
  change: null,
  also: null,
  plane: 'feedpoint',
};

/** Reads an address; what it does not know is left out. */
export function parseAddress(hash: string, start: Address = START): Address {
  const asked = new URLSearchParams(hash.replace(/^#/u, ''));
  const view = asked.get('view');
  const known = view === 'report' || QUESTIONS.some(({ name }) => name === view);
  return {
    view: known ? (view as Address['view']) : start.view,
    visit: asked.get('visit'),
    before: asked.get('before'),
    band: asked.get('band'),
    change: asked.get('change'),
    also: asked.get('also')?.split(',').filter(Boolean) ?? null,
    plane: asked.get('plane') === 'shack' ? 'shack' : 'feedpoint',
  };
}

/** Writes an address; what is as at the start is left out. */
export function formatAddress({ view, visit, before, band, change, also, plane }: Address): string {
  const parts = new URLSearchParams({ view });
  if (visit !== null) parts.set('visit', visit);
  if (before !== null) parts.set('before', before);
  if (band !== null) parts.set('band', band);
  if (change !== null) parts.set('change', change);
  if (also !== null) parts.set('also', also.join(','));
  if (plane !== 'feedpoint') parts.set('plane', plane);
  return `#${parts}`;
}
