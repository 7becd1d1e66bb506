/** How a wire is set; what is left out is 8 data bits, no parity, one stop bit and no flow control. */
export interface SerialOptions {
  readonly baudRate: number;
  readonly dataBits?: 7 | 8;
  readonly stopBits?: 1 | 2;
  readonly parity?: 'none' | 'even' | 'odd';
  readonly flowControl?: 'none' | 'hardware';
  readonly bufferSize?: number;
}

/**
 * What the page uses of serial ports in browsers.
 * Source: WICG draft, Web Serial API, https://wicg.github.io/serial/
 */
export interface WebSerialPort {
  readonly readable: ReadableStream<Uint8Array> | null;
  readonly writable: WritableStream<Uint8Array> | null;
  open(options: SerialOptions): Promise<void>;
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
