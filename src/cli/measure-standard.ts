import type { Band } from '../core/sweep/bands.ts';
import { type StandardDefinition, standardText } from '../core/sweep/calibration-standards.ts';
import { reflectionSweepOf } from '../core/sweep/reflection-sweep.ts';
import { UserError } from '../core/user-error.ts';
import type { Grid } from '../instrument/codec/grid.ts';
import { planSweep, widestRange } from '../instrument/sweep-plan.ts';
import { withWriter } from '../logbook/logbook.ts';
import { isoWithZone } from '../logbook/time.ts';
import { printAnswer } from './answer.ts';
import { sourceOf } from './correction.ts';
import type { Io } from './io.ts';
import type { MeasureSession, MeasureWish } from './measure-band.ts';

/** Sweeps a calibration standard over each band, wide enough for every sweep to come, and logs it. */
export async function measureStandard(
  io: Io,
  session: MeasureSession,
  definition: StandardDefinition,
  bands: readonly Band[],
  wish: MeasureWish,
  asJson: boolean,
): Promise<void> {
  const { instrument, logbook, writing } = session;
  const { identity } = instrument;
  if (logbook === null) {
    throw new UserError('standard-nowhere', 'a standard is of use only in a logbook: leave --no-store out', {
      kind: 'command-line',
    });
  }
  if (identity.corrected) {
    throw new UserError(
      'standard-not-needed',
      `"${sourceOf(identity)}" corrects its own readings: calibrate it from its own panel, as its manual says`,
    );
  }
  const source = sourceOf(identity);
  const ranges: Grid[] = [];
  for (const band of bands) {
    // Twice the points, for about twice the range of the sweeps that it corrects.
    const known = { sweptLast: widestRange(band), shownLast: null, asked: wish.asked };
    const grid = planSweep({ band, ...known, points: 2 * wish.points }, identity);
    const { raw } = await instrument.sweep(grid);
    if (raw.kind === 'swr')
      throw new UserError('sweep-scalar', 'this instrument gives only the SWR, which cannot be corrected', {
        kind: 'instrument',
      });
    const sweep = raw.kind === 'impedance' ? reflectionSweepOf(raw) : raw;
    const time = isoWithZone(writing.now());
    await withWriter(logbook.folder, writing, (writer) =>
      writer.addStandard({ time, definition, sweep, source }),
    );
    ranges.push(grid);
  }
  const text = standardText(definition);
  printAnswer(
    io,
    {
      json: {
        standard: definition,
        ranges: ranges.map(({ startHz, stopHz, points }) => ({ fromHz: startHz, toHz: stopHz, points })),
      },
      text: `Logged as calibration standard: ${text}, over ${bands.map(({ band }) => band).join(', ')}`,
    },
    asJson,
  );
}
