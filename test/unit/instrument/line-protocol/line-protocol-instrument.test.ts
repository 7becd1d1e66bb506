import { describe, expect, it } from 'vitest';
import { withChecksum } from '../../../../src/instrument/codec/encode-message.ts';
import type { IAm, Request, Walk } from '../../../../src/instrument/codec/messages.ts';
import { sweepChecksum } from '../../../../src/instrument/codec/sweep-checksum.ts';
import type { Instrument } from '../../../../src/instrument/instrument.ts';
import { openLineProtocol } from '../../../../src/instrument/line-protocol/line-protocol-instrument.ts';
import { scaledTimes } from '../../../../src/instrument/line-protocol/times.ts';
import { ScriptedTransport } from '../../../support/scripted-transport.ts';

const GRID = { startHz: 7_000_000, stopHz: 7_000_400, points: 5 };
const RE = Int32Array.of(10, -20, 30, -40, 50);
const IM = Int32Array.of(1, 2, 3, 4, 5);

const IAM: Omit<IAm, 'id'> = {
  kind: 'iam',
  version: 1,
  lowestHz: 1_000_000,
  highestHz: 60_000_000,
  mostPoints: 101,
  correction: 'cal',
  plane: 'lead',
  referenceMilliohm: 50_000,
  model: 'bridge 2',
  serial: '7',
};

type Script = (request: Request, wire: ScriptedTransport) => void;

/** Meets at once, and leaves the rest to the script. */
function meeting(script: Script): Script {
  return (request, wire) => {
    if (request.kind === 'who') wire.say({ ...IAM, id: request.id });
    else script(request, wire);
  };
}

async function open(script: Script): Promise<{ wire: ScriptedTransport; instrument: Instrument }> {
  const wire = new ScriptedTransport(script);
  return { wire, instrument: await openLineProtocol(wire, { times: scaledTimes(0.02) }) };
}

function begin({ id }: Walk, wire: ScriptedTransport): void {
  wire.say({ kind: 'begin', id, ...GRID });
}

function points(id: number, wire: ScriptedTransport, ...numbers: number[]): void {
  for (const number of numbers) {
    wire.say({ kind: 'point', id, number, reMicro: RE[number] as number, imMicro: IM[number] as number });
  }
}

function end(id: number, wire: ScriptedTransport, checksum = sweepChecksum(GRID, RE, IM)): void {
  wire.say({ kind: 'end', id, points: 5, checksum });
}

/** Answers `again` faithfully. */
function again(request: Request, wire: ScriptedTransport): void {
  if (request.kind !== 'again') return;
  const numbers = Array.from({ length: request.last - request.first + 1 }, (_, i) => request.first + i);
  points(request.id, wire, ...numbers);
  end(request.id, wire);
}

describe('meeting', () => {
  it('tells who the instrument is', async () => {
    const { instrument } = await open(meeting(() => {}));
    expect(instrument.identity).toEqual({
      model: 'bridge 2',
      serial: '7',
      lowestHz: 1_000_000,
      highestHz: 60_000_000,
      mostPoints: 101,
      corrected: true,
      referenceOhm: 50,
    });
  });

  it('asks again with a new id when nothing comes, and drops an answer to the old one', async () => {
    let asked = 0;
    const { wire, instrument } = await open((request, wire) => {
      asked++;
      if (asked === 1) return;
      wire.say({ ...IAM, id: wire.requests[0]?.id ?? 0, model: 'too late' }, { ...IAM, id: request.id });
    });
    expect(instrument.identity.model).toBe('bridge 2');
    expect(new Set(wire.requests.map(({ id }) => id)).size).toBe(2);
  });

  it('drops complaints about what an earlier conversation left, and puts a bare line end in front', async () => {
    let asked = 0;
    const { wire } = await open((request, wire) => {
      asked++;
      for (const code of ['garbled', 'unknown', 'form'] as const) {
        wire.say({ kind: 'fault', id: 0, code, text: 'half a line' });
      }
      wire.say({ ...IAM, id: request.id });
    });
    expect(wire.written.every((text) => text.startsWith('\n'))).toBe(true);
    expect(asked).toBe(1);
  });

  it('is not disturbed by a greeting that comes late', async () => {
    let asked = 0;
    const { instrument } = await open((request, wire) => {
      asked++;
      if (asked === 1) wire.say({ kind: 'woke', oldest: 1, newest: 1 });
      else wire.say({ ...IAM, id: request.id });
    });
    expect(instrument.identity.serial).toBe('7');
  });

  it('tells that there is no version in common', async () => {
    const refusing = open(({ id }, wire) =>
      wire.say({ kind: 'fault', id, code: 'version', text: 'speaks 2 to 3' }),
    );
    await expect(refusing).rejects.toThrowError(/reports "version: speaks 2 to 3"; .*update one of the two/u);
  });

  it('shows the first line of a device that speaks something else, harmlessly', async () => {
    const odd = open((_, wire) => wire.bytes('\x1b[2Jch> unknown command\n'));
    await expect(odd).rejects.toThrowError(/first line was "\\x1b\[2Jch> unknown command"/u);
  });

  it('waits for one that is busy', async () => {
    let asked = 0;
    const { instrument } = await open((request, wire) => {
      asked++;
      if (asked < 4) wire.say({ kind: 'fault', id: request.id, code: 'busy', text: 'warming up' });
      else wire.say({ ...IAM, id: request.id });
    });
    expect(instrument.identity.model).toBe('bridge 2');
  });

  it('gives up on one that stays busy, and says so', async () => {
    const busy = open(({ id }, wire) => wire.say({ kind: 'fault', id, code: 'busy', text: 'warming up' }));
    await expect(busy).rejects.toThrowError(/busy: warming up.*wait until it is ready/u);
  });

  it('closes the port when it fails', async () => {
    const wire = new ScriptedTransport();
    await expect(openLineProtocol(wire, { times: scaledTimes(0.01) })).rejects.toThrowError(/answers/u);
    expect(wire.closed).toBe(true);
  });
});

describe('a sweep', () => {
  const whole = { reflectionRe: Float64Array.of(1e-5, -2e-5, 3e-5, -4e-5, 5e-5) };

  it('comes whole', async () => {
    const { instrument } = await open(
      meeting((request, wire) => {
        begin(request as Walk, wire);
        points(request.id, wire, 0, 1, 2, 3, 4);
        end(request.id, wire);
      }),
    );
    const { raw, effort } = await instrument.sweep(GRID);
    expect(raw).toMatchObject({ kind: 'reflection', referenceOhm: 50, ...whole });
    expect(effort).toEqual({ badLines: 0, reAsks: 0 });
  });

  it('is asked for what is missing, near gaps together', async () => {
    const { wire, instrument } = await open(
      meeting((request, wire) => {
        if (request.kind !== 'walk') return again(request, wire);
        begin(request, wire);
        points(request.id, wire, 0, 2, 4);
        end(request.id, wire);
      }),
    );
    const { raw, effort } = await instrument.sweep(GRID);
    expect(raw).toMatchObject(whole);
    expect(effort.reAsks).toBe(1);
    expect(wire.requests.at(-1)).toMatchObject({ kind: 'again', first: 1, last: 3 });
  });

  it('is mended when its end is lost', async () => {
    const { instrument } = await open(
      meeting((request, wire) => {
        if (request.kind !== 'walk') return again(request, wire);
        begin(request, wire);
        points(request.id, wire, 0, 1, 2, 3, 4);
      }),
    );
    expect((await instrument.sweep(GRID)).raw).toMatchObject(whole);
  });

  it('drops points of an earlier sweep, echoes of its own requests, and lines that are damaged', async () => {
    const { instrument } = await open(
      meeting((request, wire) => {
        const old = request.id === 1 ? 2 : request.id - 1;
        wire.bytes(wire.written.at(-1) ?? '');
        points(old, wire, 0, 1, 2, 3, 4);
        begin(request as Walk, wire);
        wire.bytes('p,1,0,99*0000\n');
        points(request.id, wire, 0, 1, 2, 3, 4);
        end(request.id, wire);
      }),
    );
    const { raw, effort } = await instrument.sweep(GRID);
    expect(raw).toMatchObject(whole);
    expect(effort.badLines).toBe(1);
  });

  it('is not believed when its points do not add up twice', async () => {
    const { instrument } = await open(
      meeting((request, wire) => {
        if (request.kind === 'walk') begin(request, wire);
        points(request.id, wire, 0, 1, 2, 3, 4);
        end(request.id, wire, 0x1234);
      }),
    );
    await expect(instrument.sweep(GRID)).rejects.toThrowError(/twice sent points that do not add up/u);
  });

  it('fails after eight requests in a row without gain', async () => {
    const { wire, instrument } = await open(
      meeting((request, wire) => {
        if (request.kind === 'walk') {
          begin(request, wire);
          points(request.id, wire, 0, 1);
        }
      }),
    );
    await expect(instrument.sweep(GRID)).rejects.toThrowError(/sent 2 of 5 points intact, and not the rest/u);
    expect(wire.requests.filter(({ kind }) => kind === 'again')).toHaveLength(8);
  });

  it('of other frequencies is refused', async () => {
    const { instrument } = await open(
      meeting(({ id }, wire) =>
        wire.say({ kind: 'begin', id, startHz: 1_000_000, stopHz: 2_000_000, points: 5 }),
      ),
    );
    await expect(instrument.sweep(GRID)).rejects.toThrowError(/sweeps other frequencies/u);
  });

  it('asks again at once when its request was damaged, and counts a complaint under way as noise', async () => {
    let walks = 0;
    const { instrument } = await open(
      meeting((request, wire) => {
        walks++;
        if (walks === 1) wire.say({ kind: 'fault', id: 0, code: 'garbled', text: 'bad-checksum' });
        else {
          begin(request as Walk, wire);
          points(request.id, wire, 0, 1);
          wire.say({ kind: 'fault', id: 0, code: 'unknown', text: 'half a line' });
          points(request.id, wire, 2, 3, 4);
          end(request.id, wire);
        }
      }),
    );
    expect((await instrument.sweep(GRID)).raw).toMatchObject(whole);
    expect(walks).toBe(2);
  });

  it('is given up when the instrument keeps none of three', async () => {
    let walks = 0;
    const { instrument } = await open(
      meeting((request, wire) => {
        if (request.kind === 'again')
          wire.say({ kind: 'fault', id: request.id, code: 'gone', text: 'not kept' });
        if (request.kind !== 'walk') return;
        walks++;
        begin(request, wire);
        points(request.id, wire, 0, 1);
        end(request.id, wire);
      }),
    );
    await expect(instrument.sweep(GRID)).rejects.toThrowError(/keeps no sweep/u);
    expect(walks).toBe(3);
  });

  it('is taken anew when the instrument no longer keeps it', async () => {
    let walks = 0;
    const { instrument } = await open(
      meeting((request, wire) => {
        if (request.kind === 'again')
          wire.say({ kind: 'fault', id: request.id, code: 'gone', text: 'not kept' });
        if (request.kind !== 'walk') return;
        walks++;
        begin(request, wire);
        points(request.id, wire, ...(walks === 1 ? [0, 1] : [0, 1, 2, 3, 4]));
        end(request.id, wire);
      }),
    );
    expect((await instrument.sweep(GRID)).raw).toMatchObject(whole);
    expect(walks).toBe(2);
  });

  it('survives a reset between two sweeps', async () => {
    let unmet = true;
    const { instrument } = await open(
      meeting((request, wire) => {
        if (unmet) wire.say({ kind: 'fault', id: request.id, code: 'unmet', text: 'say who first' });
        else {
          begin(request as Walk, wire);
          points(request.id, wire, 0, 1, 2, 3, 4);
          end(request.id, wire);
        }
        unmet = false;
      }),
    );
    expect((await instrument.sweep(GRID)).raw).toMatchObject(whole);
  });

  it('that stalls in spite of signs of life is stopped', async () => {
    let alive: NodeJS.Timeout | undefined;
    const { wire, instrument } = await open(
      meeting((request, wire) => {
        if (request.kind === 'halt') {
          clearInterval(alive);
          wire.say({ kind: 'still', id: request.id });
        } else {
          begin(request as Walk, wire);
          points(request.id, wire, 0);
          alive = setInterval(() => wire.say({ kind: 'alive', id: 0, sweep: request.id, sent: 1 }), 20);
        }
      }),
    );
    await expect(instrument.sweep(GRID)).rejects.toThrowError(/no new point/u);
    expect(wire.requests.at(-1)?.kind).toBe('halt');
  });

  it('in hand is stopped when the port is closed', async () => {
    const { wire, instrument } = await open(meeting((request, wire) => begin(request as Walk, wire)));
    const sweep = instrument.sweep(GRID).catch(() => undefined);
    await new Promise((done) => setTimeout(done, 5));
    await instrument.close();
    expect(wire.requests.at(-1)?.kind).toBe('halt');
    await sweep;
  });

  it('shows how far it came', async () => {
    const { instrument } = await open(
      meeting((request, wire) => {
        begin(request as Walk, wire);
        points(request.id, wire, 0, 1, 2, 3, 4);
        end(request.id, wire);
      }),
    );
    const seen: number[] = [];
    await instrument.sweep(GRID, (received) => seen.push(received));
    expect(seen).toEqual(expect.arrayContaining([1, 2, 3, 4, 5]));
  });
});

it('a checksum made by hand is what the codec makes', () => {
  expect(withChecksum('there,1')).toBe('there,1*66C7');
});
