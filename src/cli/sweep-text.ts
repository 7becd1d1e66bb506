import { formatFrequency } from '../core/quantity.ts';
import { figure, table } from './answer.ts';
import { type BandReport, NO_RESONANCE, type SweepReport } from './sweep-report.ts';

/** One sweep for people: a sentence, then a table of its bands. */
export function describeSweep(report: SweepReport, sweepsInFile: number): string {
  const name = sweepsInFile > 1 ? `${report.file}, sweep ${report.shot} of ${sweepsInFile}` : report.file;
  const range = `${report.points} points, ${formatFrequency(report.fromHz)} to ${formatFrequency(report.toHz)}`;
  const where = report.plane === 'shack' ? 'as seen in the shack' : 'at the feed point';
  const parts = [
    `${name}: ${sentence(report)}`,
    `  ${range}, ${where}, SWR against ${report.referenceOhm} ohm`,
    // What the sentence has not said already.
    ...report.notes.filter((note) => note !== NO_RESONANCE).map((note) => `  ${note}`),
  ];
  if (report.bands.length > 0) parts.push(indent(table([HEADER, ...report.bands.map(bandRow)])));
  return parts.join('\n');
}

const HEADER = ['band', 'covered MHz', 'best SWR', 'at MHz', 'worst SWR', 'return loss dB', 'SWR ≤ 2 kHz'];

function bandRow(band: BandReport): string[] {
  const widthKhz = band.swr2BandwidthHz === null ? null : band.swr2BandwidthHz / 1e3;
  return [
    band.band,
    `${mhz(band.fromHz)} to ${mhz(band.toHz)}${band.wholeBand ? '' : ' (part)'}`,
    figure(band.bestSwr, 2),
    band.bestSwrHz === null ? '-' : mhz(band.bestSwrHz),
    figure(band.worstSwr, 2),
    figure(band.worstReturnLossDb, 1),
    `${figure(widthKhz, 0)}${band.swr2OpenEnded ? ' or more' : ''}`,
  ];
}

/** Where the dip is, what R is at X = 0, which bands stay at or under 2. */
function sentence(report: SweepReport): string {
  return [dip(report), resonance(report), under(report.bands)].filter((part) => part !== '').join('; ');
}

function dip({ minSwr, minSwrHz, fromHz, toHz }: SweepReport): string {
  if (minSwr === null || minSwrHz === null) return 'no point has an SWR';
  const atEnd = minSwrHz === fromHz || minSwrHz === toHz ? ', at the end of the sweep: sweep further' : '';
  return `lowest SWR ${minSwr.toFixed(2)} at ${formatFrequency(minSwrHz)}${atEnd}`;
}

function resonance({ kind, resonances }: SweepReport): string {
  if (kind === 'swr') return NO_RESONANCE;
  if (resonances.length === 0) return 'X does not cross zero in this sweep';
  return resonances
    .map(
      (found) =>
        `X = 0 at ${formatFrequency(found.frequencyHz)} with R ${found.resistanceOhm.toFixed(1)} ohm` +
        (found.kind === 'parallel' ? ' (parallel resonance)' : ''),
    )
    .join(', ');
}

function under(bands: readonly BandReport[]): string {
  if (bands.length === 0) return 'it covers no amateur band';
  const good = bands.filter((band) => band.worstSwr !== null && band.worstSwr <= 2);
  if (good.length === 0) return 'no band stays at or under SWR 2';
  return `SWR stays at or under 2 on ${good.map((band) => `${band.band}${band.wholeBand ? '' : ' (the part swept)'}`).join(', ')}`;
}

function mhz(frequencyHz: number): string {
  return (frequencyHz / 1e6).toFixed(3);
}

function indent(text: string): string {
  return text.replace(/^/gmu, '  ');
}
