import { describe, expect, it } from 'vitest';
import { portError } from '../../../../src/instrument/serial/port-errors.ts';

describe('what the serial binding says', () => {
  // Texts of serialport 13, as they were seen on Linux.
  it.each([
    ['Error: No such file or directory, cannot open /dev/ttyACM0', 'port-missing', /plug the instrument in/u],
    ['Error: Permission denied, cannot open /dev/ttyACM0', 'port-denied', /usermod -aG dialout/u],
    ['Error Resource temporarily unavailable Cannot lock port', 'port-busy', /another program has/u],
    [
      'Error: Inappropriate ioctl for device setting custom baud rate of 9600',
      'port-not-serial',
      /is no serial port/u,
    ],
    ['Error: Input/output error', 'port-failed', /cannot be used: Input\/output error/u],
  ])('%s', (text, code, message) => {
    const error = portError('/dev/ttyACM0', new Error(text));
    expect(error).toMatchObject({ code, kind: 'instrument' });
    expect(error.message).toMatch(message);
    expect(error.message).toContain('/dev/ttyACM0');
  });
});
