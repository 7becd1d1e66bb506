import { once } from 'node:events';
import { constants, open as openFile } from 'node:fs/promises';
import { SerialPort } from 'serialport';
import { afterEach, describe, expect, it } from 'vitest';
import { openPlayedWire, openProgramWire, type Wire } from '../../support/pty.ts';

let wire: Wire | undefined;
let port: SerialPort | undefined;

afterEach(async () => {
  if (port?.isOpen) await new Promise((resolve) => port?.close(resolve));
  await wire?.unplug();
});

async function open(path: string): Promise<SerialPort> {
  const opened = new SerialPort({ path, baudRate: 115_200 });
  await once(opened, 'open');
  return opened;
}

async function read(stream: NodeJS.ReadableStream, length: number): Promise<Buffer> {
  let bytes = Buffer.alloc(0);
  while (bytes.length < length) bytes = Buffer.concat([bytes, (await once(stream, 'data'))[0] as Buffer]);
  return bytes;
}

const everyByte = Buffer.from(Uint8Array.from({ length: 256 }, (_, byte) => byte));

describe('a wire on a pseudo-terminal', () => {
  it('carries every byte unchanged in both directions', async () => {
    const played = await openPlayedWire();
    wire = played;
    port = await open(played.path);
    port.write(everyByte);
    expect(await read(played.fromHost, 256)).toEqual(everyByte);
    played.toHost.write(everyByte);
    expect(await read(port, 256)).toEqual(everyByte);
  });

  it('runs a program at the instrument’s end, and outlives a host that closes and opens again', async () => {
    wire = await openProgramWire('cat');
    for (const text of ['first\n', 'second\n']) {
      port = await open(wire.path);
      port.write(text);
      expect((await read(port, text.length)).toString()).toBe(text);
      await new Promise((resolve) => port?.close(resolve));
    }
  });

  it('hangs up when it is unplugged: reading ends, writing fails', async () => {
    wire = await openProgramWire('cat');
    const end = await openFile(wire.path, constants.O_RDWR | constants.O_NOCTTY);
    await wire.unplug();
    expect((await end.read(Buffer.alloc(1))).bytesRead).toBe(0);
    await expect(end.write('x')).rejects.toThrow('EIO');
    await end.close();
  });
});
