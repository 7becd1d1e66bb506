/**
 * The colours of the page, as they stand in its style sheet.
 *
 * Source: W3C, Web Content Accessibility Guidelines (WCAG) 2.2 (2023), definitions of contrast ratio and relative
 * luminance, success criteria 1.4.3 (text 4.5:1), 1.4.6 (text 7:1) and 1.4.11 (lines 3:1). Status: published.
 * Source: G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, "A Physiologically-based Model for Simulation of Color
 * Vision Deficiency", IEEE Trans. Visualization and Computer Graphics 15(6), 1291–1298, 2009, table 1, severity 1.0.
 * Status: memory.
 * Source: CIE 1976 L*a*b* (D65), in which a difference of about 2 can just be seen side by side. Status: memory. The 12
 * asked for between thin lines is our own; they differ by dash and mark besides.
 *
 * Tolerance: none; the criteria are lower limits.
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const CSS = readFileSync(resolve(import.meta.dirname, '../../web/css/themes.css'), 'utf8');
const LINES = ['after', 'before', 'line-1', 'line-2', 'line-3', 'line-4'] as const;
const STRIPS = ['strip-1', 'strip-2', 'strip-3', 'strip-4', 'strip-5'] as const;

type Rgb = readonly [number, number, number];

function themeColours(theme: string): (name: string) => Rgb {
  const selector = theme === 'light' ? ':root {' : `:root[data-theme="${theme}"] {`;
  const block = CSS.slice(CSS.indexOf(selector)).split('}')[0] ?? '';
  return (name) => {
    const hex = new RegExp(`--${name}: #([0-9a-f]{6});`, 'u').exec(block)?.[1];
    if (hex === undefined) throw new Error(`${theme} has no --${name}`);
    return [0, 2, 4].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255) as unknown as Rgb;
  };
}

const linear = (colour: Rgb): Rgb =>
  colour.map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)) as unknown as Rgb;

const luminance = ([r, g, b]: Rgb): number => 0.2126 * r + 0.7152 * g + 0.0722 * b;

function contrast(a: Rgb, b: Rgb): number {
  const [darker, lighter] = [luminance(linear(a)), luminance(linear(b))].sort((x, y) => x - y) as [
    number,
    number,
  ];
  return (lighter + 0.05) / (darker + 0.05);
}

const VISION: Readonly<Record<string, readonly Rgb[]>> = {
  'full colour vision': [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

function lab(colour: Rgb, vision: readonly Rgb[]): Rgb {
  const seen = vision.map((row) => row.reduce((sum, k, i) => sum + k * (linear(colour)[i] as number), 0));
  const [r, g, b] = seen.map((c) => Math.min(1, Math.max(0, c))) as unknown as Rgb;
  const f = (t: number): number => (t > 216 / 24389 ? Math.cbrt(t) : (24389 / 27) * (t / 116) + 16 / 116);
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.95047);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

describe.each([
  ['light', 4.5],
  ['dark', 4.5],
  ['sunlight', 7],
] as const)('the colours of the theme %s', (theme, textContrast) => {
  const colour = themeColours(theme);

  it.each([
    ['ink', 'ground'],
    ['ink-soft', 'ground'],
    ['ink-soft', 'panel'],
    ['ink', 'furrow'],
    ['copper', 'ground'],
    ['warn', 'panel'],
    ['on-accent', 'copper'],
    ['on-accent', 'grass'],
    ['ink', 'strip-5'],
    ['ink-soft', 'strip-5'],
  ])(`let %s be read on %s, ${textContrast}:1 or more`, (text, ground) => {
    expect(contrast(colour(text), colour(ground))).toBeGreaterThanOrEqual(textContrast);
  });

  it('let every line be seen on every strip, 3:1 or more', () => {
    for (const line of LINES) {
      for (const strip of STRIPS) {
        expect(contrast(colour(line), colour(strip)), `${line} on ${strip}`).toBeGreaterThanOrEqual(3);
      }
    }
  });

  it.each(Object.keys(VISION))('tell the lines apart with %s', (kind) => {
    const labs = LINES.map((line) => lab(colour(line), VISION[kind] as readonly Rgb[]));
    labs.forEach((a, i) => {
      labs.slice(i + 1).forEach((b, j) => {
        const apart = Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
        expect(apart, `${LINES[i]} and ${LINES[i + 1 + j]}`).toBeGreaterThanOrEqual(12);
      });
    });
  });
});

describe('the formulas above', () => {
  it('give WCAG 2.2 its own ends: 21:1 for black on white, 1:1 for a colour on itself', () => {
    expect(contrast([0, 0, 0], [1, 1, 1])).toBe(21);
    expect(contrast([0.3, 0.2, 0.1], [0.3, 0.2, 0.1])).toBe(1);
  });
});
