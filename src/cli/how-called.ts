import { delimiter, dirname, relative } from 'node:path';
import { pasteable } from './pasteable.ts';

/** What a process knows of how it was started. */
export interface Start {
  readonly argv: readonly string[];
  readonly execArgv: readonly string[];
  readonly env: Readonly<Record<string, string | undefined>>;
  cwd(): string;
}

/**
 * What to type to call this program again from the same folder: `turfwire` where it is on the path, `npx turfwire` under
 * npm, else the node command that was given.
 */
export function howCalled({ argv, execArgv, env, cwd }: Start): string {
  const script = argv[1] ?? '';
  if (env['npm_command'] !== undefined) return 'npx turfwire';
  if (/\.[cm]?[jt]s$/u.test(script))
    return pasteable(['node', ...execArgv, relative(cwd(), script) || script]);
  const onPath = (env['PATH'] ?? '').split(delimiter).includes(dirname(script));
  return onPath ? 'turfwire' : 'npx turfwire';
}
