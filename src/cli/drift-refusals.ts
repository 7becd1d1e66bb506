import type { Round } from '../core/drift/rounds.ts';
import { wiresChanged } from '../core/drift/wires-changed.ts';
import { UserError } from '../core/user-error.ts';
import { plural } from '../formats/words.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { numbersText } from './numbers.ts';
import { commandOf } from './pasteable.ts';
import { wiresText } from './wires-text.ts';

/** Words of a command as one to be pasted. */
export type Propose = (words: readonly string[]) => string;

/**
 * Why a logbook has nothing yet to hold its newest visit against, and what to do.
 *
 * @param rounds - over the field of the newest visit
 * @param elsewhere - the newest over another field; null when there is none
 * @param propose - how a command is called
 */
export function baselineMissing(
  { fieldStates }: Logbook,
  rounds: readonly Round[],
  elsewhere: Round | null,
  propose: Propose = commandOf,
): UserError {
  const [newest] = rounds;
  if (newest === undefined) {
    return refusal(
      `no visit yet shows the antenna: measure it while it is healthy, \`${propose(['measure'])}\`, and again later`,
    );
  }
  const change = elsewhere === null ? null : wiresChanged(fieldStates, elsewhere.time, newest.time);
  if (elsewhere !== null && change !== null) {
    const [was, is] = [elsewhere, newest].map(({ visits }) => numbersText(visits.map(({ visit }) => visit)));
    return refusal(
      `the field itself changed: ${wiresText(change)}. A fault since then cannot be told from what the wires did, ` +
        `and only one visit was made over the field as it is now. ` +
        `Whether the wires helped: \`${propose(['compare', '--before', was as string, '--after', is as string])}\`. ` +
        'Measure once or twice more, and those visits become the new baseline',
    );
  }
  if (rounds.length > 1) {
    return refusal(
      `none of the ${plural(rounds.length, 'visit')} over this field may serve as baseline: ` +
        `let one do so, \`${propose(['note', 'baseline', 'N', 'yes'])}\`, or name visits with --before and --after`,
    );
  }
  return refusal(
    'there is only one visit, and nothing to compare it with: measure the healthy antenna once or twice more, ' +
      `\`${propose(['measure'])}\`, and ask again when something may have changed`,
  );
}

/** @param isThere - there is such a visit, but it holds the reference load alone */
export function visitUnknown(number: number, isThere: boolean): UserError {
  return new UserError(
    'visit-unknown',
    isThere ? `visit ${number} holds no sweep of the antenna` : `there is no visit ${number} in this logbook`,
    { kind: 'command-line' },
  );
}

function refusal(message: string): UserError {
  return new UserError('baseline-missing', message);
}
