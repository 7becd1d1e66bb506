import type { Address } from '../address.ts';
import type { Layer } from './layers.ts';

/** How a line is told from the others: never by colour alone. */
export interface LineStyle {
  /** Name of a colour of the theme. */
  readonly colour: string;
  readonly widthPx: number;
  readonly dash: readonly number[];
  readonly mark: 'disc' | 'square' | 'triangle' | 'ring' | 'cross' | 'diamond' | null;
}

export interface ShownLayer {
  readonly layer: Layer;
  readonly role: 'before' | 'after' | 'other';
  readonly style: LineStyle;
}

const AFTER: LineStyle = { colour: '--after', widthPx: 3, dash: [], mark: 'disc' };
const BEFORE: LineStyle = { colour: '--before', widthPx: 3, dash: [9, 5], mark: 'square' };
const OTHERS: readonly LineStyle[] = [
  { colour: '--line-1', widthPx: 2, dash: [2, 3], mark: 'triangle' },
  { colour: '--line-2', widthPx: 2, dash: [12, 3, 2, 3], mark: 'ring' },
  { colour: '--line-3', widthPx: 2, dash: [6, 3], mark: 'cross' },
  { colour: '--line-4', widthPx: 2, dash: [14, 6], mark: 'diamond' },
];
/** More than these cannot be told apart by anybody: they become the background of the pair. */
const BACKGROUND: LineStyle = { colour: '--line-many', widthPx: 1, dash: [], mark: null };

/** The layer that is spoken of: the one asked for, else the newest; null where there is none. */
export function afterLayer(layers: readonly Layer[], { visit }: Address): Layer | null {
  return layers.find(({ id }) => id === visit) ?? layers.at(-1) ?? null;
}

/** The layer it is held against: the one asked for, else the one before it. */
export function beforeLayer(layers: readonly Layer[], address: Address): Layer | null {
  if (address.before === 'none') return null;
  const after = afterLayer(layers, address);
  const asked = layers.find(({ id }) => id === address.before);
  if (asked !== undefined) return asked === after ? null : asked;
  return after === null ? null : (layers[layers.indexOf(after) - 1] ?? null);
}

/** Everything that is shown, the pair last so that it lies on top. */
export function shownLayers(layers: readonly Layer[], address: Address): ShownLayer[] {
  const after = afterLayer(layers, address);
  const before = beforeLayer(layers, address);
  const others = layers.filter(
    (layer) => layer !== after && layer !== before && (address.also?.includes(layer.id) ?? true),
  );
  const few = others.length <= OTHERS.length;
  return [
    ...others.map(
      (layer, i): ShownLayer => ({
        layer,
        role: 'other',
        style: few ? (OTHERS[i] as LineStyle) : BACKGROUND,
      }),
    ),
    ...(before === null ? [] : [{ layer: before, role: 'before' as const, style: BEFORE }]),
    ...(after === null ? [] : [{ layer: after, role: 'after' as const, style: AFTER }]),
  ];
}
