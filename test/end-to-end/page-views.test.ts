import { mkdirSync, readFileSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser, openWatched } from '../support/browser.ts';
import { demoLogbook } from '../support/demo-logbook.ts';
import { runCommand } from '../support/fake-io.ts';

const VIEWS = ['sweep', 'wires', 'handful', 'proof', 'change', 'garden', 'report'] as const;
const ARTEFACTS = resolve(import.meta.dirname, '../../artefacts/page');
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let browser: Browser;
let folder: string;
let demo: string;
let empty: string;
beforeAll(async () => {
  mkdirSync(ARTEFACTS, { recursive: true });
  folder = await mkdtemp(join(tmpdir(), 'turfwire-page-'));
  const logbook = await demoLogbook();
  [demo, empty] = [join(folder, 'demo.html'), join(folder, 'empty.html')];
  await runCommand(['begin', join(folder, 'bare'), '--name', 'Bare plot']);
  const written = await Promise.all([
    runCommand(['page', '--logbook', logbook, '--out', demo]),
    runCommand(['page', '--logbook', join(folder, 'bare'), '--out', empty]),
  ]);
  expect(written.map(({ code }) => code)).toEqual([0, 0]);
  await rm(logbook, { recursive: true, force: true });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  if (folder !== undefined) await rm(folder, { recursive: true, force: true });
});

/** Lets every strip be drawn. */
async function settle(page: Page): Promise<void> {
  await page.waitForTimeout(150);
}

async function axeViolations(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { axe } = window as unknown as {
      axe: {
        run(): Promise<{ violations: { id: string; nodes: { html: string; failureSummary: string }[] }[] }>;
      };
    };
    const { violations } = await axe.run();
    return violations.flatMap(({ id, nodes }) =>
      nodes.slice(0, 3).map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)}: ${failureSummary}`),
    );
  });
}

const overflows = (page: Page): Promise<boolean> =>
  page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth);

/** Rooms that hide something at their side without a word, that say so without need, or that no key reaches. */
const untoldRooms = (page: Page): Promise<(string | null)[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('main .scroll')].flatMap((scroll) => {
      const room = scroll.querySelector('[role=region]') as HTMLElement;
      const isTold = scroll.querySelector('.scroll-hint')?.checkVisibility() === true;
      const isRight = isTold === room.scrollWidth > room.clientWidth && room.tabIndex === 0;
      return isRight || !room.checkVisibility() ? [] : [room.getAttribute('aria-label')];
    }),
  );

describe('every view of the demo', () => {
  it.each(['light', 'dark', 'sunlight'])(
    'in the theme %s: answer first, drawn, accessible, quiet',
    async (theme) => {
      const { page, complaints, requests, close } = await openWatched(browser, `file://${demo}`, {
        settings: { theme },
      });
      for (const view of VIEWS) {
        await page.evaluate((name) => {
          location.hash = `#view=${name}`;
        }, view);
        await settle(page);
        if (view !== 'report') expect(await page.textContent('main .answer >> nth=0'), view).toMatch(/\w/u);
        expect(await page.locator('main canvas, main svg').count(), view).toBeGreaterThan(0);
        expect(await axeViolations(page), view).toEqual([]);
        expect(await overflows(page), view).toBe(false);
        await page.screenshot({ path: join(ARTEFACTS, `${view}-${theme}-1440.png`), fullPage: true });
      }
      expect(complaints).toEqual([]);
      expect(requests).toEqual([]);
      await close();
    },
  );

  it('on a phone: nothing is wider than the screen', async () => {
    const { page, complaints, close } = await openWatched(browser, `file://${demo}`, {
      viewport: { width: 360, height: 740 },
      settings: { theme: 'sunlight' },
    });
    for (const view of VIEWS) {
      await page.evaluate((name) => {
        location.hash = `#view=${name}`;
      }, view);
      await settle(page);
      expect(await overflows(page), view).toBe(false);
      await page.screenshot({ path: join(ARTEFACTS, `${view}-sunlight-360.png`), fullPage: true });
    }
    expect(await axeViolations(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await close();
  });

  it.each([360, 768, 1280, 1440])(
    '%i px wide: what is wider scrolls in its own room, and says so',
    async (width) => {
      const { page, close } = await openWatched(browser, `file://${demo}`, {
        viewport: { width, height: 800 },
      });
      for (const view of VIEWS) {
        await page.evaluate((name) => {
          location.hash = `#view=${name}`;
        }, view);
        await settle(page);
        expect(await overflows(page), view).toBe(false);
        await expect.poll(() => untoldRooms(page), { message: view }).toEqual([]);
      }
      await close();
    },
  );

  it('at 200 % zoom nothing is wider than the screen', async () => {
    // A browser at 200 % gives a page half the pixels.
    const { page, close } = await openWatched(browser, `file://${demo}`, {
      viewport: { width: 640, height: 400 },
      deviceScaleFactor: 2,
    });
    for (const view of VIEWS) {
      await page.evaluate((name) => {
        location.hash = `#view=${name}`;
      }, view);
      await settle(page);
      expect(await overflows(page), view).toBe(false);
    }
    await close();
  });

  it('prints as two pages, whatever is on the screen and in whatever theme', async () => {
    const { page, close } = await openWatched(browser, `file://${demo}#view=change`, {
      settings: { theme: 'dark' },
    });
    const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
    expect(pdf.toString('latin1').match(/\/Type \/Page\b(?!s)/gu)).toHaveLength(2);
    await writeFile(join(ARTEFACTS, 'report.pdf'), pdf);
    await close();
  });

  it('shows metres or feet as the reader likes, and remembers', async () => {
    const { page, close } = await openWatched(browser, `file://${demo}#view=garden`);
    expect(await page.textContent('.answer')).toContain('1.3 m');
    await page.check('input[value=imperial]');
    expect(await page.textContent('.answer')).toContain('4.3 ft');
    await page.evaluate(() => {
      location.hash = '#view=report';
    });
    await expect.poll(() => page.textContent('.facts')).toMatch(/ in, /u);
    for (const view of VIEWS) {
      await page.evaluate((name) => {
        location.hash = `#view=${name}`;
      }, view);
      await settle(page);
      const figures = await page.locator('.answer, td, tbody th, dd, main svg text').allTextContents();
      expect(
        figures.filter((text) => /\d (?:m|mm|°C)\b/u.test(text)),
        view,
      ).toEqual([]);
    }
    await page.evaluate(() => {
      location.hash = '#view=garden';
    });
    await page.reload();
    await page.waitForSelector('.answer');
    expect(await page.textContent('.answer')).toContain('4.3 ft');
    await close();
  });

  it('writes numbers as the reader does, and times with the zone in which they were noted', async () => {
    const { page, close } = await openWatched(browser, `file://${demo}#view=sweep&visit=3`, {
      locale: 'de-DE',
    });
    await expect.poll(() => page.textContent('.answer')).toMatch(/lowest SWR \d,\d\d at 7,\d{3} MHz/u);
    await expect.poll(() => page.textContent('tbody tr')).toContain('11.05.2024, 16:00 UTC+01:00');
    await page.evaluate(() => {
      location.hash = '#view=change';
    });
    await expect.poll(() => page.textContent('.stake-words')).toMatch(/14\.02\.2026, 12:30 UTC:/u);
    await expect.poll(() => page.textContent('main')).toContain('06.09.2025, 16:00 UTC+01:00');
    await close();
  });

  it('can be walked by keyboard alone: every control gets the focus, and shows it', async () => {
    const { page, close } = await openWatched(browser, `file://${demo}`);
    const reached = new Set<string>();
    for (let i = 0; i < 45; i++) {
      await page.keyboard.press('Tab');
      const found = await page.evaluate(() => {
        const element = document.activeElement as HTMLElement;
        const face = element.matches('.switch-input, .add-files-input')
          ? element.nextElementSibling
          : element;
        const { outlineStyle } = getComputedStyle(face ?? element);
        return { name: element.className || element.tagName, isShown: outlineStyle !== 'none' };
      });
      if (found.name === 'BODY') break;
      expect(found.isShown, found.name).toBe(true);
      reached.add(found.name);
    }
    for (const name of [
      'skip',
      'A',
      'choice-list',
      'switch-input',
      'SUMMARY',
      'stake-handle',
      'table-room',
      'footer-report',
    ]) {
      expect([...reached], name).toContain(name);
    }
    expect([...reached].some((name) => name.includes('add-files-input'))).toBe(true);
    await page.focus('nav a >> nth=3');
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Is the improvement real?');
    await page.focus('.choice-list');
    await page.keyboard.press('ArrowDown');
    expect(await page.evaluate(() => document.activeElement?.className)).toBe('choice-list');
    await page.goBack();
    expect(await page.textContent('h1')).toBe('What does this sweep say?');
    await close();
  });

  it('offers no measuring from a file', async () => {
    const { page, close } = await openWatched(browser, `file://${demo}`);
    expect(await page.locator('text=Measure here').count()).toBe(0);
    await close();
  });
});

describe('every view of an empty logbook', () => {
  it.each(['light', 'dark', 'sunlight'])(
    'in the theme %s: says why it is empty and which command fills it, and is accessible',
    async (theme) => {
      const { page, complaints, requests, close } = await openWatched(browser, `file://${empty}`, {
        settings: { theme },
      });
      for (const view of VIEWS) {
        await page.evaluate((name) => {
          location.hash = `#view=${name}`;
        }, view);
        await settle(page);
        if (view !== 'report') expect(await page.textContent('main'), view).toMatch(/turfwire \w+/u);
        expect(await axeViolations(page), view).toEqual([]);
      }
      expect(complaints).toEqual([]);
      expect(requests).toEqual([]);
      await close();
    },
  );
});
