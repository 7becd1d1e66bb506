import { mkdirSync, readFileSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type PageData, parsePageData, serialisePageData } from '../../src/formats/page-data.ts';
import { launchBrowser, openWatched } from '../support/browser.ts';
import { demoLogbook } from '../support/demo-logbook.ts';
import { runCommand } from '../support/fake-io.ts';

const VIEWS = ['sweep', 'wires', 'handful', 'proof', 'change', 'garden', 'report'] as const;
const ARTEFACTS = resolve(import.meta.dirname, '../../artefacts/page');
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What the user types for the program. */
const CALLED = 'npx turfwire';

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
    runCommand(['page', '--logbook', 'bare', '--out', empty], { cwd: folder, called: CALLED }),
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

/** The same page with ten bands, fourteen places, sixteen handfuls and more of everything that the report tells. */
async function largerThan(path: string): Promise<string> {
  const text = await readFile(path, 'utf8');
  const [, json] = /id="page-data">(.*?)<\/script>/su.exec(text) as unknown as [string, string];
  const data = parsePageData(json);
  const [progress, safety, lot] = [data.progress.data?.[0], data.safety.data, data.lot.data];
  if (!progress || !safety || !lot || !data.site) throw new Error('the demo tells all of it');
  const many = <T>(count: number, of: readonly T[], change: (i: number) => Partial<T>): T[] =>
    Array.from({ length: count }, (_, i) => ({ ...(of[i % of.length] as T), ...change(i) }));
  const bands = ['160m', '80m', '60m', '40m', '30m', '20m', '17m', '15m', '12m', '10m'];
  const larger: PageData = {
    ...data,
    site: { ...data.site, antenna: { ...data.site.antenna, bands } },
    progress: {
      data: [{ ...progress, steps: many(16, progress.steps, (i) => ({ radials: 4 * (i + 1) })) }],
      missing: null,
    },
    lot: {
      data: {
        ...lot,
        lot: { ...lot.lot, obstacles: many(12, lot.lot.obstacles, (i) => ({ name: `flower bed ${i}` })) },
      },
      missing: null,
    },
    safety: {
      data: {
        ...safety,
        radials: { ...safety.radials, endsNearBorder: Array.from({ length: 14 }, (_, i) => 3 * i + 1) },
        bands: bands.flatMap((band) => many(1, safety.bands, () => ({ band }))),
        places: bands.flatMap((band) =>
          many(14, safety.places, (i) => ({
            band,
            name: `seat ${i} by the old wall`,
            verdict: i % 5 === 4 ? ('reduce power' as const) : ('clear' as const),
          })),
        ),
        joints: many(10, safety.joints, (i) => ({ name: `joint ${i} at the plate` })),
      },
      missing: null,
    },
  };
  const file = path.replace(/\.html$/u, '-larger.html');
  await writeFile(
    file,
    text.replace(json, () => serialisePageData(larger)),
  );
  return file;
}

const overflows = (page: Page): Promise<boolean> =>
  page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth);

/** Rooms that hide something at their side without a word, that say so without need, or that no key reaches. */
const untoldRooms = (page: Page): Promise<(string | null)[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('main .scroll')].flatMap((scroll) => {
      const room = scroll.querySelector('[role=region]') as HTMLElement;
      const isTold = scroll.querySelector('.scroll-hint')?.checkVisibility() === true;
      const hides = room.scrollWidth > room.clientWidth + 2;
      const isRight = isTold === hides && (room.tabIndex === 0) === hides;
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
        expect(await page.locator('main .scroll-hint').filter({ visible: true }).count(), view).toBe(0);
      }
      await page.evaluate(() => {
        location.hash = '#view=sweep';
      });
      await page.click('.points summary');
      await expect.poll(() => untoldRooms(page)).toEqual([]);
      await close();
    },
  );

  it('on a phone a table stands as lists that name every figure, and is a table to a screen reader', async () => {
    const { page, close } = await openWatched(browser, `file://${demo}#view=handful`, {
      viewport: { width: 360, height: 740 },
    });
    const room = page.locator('.table-room', { has: page.locator('caption:text("One row a handful")') });
    await expect.poll(() => room.getAttribute('class')).toContain('stacked');
    const cell = room.locator('tbody td').first();
    expect(await cell.evaluate((td) => getComputedStyle(td, '::before').content)).toBe('"radials"');
    expect(await page.getByRole('columnheader', { name: 'R at X = 0, Ω' }).count()).toBe(1);
    expect(await page.getByRole('rowheader', { name: /UTC\+01:00/u }).count()).toBeGreaterThan(1);
    await close();
  });

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

  it.each(['metric', 'imperial'])('prints a larger logbook as two pages too, in %s units', async (units) => {
    const { page, close } = await openWatched(browser, `file://${await largerThan(demo)}`, {
      settings: { units },
    });
    const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
    expect(pdf.toString('latin1').match(/\/Type \/Page\b(?!s)/gu)).toHaveLength(2);
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
      const said = await page
        .locator('main :is(p, li, td, th, dd, figcaption, caption, text)')
        .allTextContents();
      // Figures of a published rule stand in both units, the reader's first.
      const alone = said.map((text) => text.replaceAll(/\(\d[\d.]* k?m{1,2}\)/gu, ''));
      expect(
        alone.filter((text) => /\d (?:m|mm|°C)\b/u.test(text)),
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
    for (const view of VIEWS) {
      await page.evaluate((name) => {
        location.hash = `#view=${name}`;
      }, view);
      await settle(page);
      const text = (await page.locator('main').allInnerTexts()).join();
      expect(text, view).not.toMatch(/\b20\d\d-\d\d-\d\d\b/u);
      // Sections of a code keep their point.
      expect(
        text.replaceAll(/810\.\d+|Turfwire [\d.]+|\d\d\.\d\d\.20\d\d|\d\.\d{3}\b/gu, ''),
        view,
      ).not.toMatch(/\d\.\d/u);
    }
    await close();
  });

  it('tells which way each proposed wire goes, and what to cut for it', async () => {
    const { page, close } = await openWatched(browser, `file://${demo}#view=wires`);
    const { plan } = await page.evaluate(
      () => JSON.parse(document.getElementById('page-data')?.textContent ?? '') as PageData,
    );
    const rowsOf = (caption: string): Promise<string[]> =>
      page
        .locator('table', { has: page.locator(`caption:text("${caption}")`) })
        .locator('tbody tr')
        .allInnerTexts();
    const ways = await rowsOf('The proposed wires, bearings');
    expect(ways).toHaveLength(plan.data?.radials.length as number);
    plan.data?.radials.forEach(({ number, bearingDeg, lengthM }, i) => {
      expect(ways[i]).toMatch(
        new RegExp(`^${number}\\s+${bearingDeg.toFixed(0)}°\\s+${lengthM.toFixed(2)} m`, 'u'),
      );
    });
    const cuts = await rowsOf('What to cut');
    const pieces = plan.data?.cuttingPlan?.[0]?.pieces ?? [];
    expect(pieces.length).toBeGreaterThan(0);
    for (const piece of pieces) expect(cuts[0]).toContain(`${piece.toFixed(2)} m`);
    expect(await page.locator('main li code').allInnerTexts()).toContain('turfwire lay');
    expect(await page.locator('main').textContent()).not.toContain('`');
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
        if (view !== 'report') {
          const commands = await page.locator('main .not-yet code').allTextContents();
          expect(commands.length, view).toBeGreaterThan(0);
          for (const command of commands) {
            expect(command, view).toMatch(/^npx turfwire (?:help \w+$|\w.* --logbook bare$)/u);
          }
        }
        expect(await axeViolations(page), view).toEqual([]);
      }
      expect(complaints).toEqual([]);
      expect(requests).toEqual([]);
      await close();
    },
  );
});
