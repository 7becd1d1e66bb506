/** What may stand in an element; texts become text, never markup. */
export type Child = Node | string | number | null | undefined | false | readonly Child[];

/** Attributes by name; `on…` takes a listener; null, undefined and false leave an attribute out, true makes it empty. */
export type Attributes = Readonly<
  Record<string, string | number | boolean | null | undefined | ((event: Event) => void)>
>;

/** Makes an HTML element. */
export function h<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  return fill(document.createElement(tag), attributes, children);
}

const SVG = 'http://www.w3.org/2000/svg';

/** Makes an SVG element. */
export function s<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: Child[]
): SVGElementTagNameMap[K] {
  return fill(document.createElementNS(SVG, tag), attributes, children);
}

function fill<E extends Element>(element: E, attributes: Attributes, children: readonly Child[]): E {
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === 'function') element.addEventListener(name.slice(2), value);
    else if (value === true) element.setAttribute(name, '');
    else if (value !== false && value !== null && value !== undefined) {
      element.setAttribute(name, String(value));
    }
  }
  append(element, children);
  return element;
}

/** Appends children, flat. */
export function append(element: Element, children: readonly Child[]): void {
  for (const child of children) {
    if (child === null || child === undefined || child === false) continue;
    if (isList(child)) append(element, child);
    else element.append(typeof child === 'number' ? String(child) : child);
  }
}

function isList(child: Child): child is readonly Child[] {
  return Array.isArray(child);
}

/** Replaces what an element holds. */
export function replace(element: Element, ...children: Child[]): void {
  element.replaceChildren();
  append(element, children);
}

/** Makes a change after which what had the focus has it again, if it is still there. */
export function keepingFocus(change: () => void): void {
  const focused = document.activeElement;
  change();
  if (focused instanceof HTMLElement && focused.isConnected && focused !== document.activeElement) {
    focused.focus({ preventScroll: true });
  }
}
