import type { Complex } from '../../src/core/complex.ts';
import { impedanceToReflection, reflectionColumns } from '../../src/core/sweep/reflection.ts';
import type { AnySweep } from '../../src/core/sweep/sweep.ts';
import { h } from '../dom.ts';
import type { Spot } from '../model/at-frequency.ts';
import type { ShownLayer } from '../model/shown.ts';
import { drawMark } from './marks.ts';
import type { StripRange } from './strips.ts';
import { themeColour } from './theme-colour.ts';

/** Resistances and reactances that get a circle, as multiples of the reference. */
const CIRCLES = [0.2, 0.5, 1, 2, 5];
const SWR_RING = 1 / 3;
const MARGIN_PX = 26;

/** The reflection coefficient as a place in the unit circle, with circles of equal R and of equal X. */
export class ReflectionPlane {
  readonly element: HTMLElement;
  readonly #canvas: HTMLCanvasElement = h('canvas', { 'aria-hidden': 'true' });
  readonly #pins = {
    before: h('div', { class: 'plane-pin pin-before', 'aria-hidden': 'true' }),
    after: h('div', { class: 'plane-pin pin-after', 'aria-hidden': 'true' }),
  };
  #input: { shown: readonly ShownLayer[]; range: StripRange } | null = null;
  #referenceOhm = 50;
  #sidePx = 0;
  #pinned: Readonly<Record<'before' | 'after', Spot | null>> = { before: null, after: null };

  constructor() {
    this.element = h('div', { class: 'plane' }, this.#canvas, this.#pins.before, this.#pins.after);
    new ResizeObserver(() => {
      this.#sidePx = this.element.clientWidth;
      this.#paint();
    }).observe(this.element);
  }

  draw(input: { shown: readonly ShownLayer[]; range: StripRange }): void {
    this.#input = input;
    this.#referenceOhm = input.shown.at(-1)?.layer.sweep.referenceOhm ?? 50;
    this.#paint();
  }

  /** Puts a pin where one of the pair stands. */
  pin(role: 'before' | 'after', spot: Spot | null): void {
    this.#pinned = { ...this.#pinned, [role]: spot };
    const pin = this.#pins[role];
    const reflection = reflectionOf(spot, this.#referenceOhm);
    pin.hidden = reflection === null;
    if (reflection === null) return;
    const centre = this.#sidePx / 2;
    const radius = centre - MARGIN_PX;
    const [x, y] = [centre + reflection.re * radius, centre - reflection.im * radius];
    pin.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
  }

  #paint(): void {
    for (const role of ['before', 'after'] as const) this.pin(role, this.#pinned[role]);
    const side = this.#sidePx;
    const input = this.#input;
    if (side < 40 || input === null) return;
    const scale = devicePixelRatio;
    this.#canvas.width = side * scale;
    this.#canvas.height = side * scale;
    const context = this.#canvas.getContext('2d');
    if (context === null) return;
    context.scale(scale, scale);
    context.translate(side / 2, side / 2);
    const radius = side / 2 - MARGIN_PX;
    this.#paintCircles(context, radius);
    for (const { layer, style } of input.shown) {
      if (layer.sweep.kind !== 'impedance') continue;
      context.strokeStyle = themeColour(style.colour);
      context.lineWidth = style.widthPx;
      context.setLineDash([...style.dash]);
      const line = walk(layer.sweep, input.range, radius);
      context.stroke(line.path);
      context.setLineDash([]);
      if (style.mark !== null && line.end !== null) {
        drawMark(context, style.mark, line.end[0], line.end[1], 5, themeColour(style.colour));
      }
    }
  }

  #paintCircles(context: CanvasRenderingContext2D, radius: number): void {
    const circle = (x: number, y: number, size: number): void => {
      context.beginPath();
      context.arc(x, y, size, 0, 2 * Math.PI);
      context.stroke();
    };
    context.fillStyle = themeColour('--panel');
    context.beginPath();
    context.arc(0, 0, radius, 0, 2 * Math.PI);
    context.fill();
    context.save();
    context.clip();
    context.strokeStyle = themeColour('--grid');
    context.lineWidth = 1;
    for (const r of CIRCLES) circle((radius * r) / (1 + r), 0, radius / (1 + r));
    for (const x of CIRCLES) {
      circle(radius, -radius / x, radius / x);
      circle(radius, radius / x, radius / x);
    }
    context.beginPath();
    context.moveTo(-radius, 0);
    context.lineTo(radius, 0);
    context.stroke();
    context.strokeStyle = themeColour('--level');
    context.setLineDash([4, 4]);
    circle(0, 0, radius * SWR_RING);
    context.setLineDash([]);
    context.restore();
    context.strokeStyle = themeColour('--ink-soft');
    context.lineWidth = 1.5;
    circle(0, 0, radius);
    this.#paintLabels(context, radius);
  }

  #paintLabels(context: CanvasRenderingContext2D, radius: number): void {
    const ohm = (times: number): string => String(Math.round(times * this.#referenceOhm));
    context.fillStyle = themeColour('--ink-soft');
    context.font = `12px ${themeColour('--sans')}`;
    context.textBaseline = 'middle';
    for (const r of CIRCLES) {
      context.textAlign = 'left';
      context.fillText(ohm(r), (radius * (r - 1)) / (r + 1) + 3, 8);
    }
    for (const x of CIRCLES) {
      const re = (x * x - 1) / (x * x + 1);
      const im = (2 * x) / (x * x + 1);
      context.textAlign = 'center';
      context.fillText(`+${ohm(x)}`, re * (radius + 13), -im * (radius + 13));
      context.fillText(`−${ohm(x)}`, re * (radius + 13), im * (radius + 13));
    }
  }
}

function reflectionOf(spot: Spot | null, referenceOhm: number): Complex | null {
  if (spot === null || spot.resistanceOhm === null || spot.reactanceOhm === null) return null;
  return impedanceToReflection({ re: spot.resistanceOhm, im: spot.reactanceOhm }, referenceOhm);
}

/** A sweep as a path; steps of less than a third of a pixel are left out. */
function walk(
  sweep: AnySweep & { kind: 'impedance' },
  range: StripRange,
  radius: number,
): { path: Path2D; end: [number, number] | null } {
  const { re, im } = reflectionColumns(sweep);
  const path = new Path2D();
  let end: [number, number] | null = null;
  for (let i = 0; i < re.length; i++) {
    const hz = sweep.frequencyHz[i] as number;
    if (hz < range.from || hz > range.to) continue;
    const x = (re[i] as number) * radius;
    const y = -(im[i] as number) * radius;
    if (!Number.isFinite(x)) continue;
    if (end === null) path.moveTo(x, y);
    else if (Math.hypot(x - end[0], y - end[1]) < 0.33) continue;
    else path.lineTo(x, y);
    end = [x, y];
  }
  return { path, end };
}
