import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { resolve } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { addVisit } from '../../src/logbook/logbook.ts';
import { launchBrowser, openWatched } from '../support/browser.ts';
import { newLogbook, someVisit } from '../support/logbooks.ts';

const COMMAND = resolve(import.meta.dirname, '../../dist/cli/main.js');

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

async function served(
  logbook: string,
  ...options: string[]
): Promise<{ child: ChildProcess; address: string }> {
  const args = [COMMAND, 'page', '--logbook', logbook, '--serve', '--port', '0', '--json', ...options];
  const child = spawn('node', args, { stdio: ['ignore', 'pipe', 'inherit'] });
  onTestFinished(() => void child.kill('SIGKILL'));
  let out = '';
  for await (const chunk of child.stdout) {
    out += String(chunk);
    if (out.trimEnd().endsWith('}')) break;
  }
  const { addresses } = JSON.parse(out) as { addresses: string[] };
  return { child, address: addresses[0] as string };
}

describe('a served page', () => {
  it('follows the logbook while it is open, asks its own server alone, and ends with the command', async () => {
    const logbook = await newLogbook();
    await addVisit(logbook, someVisit(1));
    const { child, address } = await served(logbook);
    const { page, complaints, requests, close } = await openWatched(browser, address);
    expect(await page.textContent('.answer')).toMatch(/^Visit 1: /u);
    await expect.poll(() => page.textContent('.live')).toBe('Following the logbook.');
    await addVisit(logbook, someVisit(2));
    await expect.poll(() => page.textContent('.answer'), { timeout: 20_000 }).toMatch(/^Visit 2: /u);
    expect(requests.every((url) => url.startsWith(address))).toBe(true);
    expect(complaints).toEqual([]);
    child.kill('SIGTERM');
    expect(await once(child, 'exit')).toEqual([0, null]);
    await expect.poll(() => page.textContent('.live')).toContain('not being served any more');
    await close();
  });

  it('is open to the network only under its key', async () => {
    const { address } = await served(await newLogbook(), '--lan');
    const url = new URL(address);
    url.hostname = '127.0.0.1';
    const { page, complaints, close } = await openWatched(browser, url.href);
    await expect.poll(() => page.textContent('.live')).toBe('Following the logbook.');
    expect(complaints).toEqual([]);
    await close();
    expect((await fetch(new URL('/', url))).status).toBe(404);
    expect((await fetch(new URL('/data.json', url))).status).toBe(404);
  });
});
