import { Command, CommanderError } from 'commander';
import { UserError } from '../core/user-error.ts';
import { COMMANDS } from './commands.ts';
import { exitCodeOf, failureJson, failureText } from './failure.ts';
import type { Io } from './io.ts';
import { asCalled, helpAsCalled } from './pasteable.ts';
import { plainJson, plainText } from './plain-text.ts';
import { version } from './version.ts';

/**
 * Runs one command line. With `--json` it prints one document whatever comes: a command that fails before it has
 * printed its own has its failure printed in that form.
 *
 * @param args - without node and the script
 * @returns the exit code: 0 done, 1 input, 2 command line, 3 instrument, 4 logbook
 */
export async function run(args: readonly string[], world: Io): Promise<number> {
  let hasPrinted = false;
  const io: Io = {
    ...world,
    out: (text) => {
      hasPrinted = true;
      world.out(text);
    },
    // Whoever writes a message, and whatever of the user's it repeats: it does nothing to a terminal.
    err: (text) => world.err(asCalled(world, plainText(text))),
  };
  try {
    const program = await buildProgram(args, io);
    await program.parseAsync(subcommandHelp(args), { from: 'user' });
    return 0;
  } catch (error) {
    if (!(error instanceof UserError || error instanceof CommanderError)) throw error;
    const exitCode = exitCodeOf(error);
    // Commander has told its own already.
    if (error instanceof UserError) io.err(failureText(error));
    if (exitCode !== 0 && !hasPrinted && args.includes('--json')) io.out(plainJson(failureJson(error), 2));
    return exitCode;
  }
}

/** `help note moisture` as `note moisture --help`: commander's own `help` takes no further word than the first. */
function subcommandHelp(args: readonly string[]): readonly string[] {
  const [word, command, ...below] = args;
  return word === 'help' && command !== undefined && below.length > 0 ? [command, ...below, '--help'] : args;
}

/** The whole program, with only the called command's options loaded. */
async function buildProgram(args: readonly string[], io: Io): Promise<Command> {
  const program = new Command('turfwire')
    .description('Lay ground radials under a vertical antenna, and know what each handful did.')
    .version(await version(), '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .addHelpText('after', '\nHelp on one command: turfwire help read')
    .showSuggestionAfterError(true)
    .configureOutput({
      writeOut: (text) => io.out(helpAsCalled(io, plainText(text.trimEnd()))),
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
