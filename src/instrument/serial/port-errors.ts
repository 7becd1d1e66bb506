import { UserError } from '../../core/user-error.ts';

/**
 * Says in words what the serial binding says in text only (its errors carry no code), and what to do.
 * @param port - as the user wrote it
 */
export function portError(port: string, cause: Error): UserError {
  const [code, message] = explain(port, cause.message);
  return new UserError(code, message, { kind: 'instrument', cause });
}

function explain(port: string, text: string): [code: string, message: string] {
  if (/No such file or directory|File not found|cannot find/iu.test(text)) {
    return [
      'port-missing',
      `${port} is not there: plug the instrument in, or run \`turfwire ports\` to see what is`,
    ];
  }
  if (/cannot lock/iu.test(text)) {
    return ['port-busy', `another program has ${port} open: close it and try again`];
  }
  if (/Permission denied|Access denied/iu.test(text)) {
    return [
      'port-denied',
      `this user may not open ${port}: on Linux add the user to the group that owns it ` +
        '("dialout" or "uucp": sudo usermod -aG dialout "$USER") and log in again; if that is done, another program may hold it',
    ];
  }
  if (/Inappropriate ioctl/iu.test(text)) {
    return ['port-not-serial', `${port} is not a serial port`];
  }
  return ['port-failed', `${port} cannot be used: ${text.replace(/^Error:?\s*/u, '')}`];
}

/**
 * The same for a port that was open: a terminal whose other end hung up answers every call with an input/output error,
 * and an adaptor that was pulled with "no such device", often before the binding sees it close.
 */
export function openPortError(port: string, cause: Error): UserError {
  const hungUp = /Input\/output error|No such device|Device not configured/iu.test(cause.message);
  return hungUp ? portGone(port, cause) : portError(port, cause);
}

/** The wire is no longer there. */
export function portGone(port: string, cause?: unknown): UserError {
  return new UserError(
    'port-gone',
    `${port} went away: was the cable pulled, or did the instrument lose power? the sweep in hand was dropped; plug it in and measure again`,
    { kind: 'instrument', cause },
  );
}
