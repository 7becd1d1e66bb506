import { describe, expect, it } from 'vitest';
import { deviceName, deviceText } from '../../../src/instrument/device-text.ts';

const bytes = (text: string): Uint8Array => Buffer.from(text, 'latin1');

describe('deviceText', () => {
  it('shows printable ASCII as it is and everything else as an escape', () => {
    expect(deviceText(bytes('ok \x1b[31m\x07\xff'))).toBe('"ok \\x1b[31m\\x07\\xff"');
  });

  it('cannot be broken out of', () => {
    expect(deviceText(bytes('a" \\x1b'))).toBe('"a\\" \\\\x1b"');
  });

  it('cuts what is long and says how long it was', () => {
    const shown = deviceText(bytes('A'.repeat(1 << 20)));
    expect(shown).toMatch(/^"A{60}…" \(1048576 bytes\)$/u);
  });
});

describe('deviceName', () => {
  it.each([
    ['GARDEN SWEEPER', 'GARDEN SWEEPER'],
    ['=HYPERLINK("x")', 'HYPERLINK( x )'],
    ['<script>\x1b[2J', 'script 2J'],
    ['   ', null],
    ['é', null],
  ])('makes of %j the name %j', (text, name) => {
    expect(deviceName(text)).toBe(name);
  });

  it('keeps at most 40 characters', () => {
    expect(deviceName('x'.repeat(99))).toHaveLength(40);
  });
});
