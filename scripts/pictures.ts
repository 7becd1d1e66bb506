/** Makes the pictures of the README from the demo: `npm run pictures`, after `npm start`. */
import { mkdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const PAGE = pathToFileURL(resolve('demo/page.html')).href;
mkdirSync('docs', { recursive: true });
const browser = await chromium.launch({
  executablePath: process.env['TURFWIRE_CHROMIUM'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'],
});
const page = await browser.newPage({ viewport: { width: 1280, height: 900 }, locale: 'en-US' });
await page.goto(PAGE);
await page.waitForTimeout(1000);
await page.screenshot({ path: 'docs/page.png' });
await browser.close();
