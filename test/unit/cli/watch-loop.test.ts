import { describe, expect, it } from 'vitest';
import { type WatchWorld, watchLoop } from '../../../src/cli/watch-loop.ts';
import { UserError } from '../../../src/core/user-error.ts';

const HOUR = 3_600_000;
const MINUTE = 60_000;

/** A world in which time passes only when somebody sleeps. */
class FakeWorld implements WatchWorld {
  steady = 5e6;
  wallAheadMs = 1e12;
  stopped = false;
  readonly told: string[] = [];

  steadyMs(): number {
    return this.steady;
  }

  wallMs(): number {
    return this.steady + this.wallAheadMs;
  }

  async sleep(ms: number): Promise<void> {
    this.steady += ms;
  }

  tell(text: string): void {
    this.told.push(text);
  }
}

const GONE = new UserError('port-gone', 'the port went away', { kind: 'instrument' });
const FULL = new UserError('disk-full', 'the disk is full');

/** Rounds that end as listed, and then well; tells when each was tried. */
function rounds(
  world: FakeWorld,
  ...ends: (Error | null)[]
): { round: () => Promise<string>; triedMs: number[] } {
  const triedMs: number[] = [];
  const startMs = world.steady;
  return {
    triedMs,
    round: async () => {
      triedMs.push(world.steady - startMs);
      const end = ends.shift() ?? null;
      if (end !== null) throw end;
      return 'R 42 ohm';
    },
  };
}

describe('watchLoop', () => {
  it('measures in even rounds and stops after the last', async () => {
    const world = new FakeWorld();
    const { round, triedMs } = rounds(world);
    await watchLoop({ everyMs: HOUR, rounds: 3, round }, world);
    expect(triedMs).toEqual([0, HOUR, 2 * HOUR]);
  });

  it('is not moved by a clock that is set, but tells of it', async () => {
    const world = new FakeWorld();
    const { round, triedMs } = rounds(world);
    const jumping = async (): Promise<string> => {
      if (triedMs.length === 1) world.wallAheadMs -= 7 * HOUR;
      return await round();
    };
    await watchLoop({ everyMs: HOUR, rounds: 4, round: jumping }, world);
    expect(triedMs).toEqual([0, HOUR, 2 * HOUR, 3 * HOUR]);
    expect(world.told.filter((text) => text.includes('clock'))).toEqual([
      'the clock was set back by 25200 s; rounds go on as before',
    ]);
  });

  it('looks again for an instrument that is gone, with growing delays, and tells of it once', async () => {
    const world = new FakeWorld();
    const { round, triedMs } = rounds(world, null, GONE, GONE, GONE);
    await watchLoop({ everyMs: HOUR, rounds: 3, round }, world);
    expect(triedMs).toEqual([0, HOUR, HOUR + 1000, HOUR + 3000, HOUR + 7000, 2 * HOUR]);
    const trouble = world.told.filter((text) => text.includes('went away') || text.includes('works again'));
    expect(trouble).toEqual(['the port went away; the watch goes on and tries again', 'it works again']);
  });

  it('tells a round whether it is another try', async () => {
    const world = new FakeWorld();
    const { round } = rounds(world, GONE);
    const seen: boolean[] = [];
    const noting = async (again: boolean): Promise<string> => {
      seen.push(again);
      return await round();
    };
    await watchLoop({ everyMs: HOUR, rounds: 2, round: noting }, world);
    expect(seen).toEqual([false, true, false]);
  });

  it('waits a minute at most between two looks', async () => {
    const world = new FakeWorld();
    const { round, triedMs } = rounds(world, ...Array.from({ length: 12 }, () => GONE));
    await watchLoop({ everyMs: HOUR, rounds: 1, round }, world);
    expect(triedMs.at(-1)).toBe((1 + 2 + 4 + 8 + 16 + 32 + 6 * 60) * 1000);
  });

  it('gives a round up when the next is due, and counts it as missed', async () => {
    const world = new FakeWorld();
    const { round, triedMs } = rounds(world, ...Array.from({ length: 100 }, () => GONE));
    await watchLoop({ everyMs: 10 * MINUTE, rounds: 2, round }, world);
    expect(triedMs).toContain(10 * MINUTE);
    expect(world.told.at(-1)).toBe('stopped after 0 rounds, 2 missed');
  });

  it('goes on when the disk is full, says so once, and resumes', async () => {
    const world = new FakeWorld();
    const { round } = rounds(world, FULL, FULL);
    await watchLoop({ everyMs: HOUR, rounds: 1, round }, world);
    expect(world.told.slice(0, 2)).toEqual([
      'the disk is full; the watch goes on and tries again',
      'it works again',
    ]);
  });

  it('ends at once when the first round shows that it can never work', async () => {
    const world = new FakeWorld();
    const { round } = rounds(world, new UserError('calibration-needed', 'needs standards'));
    await expect(watchLoop({ everyMs: HOUR, rounds: 5, round }, world)).rejects.toThrowError(
      'needs standards',
    );
  });

  it('lives on when the same turns up later', async () => {
    const world = new FakeWorld();
    const { round, triedMs } = rounds(world, null, new UserError('site-invalid', 'unknown key'));
    await watchLoop({ everyMs: HOUR, rounds: 2, round }, world);
    expect(triedMs).toEqual([0, HOUR, HOUR + 1000]);
  });

  it('crashes on a bug, for that is no trouble that passes', async () => {
    const world = new FakeWorld();
    const { round } = rounds(world, new TypeError('a bug'));
    await expect(watchLoop({ everyMs: HOUR, rounds: 5, round }, world)).rejects.toThrowError('a bug');
  });

  it('lets the rounds go that a long one covers', async () => {
    const world = new FakeWorld();
    const { round, triedMs } = rounds(world);
    const slow = async (): Promise<string> => {
      const status = await round();
      if (triedMs.length === 1) world.steady += 2.5 * HOUR;
      return status;
    };
    await watchLoop({ everyMs: HOUR, rounds: 4, round: slow }, world);
    expect(triedMs).toEqual([0, 3 * HOUR]);
    expect(world.told[1]).toMatch(/^a round took longer than --every/u);
    expect(world.told.at(-1)).toMatch(/^stopped after 2 rounds, 2 skipped/u);
  });

  it('writes one line an hour when rounds are shorter', async () => {
    const world = new FakeWorld();
    const { round } = rounds(world);
    await watchLoop({ everyMs: 10 * MINUTE, rounds: 13, round }, world);
    expect(world.told).toEqual([
      '1 round; R 42 ohm',
      '7 rounds; R 42 ohm',
      '13 rounds; R 42 ohm',
      'stopped after 13 rounds; R 42 ohm',
    ]);
  });

  it('stops when it is told to, without another try', async () => {
    const world = new FakeWorld();
    const { triedMs } = rounds(world);
    const stopping = async (): Promise<string> => {
      triedMs.push(0);
      world.stopped = true;
      throw new UserError('interrupted', 'stopped', { kind: 'instrument' });
    };
    await watchLoop({ everyMs: HOUR, rounds: null, round: stopping }, world);
    expect(triedMs).toHaveLength(1);
    expect(world.told).toEqual(['stopped after 0 rounds']);
  });
});
