/**
 * Kills writers of a logbook at many random moments: `npm run powercut -- [--kills N] [--seed S]`. Each kill takes a
 * second or two.
 */
import { parseArgs } from 'node:util';
import { runOrExit } from './run.ts';

const { values } = parseArgs({
  options: { kills: { type: 'string', default: '300' }, seed: { type: 'string', default: '1' } },
});
process.env['TURFWIRE_KILLS'] = values.kills;
process.env['TURFWIRE_KILL_SEED'] = values.seed;
const title = 'in the middle of commands';
runOrExit('npx', ['vitest', 'run', 'test/end-to-end/logbook-power-cut.test.ts', '-t', title]);
