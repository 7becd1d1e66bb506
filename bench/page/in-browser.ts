import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { launchBrowser } from '../../test/support/browser.ts';

/** A browser and a folder for its pages, as long as `work` runs. */
export async function inBrowser<T>(
  work: (open: (html: string, hash?: string) => Promise<Page>) => Promise<T>,
): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'turfwire-bench-'));
  const browser: Browser = await launchBrowser();
  let count = 0;
  try {
    const context = await browser.newContext({ locale: 'en-US', viewport: { width: 1440, height: 900 } });
    await context.addInitScript(TELL_FIRST_PICTURE);
    return await work(async (html, hash = '') => {
      const file = join(folder, `${count++}.html`);
      writeFileSync(file, html);
      const page = await context.newPage();
      await page.goto(`file://${file}${hash}`);
      return page;
    });
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Notes, from the start of the navigation, when the first canvas has been painted; the same for every page. */
const TELL_FIRST_PICTURE = `
  const look = () => {
    if (document.querySelector('.uplot canvas') === null) return requestAnimationFrame(look);
    // The picture is there; what comes after this frame has seen it painted.
    setTimeout(() => { window.firstPictureMs = performance.now(); });
  };
  requestAnimationFrame(look);
`;

/** Milliseconds from the start of the navigation to the first picture. */
export async function firstPictureMs(page: Page): Promise<number> {
  await page.waitForFunction(() => 'firstPictureMs' in window);
  return page.evaluate(() => (window as unknown as { firstPictureMs: number }).firstPictureMs);
}
