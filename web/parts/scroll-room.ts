import { h } from '../dom.ts';

/**
 * Room for what may be wider than the screen: it scrolls by itself, by keyboard too, never moves the page, and says
 * so as long as something lies out of sight.
 */
export function scrollRoom(className: string, name: string, content: HTMLElement): HTMLElement {
  const hint = h('p', { class: 'scroll-hint', hidden: true }, 'Wider than the screen: scroll it sideways.');
  const room = h('div', { class: className, tabindex: 0, role: 'region', 'aria-label': name }, content);
  const look = new ResizeObserver(() => {
    hint.hidden = room.scrollWidth <= room.clientWidth;
  });
  look.observe(room);
  look.observe(content);
  return h('div', { class: 'scroll' }, hint, room);
}
