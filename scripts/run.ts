import { spawnSync } from 'node:child_process';

/** Runs a program with our own standard streams; ends this process with its code when it fails. */
export function runOrExit(program: string, args: readonly string[]): void {
  const { status, error } = spawnSync(program, args, { stdio: 'inherit' });
  if (error !== undefined) {
    process.stderr.write(`cannot run ${program}: ${error.message}\n`);
    process.exit(1);
  }
  if (status !== 0) process.exit(status ?? 1);
}

/** True when a program of this name is on the path and answers. */
export function answers(program: string, args: readonly string[] = ['--version']): boolean {
  return spawnSync(program, args, { stdio: 'ignore' }).status === 0;
}
