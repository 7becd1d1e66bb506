import { expect, it } from 'vitest';
import { WatchRounds } from '../../../src/cli/watch-round.ts';
import { simulatedAntenna } from '../../../src/instrument/simulator/simulated-antenna.ts';
import { openLogbook } from '../../../src/logbook/logbook.ts';
import { newLogbook } from '../../support/logbooks.ts';

/** Rounds of 40 m and 30 m with 21 points, 24 lines each. */
function roundsAt(port: string, folder: string, shots = 1): WatchRounds {
  const io = {
    out: () => {},
    err: () => {},
    cwd: '.',
    env: {},
    terminal: false,
    colour: false,
    called: 'turfwire',
    now: () => new Date(),
    stdin: async () => new Uint8Array(),
  };
  return new WatchRounds(io, {
    folder,
    bands: { band: '40m,30m' },
    connection: {
      port,
      description: null,
      baud: null,
      patience: 1,
      antenna: async () => simulatedAntenna(null, [], 'feedpoint'),
    },
    wish: {
      points: 21,
      asked: { fromHz: null, toHz: null },
      shots,
      pauseMs: 0,
      plane: 'feedpoint',
      target: 'antenna',
      uncorrected: false,
      text: '',
    },
    signal: new AbortController().signal,
    asJson: false,
    proposeMeasure: () => '',
  });
}

it('another try measures only the bands that the round still lacks', async () => {
  const folder = await newLogbook();
  const rounds = roundsAt('simulated:unplug=40', folder);
  await expect(rounds.measure(false)).rejects.toMatchObject({ code: 'port-gone' });
  expect((await openLogbook(folder)).visits[0]?.shots).toHaveLength(1);
  expect(await rounds.measure(true)).toMatch(/^40m visit 1: .*; 30m visit 1: /u);
  expect((await openLogbook(folder)).visits.map(({ shots }) => shots.length)).toEqual([2]);
});

it('a new round measures every band again, as one visit', async () => {
  const folder = await newLogbook();
  const rounds = roundsAt('simulated', folder);
  await rounds.measure(false);
  await rounds.measure(false);
  expect((await openLogbook(folder)).visits.map(({ shots }) => shots.length)).toEqual([2, 2]);
});

it('a band with one whole shot is done, and the status says how many there are', async () => {
  const folder = await newLogbook();
  const rounds = roundsAt('simulated:unplug=60', folder, 2);
  await expect(rounds.measure(false)).rejects.toMatchObject({ code: 'port-gone' });
  expect(await rounds.measure(true)).toMatch(/^40m visit 1: .*; 30m visit 1: /u);
  const few = roundsAt('simulated:unplug=40', folder, 2);
  await expect(few.measure(false)).rejects.toMatchObject({ code: 'port-gone' });
  expect(await few.measure(true)).toMatch(
    /^40m visit 2 \(1 of 2 shots\): .*; 30m visit 2 \(1 of 2 shots\): /u,
  );
});
