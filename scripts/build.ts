/** Builds `dist`: the command and the library by tsc, the page by vite, and the data files that go with them. */
import { existsSync, rmSync } from 'node:fs';
import { runOrExit } from './run.ts';

rmSync('dist', { recursive: true, force: true });
runOrExit('npx', ['tsc', '-p', 'tsconfig.build.json']);
if (existsSync('web/vite.config.ts')) {
  runOrExit('npx', ['vite', 'build', '--config', 'web/vite.config.ts', '--logLevel', 'warn']);
}
