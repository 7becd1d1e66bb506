import { describe, expect, it } from 'vitest';
import { openPortError, portError } from '../../../../src/instrument/serial/port-errors.ts';

describe('what the serial binding says of an open port', () => {
  it.each([
    ['Error: Input/output error, cannot drain', 'port-gone', /went away.*plug it in/u],
    ['Error: No such device, cannot write', 'port-gone', /went away/u],
    ['Error: Bad file descriptor', 'port-failed', /cannot be used: Bad file descriptor/u],
  ])('%s', (text, code, message) => {
    const error = openPortError('/dev/ttyACM0', new Error(text));
    expect(error).toMatchObject({ code, kind: 'instrument' });
    expect(error.message).toMatch(message);
  });
});

describe('what the serial binding says', () => {
  // Texts of serialport 13, as they were seen on Linux.
  it.each([
    ['Error: No such file or directory, cannot open /dev/ttyACM0', 'port-missing', /plug the instrument in/u],
    ['Error: Permission denied, cannot open /dev/ttyACM0', 'port-denied', /usermod -aG dialout/u],
    ['Error Resource temporarily unavailable Cannot lock port', 'port-busy', /another program has/u],
    [
      'Error: Inappropriate ioctl for device setting custom baud rate of 9600',
      'port-not-serial',
      /is not a serial port/u,
    ],
    ['Error: Input/output error', 'port-failed', /cannot be used: Input\/output error/u],
  ])('%s', (text, code, message) => {
    const error = portError('/dev/ttyACM0', new Error(text));
    expect(error).toMatchObject({ code, kind: 'instrument' });
    expect(error.message).toMatch(message);
    expect(error.message).toContain('/dev/ttyACM0');
  });
});
