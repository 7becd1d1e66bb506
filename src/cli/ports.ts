import { readFile } from 'node:fs/promises';
import type { Command } from 'commander';
import { deviceName } from '../instrument/device-text.ts';
import { listPorts, type PortFound } from '../instrument/serial/list-ports.ts';
import { printAnswer, table } from './answer.ts';
import type { Io } from './io.ts';

/** What to know before a port is used. */
const ADVICE: readonly string[] = [
  'A port that is not listed can be named by its path even so; "simulated" needs none.',
  'A name under /dev/serial/by-id stays the same whichever socket the instrument is plugged into.',
  'A port that another program has open cannot be opened a second time: close that program first. A new device may be held for some seconds by the system, which checks whether it is a modem.',
];

/** `turfwire ports`: which serial ports there are, and who may use them. */
export function register(command: Command, io: Io): void {
  command
    .option('--json', 'print one JSON document')
    .addHelpText('after', '\nExample: turfwire ports')
    .action(async ({ json }: { json?: boolean }) => {
      const { ports, notes } = await listPorts();
      const groups = await groupNames();
      const named = ports.map(({ groupId, ...port }) => ({
        ...port,
        group: groups.get(groupId ?? -1) ?? null,
      }));
      const denied = named.filter((port) => port.access === 'denied');
      const hints = [...notes, ...denied.map(permissionHint)];
      printAnswer(io, { json: { ports: named, notes: hints }, text: portsText(named, hints) }, json === true);
    });
}

type NamedPort = Omit<PortFound, 'groupId'> & { readonly group: string | null };

function portsText(ports: readonly NamedPort[], hints: readonly string[]): string {
  const rows = ports.map((port) => [
    port.lastingPath ?? port.path,
    deviceName(port.manufacturer ?? '') ?? '-',
    deviceName(port.serialNumber ?? '') ?? '-',
    port.access === 'denied' ? 'no permission' : 'may be opened',
  ]);
  const list =
    rows.length === 0 ? 'No serial port was found.' : table([['port', 'maker', 'serial', 'access'], ...rows]);
  return [list, [...hints, ...ADVICE].map((hint) => `- ${hint}`).join('\n')].join('\n\n');
}

function permissionHint({ path, group }: NamedPort): string {
  const name = group ?? 'dialout';
  return `${path} belongs to the group ${name}: join it with sudo usermod -aG ${name} "$USER", log out and in again`;
}

/** Names of the groups by number; empty where there is no such file. */
async function groupNames(): Promise<Map<number, string>> {
  const text = await readFile('/etc/group', 'utf8').catch(() => '');
  const lines = text.split('\n').map((line) => line.split(':'));
  return new Map(lines.map(([name = '', , id = '']) => [Number(id), name]));
}
