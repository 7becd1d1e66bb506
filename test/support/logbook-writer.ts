/**
 * A process that writes to a logbook by real commands and tells of each when it is acknowledged:
 * `logbook-writer.ts FOLDER NAME ROUNDS`. Each line of its output is the remark, or the radial, or the file
 * that a command has said to be logged.
 */
import { rmSync, writeFileSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Io } from '../../src/cli/io.ts';
import { run } from '../../src/cli/program.ts';

const [folder = '', name = '', rounds = '0'] = process.argv.slice(2);

const messages: string[] = [];

const io: Io = {
  out: () => {},
  err: (text) => messages.push(text),
  cwd: tmpdir(),
  env: { TURFWIRE_LOGBOOK: folder },
  terminal: false,
  colour: false,
  now: () => new Date(),
  stdin: async () => new Uint8Array(),
};

const acknowledge = (what: string) => writeSync(1, `${what}\n`);

async function command(...args: string[]): Promise<void> {
  const code = await run(args, io);
  if (code === 0) return;
  process.stderr.write(`${args.join(' ')}: ${messages.join('\n')}\n`);
  process.exit(code);
}

for (let round = 1; round <= Number(rounds); round++) {
  const mark = `${name}-${round}`;
  await command('note', 'text', mark);
  acknowledge(`text ${mark}`);
  await command('lay', '--count', '2', '--length', '6m', '--text', mark);
  acknowledge(`lay ${mark}`);
  const sweep = join(tmpdir(), `turfwire-${mark}.csv`);
  const ohm = process.pid + round / 1000;
  writeFileSync(sweep, `Hz,R,X\n7000000,${ohm},1\n7100000,36,2\n7000000,${ohm},3\n7100000,36,4\n`);
  await command('import', sweep);
  acknowledge(`shot turfwire-${mark}.csv`);
  rmSync(sweep);
}
