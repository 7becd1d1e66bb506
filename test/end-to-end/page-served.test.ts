import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFile, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Browser, BrowserContext } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import type { Device } from '../../src/instrument/simulator/device.ts';
import { PlainLinesDevice } from '../../src/instrument/simulator/plain-lines-device.ts';
import { ScpiDevice } from '../../src/instrument/simulator/scpi-device.ts';
import { SimulatedDevice } from '../../src/instrument/simulator/simulated-device.ts';
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
  const child = spawn('node', args, { stdio: ['ignore', 'pipe', 'ignore'] });
  onTestFinished(() => void child.kill('SIGKILL'));
  let out = '';
  for await (const chunk of child.stdout) {
    out += String(chunk);
    if (out.trimEnd().endsWith('}')) break;
  }
  const { addresses } = JSON.parse(out) as { addresses: string[] };
  return { child, address: addresses[0] as string };
}

/** An instrument on a serial port of the browser: what it is sent goes through `hear`, which answers with its bytes. */
async function plugIn(context: BrowserContext, hear: (text: string) => Promise<string>): Promise<void> {
  await context.exposeFunction('instrumentHears', hear);
  await context.addInitScript(() => {
    const { instrumentHears } = window as unknown as { instrumentHears(text: string): Promise<string> };
    let give: ReadableStreamDefaultController<Uint8Array> | null = null;
    const port = {
      readable: null as ReadableStream<Uint8Array> | null,
      writable: null as WritableStream<Uint8Array> | null,
      async open() {
        this.readable = new ReadableStream({
          start: (controller) => {
            give = controller;
          },
          cancel: () => {
            this.readable = null;
          },
        });
        this.writable = new WritableStream({
          write: async (chunk) => {
            const answer = await instrumentHears(new TextDecoder().decode(chunk));
            give?.enqueue(new TextEncoder().encode(answer));
          },
        });
      },
      async close() {},
    };
    Object.defineProperty(navigator, 'serial', { value: { requestPort: async () => port } });
  });
}

/** What a device says when it hears something. */
function answering(make: (say: (line: string) => void) => Device): (text: string) => Promise<string> {
  let said = '';
  const device = make((line) => {
    said += line;
  });
  device.powerUp();
  return async (text) => {
    device.receive(new TextEncoder().encode(text));
    await new Promise((resolve) => setTimeout(resolve, 100));
    const answer = said;
    said = '';
    return answer;
  };
}

const ANTENNA = { re: 0, im: 0.2 };

/** A simulated instrument that loses some lines of its first sweep on their way. */
function lossyInstrument(): (text: string) => Promise<string> {
  let said: string[] = [];
  const device = new SimulatedDevice(
    {
      identity: {
        lowestHz: 1e6,
        highestHz: 60e6,
        mostPoints: 401,
        correction: 'cal',
        plane: 'lead',
        referenceMilliohm: 50_000,
        model: 'garden bridge 2',
        serial: '7',
      },
      reflectionAt: () => ({ re: 0, im: 0.2 }),
      pointMs: 0,
    },
    (line) => said.push(line),
  );
  device.powerUp();
  let lines = 0;
  return async (text) => {
    device.receive(new TextEncoder().encode(text));
    await new Promise((resolve) => setTimeout(resolve, 100));
    const answer = said.filter(() => ++lines % 50 !== 0 || lines > 200).join('');
    said = [];
    return answer;
  };
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

  it('measures through an instrument on this computer, and asks again for what was lost', async () => {
    const { address } = await served(await newLogbook());
    const context = await browser.newContext({ locale: 'en-US' });
    await plugIn(context, lossyInstrument());
    const page = await context.newPage();
    await page.goto(address);
    await page.click('text=Measure here');
    await expect
      .poll(() => page.textContent('.answer'), { timeout: 20_000 })
      .toMatch(/^Measured here 1, garden bridge 2: lowest SWR 1\.50 /u);
    expect(await page.getAttribute('.measure-words a', 'download')).toBe('measured-here-1.csv');
    await context.close();
  });

  it.each([
    ['plain-lines', (say: (line: string) => void) => new PlainLinesDevice(() => ANTENNA, say)],
    ['scpi', (say: (line: string) => void) => new ScpiDevice(() => ANTENNA, say)],
  ])('measures through an instrument that the description %s drives', async (name, make) => {
    const { address } = await served(await newLogbook());
    const context = await browser.newContext({ locale: 'en-US' });
    await plugIn(context, answering(make));
    const page = await context.newPage();
    await page.goto(address);
    await page.selectOption('.measure-here label:has-text("Instrument speaks") select', name);
    await page.click('text=Measure here');
    // |Γ| = 0.2 everywhere: SWR 1.2/0.8 and, at ±90°, R = 50 (1 − 0.04)/(1 + 0.04) ohm.
    await expect
      .poll(() => page.textContent('.answer'), { timeout: 30_000 })
      .toMatch(/^Measured here 1, .+: lowest SWR 1\.50 /u);
    expect(await page.textContent('.stake-words')).toContain('R 46.2 Ω, X 19.2 Ω');
    expect(await page.textContent('.measure-words')).toContain('turfwire import measured-here-1.csv');
    await context.close();
  });

  it('offers an instrument of the user by its description, and tells why one did not answer', async () => {
    const logbook = await newLogbook();
    const shipped = resolve(import.meta.dirname, '../../descriptions/plain-lines.json');
    const own = {
      ...JSON.parse(await readFile(shipped, 'utf8')),
      name: 'shed bridge',
      greeting: { wait: '10ms' },
    };
    const describe = join(logbook, 'mine.json');
    await writeFile(describe, JSON.stringify({ ...own, pacing: { reply: '50ms' } }));
    const { address } = await served(logbook, '--describe', describe);
    const context = await browser.newContext({ locale: 'en-US' });
    await plugIn(context, async () => '');
    const page = await context.newPage();
    await page.goto(address);
    await page.selectOption('.measure-here label:has-text("Instrument speaks") select', 'shed bridge');
    await page.click('text=Measure here');
    await expect
      .poll(() => page.textContent('.measure-words'))
      .toMatch(/^Not measured: .* did not answer "id" .* are the port and the baud rate right, .*\?$/u);
    expect(await page.textContent('.answer')).not.toContain('Measured here');
    await context.close();
  });

  it('is open to the network only under its key', async () => {
    const { address } = await served(await newLogbook(), '--lan');
    const url = new URL(address);
    url.hostname = '127.0.0.1';
    const { page, complaints, close } = await openWatched(browser, url.href);
    await expect.poll(() => page.textContent('.live')).toBe('Following the logbook.');
    expect(await page.locator('text=Measure here').count()).toBe(0);
    expect(complaints).toEqual([]);
    await close();
    expect((await fetch(new URL('/', url))).status).toBe(404);
    expect((await fetch(new URL('/data.json', url))).status).toBe(404);
    expect((await fetch(new URL('descriptions.json', url))).status).toBe(404);
  });
});
