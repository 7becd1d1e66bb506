import { UserError } from '../../core/user-error.ts';
import type { Fault, FaultCode } from '../codec/messages.ts';
import type { WireCounts } from '../line-link.ts';

/** The instrument was reset: what it was doing is lost, and it has to be met anew. */
export class ResetError extends UserError {
  constructor(port: string) {
    super(
      'instrument-reset',
      `the instrument at ${port} was reset in mid-sweep; the sweep was dropped: check its supply and cable, and measure again`,
      { kind: 'instrument' },
    );
  }
}

/** What the user can do about each fault that an instrument reports. */
const ADVICE: Readonly<Record<FaultCode, string>> = {
  garbled: 'check the cable',
  unknown: 'it does not know this request: its firmware and this program do not match',
  form: 'it does not take this request: its firmware and this program do not match',
  version: 'it speaks no version of the protocol that this program knows: update one of the two',
  unmet: 'measure again',
  range: 'ask for a range and a number of points that it can measure',
  gone: 'it keeps no sweep to repeat points from: ask for fewer points, or use a shorter cable',
  busy: 'wait until it is ready, and measure again',
  overload: 'a strong signal reaches it: switch nearby transmitters off, or wait, and measure again',
  unlocked: 'its signal source does not settle: let it warm up, and measure again',
  supply: 'charge or change its battery, or use another supply',
  heat: 'bring it to a moderate temperature, out of the sun',
  broken: 'see its manual',
};

/** A fault that the instrument reports of itself. The text keeps the protocol's rules, so it is harmless. */
export function faultError(port: string, fault: Fault): UserError {
  return new UserError(
    `instrument-fault-${fault.code}`,
    `the instrument at ${port} reports "${fault.code}: ${fault.text}"; ${ADVICE[fault.code]}`,
    { kind: 'instrument' },
  );
}

/** Nobody answers, or what answers cannot be read. */
export function noAnswer(
  port: string,
  heard: { counts: WireCounts; badLines: number; firstBadLine: string | null },
): UserError {
  const { counts, badLines, firstBadLine } = heard;
  const noise = counts.bytes > 0 && (badLines > 0 || counts.overlongLines > 0 || counts.lines === 0);
  if (!noise) {
    return new UserError(
      'instrument-silent',
      `nothing at ${port} answers: is the instrument switched on, is this its port and --baud its speed, and does it speak the line protocol (else name a --description)?`,
      { kind: 'instrument' },
    );
  }
  const sample = firstBadLine === null ? 'no line end among them' : `the first line was ${firstBadLine}`;
  return new UserError(
    'instrument-unreadable',
    `${counts.bytes} bytes came from ${port}, but no answer that can be read (${sample}): check --baud, the cable, and that the instrument speaks the line protocol`,
    { kind: 'instrument' },
  );
}

/** A sweep that did not become whole. */
export function sweepFailed(port: string, code: string, what: string, advice: string): UserError {
  return new UserError(code, `the instrument at ${port} ${what}; the sweep was dropped: ${advice}`, {
    kind: 'instrument',
  });
}
