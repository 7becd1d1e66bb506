import type { Band } from '../core/sweep/bands.ts';
import type { ShotsHeard } from './collect-shots.ts';
import type { Io } from './io.ts';
import type { MeasureWish } from './measure-band.ts';
import { progressOn } from './progress-bar.ts';
import { shotText } from './shot-text.ts';

/** Shows the shots of a band as they come: a bar on a terminal, and a line for each one taken. */
export async function shotsOnTerminal(
  io: Io,
  band: Band,
  { shots, pauseMs, target }: MeasureWish,
): Promise<ShotsHeard & { stop: () => void }> {
  const bar = await progressOn(io, `points of ${band.band}`);
  return {
    pause: (next) => {
      const what =
        target === 'antenna'
          ? 'take the connector off and on, then let go of the coax'
          : 'take the load off and on';
      io.err(`Shot ${next} of ${shots} in ${pauseMs / 1000} s: ${what}`);
    },
    progress: (_, received, points) => bar.update(received, points),
    done: (shot, { sweep, effort }) => {
      bar.stop();
      const mended =
        effort.reAsks > 0 ? ` (${effort.badLines} bad lines, mended by ${effort.reAsks} requests)` : '';
      io.err(`Shot ${shot} of ${shots}: ${shotText(sweep, band)}${mended}`);
    },
    stop: () => bar.stop(),
  };
}
