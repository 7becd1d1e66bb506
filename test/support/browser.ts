import { existsSync } from 'node:fs';
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from 'playwright-core';

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser'];

/** A real browser without a window, and without anything it might want of the network. */
export async function launchBrowser(): Promise<Browser> {
  const executablePath = PLACES.find((path) => existsSync(path)) ?? 'chromium';
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

/** One page, and whatever went wrong or out of it while it was open. */
export interface WatchedPage {
  readonly page: Page;
  /** Messages of the console and errors nobody caught. */
  readonly complaints: string[];
  /** Addresses that were asked for, the page's own left out. */
  readonly requests: string[];
  close(): Promise<void>;
}

/** Opens an address and keeps an eye on it. */
export async function openWatched(
  browser: Browser,
  address: string,
  options: BrowserContextOptions & { readonly settings?: Record<string, string> } = {},
): Promise<WatchedPage> {
  const { settings, ...contextOptions } = options;
  const context: BrowserContext = await browser.newContext({
    locale: 'en-US',
    viewport: { width: 1440, height: 1000 },
    ...contextOptions,
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  const requests: string[] = [];
  page.on('console', (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('request', (request) => {
    const own = request.isNavigationRequest() || request.url().startsWith('data:');
    if (!own) requests.push(request.url());
  });
  if (settings !== undefined) {
    await page.addInitScript((kept) => localStorage.setItem('turfwire', kept), JSON.stringify(settings));
  }
  await page.goto(address);
  await page.waitForSelector('main :is(.answer, .answer-second):not(:empty)');
  return { page, complaints, requests, close: () => context.close() };
}
