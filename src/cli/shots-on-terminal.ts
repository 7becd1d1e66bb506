import type { Band } from '../core/sweep/bands.ts';
import type { ShotsHeard } from './collect-shots.ts';
import { shotText } from './figures-text.ts';
import type { Io } from './io.ts';
import type { MeasureWish } from './measure-band.ts';
import { progressOn } from './progress-bar.ts';

/** Shows the shots of a band as they come: a bar on a terminal, and a line for each one taken. */
export async function shotsOnTerminal(
  io: Io,
  band: Band,
  { shots, pauseMs, target }: MeasureWish,
): Promise<ShotsHeard & { stop: () => void }> {
  // A bar that was stopped cannot be started again, so every shot has its own.
  const bars = await Promise.all(
    Array.from({ length: shots }, () => progressOn(io, `points of ${band.band}`)),
  );
  return {
    pause: (next) => {
      const what =
        target === 'antenna'
          ? 'take the connector off and on, then let go of the coax'
          : 'take the load off and on';
      io.err(`${band.band}, shot ${next} of ${shots} in ${pauseMs / 1000} s: ${what}`);
    },
    progress: (shot, received, points) => bars[shot - 1]?.update(received, points),
    done: (shot, { sweep, effort }) => {
      bars[shot - 1]?.stop();
      const mended =
        effort.reAsks > 0 ? ` (${effort.badLines} bad lines, mended by ${effort.reAsks} requests)` : '';
      io.err(`${band.band}, shot ${shot} of ${shots}: ${shotText(sweep, band)}${mended}`);
    },
    stop: () => {
      for (const bar of bars) bar.stop();
    },
  };
}
