import { h } from '../dom.ts';

/** So little out of sight is a rounded pixel or the white after the last column. */
const SLACK_PX = 2;

/**
 * Room for what may be wider than the screen: it is stacked where it can be, else it scrolls by itself, by keyboard
 * too, never moves the page, and says so as long as something lies out of sight.
 */
export function scrollRoom(name: string, content: HTMLElement, canStack: boolean): HTMLElement {
  const hint = h('p', { class: 'scroll-hint', hidden: true }, 'Wider than the screen: scroll it sideways.');
  const room = h('div', { class: 'table-room', role: 'region', 'aria-label': name }, content);
  let asideNeedsPx = 0;
  const look = new ResizeObserver(() => {
    if (room.clientWidth === 0) return;
    const isWider = (): boolean => room.scrollWidth > room.clientWidth + SLACK_PX;
    // A stack does not tell how wide the table would be: what it was when it last stood as one still holds.
    if (canStack && room.clientWidth >= asideNeedsPx) {
      room.classList.remove('stacked');
      if (isWider()) {
        asideNeedsPx = room.scrollWidth;
        room.classList.add('stacked');
      }
    }
    hint.hidden = !isWider();
    if (hint.hidden) room.removeAttribute('tabindex');
    else room.tabIndex = 0;
  });
  look.observe(room);
  look.observe(content);
  return h('div', { class: 'scroll' }, hint, room);
}
