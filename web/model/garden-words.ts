import { keptLengthM, presentLengthM, readsAsWithin } from '../../src/core/safety/rounding.ts';
import { allowedPowerWords, type CarefulFigures } from '../../src/formats/careful-figures.ts';
import type { SafetyAnswer } from '../../src/formats/page-data.ts';
import { listed } from '../../src/formats/words.ts';
import type { Reader } from '../reader.ts';

/** Figures of exposure in this reader's units and locale, rounded to the careful side. */
export function carefulFigures(reader: Reader): CarefulFigures {
  return {
    kept: (lengthM) => reader.length(keptLengthM(lengthM, reader.units)),
    present: (lengthM) => reader.length(presentLengthM(lengthM, reader.units)),
    fine: (lengthM) => reader.length(keptLengthM(lengthM, reader.units, 2), 2),
    readsAsWithin: (presentM, keptM) => readsAsWithin(presentM, keptM, reader.units),
    allowed: (powerW) => allowedPowerWords(powerW, (w) => watts(w, reader)),
  };
}

/** A power as it was given or rounded before, with all its digits. */
export function watts(powerW: number, reader: Reader): string {
  const decimals = String(powerW).split('.')[1]?.length ?? 0;
  return reader.number(powerW, decimals);
}

/** Joints that should be looked at, in a sentence. */
export function jointsSentence({ joints }: SafetyAnswer): string {
  const due = joints.filter((joint) => joint.due?.overdue === true).map(({ name }) => name);
  if (due.length > 0)
    return `Look at ${due.length === 1 ? 'this joint' : 'these joints'} now: ${listed(due)}.`;
  return joints.length === 0 ? 'The site names no joints.' : 'No joint is due for a look.';
}
