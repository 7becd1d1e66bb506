import { describe, expect, it } from 'vitest';
import { columnMeaning, isUnitCell } from '../../../../src/formats/csv/header-words.ts';

/** Spellings of one meaning, `role` or `role unit`. */
const SPELLINGS: Readonly<Record<string, readonly string[]>> = {
  'frequency mhz': [
    'Freq (MHz)',
    'freq[MHz]',
    'Frequency / MHz',
    'f_mhz',
    'MHz',
    '#MHz',
    '# frequency [MHz]',
    'FREQ MHZ',
    'freqMHz',
    'f in MHz',
    '"Freq (MHz)"',
  ],
  'frequency hz': ['frequency_hz', 'Hz', 'Fréquence (Hz)', 'Frequenz Hz'],
  frequency: ['f', 'Freq.', 'frequency'],
  resistance: ['R', 'Rs', 'Resistance', 'Re(Z)', 'real(z)', 'Z real', 'Re Z'],
  'resistance ohm': ['R [Ω]', 'resistance_ohm', 'R(ohm)', 'Rs / Ohms', 'Re(Z) [Ω]', 'Real (ohm)'],
  'resistance kohm': ['R (kΩ)', 'R kohm'],
  'reactance ohm': ['X (Ω)', 'reactance_ohm', 'Im(Z) [ohm]', 'X [jΩ]'],
  'reactance-size ohm': ['|X| (ohm)'],
  'impedance-size ohm': ['|Z| (Ω)', 'Z [ohm]', 'abs(Z)/ohm', 'Impedance (Ohm)', 'Magnitude (ohm)'],
  'impedance-size': ['|Z|', 'Zmag', 'mag(Z)'],
  'impedance-phase deg': ['phase(Z) (°)', 'arg(Z) [deg]', 'Z (deg)', 'θ(Z) °'],
  'reflection-re': ['Re(S11)', 'real(s11)', 'S11 real', 'Γ re', 'gamma_real'],
  'reflection-im': ['Im(S11)', 'imag(s11)', 'S11 im', 'rho imag'],
  'reflection-size': ['|S11|', '|Γ|', 'mag(S11)', 'abs(gamma)'],
  'reflection-db db': ['S11 (dB)', 'S11[dB]', '|S11| dB', 'Mag (dB)', 'Magnitude S11 [dB]'],
  'reflection-db': ['dB(S11)', 'S11 LogMag'],
  'reflection-phase deg': ['S11 (deg)', 'Phase S11 [deg]', 'arg(Γ) / °'],
  reflection: ['S11', 'Γ', 'rho'],
  'phase deg': ['Phase (°)', 'angle [deg]', 'φ (deg)'],
  'phase rad': ['Phase (rad)'],
  'return-loss db': ['Return Loss (dB)', 'RL [dB]'],
  'return-loss': ['RL', 'ReturnLoss', 'return_loss'],
  swr: ['SWR', 'VSWR', 'vswr:1', 'ROS'],
  re: ['Real'],
  im: ['Imag', 'imaginary'],
  size: ['Magnitude', 'mag'],
};

describe('the words over a column', () => {
  for (const [meaning, spellings] of Object.entries(SPELLINGS)) {
    it(`mean ${meaning} in ${spellings.length} spellings`, () => {
      for (const header of spellings) {
        const found = columnMeaning(header);
        expect([found?.role, found?.unit].filter((part) => typeof part === 'string').join(' '), header).toBe(
          meaning,
        );
      }
    });
  }

  it('that are of another thing, or give another unit, are not understood', () => {
    for (const header of [
      '',
      'Time',
      'No.',
      'Q',
      'L (nH)',
      'R (dB)',
      'R (MΩ)',
      'Freq (ohm)',
      'SWR (dB)',
      'Smith',
      'x'.repeat(100),
    ]) {
      expect(columnMeaning(header), header).toBeNull();
    }
  });

  it('may be units alone in a line below', () => {
    expect(['MHz', '[ohm]', '(°)', '', '1'].every(isUnitCell)).toBe(true);
    expect(isUnitCell('R')).toBe(false);
  });
});
