import { describe, expect, it } from 'vitest';
import { UserError } from '../../../src/core/user-error.ts';
import { type Exchange, LineLink, type LinkOptions } from '../../../src/instrument/line-link.ts';
import { ScriptedTransport } from '../../support/scripted-transport.ts';

const TIMES = { firstMs: 50, idleMs: 30 };

function text(line: Uint8Array): string {
  return Buffer.from(line).toString('latin1');
}

/** Takes lines until one says `end`. */
function untilEnd(lines: string[] = []): Exchange<string[]> {
  return {
    ...TIMES,
    take: (line) => {
      if (text(line) === 'end') return { result: lines };
      lines.push(text(line));
      return 'heard';
    },
  };
}

async function opened(options: LinkOptions = {}): Promise<{ wire: ScriptedTransport; link: LineLink }> {
  const wire = new ScriptedTransport();
  return { wire, link: await LineLink.open(wire, options) };
}

describe('an exchange', () => {
  it('sends, and hears the lines of the answer, however the bytes are cut', async () => {
    const { wire, link } = await opened();
    const answer = link.exchange({ ...untilEnd(), send: 'go\n' });
    for (const byte of 'one\r\ntwo\nend\n') wire.bytes(byte);
    expect(await answer).toEqual({ result: ['one', 'two'] });
    expect(wire.written).toEqual(['go\n']);
  });

  it('says whether silence came at once or later', async () => {
    const { wire, link } = await opened();
    expect(await link.exchange(untilEnd())).toEqual({ silentAfter: 'nothing' });
    const later = link.exchange(untilEnd());
    wire.bytes('one\n');
    expect(await later).toEqual({ silentAfter: 'something' });
  });

  it('is not prolonged by lines that are ignored', async () => {
    const { wire, link } = await opened();
    const noise = setInterval(() => wire.bytes('noise\n'), 5);
    expect(await link.exchange({ ...TIMES, take: () => 'ignored' })).toEqual({ silentAfter: 'nothing' });
    clearInterval(noise);
  });

  it('ends after its total time, whatever is heard', async () => {
    const { wire, link } = await opened();
    const noise = setInterval(() => wire.bytes('noise\n'), 5);
    const outcome = await link.exchange({ ...TIMES, totalMs: 80, take: () => 'heard' });
    expect(outcome).toEqual({ silentAfter: 'something' });
    clearInterval(noise);
  });

  it('passes on what its judge throws, and the next one works', async () => {
    const { wire, link } = await opened();
    const failing = link.exchange({
      ...TIMES,
      take: () => {
        throw new UserError('instrument-fault', 'it says no');
      },
    });
    wire.bytes('no\n');
    await expect(failing).rejects.toThrowError('it says no');
    const next = link.exchange(untilEnd());
    wire.bytes('end\n');
    expect(await next).toEqual({ result: [] });
  });

  it('counts lines that nobody asked for, and never gives them to the next exchange', async () => {
    const { wire, link } = await opened();
    wire.bytes('late\n');
    const answer = link.exchange(untilEnd());
    wire.bytes('one\nend\nmore\n');
    expect(await answer).toEqual({ result: ['one'] });
    expect(link.counts).toMatchObject({ lines: 4, unaskedLines: 2, bytes: 18 });
  });

  it('allows no second one beside it', async () => {
    const { link } = await opened();
    const first = link.exchange(untilEnd());
    await expect(link.exchange(untilEnd())).rejects.toThrowError('under way');
    await first;
  });
});

describe('a connection', () => {
  it('that is lost fails the exchange in hand and every later one', async () => {
    const { wire, link } = await opened();
    const answer = link.exchange(untilEnd());
    wire.pull(new UserError('port-gone', 'pulled', { kind: 'instrument' }));
    await expect(answer).rejects.toThrowError('pulled');
    await expect(link.exchange(untilEnd())).rejects.toThrowError('pulled');
  });

  it('takes no unfinished line for a line when it is lost', async () => {
    const { wire, link } = await opened();
    const lines: string[] = [];
    const answer = link.exchange(untilEnd(lines));
    wire.bytes('one\n7020000,36.');
    wire.pull(new Error('pulled'));
    await expect(answer).rejects.toThrowError('pulled');
    expect(lines).toEqual(['one']);
  });

  it('gives up when it is told to stop', async () => {
    const controller = new AbortController();
    const { link } = await opened({ signal: controller.signal });
    const answer = link.exchange(untilEnd());
    controller.abort();
    await expect(answer).rejects.toMatchObject({ code: 'interrupted', kind: 'instrument' });
  });

  it('drops lines beyond its cap and keeps the others', async () => {
    const { wire, link } = await opened({ capBytes: 8 });
    const answer = link.exchange(untilEnd());
    wire.bytes(`${'A'.repeat(1 << 20)}\none\nend\n`);
    expect(await answer).toEqual({ result: ['one'] });
    expect(link.counts.overlongLines).toBe(1);
  });

  it('lets a tap see every byte first', async () => {
    const seen: string[] = [];
    const { wire } = await opened({ tap: (chunk) => seen.push(text(chunk)) });
    wire.bytes('half');
    wire.bytes(' line\n');
    expect(seen.join('')).toBe('half line\n');
  });

  it('says a last word when it is closed, if the wire still carries it', async () => {
    const { wire, link } = await opened();
    await link.close('halt\n');
    expect(wire.written).toEqual(['halt\n']);
    expect(wire.closed).toBe(true);
  });
});
