import type { Part } from '../../formats/page-data.ts';
import type { Run } from '../commands.ts';
import type { Io } from '../io.ts';

/**
 * Asks another command for its `--json` document, so that the page says what the command says.
 *
 * @param command - what would bring the answer where there is none yet
 */
export async function ask<T>(io: Io, run: Run, args: readonly string[], command: string): Promise<Part<T>> {
  const told: string[] = [];
  const why: string[] = [];
  const code = await run([...args, '--json'], {
    ...io,
    out: (text) => void told.push(text),
    err: (text) => void why.push(text),
    terminal: false,
    colour: false,
  });
  if (code === 0) return { data: JSON.parse(told.join('\n')) as T, missing: null };
  return { data: null, missing: { why: sentence(why.at(-1) ?? ''), command } };
}

/** The last message of a command, without the program's name, as a sentence. */
function sentence(message: string): string {
  const text = message.replace(/^turfwire: /u, '').trim();
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.!?]$/u.test(text) ? '' : '.'}`;
}
