import { randomBytes, timingSafeEqual } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { networkInterfaces } from 'node:os';
import { UserError } from '../../core/user-error.ts';
import { ChangeStream } from './change-stream.ts';
import { securityHeaders } from './security-headers.ts';

/** Who can reach a page: this computer, or everybody in the network who has its address with the key. */
export type Reach = 'loopback' | 'network';

/** What is served, asked for anew at each request. */
export interface ServedPage {
  html(): string;
  data(): string;
  /** Descriptions of instruments for a page that measures; only this computer's own page may. */
  descriptions(): string;
}

/** A running server of the page. */
export interface PageServer {
  /** Where the page is, at least one. */
  readonly addresses: readonly string[];
  /** Tells every open page that the data are newer. */
  tellChanged(): void;
  close(): Promise<void>;
}

const KEY_BYTES = 24;
const MOST_CONNECTIONS = 100;

/**
 * Serves a page for reading. On loopback only requests for a loopback name are answered, so that no web site can get
 * at it by a name of its own; to the network only addresses that start with a key nobody can guess.
 *
 * @param port - 0 for any that is free
 * @throws UserError `port-refused`
 */
export async function startPageServer(page: ServedPage, reach: Reach, port: number): Promise<PageServer> {
  const key = reach === 'network' ? randomBytes(KEY_BYTES).toString('base64url') : null;
  const changes = new ChangeStream();
  const headers = securityHeaders(page.html(), reach);
  const server = createServer((request, response) => {
    for (const [name, value] of headers) response.setHeader(name, value);
    if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(response, 405);
    const path = allowedPath(request, key);
    if (path === '/') return send(response, 'text/html; charset=utf-8', page.html());
    if (path === '/data.json') return send(response, 'application/json; charset=utf-8', page.data());
    if (path === '/descriptions.json' && reach === 'loopback') {
      return send(response, 'application/json; charset=utf-8', page.descriptions());
    }
    if (path === '/changes' && request.method === 'GET') return changes.open(response);
    return refuse(response, 404);
  });
  server.maxConnections = MOST_CONNECTIONS;
  await listen(server, port, reach === 'network' ? '0.0.0.0' : '127.0.0.1');
  const { port: taken } = server.address() as AddressInfo;
  const hosts = reach === 'network' ? networkAddresses() : ['localhost'];
  return {
    addresses: hosts.map((host) => `http://${host}:${taken}/${key === null ? '' : `${key}/`}`),
    tellChanged: () => changes.tell(),
    close: async () => {
      changes.close();
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

/** The path within the page, or null where the request has no business here. */
function allowedPath(
  { url = '', headers: { host = '' } }: IncomingMessage,
  key: string | null,
): string | null {
  const path = url.split('?')[0] ?? '';
  if (key === null) return /^(?:localhost|127\.0\.0\.1|\[::1\])(?::\d+)?$/u.test(host) ? path : null;
  const [, given = '', rest] = /^\/([^/]*)(\/.*)$/u.exec(path) ?? [];
  const [a, b] = [Buffer.from(given), Buffer.from(key)];
  return a.length === b.length && timingSafeEqual(a, b) ? (rest ?? null) : null;
}

function send(response: ServerResponse, type: string, text: string): void {
  response.setHeader('Content-Type', type);
  response.end(text);
}

function refuse(response: ServerResponse, status: number): void {
  response.statusCode = status;
  send(response, 'text/plain; charset=utf-8', 'There is nothing here.\n');
}

function listen(server: Server, port: number, host: string): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', (cause: NodeJS.ErrnoException) => {
      const why =
        cause.code === 'EADDRINUSE'
          ? 'is taken by another program: name another'
          : `cannot be used: ${cause.code}`;
      reject(
        new UserError('port-refused', `port ${port} ${why}`, {
          kind: 'command-line',
          place: { field: '--port' },
          cause,
        }),
      );
    });
    server.listen(port, host, resolve);
  });
}

/** The addresses of this computer in its networks; its own name for itself where it is in none. */
function networkAddresses(): string[] {
  const all = Object.values(networkInterfaces())
    .flatMap((cards) => cards ?? [])
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => address);
  return all.length === 0 ? ['localhost'] : all;
}
