import type { Command } from 'commander';
import type { Io } from './io.ts';

/** Runs a whole command line; gives its exit code. */
export type Run = (args: readonly string[], io: Io) => Promise<number>;

/** A command's file gives one of these: it adds arguments, options, an example and the action. */
export type Register = (command: Command, io: Io, run: Run) => void;

interface Entry {
  readonly name: string;
  readonly summary: string;
  /** Loaded only when the command is called or asked for its help, so that start-up stays quick. */
  load(): Promise<{ register: Register }>;
}

/** Every command, in the order in which the help lists them. */
export const COMMANDS: readonly Entry[] = [
  { name: 'begin', summary: 'make a logbook', load: () => import('./begin.ts') },
  { name: 'lay', summary: 'log radials that were laid', load: () => import('./lay.ts') },
  { name: 'lift', summary: 'log radials that were taken up', load: () => import('./lift.ts') },
  { name: 'note', summary: 'log a reading or a remark', load: () => import('./note.ts') },
  {
    name: 'measure',
    summary: 'sweep with an instrument on a serial port',
    load: () => import('./measure.ts'),
  },
  {
    name: 'watch',
    summary: 'measure unattended, hour after hour',
    load: () => import('./watch.ts'),
  },
  { name: 'ports', summary: 'list serial ports, and who may use them', load: () => import('./ports.ts') },
  { name: 'import', summary: 'store sweep files as visits', load: () => import('./import.ts') },
  { name: 'export', summary: 'write stored sweeps as Touchstone or CSV', load: () => import('./export.ts') },
  { name: 'history', summary: 'list what was logged, in order', load: () => import('./history.ts') },
  { name: 'read', summary: 'show what sweep files say', load: () => import('./read.ts') },
  {
    name: 'plan',
    summary: 'work out where wires should go, and how many are worth it',
    load: () => import('./plan.ts'),
  },
  {
    name: 'progress',
    summary: 'show what each handful of wires did, and whether to lay more',
    load: () => import('./progress.ts'),
  },
  {
    name: 'compare',
    summary: 'tell whether a difference between visits is real',
    load: () => import('./compare.ts'),
  },
  {
    name: 'diagnose',
    summary: 'say what changed, how sure that is, and which check comes first',
    load: () => import('./diagnose.ts'),
  },
  { name: 'check', summary: 'verify a logbook, and name what is damaged', load: () => import('./check.ts') },
  {
    name: 'demo',
    summary: 'replay two invented seasons through the real commands',
    load: () => import('./demo.ts'),
  },
  {
    name: 'safety',
    summary: 'show what transmitting asks of the garden: distances, wire ends, joints, cautions',
    load: () => import('./safety.ts'),
  },
  {
    name: 'page',
    summary: 'write the six answers to one page that opens with a double click',
    load: () => import('./page.ts'),
  },
];
