import type { PageData } from '../../src/formats/page-data.ts';

const FROM_BEST = ['clear', 'reduce power', 'keep out'] as const;

/** The worst verdict of each place over all bands. */
export function placeVerdicts({ safety }: PageData): Map<string, string> {
  const worst = new Map<string, (typeof FROM_BEST)[number]>();
  for (const { name, verdict } of safety.data?.places ?? []) {
    if (FROM_BEST.indexOf(verdict) >= FROM_BEST.indexOf(worst.get(name) ?? 'clear')) worst.set(name, verdict);
  }
  return worst;
}
