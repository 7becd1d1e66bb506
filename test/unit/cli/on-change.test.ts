import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { CauseWatcher } from '../../../src/cli/on-change.ts';
import { temporaryFolder } from '../../support/logbooks.ts';

it('runs the command when the list of causes changes, and only then', async () => {
  const file = join(temporaryFolder(), 'seen');
  const told: string[] = [];
  const command = `node -e "fs.appendFileSync('${file}', process.env.TURFWIRE_CAUSES_BEFORE + ' > ' + process.env.TURFWIRE_CAUSES + ';')"`;
  const watcher = new CauseWatcher(command, (text) => told.push(text));
  await watcher.see(['none']);
  await watcher.see(['none']);
  expect(existsSync(file)).toBe(false);
  await watcher.see(['series-joint', 'soil-moisture']);
  await watcher.see(['series-joint', 'soil-moisture']);
  expect(readFileSync(file, 'utf8')).toBe('none > series-joint soil-moisture;');
  expect(told).toEqual(['the causes changed from "none" to "series-joint soil-moisture"']);
});

it('tells how a command failed, and goes on', async () => {
  const told: string[] = [];
  const watcher = new CauseWatcher('exit 7', (text) => told.push(text));
  await watcher.see(['none']);
  await watcher.see(['feedline']);
  expect(told.at(-1)).toBe('the --on-change command ended with code 7');
});
