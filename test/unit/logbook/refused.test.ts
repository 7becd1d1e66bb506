import { readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { REAL_DISK } from '../../../src/logbook/disk.ts';
import { setAside } from '../../../src/logbook/refused.ts';
import { temporaryFolder } from '../../support/logbooks.ts';

describe('what is refused', () => {
  it('is kept byte for byte, with the reason beside it', async () => {
    const folder = temporaryFolder();
    const bytes = Uint8Array.of(0, 255, 13, 10, 27);
    const kept = await setAside(REAL_DISK, folder, '../odd name.csv', bytes, 'no numbers in it');
    expect(kept).toBe('refused/odd-name.csv');
    expect([...readFileSync(join(folder, kept))]).toEqual([...bytes]);
    expect(readFileSync(join(folder, `${kept}.why.txt`), 'utf8')).toBe('no numbers in it\n');
  });

  it('never takes the place of another file of that name, and is kept once when it is the same', async () => {
    const folder = temporaryFolder();
    const keep = (text: string) => setAside(REAL_DISK, folder, 'a.csv', Buffer.from(text), 'why');
    expect([await keep('one'), await keep('two'), await keep('one'), await keep('two')]).toEqual([
      'refused/a.csv',
      'refused/a-2.csv',
      'refused/a.csv',
      'refused/a-2.csv',
    ]);
    expect(readdirSync(join(folder, 'refused'))).toHaveLength(4);
  });

  it('is not written through a link that leads out', async () => {
    const [folder, elsewhere] = [temporaryFolder(), temporaryFolder()];
    symlinkSync(elsewhere, join(folder, 'refused'));
    await expect(setAside(REAL_DISK, folder, 'a.csv', Buffer.from('x'), 'why')).rejects.toMatchObject({
      code: 'outside-logbook',
    });
    expect(readdirSync(elsewhere)).toEqual([]);
  });
});
