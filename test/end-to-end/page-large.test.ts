import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { manySweeps, pageOfHours, pageOfSweeps } from '../../bench/page/page-cases.ts';
import { builtPage, pageWith } from '../../src/cli/page/page-file.ts';
import { launchBrowser, openWatched } from '../support/browser.ts';

let browser: Browser;
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'turfwire-large-'));
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await rm(folder, { recursive: true, force: true });
});

describe('a page that holds much', () => {
  it('shows 100 sweeps of 1,001 points, told in figures, and moves its stake through them', async () => {
    const file = join(folder, 'sweeps.html');
    await writeFile(file, pageWith(await builtPage(), pageOfSweeps(manySweeps(100, 1001))));
    const { page, complaints, close } = await openWatched(browser, `file://${file}`);
    await expect.poll(() => page.locator('tbody tr').count(), { timeout: 20_000 }).toBe(100);
    expect(await page.textContent('.also summary')).toBe('Other sweeps behind the pair: 98 of 98');
    const words = await page.textContent('.stake-words');
    await page.locator('.strata-layers').hover({ position: { x: 120, y: 60 } });
    expect(await page.textContent('.stake-words')).not.toBe(words);
    expect(complaints).toEqual([]);
    await close();
  });

  it('shows a year of hourly features, each picture with no more points than it has room for', async () => {
    const file = join(folder, 'hours.html');
    await writeFile(file, pageWith(await builtPage(), pageOfHours(8760)));
    const { page, complaints, close } = await openWatched(browser, `file://${file}#view=change`);
    await expect.poll(() => page.locator('.strip canvas').count(), { timeout: 20_000 }).toBe(5);
    await expect.poll(() => page.textContent('.stake-words')).toMatch(/^Visit 8760, Dec 31, 2025, .*UTC: /u);
    await page.focus('.stake-handle');
    await page.keyboard.press('Home');
    expect(await page.textContent('.stake-words')).toMatch(/^Visit 1, Jan 1, 2025, .*UTC: /u);
    expect(complaints).toEqual([]);
    await close();
  });
});
