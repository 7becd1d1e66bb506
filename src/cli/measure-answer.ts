import { resonanceFor } from '../core/proof/figures.ts';
import { formatFrequency } from '../core/quantity.ts';
import { isSimulated } from '../core/simulated.ts';
import type { Band } from '../core/sweep/bands.ts';
import { summariseBand } from '../core/sweep/swr-summary.ts';
import { plural } from '../formats/words.ts';
import type { Identity } from '../instrument/instrument.ts';
import { MARGIN } from '../instrument/sweep-plan.ts';
import { type Logbook, openLogbook } from '../logbook/logbook.ts';
import { type Answer, figure } from './answer.ts';
import type { CollectedShot } from './collect-shots.ts';
import { sourceOf } from './correction.ts';
import type { MeasuredBand, MeasureWish } from './measure-band.ts';
import { reportVisit, type VisitReport } from './measure-report.ts';

/**
 * What was measured, for programs and for people.
 *
 * @param before - the logbook as it was before; null where nothing was stored
 */
export async function measuredAnswer(
  measured: readonly MeasuredBand[],
  identity: Identity,
  wish: MeasureWish,
  before: Logbook | null,
): Promise<Answer> {
  // The site as the command was given it, with the units that were asked for.
  const logbook = before === null ? null : { ...(await openLogbook(before.folder)), site: before.site };
  const reported = await Promise.all(
    measured
      .filter(({ shots }) => shots.length > 0)
      .map(async (one) => ({
        ...one,
        report: wish.target === 'antenna' ? await reportVisit(one, logbook) : null,
      })),
  );
  return { json: answerJson(reported, identity, wish), text: answerText(reported, identity, wish) };
}

type ReportedBand = MeasuredBand & { readonly report: VisitReport | null };

function answerJson(measured: readonly ReportedBand[], identity: Identity, wish: MeasureWish): unknown {
  return {
    instrument: { model: identity.model, serial: identity.serial, corrected: identity.corrected },
    simulated: isSimulated(sourceOf(identity)),
    plane: wish.plane,
    target: wish.target,
    bands: measured.map(({ band, grid, shots, visit, time, plannedByHz, correction, report }) => ({
      band: band.band,
      visit,
      time,
      fromHz: grid.startHz,
      toHz: grid.stopHz,
      points: grid.points,
      plannedByHz,
      correction,
      shots: shots.map(({ sweep, effort }) => {
        const best = summariseBand(sweep, band);
        const resonance = resonanceFor(sweep, band);
        return {
          minSwr: best?.bestSwr ?? null,
          minSwrHz: best?.bestSwrHz ?? null,
          resonanceHz: resonance?.frequencyHz ?? null,
          resistanceAtResonanceOhm: resonance?.resistanceOhm ?? null,
          badLines: effort.badLines,
          reAsks: effort.reAsks,
        };
      }),
      figures: report?.figures ?? null,
      against: report?.against ?? null,
    })),
  };
}

function answerText(measured: readonly ReportedBand[], identity: Identity, wish: MeasureWish): string {
  return measured
    .map(({ band, grid, last, shots, visit, correction, report }) => {
      const range = `${formatFrequency(grid.startHz)} to ${formatFrequency(grid.stopHz)}`;
      const at = wish.plane === 'shack' ? 'in the shack' : 'at the feed point';
      const of = wish.target === 'antenna' ? at : 'of the reference load';
      const stored = visit === null ? 'Not stored' : `Stored as visit ${visit}`;
      const made = isSimulated(sourceOf(identity)) ? ' (simulated)' : '';
      const lines = [
        `${stored}${made}: ${plural(shots.length, 'shot')} ${of}, ${grid.points} points from ${range}`,
      ];
      lines.push(rangeText(band, wish, last));
      if (correction !== null)
        lines.push(`The readings were ${correction}; the raw ones are kept beside them.`);
      lines.push(report?.text ?? loadText(shots, band));
      return lines.join('\n');
    })
    .join('\n\n');
}

/** Why the range is what it is. */
function rangeText({ band }: Band, { asked }: MeasureWish, last: MeasuredBand['last']): string {
  if (asked.fromHz !== null && asked.toHz !== null) return 'The range is the one that was asked for.';
  const range = `The range is ${band} and ${100 * MARGIN} % beyond it on both sides`;
  const before = last === null ? '' : `, that of ${last.label}, and room for what it showed`;
  return `${range}${before}; --from and --to choose another.`;
}

/** A reference load is only there to be the same as last time. */
function loadText(shots: readonly CollectedShot[], band: Band): string {
  const summaries = shots.map(({ sweep }) => summariseBand(sweep, band));
  const worst = Math.max(...summaries.map((summary) => summary?.worstSwr ?? Number.NaN));
  return `${band.band}: SWR up to ${figure(worst, 3)}; diagnose tells a drift of the instrument from one of the antenna by this load`;
}
