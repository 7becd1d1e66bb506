import { describe, expect, it } from 'vitest';
import { runCommand } from '../../support/fake-io.ts';

describe('turfwire help', () => {
  it('prints the help of a command within a command', async () => {
    const { code, out } = await runCommand(['help', 'note', 'moisture']);
    expect({ code, out }).toEqual({ code: 0, out: (await runCommand(['note', 'moisture', '--help'])).out });
    expect(out).toContain('note moisture [options] <PERCENT>');
  });

  it('prints the help of the command for a word that is none of its own', async () => {
    const { code, out } = await runCommand(['help', 'read', 'anything']);
    expect({ code, out }).toEqual({ code: 0, out: (await runCommand(['help', 'read'])).out });
  });
});
