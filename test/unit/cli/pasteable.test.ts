import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../../src/cli/commands.ts';
import { howCalled, type Start } from '../../../src/cli/how-called.ts';
import type { Io } from '../../../src/cli/io.ts';
import { asCalled, helpAsCalled, pasteable, proposal } from '../../../src/cli/pasteable.ts';
import { runCommand } from '../../support/fake-io.ts';

const io = { called: 'npx turfwire' } as Io;

describe('pasteable', () => {
  it('gives a line that a shell takes apart into the same words', () => {
    const words = [
      'plain',
      '/dev/ttyACM0',
      'two words',
      "it's",
      '$HOME',
      '*',
      '',
      '~',
      'simulated:drop=0.1,seed=7',
    ];
    const line = pasteable(words);
    expect(line).toContain('plain /dev/ttyACM0');
    const came = execFileSync('/bin/sh', ['-c', `for word in ${line}; do printf '%s\\n' "$word"; done`], {
      encoding: 'utf8',
    });
    expect(came.split('\n').slice(0, -1)).toEqual(words);
  });
});

describe('proposal', () => {
  it('calls the command as the user does, and names the logbook where they named it', () => {
    expect(proposal(io, ['measure', '--port', '/dev/ttyACM0'], { logbook: 'my field' })).toBe(
      "npx turfwire measure --port /dev/ttyACM0 --logbook 'my field'",
    );
    expect(proposal(io, ['check'], {})).toBe('npx turfwire check');
  });
});

describe('asCalled', () => {
  it('changes the commands that a message names in backquotes, and nothing else', () => {
    expect(asCalled(io, 'no such file: `turfwire begin` makes one for turfwire 2')).toBe(
      'no such file: `npx turfwire begin` makes one for turfwire 2',
    );
  });
});

describe('helpAsCalled', () => {
  it('changes every command of the help, quoted or not', () => {
    const help =
      'Usage: turfwire lay [options]\n  --port  (turfwire ports lists them)\n\nExample: turfwire lay --length 6m';
    expect(helpAsCalled(io, help)).toBe(
      'Usage: npx turfwire lay [options]\n  --port  (npx turfwire ports lists them)\n\nExample: npx turfwire lay --length 6m',
    );
  });

  it('leaves no command in any help that cannot be pasted', async () => {
    for (const { name } of COMMANDS) {
      const { out } = await runCommand(['help', name], { called: 'npx turfwire' });
      expect(out).toContain(`Usage: npx turfwire ${name}`);
      expect(out.replaceAll('npx turfwire ', '')).not.toMatch(/\bturfwire [a-z]/u);
    }
  });
});

describe('howCalled', () => {
  const start = (script: string, more: Partial<Start> = {}): Start => ({
    argv: ['/usr/bin/node', script],
    execArgv: [],
    env: { PATH: '/usr/bin:/opt/bin' },
    cwd: () => '/home/field',
    ...more,
  });

  it.each([
    ['a program on the path', start('/opt/bin/turfwire'), 'turfwire'],
    ['npx', start('/opt/bin/turfwire', { env: { PATH: '/opt/bin', npm_command: 'exec' } }), 'npx turfwire'],
    ['a program beside the project', start('/home/field/node_modules/.bin/turfwire'), 'npx turfwire'],
    ['node with a script', start('/home/field/dist/cli/main.js'), 'node dist/cli/main.js'],
    [
      'node with options',
      start('/home/src/cli/main.ts', { execArgv: ['--import', 'tsx'] }),
      'node --import tsx ../src/cli/main.ts',
    ],
  ])('tells %s', (_, given, called) => {
    expect(howCalled(given)).toBe(called);
  });
});
