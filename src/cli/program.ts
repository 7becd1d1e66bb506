import { Command, CommanderError } from 'commander';
import { describePlace, EXIT_CODES, UserError } from '../core/user-error.ts';
import { COMMANDS } from './commands.ts';
import type { Io } from './io.ts';
import { plainText } from './plain-text.ts';
import { version } from './version.ts';

/**
 * Runs one command line.
 *
 * @param args - without node and the script
 * @returns the exit code: 0 done, 1 input, 2 command line, 3 instrument, 4 logbook
 */
export async function run(args: readonly string[], world: Io): Promise<number> {
  // Whoever writes a message, and whatever of the user's it repeats: it does nothing to a terminal.
  const io: Io = { ...world, err: (text) => world.err(plainText(text)) };
  try {
    const program = await buildProgram(args, io);
    await program.parseAsync(args, { from: 'user' });
    return 0;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : EXIT_CODES['command-line'];
    if (!(error instanceof UserError)) throw error;
    io.err(`turfwire: ${describePlace(error.place)}${error.message}`);
    return EXIT_CODES[isOfCommandLine(error) ? 'command-line' : error.kind];
  }
}

/** Whether the trouble is an option (`--power`) or an argument (`RADIAL`), whoever found it. */
function isOfCommandLine({ kind, place }: UserError): boolean {
  return kind === 'input' && place.file === undefined && /^(?:--|[A-Z]+$)/u.test(place.field ?? '');
}

/** The whole program, with only the called command's options loaded. */
async function buildProgram(args: readonly string[], io: Io): Promise<Command> {
  const program = new Command('turfwire')
    .description('Lay ground radials under a vertical antenna, and know what each handful did.')
    .version(await version(), '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .addHelpText('after', '\nHelp on one command: turfwire help read')
    .showSuggestionAfterError(true)
    .configureOutput({
      writeOut: (text) => io.out(plainText(text.trimEnd())),
      writeErr: (text) => io.err(text.trimEnd().replace(/^error: /u, 'turfwire: ')),
      getOutHasColors: () => io.colour,
      getErrHasColors: () => false,
    })
    .exitOverride();
  const called = new Set(args);
  for (const entry of COMMANDS) {
    const command = program.command(entry.name).description(entry.summary).copyInheritedSettings(program);
    if (called.has(entry.name)) (await entry.load()).register(command, io, run);
  }
  return program;
}
