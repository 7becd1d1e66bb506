import type { Differential } from './differential.ts';
import { POOR_MISFIT } from './fit-antenna.ts';

/** From this probability on the limits of a cause are said. */
const WORTH_SAYING = 0.05;

/** What a comparison cannot tell, in sentences. */
export function limitsOf({ state, load, baseline, causes }: Differential): string[] {
  const { guess, misfit } = state.fitted;
  const limits: string[] = [];
  if (!guess.known.antenna || !guess.known.radials) {
    const missing = guess.known.antenna
      ? 'the radials'
      : guess.known.radials
        ? 'the antenna’s height'
        : 'the antenna and the radials';
    limits.push(
      `the site does not tell ${missing}: a guess stands in, so ohms hold better than counts, ratios and per cents`,
    );
  }
  if (misfit > POOR_MISFIT) {
    limits.push(
      `the site’s figures do not describe the healthy sweeps (off by ${misfit.toFixed(2)} of the reflection): check height, bands and the plane at which it was measured`,
    );
  }
  if (baseline.spans.every((span) => span.visitsBefore < 2)) {
    limits.push('one healthy visit does not show how far visits differ by themselves: log two or three more');
  }
  if (causes.some(({ cause, probability }) => cause === 'lost-radials' && probability >= WORTH_SAYING)) {
    limits.push(
      'how the lost radials lie: side by side they show less than spread evenly, so the count told may be only two thirds of the truth',
    );
  }
  if (load === null) {
    limits.push('without sweeps of the reference load a change of the instrument can hardly be told');
  }
  if (baseline.spans.every((span) => span.shotsAfter.length === 0)) {
    limits.push('one shot after the change cannot show a contact that comes and goes');
  }
  if (causes[0]?.cause === 'none') {
    limits.push('a joint that gained a few tenths of an ohm, or one radial of many, would not show');
  }
  limits.push('one cause at a time is weighed: two at once look like the nearest single one');
  return limits;
}
