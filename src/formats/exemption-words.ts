import type { CarefulFigures } from './careful-figures.ts';
import type { SafetyAnswer } from './page-data/safety-answer.ts';
import { listed } from './words.ts';

type Place = SafetyAnswer['places'][number];

/**
 * What the US test of whether an evaluation is due says of each place, apart from the verdicts: it may free from the
 * evaluation where a verdict says to keep out, and no verdict changes by it. Nothing under other rules.
 */
export function exemptionWords(safety: SafetyAnswer, figures: CarefulFigures): string {
  const { places, bands, radials } = safety;
  if (places.every(({ usExemption }) => usExemption === null)) return '';
  const part = radials.elevated ? 'the antenna or a raised radial' : 'the antenna';
  const lines = bands.map(({ band, mode, peakPowerW, farField }) => {
    const told = (result: string, words: (names: string, are: string) => string): string[] => {
      const names = places
        .filter((place) => isOf(place, band, mode, peakPowerW) && place.usExemption === result)
        .map(({ name }) => name);
      return names.length === 0 ? [] : [words(listed(names), names.length === 1 ? 'it is' : 'they are')];
    };
    const near = `nearer to ${part} than λ/2π (${figures.kept(farField.validFromM)}), where the test does not apply and nothing over 1 mW is exempt`;
    const answers = [
      ...told('exempt', (names) => `not for ${names}`),
      ...told(
        'no exemption',
        (names) => `for ${names} yes: the mean power is over the threshold of that distance`,
      ),
      ...told('test does not apply', (names, are) => `for ${names} yes: ${are} ${near}`),
    ];
    return `${band} ${mode}: ${answers.join('; ')}.`;
  });
  return [
    'Does the US rule ask for an evaluation (47 CFR 1.1307(b)(3)(i))? A question of its own: exempt from an evaluation is not exempt from the limits, and no verdict above changes by it. Fields computed as here are one way to evaluate; keep them with the station’s papers.',
    ...lines,
  ].join('\n');
}

function isOf(place: Place, band: string, mode: string, peakPowerW: number): boolean {
  return place.band === band && place.mode === mode && place.peakPowerW === peakPowerW;
}
