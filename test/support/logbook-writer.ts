/**
 * A process that writes to a logbook by real commands and tells of each when it is acknowledged:
 * `logbook-writer.ts FOLDER NAME ROUNDS COMMANDS`. Each line of its output is the remark, or the radial, or the file,
 * or the visit that a command has said to be logged.
 */
import { rmSync, writeFileSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runCommand } from './fake-io.ts';
import { measuredIn } from './written.ts';

const [folder = '', name = '', rounds = '0', commands = ''] = process.argv.slice(2);

const acknowledge = (what: string) => writeSync(1, `${what}\n`);

async function command(...args: string[]): Promise<string> {
  const { code, out, err } = await runCommand(args, { cwd: tmpdir(), env: { TURFWIRE_LOGBOOK: folder } });
  if (code === 0) return out;
  process.stderr.write(`${args.join(' ')}: ${err}\n`);
  process.exit(code);
}

/** What one round of each command does; gives what it says to be logged. */
const ROUND: Readonly<Record<string, (mark: string, round: number) => Promise<string>>> = {
  note: async (mark) => {
    await command('note', 'text', mark);
    return `text ${mark}`;
  },
  lay: async (mark) => {
    await command('lay', '--count', '2', '--length', '6m', '--text', mark);
    return `lay ${mark}`;
  },
  import: async (mark, round) => {
    const sweep = join(tmpdir(), `turfwire-${mark}.csv`);
    const ohm = process.pid + round / 1000;
    writeFileSync(sweep, `Hz,R,X\n7000000,${ohm},1\n7100000,36,2\n7000000,${ohm},3\n7100000,36,4\n`);
    await command('import', sweep);
    rmSync(sweep);
    return `shot turfwire-${mark}.csv`;
  },
  measure: async (_, round) => {
    const port = `simulated:seed=${process.pid * 1000 + round}`;
    const sweep = ['--band', '40m', '--points', '5', '--shots', '2'];
    return measuredIn(await command('measure', '--port', port, ...sweep, '--json'));
  },
};

for (let round = 1; round <= Number(rounds); round++) {
  for (const one of commands.split(',')) {
    acknowledge((await ROUND[one]?.(`${name}-${round}`, round)) ?? `no command ${one}`);
  }
}
