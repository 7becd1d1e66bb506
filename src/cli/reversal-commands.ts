import type { Io } from './io.ts';
import { numbered } from './numbers.ts';
import { proposal } from './pasteable.ts';
import type { ProgressFound } from './progress.ts';

type Asked = Pick<ProgressFound, 'logbook' | 'flags' | 'states' | 'band'>;

/** The commands of a reversal of the last step, to be pasted one by one; what hands do stands between them as remarks. */
export function reversalCommands(io: Io, { logbook, flags, states, band }: Asked): string[] {
  const next = Math.max(0, ...logbook.visits.map(({ visit }) => visit)) + 1;
  const before = new Set(states.at(-2)?.state.radials.map(({ number }) => number));
  const added = (states.at(-1)?.state.radials ?? [])
    .map(({ number }) => number)
    .filter((number) => !before.has(number));
  const shot = states.at(-1)?.visits.at(-1);
  const count = String(Math.max(USUAL_SHOTS, shot?.shots.length ?? 0));
  const plane = logbook.visits.at(-1)?.shots.find(({ target }) => target === 'antenna')?.plane ?? 'feedpoint';
  const measure = proposal(
    io,
    [
      'measure',
      '--port',
      PORT,
      '--band',
      band.band,
      '--shots',
      count,
      ...(plane === 'shack' ? ['--plane', plane] : []),
    ],
    flags,
  );
  return [
    `# ${PORT} stands for your instrument: ${io.called} ports lists them; or import files in place of measure`,
    measure,
    `# disconnect ${numbered('radial', added)} at the base`,
    measure,
    proposal(io, ['note', 'baseline', `${next + 1}`, 'no'], flags),
    '# connect them again',
    measure,
    proposal(
      io,
      ['compare', '--reversal', `${next}`, `${next + 1}`, `${next + 2}`, '--band', band.band],
      flags,
    ),
  ];
}

const USUAL_SHOTS = 3;
const PORT = '/dev/ttyACM0';
