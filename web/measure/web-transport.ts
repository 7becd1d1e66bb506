import { UserError } from '../../src/core/user-error.ts';
import type { LineTransport, TransportListener } from '../../src/instrument/line-transport.ts';
import type { SerialOptions, WebSerialPort } from './web-serial.ts';

/** A serial port of the browser as the drivers want one. */
export function webTransport(port: WebSerialPort, options: SerialOptions): LineTransport {
  let isOpen = false;
  let reader: ReadableStreamDefaultReader<Uint8Array> | null = null;
  let reading: Promise<void> = Promise.resolve();

  /** A byte that came wrong ends only the stream; the port gives a fresh one, so reading goes on until it gives none. */
  const read = async ({ bytes, gone }: TransportListener): Promise<void> => {
    while (isOpen && port.readable !== null) {
      reader = port.readable.getReader();
      try {
        for (;;) {
          const { value, done } = await reader.read();
          if (done) break;
          bytes(value);
        }
      } catch {
        // the next stream
      } finally {
        reader.releaseLock();
      }
    }
    if (isOpen) gone(new UserError('port-gone', 'the instrument was unplugged', { kind: 'instrument' }));
  };

  return {
    name: 'the chosen port',
    async open(listener) {
      await port.open(options);
      isOpen = true;
      reading = read(listener);
    },
    async write(text) {
      const writer = port.writable?.getWriter();
      await writer?.write(new TextEncoder().encode(text));
      writer?.releaseLock();
    },
    async close() {
      isOpen = false;
      await reader?.cancel().catch(() => {});
      await reading;
      await port.close().catch(() => {});
    },
  };
}
