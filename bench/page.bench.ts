import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { builtPage, pageWith } from '../src/cli/page/page-file.ts';
import { reflectionSizes, swrOfReflection } from '../src/core/sweep/reflection.ts';
import type { Sweep } from '../src/core/sweep/sweep.ts';
import type { BenchCase } from './bench-case.ts';
import { firstPictureMs, inBrowser } from './page/in-browser.ts';
import { manySweeps, pageOfHours, pageOfSweeps } from './page/page-cases.ts';

const PAIRS = 15;
const KILOBYTE = 1024;
const SWEEPS = 100;
const POINTS = 1001;
const YEAR_OF_HOURS = 8760;
/** As many visits as the strips of a wide screen have pixels across. */
const SCREENFUL = 1000;

interface Opened {
  readonly html: string;
  readonly hash?: string;
}

/** The same points drawn by uPlot as it comes: one chart, all its defaults, the numbers ready to be drawn. */
function barePage(sweeps: readonly Sweep[]): string {
  const folder = join(import.meta.dirname, '../node_modules/uplot/dist');
  const data = [
    Array.from((sweeps[0] as Sweep).frequencyHz),
    ...sweeps.map((sweep) =>
      Array.from(reflectionSizes(sweep), (size) => Math.round(1e4 * (swrOfReflection(size) ?? 0)) / 1e4),
    ),
  ];
  const script = `
    const data = JSON.parse(document.getElementById('data').textContent);
    const series = data.map((_, i) => i === 0 ? {} : { stroke: 'teal', points: { show: false } });
    new uPlot({ width: 1000, height: 400, scales: { x: { time: false } }, legend: { show: false }, series }, data, document.body);
  `;
  return [
    '<!doctype html><meta charset="utf-8">',
    `<style>${readFileSync(join(folder, 'uPlot.min.css'), 'utf8')}</style><body>`,
    `<script type="application/json" id="data">${JSON.stringify(data)}</script>`,
    `<script>${readFileSync(join(folder, 'uPlot.iife.min.js'), 'utf8')}</script>`,
    `<script>${script}</script>`,
  ].join('\n');
}

/**
 * The time to the first picture of a page over that of another: median of pairs opened one after the other, so that
 * both meet the same load of the machine, after one pair to warm up.
 */
function ratioOfFirstPictures(ours: Opened, against: Opened): Promise<number> {
  return inBrowser(async (open) => {
    const time = async ({ html, hash }: Opened): Promise<number> => {
      const page = await open(html, hash);
      const ms = await firstPictureMs(page);
      await page.close();
      return ms;
    };
    const ratios: number[] = [];
    for (let i = 0; i <= PAIRS; i++) ratios.push((await time(ours)) / (await time(against)));
    const measured = ratios.slice(1).sort((a, b) => a - b);
    return measured[PAIRS >> 1] as number;
  });
}

export const cases: readonly BenchCase[] = [
  {
    name: 'the page without data, gzipped',
    against: '120 KB',
    target: { atMost: 1 },
    run: async () => gzipSync(await builtPage(), { level: 9 }).length / (120 * KILOBYTE),
  },
  {
    name: `first picture of ${SWEEPS} sweeps of ${POINTS} points`,
    against: 'bare uPlot with the same points in the same browser',
    target: { atMost: 1.5 },
    run: async () => {
      const sweeps = manySweeps(SWEEPS, POINTS);
      const ours = pageWith(await builtPage(), pageOfSweeps(sweeps));
      return ratioOfFirstPictures({ html: ours }, { html: barePage(sweeps) });
    },
  },
  {
    name: `a move of the cursor over ${SWEEPS} sweeps of ${POINTS} points`,
    against: '8 ms of script',
    target: { atMost: 1 },
    run: async () => {
      const html = pageWith(await builtPage(), pageOfSweeps(manySweeps(SWEEPS, POINTS)));
      return (await inBrowser(async (open) => cursorMoveMs(await open(html)))) / 8;
    },
  },
  {
    name: 'a year of hourly features, opened',
    against: `as many visits as the screen has pixels across (${SCREENFUL})`,
    target: { atMost: 2 },
    run: async () => {
      const page = await builtPage();
      const ofHours = (hours: number): Opened => ({
        html: pageWith(page, pageOfHours(hours)),
        hash: '#view=change',
      });
      return ratioOfFirstPictures(ofHours(YEAR_OF_HOURS), ofHours(SCREENFUL));
    },
  },
];

/** Script that the slowest of many moves of the mouse over the strips takes, style and layout that it forces included. */
async function cursorMoveMs(
  page: Awaited<ReturnType<Parameters<Parameters<typeof inBrowser>[0]>[0]>>,
): Promise<number> {
  await firstPictureMs(page);
  await page.waitForTimeout(1000);
  return page.evaluate(() => {
    const strips = document.querySelector('.strata-layers') as HTMLElement;
    const { left, top, width } = strips.getBoundingClientRect();
    const times: number[] = [];
    for (let i = 0; i < 200; i++) {
      const clientX = left + 60 + ((width - 80) * ((i * 37) % 200)) / 200;
      const start = performance.now();
      strips.dispatchEvent(
        new PointerEvent('pointermove', { clientX, clientY: top + 100, pointerType: 'mouse', bubbles: true }),
      );
      times.push(performance.now() - start);
    }
    // The first moves are compiled, and one in a hundred may meet the garbage collector.
    return times.sort((a, b) => a - b)[Math.floor(times.length * 0.98)] as number;
  });
}
