import type { WiresChanged } from '../core/drift/wires-changed.ts';
import { plural } from '../formats/words.ts';

/** `8 radials were laid (16 there, now 24), on 2026-03-01` */
export function wiresText({ laid, lifted, radialsBefore, radialsAfter, since }: WiresChanged): string {
  const done = (count: number, verb: string): string[] =>
    count === 0 ? [] : [`${plural(count, 'radial')} ${count === 1 ? 'was' : 'were'} ${verb}`];
  return `${[...done(laid, 'laid'), ...done(lifted, 'lifted')].join(' and ')} (${radialsBefore} before, ${radialsAfter} after; ${since.slice(0, 10)})`;
}
