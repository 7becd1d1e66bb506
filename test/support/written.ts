import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import { LOCK_FOLDER } from '../../src/logbook/lock.ts';
import type { Logbook } from '../../src/logbook/logbook.ts';

/** A writer in a process of its own. */
export interface WriterProcess {
  readonly process: ChildProcess;
  /** What it has said to be logged so far, whole lines only. */
  acknowledged(): string[];
  /** Waits until each command was done once, and so is loaded; false when it ended before. */
  afterFirstRound(): Promise<boolean>;
  /** Waits for its end; returns its exit code, null when it was killed. */
  ended(): Promise<number | null>;
}

/** Starts `logbook-writer.ts` on a logbook. */
export function startWriter(
  folder: string,
  name: string,
  rounds: number,
  commands: readonly string[] = ['note', 'lay', 'import'],
): WriterProcess {
  const script = join(import.meta.dirname, 'logbook-writer.ts');
  return start([script, folder, name, String(rounds), commands.join()], commands.length, (line) => line);
}

/** Starts a watch of the simulated instrument, a round every second. */
export function startWatch(folder: string, seed: number): WriterProcess {
  const main = join(import.meta.dirname, '../../src/cli/main.ts');
  const sweep = ['--band', '40m', '--points', '5', '--shots', '2'];
  const options = ['--every', '1s', '--logbook', folder, '--json'];
  return start([main, 'watch', '--port', `simulated:seed=${seed}`, ...sweep, ...options], 1, measuredIn);
}

/** What the JSON of `measure` or of one round of `watch` says to be logged. */
export function measuredIn(json: string): string {
  const { bands } = JSON.parse(json) as { bands: { visit: number; shots: unknown[] }[] };
  return bands.map(({ visit, shots }) => `measured ${visit} ${shots.length}`).join('; ');
}

function start(args: string[], firstRound: number, said: (line: string) => string): WriterProcess {
  const child = spawn(process.execPath, ['--import', 'tsx', ...args], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  let output = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    output += text;
  });
  const lines = () => output.split('\n').slice(0, -1);
  const closed = once(child, 'close') as Promise<[number | null]>;
  return {
    process: child,
    acknowledged: () => lines().map(said),
    afterFirstRound: async () => {
      while (lines().length < firstRound && child.exitCode === null) {
        await Promise.race([once(child.stdout, 'data'), closed]);
      }
      return child.exitCode === null;
    },
    ended: async () => (await closed)[0],
  };
}

/** Everything that a logbook tells, in the words of `logbook-writer.ts`; a command counts when it is there whole. */
export function toldBy(logbook: Logbook): string[] {
  const told = logbook.events.flatMap((event) => {
    if (event.event === 'text') return [`text ${event.text}`];
    if (event.event === 'lay') return [`lay ${event.text}`];
    return event.event === 'shot' && event.source !== SIMULATED ? [`shot ${event.source}`] : [];
  });
  const measured = logbook.visits.filter(({ shots }) => shots[0]?.source === SIMULATED);
  return [...told, ...measured.map(({ visit, shots }) => `measured ${visit} ${shots.length}`)];
}

/** What the simulated instrument calls itself. */
const SIMULATED = 'simulated';

/** Lets a lock that is left look as if its holder had been silent for a minute. */
export function ageLock(folder: string): void {
  const path = join(folder, LOCK_FOLDER);
  const then = Date.now() / 1000 - 60;
  if (existsSync(path)) utimesSync(path, then, then);
}
