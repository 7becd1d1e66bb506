import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { SerialPort } from 'serialport';
import { describe, expect, it, onTestFinished } from 'vitest';
import { addVisit, checkLogbook, JOURNAL_FILE, openLogbook } from '../../src/logbook/logbook.ts';
import { type Ran, runCommand } from '../support/fake-io.ts';
import { instrumentOnPty } from '../support/instrument-on-pty.ts';
import { newLogbook, someVisit, temporaryFolder } from '../support/logbooks.ts';
import { openPlayedWire } from '../support/pty.ts';
import { asHeardAt } from '../support/wrong-speed.ts';

/** Escape sequences, bells, and whatever else a terminal obeys. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: finding control characters is the purpose
const CONTROL = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/u;

/** The instrument runs at 115,200 baud, the host at 38,400. */
const WRONG_SPEED = {
  toHost: (bytes: Uint8Array): Uint8Array => asHeardAt(bytes, 115_200, 38_400),
  fromHost: (bytes: Uint8Array): Uint8Array => asHeardAt(bytes, 38_400, 115_200),
};

interface Tried extends Ran {
  readonly folder: string;
  /** Visits stored by this try. */
  readonly stored: number;
}

/** Measures at a port, into a logbook that holds one visit already; that visit must come to no harm. */
async function tryMeasuring(port: string, ...flags: string[]): Promise<Tried> {
  const folder = await newLogbook();
  const logged = ['--logbook', folder, '--shots', '1', '--points', '51'];
  await addVisit(folder, someVisit(1));
  const before = await readFile(join(folder, JOURNAL_FILE));
  const ran = await runCommand(['measure', '--port', port, '--patience', '0.15', ...logged, ...flags]);
  const after = await readFile(join(folder, JOURNAL_FILE));
  expect(after.subarray(0, before.length).equals(before)).toBe(true);
  expect((await checkLogbook(folder)).damage).toEqual([]);
  expect(CONTROL.test(ran.out + ran.err)).toBe(false);
  return { ...ran, folder, stored: (await openLogbook(folder)).visits.length - 1 };
}

/** Nothing is stored, and the message says what happened and what to do. */
function expectFailure(tried: Tried, happened: RegExp, advice: RegExp): void {
  expect(tried.code).toBe(3);
  expect(tried.err).toMatch(happened);
  expect(tried.err).toMatch(advice);
  expect(tried.stored).toBe(0);
}

/** One whole visit is stored. */
function expectWhole(tried: Tried): void {
  expect(tried.code, tried.err).toBe(0);
  expect(tried.stored).toBe(1);
}

describe('an instrument on a pseudo-terminal', () => {
  it('is measured', async () => {
    const { path } = await instrumentOnPty();
    expectWhole(await tryMeasuring(path));
  });

  it('that is unplugged in mid-sweep', async () => {
    const { path } = await instrumentOnPty('unplug=30,pace=2');
    expectFailure(await tryMeasuring(path), /went away/u, /plug it in and measure again/u);
  });

  it('that never answers', async () => {
    const { path } = await instrumentOnPty('silent');
    expectFailure(await tryMeasuring(path), /nothing at .* answers/u, /is the instrument switched on/u);
  });

  it('that answers late, but in time', async () => {
    const { path } = await instrumentOnPty('late=60');
    expectWhole(await tryMeasuring(path));
  });

  it('that answers too late', async () => {
    const { path } = await instrumentOnPty('late=5000');
    expectFailure(await tryMeasuring(path), /nothing at .* answers/u, /is this its port/u);
  });

  it('that is reset in mid-sweep', async () => {
    const { path } = await instrumentOnPty('reset=20');
    expectFailure(await tryMeasuring(path), /was reset in mid-sweep/u, /check its supply/u);
  });

  it('that reports a fault', async () => {
    const { path } = await instrumentOnPty('fault=supply');
    expectFailure(await tryMeasuring(path), /reports "supply: as the simulator was told"/u, /battery/u);
  });

  it('that another program has open', async () => {
    const { path } = await instrumentOnPty();
    const other = new SerialPort({ path, baudRate: 115_200 });
    onTestFinished(() => new Promise((done) => void other.close(() => done())));
    await new Promise((done) => other.once('open', done));
    expectFailure(await tryMeasuring(path), /another program has .* open/u, /close it and try again/u);
  });

  it('that is not there', async () => {
    const path = join(temporaryFolder(), 'ttyACM9');
    expectFailure(await tryMeasuring(path), /ttyACM9 is not there/u, /plug the instrument in/u);
  });

  it('that is not a serial port', async () => {
    expectFailure(await tryMeasuring('/dev/null'), /\/dev\/null is not a serial port/u, /./u);
  });
});

describe('a wire that loses, damages, doubles and shuffles lines', () => {
  it.each([
    ['half lines', 'halve=0.1'],
    ['a wrong byte in 1 % of the lines', 'corrupt=0.01,seed=3'],
    ['a wrong byte in 10 % of the lines', 'corrupt=0.1'],
    ['missing points', 'drop=0.1'],
    ['points that come twice', 'duplicate=0.3'],
    ['points that come in another order', 'reorder=0.3'],
    ['all of these', 'halve=0.05,corrupt=0.05,drop=0.05,duplicate=0.05,reorder=0.05,deaf=0.1'],
  ])('%s: the sweep is whole after re-asks', async (_, settings) => {
    const { path } = await instrumentOnPty(settings);
    expectWhole(await tryMeasuring(path));
  });

  it('hopelessly: the failure is clear', async () => {
    const { path } = await instrumentOnPty('drop=0.97,seed=2');
    expectFailure(
      await tryMeasuring(path),
      /nothing at .* answers|not the rest/u,
      /is this its port|check the cable/u,
    );
  });
});

describe('noise', () => {
  it('of 16 MiB without a line end costs no memory, and the sweep after it is whole', async () => {
    const { path } = await instrumentOnPty(`flood=${16 * 2 ** 20}`);
    const before = held();
    expectWhole(await tryMeasuring(path, '--patience', '1'));
    expect(held() - before).toBeLessThan(12 * 2 ** 20);
  });

  it('of a wrong speed is told, with a sample that is harmless', async () => {
    const { path } = await instrumentOnPty('', { ...WRONG_SPEED, resetByOpening: true });
    const happened = /bytes came from .*, but no answer that can be read/u;
    expectFailure(await tryMeasuring(path), happened, /check --baud/u);
  });

  it('of a wrong speed may be silence: neither side understands the other', async () => {
    const { path } = await instrumentOnPty('', WRONG_SPEED);
    expectFailure(await tryMeasuring(path), /nothing at .* answers/u, /is .* --baud its speed/u);
  });

  it('of hostile lines is passed over, and none of it shown', async () => {
    const { path } = await instrumentOnPty('hostile=0.3');
    const tried = await tryMeasuring(path);
    expectWhole(tried);
    expect(tried.out + tried.err).not.toMatch(/script|owned|HYPERLINK/u);
  });
});

describe('an instrument that answers in text lines', () => {
  it('is measured by its description', async () => {
    const { path } = await instrumentOnPty('speaks=plain-lines');
    expectWhole(await tryMeasuring(path, '--description', 'plain-lines'));
  });

  it('with SCPI too', async () => {
    const { path } = await instrumentOnPty('speaks=scpi');
    expectWhole(await tryMeasuring(path, '--description', 'scpi'));
  });

  it('that is unplugged in mid-sweep', async () => {
    const { path } = await instrumentOnPty('speaks=plain-lines,unplug=30');
    expectFailure(await tryMeasuring(path, '--description', 'plain-lines'), /went away/u, /plug it in/u);
  });

  it('whose name and errors are hostile text', async () => {
    const wire = await openPlayedWire();
    onTestFinished(() => wire.unplug());
    const hostile = '\x1b]0;owned\x07<script>alert(1)</script>\x1b[2J';
    wire.fromHost.on('data', (chunk: Buffer) => {
      if (chunk.includes('id')) wire.toHost.write(`=2+3 ${hostile}\n`);
      if (chunk.includes('sweep')) wire.toHost.write(`error ${hostile}\n`);
    });
    const tried = await tryMeasuring(wire.path, '--description', 'plain-lines');
    expectFailure(tried, /reports "error \\x1b\]0;owned\\x07<script>/u, /see its manual/u);
    expect(tried.err).toMatch(/Instrument: 2\+3 0 owned script/u);
  });
});

it('--keep-raw keeps every byte that arrived', async () => {
  const { path } = await instrumentOnPty('hostile=0.2');
  const kept = join(temporaryFolder(), 'wire.bin');
  expectWhole(await tryMeasuring(path, '--keep-raw', kept));
  const bytes = await readFile(kept, 'latin1');
  expect(bytes).toMatch(/^iam,/mu);
  expect(bytes.match(/^p,\d+,\d+,-?\d+,-?\d+\*[0-9A-F]{4}$/gmu)).toHaveLength(51);
  expect(bytes).toContain('\x1b');
});

/** Memory of JavaScript values and of buffers beside them. */
function held(): number {
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
}
