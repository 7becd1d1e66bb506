import { h } from '../dom.ts';

/** A picture that is drawn anew for the width it gets, so that its letters keep their size. */
export function responsive(draw: (widthPx: number) => SVGSVGElement): HTMLElement {
  const room = h('div', { class: 'picture' });
  let drawn = 0;
  new ResizeObserver(() => {
    const width = Math.floor(room.clientWidth);
    if (width < 40 || width === drawn) return;
    drawn = width;
    room.replaceChildren(draw(width));
  }).observe(room);
  return room;
}
