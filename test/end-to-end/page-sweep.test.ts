import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addVisit } from '../../src/logbook/logbook.ts';
import { launchBrowser, openWatched } from '../support/browser.ts';
import { demoLogbook } from '../support/demo-logbook.ts';
import { runCommand } from '../support/fake-io.ts';
import { newLogbook, someVisit } from '../support/logbooks.ts';

let browser: Browser;
let logbook: string;
let file: string;
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'turfwire-page-'));
  file = join(folder, 'page.html');
  [browser, logbook] = await Promise.all([launchBrowser(), demoLogbook()]);
  const { code } = await runCommand(['page', '--logbook', logbook, '--out', file]);
  expect(code).toBe(0);
});
afterAll(async () => {
  await browser?.close();
  await rm(folder, { recursive: true, force: true });
  await rm(logbook, { recursive: true, force: true });
});

const sample = (name: string): string => resolve(import.meta.dirname, '../../samples/sweeps', name);

describe('what does this sweep say', () => {
  it('a page opened by double click answers in a sentence, draws, and asks for nothing', async () => {
    const { page, complaints, requests, close } = await openWatched(browser, `file://${file}`);
    expect(await page.textContent('h1')).toBe('What does this sweep say?');
    expect(await page.textContent('.answer')).toMatch(/^Visit 16: lowest SWR \d\.\d\d at 7\.\d{3} MHz/u);
    await expect.poll(() => page.locator('.strip canvas').count()).toBe(5);
    expect(complaints).toEqual([]);
    expect(requests).toEqual([]);
    await close();
  });

  it('a link shows what was looked at', async () => {
    const { page, close } = await openWatched(browser, `file://${file}#view=sweep&visit=3&before=1&band=40m`);
    await expect.poll(() => page.textContent('.answer')).toMatch(/^Visit 3: .*on 40m\.$/u);
    expect(await page.textContent('.answer-second')).toMatch(/^Against visit 1/u);
    await page.selectOption('.choice-list >> nth=0', '5');
    expect(await page.evaluate(() => location.hash)).toBe('#view=sweep&visit=5&before=1&band=40m');
    await close();
  });

  it('any two sweeps are held against each other, and a link shows the same two', async () => {
    const { page, complaints, close } = await openWatched(browser, `file://${file}#view=proof`);
    expect(await page.textContent('.answer')).toContain('from 24 radials to 32 radials');
    await page.focus('.choice-list >> nth=0');
    await page.selectOption('.choice-list >> nth=0', 'pair');
    await page.selectOption('.choice-list >> nth=1', '3');
    await page.selectOption('.choice-list >> nth=2', '9');
    await page.focus('.choice-list >> nth=2');
    await page.keyboard.press('ArrowDown');
    expect(await page.evaluate(() => document.activeElement?.className)).toBe('choice-list');
    await page.keyboard.press('ArrowUp');
    expect(await page.textContent('.answer')).toContain('from visit 3, May 11, 2024, 12 radials to visit 9');
    const address = await page.evaluate(() => location.hash);
    expect(address).toContain('visit=9&before=3');
    const words = await page.textContent('main');
    await close();
    const again = await openWatched(browser, `file://${file}${address}`);
    expect(await again.page.textContent('main')).toBe(words);
    expect([...complaints, ...again.complaints]).toEqual([]);
    await again.close();
  });

  it('the stake follows the keys of its slider, and its words are heard', async () => {
    const { page, close } = await openWatched(browser, `file://${file}#view=sweep&visit=2`);
    const slider = page.locator('.stake-handle');
    await slider.focus();
    await page.keyboard.press('Home');
    expect(await slider.getAttribute('aria-valuetext')).toBe('6.500 MHz');
    await expect.poll(() => page.textContent('.stake-words')).toMatch(/^At 6\.500 MHz: before SWR/u);
    await expect.poll(() => page.textContent('[role=status].only-heard')).toMatch(/^At 6\.500 MHz/u);
    await close();
  });

  it('a good file that is dropped lies over the others; a bad one tells its line and column', async () => {
    const { page, complaints, requests, close } = await openWatched(browser, `file://${file}`);
    const good = await readFile(sample('2024-05-11-shot1.s1p'), 'utf8');
    await drop(page, [
      { name: 'shore.s1p', text: good },
      { name: 'torn.csv', text: 'MHz,R,X\n7.0,40,1\n7.1,forty,2\n7.2,41,3\n' },
    ]);
    await page.waitForSelector('.drop-report li');
    expect(await page.textContent('.drop-report')).toContain('torn.csv:3:5: ');
    expect(await page.evaluate(() => location.hash)).toMatch(/visit=file-/u);
    await page.selectOption('.choice-list >> nth=0', 'file-1');
    await expect.poll(() => page.textContent('.answer')).toMatch(/^Shore: lowest SWR/u);
    expect(complaints).toEqual([]);
    expect(requests).toEqual([]);
    await close();
  });

  it('a file that was swept in the shack is moved to the feed point as the commands do, and a link keeps that', async () => {
    const seen = join(folder, 'cellar.s1p');
    await writeFile(seen, await readFile(sample('2024-05-11-shot1.s1p')));
    const read = await runCommand([
      'read',
      seen,
      '--plane',
      'shack',
      '--site',
      join(logbook, 'site.json'),
      '--json',
    ]);
    const { sweeps } = JSON.parse(read.out) as ReadAnswer;
    const at = (resonance: Resonance | undefined): string =>
      `X = 0 at ${((resonance?.frequencyHz ?? 0) / 1e6).toFixed(3)} MHz with R ${resonance?.resistanceOhm.toFixed(1)} Ω`;
    const moved = (sweeps[0]?.resonances ?? []).map(at);

    const { page, complaints, close } = await openWatched(browser, `file://${file}`);
    await drop(page, [{ name: 'cellar.s1p', text: await readFile(seen, 'utf8') }]);
    await expect.poll(() => page.textContent('.drop-report')).toContain('Shown as swept at the feed point.');
    const unmoved = await page.textContent('.answer');
    await page.check('.drop-report [value=shack]');
    await expect.poll(() => page.textContent('.drop-report')).toContain('through the feed line of the site.');
    expect(await page.evaluate(() => location.hash)).toBe('#view=sweep&visit=file-1&plane=shack');
    await expect.poll(() => page.textContent('.answer')).toContain('moved to the feed point');
    const answer = (await page.textContent('.answer')) ?? '';
    expect(moved.filter((words) => answer.includes(words))).toHaveLength(1);
    await page.check('.drop-report [value=feedpoint]');
    await expect.poll(() => page.textContent('.answer')).toBe(unmoved);
    expect(complaints).toEqual([]);
    await close();
  });

  it('without a feed line in the site it says what to fill in, and holds no two planes against each other', async () => {
    const bare = await newLogbook();
    await addVisit(bare, someVisit(1));
    const out = join(folder, 'bare.html');
    expect(await runCommand(['page', '--logbook', bare, '--out', out])).toMatchObject({ code: 0 });
    const { page, complaints, close } = await openWatched(browser, `file://${out}#view=sweep&plane=shack`);
    await drop(page, [{ name: 'seen.csv', text: 'MHz,R,X\n7.0,40,-1\n7.1,41,1\n7.2,42,3\n' }]);
    await expect.poll(() => page.textContent('.drop-report')).toContain('fill in the feed line in site.json');
    await expect.poll(() => page.textContent('.answer')).toContain('all as seen in the shack');
    expect(await page.textContent('.answer-second')).toContain('Against visit 1 nothing can be said');
    expect(complaints).toEqual([]);
    await close();
  });

  it('a file that can be read in more than one way is read again with the choice that is pressed', async () => {
    const { page, complaints, close } = await openWatched(browser, `file://${file}`);
    await drop(page, [{ name: 'bare.csv', text: '7.0,40,1\n7.1,41,2\n7.2,42,3\n' }]);
    await page.waitForSelector('.drop-report li.refused');
    expect(await page.textContent('.drop-report')).not.toContain('--');
    await page.click('.open-reading button >> nth=0');
    await expect.poll(() => page.textContent('.drop-report')).toMatch(/^1 sweep from 1 file now lies /u);
    expect(await page.$('.open-reading')).toBeNull();
    expect(complaints).toEqual([]);
    await close();
  });
});

interface Resonance {
  readonly frequencyHz: number;
  readonly resistanceOhm: number;
}

type ReadAnswer = { readonly sweeps: readonly { readonly resonances: readonly Resonance[] }[] };

type Dropped = { readonly name: string; readonly text: string };

async function drop(page: import('playwright-core').Page, files: readonly Dropped[]): Promise<void> {
  await page.evaluate((given) => {
    const dataTransfer = new DataTransfer();
    for (const { name, text } of given) dataTransfer.items.add(new File([text], name));
    document.body.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
  }, files as Dropped[]);
}
