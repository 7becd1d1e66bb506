import { request } from 'node:http';
import { describe, expect, it, onTestFinished } from 'vitest';
import { type PageServer, type Reach, startPageServer } from '../../../../src/cli/page/page-server.ts';

const HTML =
  '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; script-src \'sha256-x\'">';

async function started(reach: Reach): Promise<PageServer> {
  const server = await startPageServer(
    { html: () => HTML, data: () => '{"version":1}', descriptions: () => '[]' },
    reach,
    0,
  );
  onTestFinished(() => server.close());
  return server;
}

/** Where the server really is, whatever name it goes by. */
function local(address: string): URL {
  const url = new URL(address);
  url.hostname = '127.0.0.1';
  return url;
}

function ask(url: URL, options: { host?: string; method?: string } = {}): Promise<number> {
  return new Promise((resolve, reject) => {
    const headers = options.host === undefined ? {} : { host: options.host };
    request(url, { method: options.method ?? 'GET', headers }, (answer) => {
      answer.resume();
      resolve(answer.statusCode ?? 0);
    })
      .on('error', reject)
      .end();
  });
}

describe('the page on loopback', () => {
  it('is there, and so are its data', async () => {
    const { addresses } = await started('loopback');
    expect(addresses).toEqual([expect.stringMatching(/^http:\/\/localhost:\d+\/$/u)]);
    const url = local(addresses[0] as string);
    expect(await (await fetch(url)).text()).toBe(HTML);
    expect(await (await fetch(new URL('data.json', url))).json()).toEqual({ version: 1 });
  });

  it('has the policy of the page, and forbids framing, guessing of types, caching and referrers', async () => {
    const { headers } = await fetch(local((await started('loopback')).addresses[0] as string));
    expect(Object.fromEntries(headers)).toMatchObject({
      'content-security-policy': "default-src 'none'; script-src 'sha256-x'; frame-ancestors 'none'",
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
      'referrer-policy': 'no-referrer',
      'cross-origin-resource-policy': 'same-origin',
      'cache-control': 'no-store',
      'permissions-policy': expect.stringContaining('serial=(self)'),
    });
  });

  it.each([
    ['a name of another site', { host: 'evil.example' }, 404],
    ['a name that begins like ours', { host: 'localhost.evil.example' }, 404],
    ['another method', { method: 'POST' }, 405],
  ])('is not there for %s', async (_, options, status) => {
    const url = local((await started('loopback')).addresses[0] as string);
    expect(await ask(url, options)).toBe(status);
  });

  it('answers to its numbers as well as to its name', async () => {
    const url = local((await started('loopback')).addresses[0] as string);
    expect(await ask(url, { host: `127.0.0.1:${url.port}` })).toBe(200);
    expect(await ask(url, { host: `[::1]:${url.port}` })).toBe(200);
  });

  it('tells open pages of changes', async () => {
    const server = await started('loopback');
    const answer = await fetch(new URL('changes', local(server.addresses[0] as string)));
    expect(answer.headers.get('content-type')).toContain('text/event-stream');
    const reader = (answer.body as ReadableStream<Uint8Array>).getReader();
    const next = async (): Promise<string> => new TextDecoder().decode((await reader.read()).value);
    expect(await next()).toBe('retry: 2000\n\n');
    server.tellChanged();
    expect(await next()).toBe('event: changed\ndata:\n\n');
  });

  it('says when its port is taken', async () => {
    const { addresses } = await started('loopback');
    const port = Number(new URL(addresses[0] as string).port);
    const again = startPageServer(
      { html: () => '', data: () => '', descriptions: () => '' },
      'loopback',
      port,
    );
    await expect(again).rejects.toMatchObject({
      code: 'port-refused',
      kind: 'command-line',
      place: { field: '--port' },
    });
  });
});

describe('the page in the network', () => {
  const keyed = async (): Promise<URL> => local((await started('network')).addresses[0] as string);

  it('is there under its key, which is long and new each time', async () => {
    const first = await keyed();
    expect(first.pathname).toMatch(/^\/[\w-]{32}\/$/u);
    expect(await ask(first)).toBe(200);
    expect((await keyed()).pathname).not.toBe(first.pathname);
  });

  it.each([
    ['no key', () => '/'],
    ['no key for the data', () => '/data.json'],
    ['no key for the changes', () => '/changes'],
    ['another key', (path: string) => path.replace(/.\/$/u, path.endsWith('A/') ? 'B/' : 'A/')],
    ['part of the key', (path: string) => `${path.slice(0, 12)}/`],
    ['the key in another place', (path: string) => `/x${path}`],
    ['the key with its bars encoded', (path: string) => `${path.slice(0, -1)}%2f`],
  ])('is not there with %s', async (_, wrong) => {
    const url = await keyed();
    expect(await ask(new URL(wrong(url.pathname), url))).toBe(404);
  });

  it('gives no page a serial port', async () => {
    expect((await fetch(await keyed())).headers.get('permissions-policy')).toContain('serial=()');
  });
});
