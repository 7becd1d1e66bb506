import type { Reach } from './page-server.ts';

const OWN_POLICY = /http-equiv="Content-Security-Policy" content="([^"]*)"/u;

/**
 * What a browser must not do with a served page. The policy is the one that stands in the page itself, with hashes of
 * its script and style, and that nobody may frame it. Serial ports are for this computer's own page alone.
 *
 * @param html - the page
 */
export function securityHeaders(
  html: string,
  reach: Reach,
): readonly (readonly [name: string, value: string])[] {
  const policy = OWN_POLICY.exec(html)?.[1] ?? "default-src 'none'";
  return [
    ['Content-Security-Policy', `${policy}; frame-ancestors 'none'`],
    ['X-Content-Type-Options', 'nosniff'],
    ['X-Frame-Options', 'DENY'],
    ['Referrer-Policy', 'no-referrer'],
    ['Cross-Origin-Opener-Policy', 'same-origin'],
    ['Cross-Origin-Resource-Policy', 'same-origin'],
    [
      'Permissions-Policy',
      `serial=${reach === 'loopback' ? '(self)' : '()'}, camera=(), microphone=(), geolocation=(), usb=()`,
    ],
    ['Cache-Control', 'no-store'],
  ];
}
