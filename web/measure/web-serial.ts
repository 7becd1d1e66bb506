/**
 * What the page uses of serial ports in browsers.
 * Source: WICG draft, Web Serial API, https://wicg.github.io/serial/
 */
export interface WebSerialPort {
  readonly readable: ReadableStream<Uint8Array> | null;
  readonly writable: WritableStream<Uint8Array> | null;
  open(options: { baudRate: number; bufferSize?: number }): Promise<void>;
  close(): Promise<void>;
}

interface WebSerial {
  /** The browser asks the user; rejects with `NotFoundError` when none was chosen. */
  requestPort(): Promise<WebSerialPort>;
}

const LOOPBACK: readonly string[] = ['localhost', '127.0.0.1', '[::1]'];

/** Serial ports, where this browser offers them and the page comes from this computer's own server; else null. */
export function webSerial(): WebSerial | null {
  if (!location.protocol.startsWith('http') || !LOOPBACK.includes(location.hostname)) return null;
  return (navigator as { readonly serial?: WebSerial }).serial ?? null;
}
