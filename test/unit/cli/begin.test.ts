import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runCommand } from '../../support/fake-io.ts';
import { temporaryFolder } from '../../support/logbooks.ts';

describe('turfwire begin', () => {
  it('writes what was given into site.json, and nothing else', async () => {
    const cwd = temporaryFolder();
    const args = ['begin', 'field', '--name', 'Lakeside plot', '--height', '10.1m', '--diameter', '25mm'];
    const ran = await runCommand([...args, '--band', '40m', '--json'], { cwd });
    expect(ran.code).toBe(0);
    expect(ran.json()).toEqual({
      folder: join(cwd, 'field'),
      site: 'Lakeside plot',
      siteKept: false,
      notTaken: [],
    });
    expect(JSON.parse(readFileSync(join(cwd, 'field/site.json'), 'utf8'))).toEqual({
      version: 1,
      name: 'Lakeside plot',
      antenna: { kind: 'quarter-wave', height: '10.1m', diameter: '25mm', bands: ['40m'] },
    });
    expect((await runCommand(['check', '--logbook', 'field'], { cwd })).code).toBe(0);
  });

  it('keeps a site.json that is there, and says so', async () => {
    const cwd = temporaryFolder();
    writeFileSync(join(cwd, 'site.json'), '{ "version": 1, "name": "Mine", "antenna": { "kind": "other" } }');
    writeFileSync(join(cwd, 'drawing.svg'), '');
    const ran = await runCommand(['begin', '.'], { cwd });
    expect(ran).toMatchObject({
      code: 0,
      out: expect.stringMatching(/^Began the logbook of Mine .* stays as it is\.$/u),
    });
  });

  it('says which options a site.json that is there leaves without use', async () => {
    const cwd = temporaryFolder();
    writeFileSync(join(cwd, 'site.json'), '{ "version": 1, "name": "Mine", "antenna": { "kind": "other" } }');
    const args = ['begin', '.', '--name', 'Yours', '--height', '9m', '--at', '2024-03-30T10:00Z'];
    const { out } = await runCommand([...args, '--json'], { cwd });
    expect(JSON.parse(out)).toMatchObject({ site: 'Mine', siteKept: true, notTaken: ['--name', '--height'] });
  });

  it('refuses a figure that is wrong with its option, and makes nothing', async () => {
    const cwd = temporaryFolder();
    const ran = await runCommand(['begin', 'field', '--name', 'x', '--height', '10.1'], { cwd });
    expect(ran).toMatchObject({ code: 2, out: '' });
    expect(ran.err).toContain('--height: needs a unit');
    expect((await runCommand(['history', '--logbook', 'field'], { cwd })).err).toContain('no logbook here');
  });

  it('refuses a lot that cannot be, by file, line, field and corners, and makes nothing', async () => {
    const cwd = temporaryFolder();
    const lot = {
      outline: [
        ['0m', '0m'],
        ['9m', '9m'],
        ['9m', '0m'],
        ['0m', '9m'],
      ],
      base: ['8m', '5m'],
    };
    const write = (change: object) => {
      const site = { version: 1, name: 'x', antenna: { kind: 'other' }, lot: { ...lot, ...change } };
      writeFileSync(join(cwd, 'site.json'), JSON.stringify(site, null, 2));
    };
    write({});
    const crossing = await runCommand(['begin', '.', '--name', 'x'], { cwd });
    expect(crossing.code).toBe(1);
    expect(crossing.err).toMatch(
      /site\.json:8: lot\.outline: the side from corner 1 to 2 crosses the side from corner 3 to 4/u,
    );
    write({
      outline: [
        ['0m', '0m'],
        ['9m', '0m'],
        ['9m', '9m'],
      ],
      base: ['8m', '11m'],
    });
    expect((await runCommand(['begin', '.', '--name', 'x'], { cwd })).err).toMatch(
      /site\.json:\d+: lot\.base: the base must stand inside the outline of the lot/u,
    );
    expect((await runCommand(['history'], { cwd })).code).not.toBe(0);
  });

  it('refuses a folder that is not ours, and one that is begun', async () => {
    const cwd = temporaryFolder();
    writeFileSync(join(cwd, 'letter.txt'), '');
    expect((await runCommand(['begin', '.', '--name', 'x'], { cwd })).err).toContain('letter.txt');
    const unnamed = await runCommand(['begin', 'field'], { cwd });
    expect(unnamed).toMatchObject({ code: 2, err: expect.stringContaining('--name: is needed') });
    await runCommand(['begin', 'field', '--name', 'x'], { cwd });
    const twice = await runCommand(['begin', 'field'], { cwd });
    expect(twice).toMatchObject({ code: 1, err: expect.stringContaining('there is a logbook here already') });
  });
});
