import { plural } from '../plural.ts';
import type { OverallVerdict } from './overall.ts';
import { plusMinus } from './shown-as.ts';
import { LEAST_PAIRS, type StrengthComparison } from './strength.ts';

/** What received strength and resistance say beside each other, and what follows; empty where no place was read twice. */
export function strengthWords(strength: StrengthComparison | null, overall: OverallVerdict): string {
  if (strength === null || strength.medianDb === null) return '';
  const { medianDb, places, spreadDb, intervalDb, verdict, expandedUncertaintyDb } = strength;
  const spread = spreadDb === null ? '' : `, which differ by ${spreadDb.toFixed(1)} dB among themselves`;
  const at = `at ${plural(places.length, 'place')}${spread}`;
  if (intervalDb === null) {
    return (
      `Received strength: ${signed(medianDb)} dB in the middle ${at}: too few for a verdict, which takes ${LEAST_PAIRS}. ` +
      `Until so many are read, the resistance decides: ${overall.resistanceVerdict}${gainWords(overall)}.`
    );
  }
  const level = plusMinus(
    { value: medianDb, expandedUncertainty: expandedUncertaintyDb, coverageFactor: 2 },
    1,
    1,
  );
  const found = `Received strength decides: ${verdict}, ${level.replace(/ \(k.*$/u, '')} dB ${at}.`;
  return `${found} ${besideWords(overall, intervalDb)}`;
}

/** How the resistance stands to a strength that decides. */
function besideWords(overall: OverallVerdict, [leastDb, mostDb]: readonly [number, number]): string {
  const { verdict, resistanceVerdict, resistanceGainDb } = overall;
  const gain = gainWords(overall);
  if (overall.agree === true) return `The resistance says the same: ${resistanceVerdict}${gain}.`;
  if (overall.agree === false) {
    return `The resistance says ${resistanceVerdict}${gain}: the two disagree, so look for what else changed.`;
  }
  if (resistanceVerdict === 'not shown') {
    return verdict === 'not shown'
      ? 'Nor does the resistance show a change.'
      : 'The resistance does not show it, which is no contradiction: it understates what the field gains and loses.';
  }
  const said = `The resistance by itself says ${resistanceVerdict}${gain}.`;
  return resistanceGainDb !== null && resistanceGainDb >= leastDb && resistanceGainDb <= mostDb
    ? `${said} The places leave room for that, from ${signed(leastDb)} to ${signed(mostDb)} dB: both may be right, and more places would tell.`
    : `${said} The places leave no room for that, from ${signed(leastDb)} to ${signed(mostDb)} dB: R moved by something other than ground loss, such as the element or a joint.`;
}

function gainWords({ resistanceGainDb, resistanceGainUncertaintyDb }: OverallVerdict): string {
  if (resistanceGainDb === null) return '';
  const gain = {
    value: resistanceGainDb,
    expandedUncertainty: resistanceGainUncertaintyDb,
    coverageFactor: 2,
  };
  return ` (${plusMinus(gain, 1, 2).replace(/ \(k.*$/u, '')} dB by its ratio, a lower estimate)`;
}

function signed(db: number): string {
  return `${db < 0 ? '-' : '+'}${Math.abs(db).toFixed(1)}`;
}
