import { access, constants, readdir, readlink, stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';

/** A serial port that the system knows. */
export interface PortFound {
  readonly path: string;
  /** A name that stays the same whichever socket the instrument is plugged into; null when there is none. */
  readonly lastingPath: string | null;
  readonly manufacturer: string | null;
  readonly serialNumber: string | null;
  readonly vendorId: string | null;
  readonly productId: string | null;
  readonly access: 'allowed' | 'denied' | 'unknown';
  /** Group that owns the device file; null where that is not known. */
  readonly groupId: number | null;
}

/** The serial ports of this computer. */
export interface PortList {
  readonly ports: readonly PortFound[];
  /** Why the list may be short, in words; empty when it is whole. */
  readonly notes: readonly string[];
}

/** Where Linux keeps lasting names; absent elsewhere, and where no USB port is plugged in. */
const LASTING_NAMES = '/dev/serial/by-id';

/** How the ports are found; a test gives its own. */
export type FindPorts = () => Promise<readonly { readonly path: string; readonly [key: string]: unknown }[]>;

/**
 * Lists serial ports as far as the system tells. The list is a convenience: pseudo-terminals and unusual drivers are
 * never in it, and every port can be named by its path all the same.
 */
export async function listPorts(find: FindPorts = findBySystem): Promise<PortList> {
  const notes: string[] = [];
  let found: Awaited<ReturnType<FindPorts>> = [];
  try {
    found = await find();
  } catch (error) {
    notes.push(whyNot(error as NodeJS.ErrnoException));
  }
  const lasting = await lastingNames();
  const ports = await Promise.all(
    found.map(async (port) => ({
      path: port.path,
      lastingPath: lasting.get(port.path) ?? null,
      manufacturer: textOrNull(port['manufacturer']),
      serialNumber: textOrNull(port['serialNumber']),
      vendorId: textOrNull(port['vendorId']),
      productId: textOrNull(port['productId']),
      ...(await rightsTo(port.path)),
    })),
  );
  return { ports, notes };
}

async function findBySystem(): ReturnType<FindPorts> {
  const { SerialPort } = await import('serialport');
  return (await SerialPort.list()).map((port) => ({ ...port }));
}

function whyNot(error: NodeJS.ErrnoException): string {
  if (error.code === 'ENOENT' && error.message.includes('udevadm')) {
    return 'ports cannot be listed here, because the program udevadm is missing (a container, or a small system): install udev, or name the port by its path, such as /dev/ttyACM0 or /dev/ttyUSB0 (see ls /dev/tty*)';
  }
  return `ports cannot be listed: ${error.message}; name the port by its path`;
}

async function lastingNames(): Promise<Map<string, string>> {
  const names = await readdir(LASTING_NAMES).catch(() => []);
  const links = await Promise.all(
    names.map(async (name) => {
      const path = join(LASTING_NAMES, name);
      return [resolve(LASTING_NAMES, await readlink(path)), path] as const;
    }),
  );
  return new Map(links);
}

async function rightsTo(path: string): Promise<Pick<PortFound, 'access' | 'groupId'>> {
  if (process.platform === 'win32') return { access: 'unknown', groupId: null };
  const groupId = await stat(path).then(
    ({ gid }) => gid,
    () => null,
  );
  const allowed = await access(path, constants.R_OK | constants.W_OK).then(
    () => 'allowed' as const,
    () => 'denied' as const,
  );
  return { access: allowed, groupId };
}

function textOrNull(value: unknown): string | null {
  return typeof value === 'string' && value !== '' ? value : null;
}
