import type { Command } from 'commander';
import type { Io } from './io.ts';

/** A command's file gives one of these: it adds arguments, options, an example and the action. */
export type Register = (command: Command, io: Io) => void;

interface Entry {
  readonly name: string;
  readonly summary: string;
  /** Loaded only when the command is called or asked for its help, so that start-up stays quick. */
  load(): Promise<{ register: Register }>;
}

/** Every command, in the order in which the help lists them. */
export const COMMANDS: readonly Entry[] = [
  { name: 'read', summary: 'say what sweep files hold', load: () => import('./read.ts') },
];
