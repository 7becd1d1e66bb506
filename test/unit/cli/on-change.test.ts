import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { CauseWatcher } from '../../../src/cli/on-change.ts';
import { CAUSES, type CauseName } from '../../../src/core/drift/cause.ts';
import type { ProbableCause } from '../../../src/core/drift/steady-causes.ts';
import { UserError } from '../../../src/core/user-error.ts';
import { temporaryFolder } from '../../support/logbooks.ts';

const CALM = { none: 0.95, 'soil-moisture': 0.05 };
const CLEAR_LINE = { feedline: 0.97, none: 0.03 };
const JOINT = { 'series-joint': 0.6, 'soil-moisture': 0.35, none: 0.05 };

/** A watcher that is told the causes, and what it told. */
function watcherOf(
  command: string,
  folder: string = temporaryFolder(),
): {
  see: (causes: Partial<Record<CauseName, number>>) => Promise<void>;
  fail: (error: Error) => Promise<void>;
  told: string[];
} {
  const told: string[] = [];
  let next: () => Promise<ProbableCause[]> = async () => [];
  const watcher = new CauseWatcher(
    command,
    () => next(),
    (text) => told.push(text),
  );
  return {
    told,
    see: (causes) => {
      next = async () => CAUSES.map((cause) => ({ cause, probability: causes[cause] ?? 0 }));
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
  await see(CALM);
  await see(CALM);
  await see(JOINT);
  expect(existsSync(file)).toBe(false);
  await see(JOINT);
  await see(JOINT);
  expect(readFileSync(file, 'utf8')).toBe('none > series-joint soil-moisture;');
  expect(told).toEqual([
    'the likely causes: none',
    'the likely causes changed from "none" to "series-joint soil-moisture"',
  ]);
});

it('lets one odd visit pass, and tells a clear fault at once', async () => {
  const { see, told } = watcherOf('exit 0');
  await see(CALM);
  await see(JOINT);
  await see(CALM);
  expect(told).toEqual(['the likely causes: none']);
  await see(CLEAR_LINE);
  await see(CLEAR_LINE);
  expect(told.slice(1)).toEqual(['the likely causes changed from "none" to "feedline"']);
});

it('sees a change that came while no watch ran', async () => {
  const folder = temporaryFolder();
  await watcherOf('exit 0', folder).see(CALM);
  const later = watcherOf('exit 7', folder);
  await later.see({ 'series-joint': 0.95 });
  expect(later.told).toEqual([
    'the likely causes changed from "none" to "series-joint"',
    'the --on-change command ended with code 7',
  ]);
});

it('tells how a command failed, and goes on', async () => {
  const { see, told } = watcherOf('exit 7');
  await see(CALM);
  await see(CLEAR_LINE);
  expect(told.at(-1)).toBe('the --on-change command ended with code 7');
});

it('tells once why the causes cannot be told, and forgets nothing meanwhile', async () => {
  const { see, fail, told } = watcherOf('exit 0');
  await see(CALM);
  const few = new UserError('visits-missing', 'needs two visits');
  await fail(few);
  await fail(few);
  await see(CLEAR_LINE);
  expect(told).toEqual([
    'the likely causes: none',
    'the causes cannot be told: needs two visits',
    'the likely causes changed from "none" to "feedline"',
  ]);
});
