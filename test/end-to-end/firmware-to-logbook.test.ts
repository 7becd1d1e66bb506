import { expect, it, onTestFinished } from 'vitest';
import { reflectionColumns } from '../../src/core/sweep/reflection.ts';
import { loadShot, openLogbook } from '../../src/logbook/logbook.ts';
import { expectClose } from '../support/expect-close.ts';
import { runCommand } from '../support/fake-io.ts';
import { compileModelledAntenna, modelledReflectionMicro } from '../support/firmware.ts';
import { newLogbook } from '../support/logbooks.ts';
import { openProgramWire } from '../support/pty.ts';

it('the C reference on a pseudo-terminal: what is stored is its model, within the wire’s resolution', async () => {
  const wire = await openProgramWire(await compileModelledAntenna());
  onTestFinished(() => wire.unplug());
  const folder = await newLogbook();
  // The model is an instrument without calibration; its readings are the antenna's all the same.
  const flags = ['--uncorrected', '--shots', '2', '--points', '201', '--patience', '0.2'];
  const ran = await runCommand(['measure', '--port', wire.path, '--logbook', folder, ...flags]);
  expect(ran.code, ran.err).toBe(0);
  const logbook = await openLogbook(folder);
  const shots = logbook.visits[0]?.shots ?? [];
  expect(shots).toHaveLength(2);
  for (const shot of shots) {
    const sweep = await loadShot(logbook, shot);
    const { re, im } = reflectionColumns(sweep);
    expect(sweep.frequencyHz).toHaveLength(201);
    sweep.frequencyHz.forEach((frequencyHz, i) => {
      const expected = modelledReflectionMicro(frequencyHz);
      // Half a millionth is the rounding on the wire; the way through ohms and back is exact to 1e-15.
      expectClose((re[i] as number) * 1e6, expected.re, { absolute: 0.5001 });
      expectClose((im[i] as number) * 1e6, expected.im, { absolute: 0.5001 });
    });
  }
});
