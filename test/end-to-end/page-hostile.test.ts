import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addVisit, appendEvents, createLogbook } from '../../src/logbook/logbook.ts';
import { launchBrowser, openWatched } from '../support/browser.ts';
import { runCommand } from '../support/fake-io.ts';
import { someVisit } from '../support/logbooks.ts';

const EVIL = `</script><img src=x onerror="window.hurt=1"><svg onload="window.hurt=1">'"&amp;<b>`;
const VIEWS = ['sweep', 'wires', 'handful', 'proof', 'change', 'garden', 'report'];

let browser: Browser;
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'turfwire-hostile-'));
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await rm(folder, { recursive: true, force: true });
});

/** A logbook in which every name and remark tries to be markup. */
async function hostileLogbook(): Promise<string> {
  const logbook = join(folder, 'field');
  const samples = resolve(import.meta.dirname, '../../samples/site.json');
  const site = JSON.parse(await readFile(samples, 'utf8')) as {
    lot: { obstacles: { name: string }[]; places: { name: string }[] };
    joints: { name: string }[];
  };
  const renamed = <T extends { name: string }>(things: T[]): T[] =>
    things.map((thing, i) => ({ ...thing, name: `${EVIL}${i}` }));
  await createLogbook(logbook, {
    ...site,
    name: EVIL,
    lot: { ...site.lot, obstacles: renamed(site.lot.obstacles), places: renamed(site.lot.places) },
    joints: renamed(site.joints),
  });
  const common = { text: EVIL, powerW: null };
  await appendEvents(logbook, [
    {
      event: 'lay',
      time: '2026-02-01T10:00:00Z',
      text: EVIL,
      number: 1,
      lengthM: 5,
      bearingDeg: 0,
      route: null,
    },
    { event: 'text', time: '2026-03-01T10:16:00Z', value: null, subject: EVIL, ...common },
    { event: 'inspection', time: '2026-03-01T10:17:00Z', value: null, subject: EVIL, ...common },
    { event: 'field-strength', time: '2026-03-01T10:18:00Z', value: -30, subject: EVIL, ...common },
  ]);
  for (let i = 0; i < 3; i++) await addVisit(logbook, someVisit(1 + i, 2 + i, 3 + i));
  return logbook;
}

const unhurt = async (page: Page): Promise<void> => {
  expect(await page.evaluate(() => 'hurt' in window)).toBe(false);
  expect(await page.locator('#page img, #page script, #page b:has-text("&amp;")').count()).toBe(0);
};

describe('names, remarks and files that try to be markup', () => {
  it('are shown as the text they are', async () => {
    const file = join(folder, 'page.html');
    const { code, err } = await runCommand(['page', '--logbook', await hostileLogbook(), '--out', file]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const { page, complaints, requests, close } = await openWatched(browser, `file://${file}`);
    for (const view of VIEWS) {
      await page.evaluate((name) => {
        location.hash = `#view=${name}`;
      }, view);
      await page.waitForTimeout(100);
      await unhurt(page);
    }
    expect(await page.textContent('.site-name')).toBe(EVIL);
    expect(await page.title()).toContain(EVIL);
    await page.evaluate(() => {
      location.hash = '#view=garden';
    });
    await page.waitForSelector('.lot');
    expect(await page.textContent('.lot')).toContain(EVIL);
    expect(await page.textContent('main')).toContain(`${EVIL}0`);
    expect(complaints).toEqual([]);
    expect(requests).toEqual([]);
    await close();
  });

  it('do no harm in the address, in the name of a dropped file, or in what is in it', async () => {
    const file = join(folder, 'bare.html');
    await runCommand(['begin', join(folder, 'bare'), '--name', 'Bare']);
    await runCommand(['page', '--logbook', join(folder, 'bare'), '--out', file]);
    const { page, complaints, requests, close } = await openWatched(
      browser,
      `file://${file}#view=${encodeURIComponent(EVIL)}&visit=${encodeURIComponent(EVIL)}&band=${encodeURIComponent(EVIL)}`,
    );
    expect(await page.textContent('h1')).toBe('What does this sweep say?');
    const name = EVIL.replaceAll('/', '∕');
    await page.setInputFiles('#sweep-files', [
      {
        name: `${name}.csv`,
        mimeType: 'text/csv',
        buffer: Buffer.from(`MHz,R,X\n7,${EVIL},1\n7.1,40,2\n7.2,41,3\n`),
      },
      { name: 'binary.s1p', mimeType: 'text/plain', buffer: Buffer.from([0, 1, 2, 255, 0]) },
    ]);
    await page.waitForSelector('.drop-report li');
    expect(await page.textContent('.drop-report')).toContain(`${name}.csv:2:3: `);
    expect(await page.textContent('.drop-report')).toContain('binary.s1p: ');
    await unhurt(page);
    expect(complaints).toEqual([]);
    expect(requests).toEqual([]);
    await close();
  });

  it('in the data of the page themselves are refused with words', async () => {
    const file = join(folder, 'broken.html');
    const page = await readFile(join(folder, 'bare.html'), 'utf8');
    await writeFile(file, page.replace(/"version":\d+/u, '"version":0'));
    const context = await browser.newContext({ locale: 'en-US' });
    const opened = await context.newPage();
    await opened.goto(`file://${file}`);
    expect(await opened.textContent('h1')).toBe('This page cannot be shown');
    expect(await opened.textContent('main')).toContain('turfwire page');
    await context.close();
  });
});
