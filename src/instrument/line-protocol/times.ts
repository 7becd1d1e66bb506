/** How long the host waits, ms, and how often it tries. */
export interface ProtocolTimes {
  readonly greetingMs: number;
  readonly replyMs: number;
  readonly silenceMs: number;
  readonly againMs: number;
  /** From one new point to the next, whatever signs of life come between. */
  readonly progressMs: number;
  readonly busyMs: number;
}

/** Source: firmware-protocol/README.md, sections 9 and 10. */
export const PROTOCOL_TIMES: ProtocolTimes = {
  greetingMs: 2500,
  replyMs: 1000,
  silenceMs: 3000,
  againMs: 1000,
  progressMs: 30_000,
  busyMs: 1000,
};

/** Times that a request is sent before nothing is taken to answer. */
export const REQUEST_TRIES = 5;
/** Sweeps taken anew before giving up, when the instrument was reset or no longer keeps the points. */
export const SWEEP_TRIES = 3;
/** Requests in a row for missing points, without a new one, before giving up. */
export const FRUITLESS_REASKS = 8;

/** The same times for an instrument or wire that is slower (or a test that is quicker). */
export function scaledTimes(factor: number): ProtocolTimes {
  const scaled = Object.entries(PROTOCOL_TIMES).map(([name, ms]) => [name, ms * factor]);
  return Object.fromEntries(scaled) as unknown as ProtocolTimes;
}
