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
  /** Waits until each command was done once, and so is loaded. */
  afterFirstRound(): Promise<void>;
  /** Waits for its end; returns its exit code, null when it was killed. */
  ended(): Promise<number | null>;
}

/** Starts `logbook-writer.ts` on a logbook. */
export function startWriter(folder: string, name: string, rounds: number): WriterProcess {
  const script = join(import.meta.dirname, 'logbook-writer.ts');
  const child = spawn(process.execPath, ['--import', 'tsx', script, folder, name, String(rounds)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    said += text;
  });
  const closed = once(child, 'close') as Promise<[number | null]>;
  return {
    process: child,
    acknowledged: () => said.split('\n').slice(0, -1),
    afterFirstRound: async () => {
      while (!said.includes('\nshot ')) await once(child.stdout, 'data');
    },
    ended: async () => (await closed)[0],
  };
}

/** Everything that a logbook tells, in the words of `logbook-writer.ts`; a command counts when it is there whole. */
export function toldBy(logbook: Logbook): string[] {
  return logbook.events.flatMap((event) => {
    if (event.event === 'text') return [`text ${event.text}`];
    if (event.event === 'lay') return [`lay ${event.text}`];
    return event.event === 'shot' ? [`shot ${event.source}`] : [];
  });
}

/** Lets a lock that is left look as if its holder had been silent for a minute. */
export function ageLock(folder: string): void {
  const path = join(folder, LOCK_FOLDER);
  const then = Date.now() / 1000 - 60;
  if (existsSync(path)) utimesSync(path, then, then);
}
