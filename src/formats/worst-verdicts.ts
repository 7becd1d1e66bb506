import type { SafetyAnswer } from './page-data/safety-answer.ts';

type Place = SafetyAnswer['places'][number];

/** From the best. */
const VERDICTS = ['clear', 'reduce power', 'keep out'] as const;

/** The worst verdict of each place over all bands. */
export function worstVerdicts(places: SafetyAnswer['places']): Map<string, Place['verdict']> {
  const worst = new Map<string, Place['verdict']>();
  for (const { name, verdict } of places) {
    if (VERDICTS.indexOf(verdict) >= VERDICTS.indexOf(worst.get(name) ?? 'clear')) worst.set(name, verdict);
  }
  return worst;
}

/** The names of places by the worst verdict of each, the worst verdict first; verdicts of none are left out. */
export function byVerdict(
  places: SafetyAnswer['places'],
): { readonly verdict: Place['verdict']; readonly names: readonly string[] }[] {
  const worst = [...worstVerdicts(places)];
  return VERDICTS.toReversed().flatMap((verdict) => {
    const names = worst.filter(([, each]) => each === verdict).map(([name]) => name);
    return names.length === 0 ? [] : [{ verdict, names }];
  });
}
