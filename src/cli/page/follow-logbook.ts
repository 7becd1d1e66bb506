import { type Stats, unwatchFile, watchFile } from 'node:fs';
import { join } from 'node:path';
import { JOURNAL_FILE, SITE_FILE } from '../../logbook/logbook.ts';

/** Looking is cheap and works on every disk, where being told of changes does not. */
const LOOK_EVERY_MS = 500;

/**
 * Calls `changed` after each change of a logbook; one at a time, and once more where it changed meanwhile.
 * @returns ends it
 */
export function followLogbook(folder: string, changed: () => Promise<void>): () => void {
  let running = false;
  let again = false;
  const run = async (): Promise<void> => {
    again = true;
    if (running) return;
    running = true;
    while (again) {
      again = false;
      await changed();
    }
    running = false;
  };
  const look = (now: Stats, before: Stats): void => {
    if (now.mtimeMs !== before.mtimeMs || now.size !== before.size) void run();
  };
  const files = [JOURNAL_FILE, SITE_FILE].map((name) => join(folder, name));
  for (const file of files) watchFile(file, { interval: LOOK_EVERY_MS }, look);
  return () => {
    for (const file of files) unwatchFile(file, look);
  };
}
