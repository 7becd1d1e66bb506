import { mkdtemp, readdir, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Season } from '../../src/cli/demo.ts';
import type { ReadingKind } from '../../src/core/record.ts';
import type { Sweep } from '../../src/core/sweep/sweep.ts';
import { readSweeps } from '../../src/formats/read-sweeps.ts';
import { type Writer, withWriter } from '../../src/logbook/logbook.ts';
import { runCommand } from './fake-io.ts';

const SAMPLES = resolve(import.meta.dirname, '../../samples');

/** A logbook of the invented seasons in a temporary folder, faster than the demo replays it; returns the folder. */
export async function demoLogbook(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'turfwire-demo-'));
  const season = JSON.parse(await readFile(join(SAMPLES, 'season.json'), 'utf8')) as Season;
  await writeFile(join(folder, 'site.json'), await readFile(join(SAMPLES, 'site.json')));
  const run = async (...args: string[]): Promise<void> => {
    const { code, err } = await runCommand(args);
    if (code !== 0) throw new Error(err);
  };
  const here = ['--logbook', folder, '--at', season.begun];
  await run('begin', folder, '--name', 'Plot seven by the lake', '--at', season.begun);
  const { count, length } = season.radials;
  await run('plan', ...here, '--count', `${count}`, '--length', length, '--apply');
  await withWriter(folder, {}, (writer) => tellSeason(writer, season));
  return folder;
}

async function tellSeason(writer: Writer, { visits }: Season): Promise<void> {
  const { planned } = writer.logbook;
  const files = await readdir(join(SAMPLES, 'sweeps'));
  for (const { at: time, laid, moisture, temperatureC, layout, strength } of visits) {
    const reading = (event: ReadingKind, value: number, subject: string | null = null) => ({
      event,
      time,
      text: '',
      value,
      subject,
      powerW: subject === null ? null : 100,
    });
    await writer.append([
      ...planned
        .filter(({ number }) => laid.includes(number))
        .map(({ since: _, ...radial }) => ({ event: 'lay' as const, time, text: '', ...radial })),
      reading('soil-moisture', moisture),
      reading('temperature', temperatureC),
      ...strength.map(({ place, db }) => reading('field-strength', db, place)),
    ]);
    const columns = layout === 'no-header' ? 'Hz,R,X' : undefined;
    const names = files.filter((file) => file.startsWith(`${time.slice(0, 10)}-shot`));
    const sweeps = await Promise.all(
      names.map(
        async (name) =>
          readSweeps(await readFile(join(SAMPLES, 'sweeps', name)), name, { columns }).sweeps[0] as Sweep,
      ),
    );
    await writer.addVisit({
      time,
      shots: sweeps.map((sweep, i) => ({
        sweep,
        plane: 'feedpoint' as const,
        target: 'antenna' as const,
        source: names[i] as string,
      })),
    });
  }
}
