import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { CauseWatcher } from '../../../src/cli/on-change.ts';
import { UserError } from '../../../src/core/user-error.ts';
import { temporaryFolder } from '../../support/logbooks.ts';

/** A watcher that is told the causes, and what it told. */
function watcherOf(
  command: string,
  folder: string = temporaryFolder(),
): {
  see: (...causes: string[]) => Promise<void>;
  fail: (error: Error) => Promise<void>;
  told: string[];
} {
  const told: string[] = [];
  let next: () => Promise<string[]> = async () => [];
  const watcher = new CauseWatcher(
    command,
    () => next(),
    (text) => told.push(text),
  );
  return {
    told,
    see: (...causes) => {
      next = async () => causes;
      return watcher.look(folder);
    },
    fail: (error) => {
      next = () => Promise.reject(error);
      return watcher.look(folder);
    },
  };
}

it('runs the command when the list of causes changes, and only then', async () => {
  const file = join(temporaryFolder(), 'seen');
  const script = `fs.appendFileSync('${file}', process.env.TURFWIRE_CAUSES_BEFORE + ' > ' + process.env.TURFWIRE_CAUSES + ';')`;
  const { see, told } = watcherOf(`node -e "${script}"`);
  await see('none');
  await see('none');
  expect(existsSync(file)).toBe(false);
  await see('series-joint', 'soil-moisture');
  await see('series-joint', 'soil-moisture');
  expect(readFileSync(file, 'utf8')).toBe('none > series-joint soil-moisture;');
  expect(told).toEqual([
    'the likely causes: none',
    'the likely causes changed from "none" to "series-joint soil-moisture"',
  ]);
});

it('sees a change that came while no watch ran', async () => {
  const folder = temporaryFolder();
  await watcherOf('exit 0', folder).see('none');
  const later = watcherOf('exit 7', folder);
  await later.see('series-joint');
  expect(later.told).toEqual([
    'the likely causes changed from "none" to "series-joint"',
    'the --on-change command ended with code 7',
  ]);
});

it('tells how a command failed, and goes on', async () => {
  const { see, told } = watcherOf('exit 7');
  await see('none');
  await see('feedline');
  expect(told.at(-1)).toBe('the --on-change command ended with code 7');
});

it('tells once why the causes cannot be told, and forgets nothing meanwhile', async () => {
  const { see, fail, told } = watcherOf('exit 0');
  await see('none');
  const few = new UserError('visits-missing', 'needs two visits');
  await fail(few);
  await fail(few);
  await see('feedline');
  expect(told).toEqual([
    'the likely causes: none',
    'the causes cannot be told: needs two visits',
    'the likely causes changed from "none" to "feedline"',
  ]);
});
