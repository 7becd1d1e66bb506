import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { ReadingEvent } from '../../../src/core/journal-event.ts';
import { addVisit, openLogbook } from '../../../src/logbook/logbook.ts';
import { runCommand } from '../../support/fake-io.ts';
import { newLogbook, SITE, someVisit } from '../../support/logbooks.ts';

async function onLogbook(site = SITE) {
  const folder = await newLogbook(site, { time: '2026-01-01T10:00:00Z' });
  const world = { cwd: folder, now: () => new Date('2026-05-01T12:00:00Z') };
  return { folder, note: (...args: string[]) => runCommand(['note', ...args], world) };
}

interface Noted {
  noted: ReadingEvent[];
}

describe('turfwire note', () => {
  it.each<[string[], Partial<ReadingEvent>, string]>([
    [['moisture', '23%'], { event: 'soil-moisture', value: 0.23 }, 'soil moisture 23 %'],
    [['rain', '0.3in'], { event: 'rain', value: 0.3 * 0.0254 }, 'rain 7.6 mm'],
    [['temperature', '68F'], { event: 'temperature', value: 20 }, 'temperature 20 °C'],
    [['text', '-5 degrees at dawn'], { event: 'text', text: '-5 degrees at dawn' }, 'remark: -5'],
    [['rain', '12mm'], { event: 'rain', value: 0.012 }, 'rain 12 mm'],
    [['temperature', '8C'], { event: 'temperature', value: 8 }, 'temperature 8 °C'],
    [['temperature', '-3.5C'], { event: 'temperature', value: -3.5 }, 'temperature -3.5 °C'],
    [
      ['field', '-12.5dB', '--place', 'bench', '--power', '100W'],
      { event: 'field-strength', value: -12.5, subject: 'bench', powerW: 100 },
      'field -12.5 dB at bench with 100 W',
    ],
    [
      ['field', '--place', 'bench', '--', '-12.5dB'],
      { event: 'field-strength', value: -12.5, subject: 'bench', powerW: null },
      'field -12.5 dB at bench',
    ],
    [
      ['field', '-12.5dB', '--place', 'bench', '--band', '40 m'],
      { event: 'field-strength', value: -12.5, subject: 'bench', band: '40m' },
      'field -12.5 dB at bench on 40m',
    ],
    [
      ['joint', 'plate to strap', '12mohm'],
      { event: 'joint-resistance', value: 0.012, subject: 'plate to strap' },
      'joint "plate to strap" 12 mohm',
    ],
    [['current', '7', '120mA'], { event: 'radial-current', value: 0.12, subject: '7' }, 'radial 7 120 mA'],
    [
      ['inspection', 'plate to strap', 'green crust'],
      { event: 'inspection', subject: 'plate to strap', text: 'green crust' },
      'inspection of "plate to strap": green crust',
    ],
    [
      ['repair', 'strap', 'new bolt'],
      { event: 'repair', subject: 'strap', text: 'new bolt' },
      'repair of "strap"',
    ],
    [['text', 'frost on the ground'], { event: 'text', text: 'frost on the ground' }, 'remark: frost'],
  ])('%j logs the reading in the units of the journal', async (args, expected, text) => {
    const { note, folder } = await onLogbook();
    const ran = await note(...args, ...[]);
    expect(ran).toMatchObject({ code: 0 });
    expect(ran.out).toContain(text);
    const { events, problems } = await openLogbook(folder);
    expect(events.at(-1)).toMatchObject(expected);
    expect(problems).toEqual([]);
  });

  it('asks after a place that is new but nearly an old one, and keeps what was typed', async () => {
    const { note } = await onLogbook();
    expect((await note('field', '-3dB', '--place', 'bench')).err).not.toContain('did you mean');
    const ran = await note('field', '-3dB', '--place', 'bnch');
    expect(ran.out).toContain('at bnch');
    expect(ran.err).toContain('no earlier reading has place "bnch", did you mean "bench"?');
    expect((await note('field', '-4dB', '--place', 'bench')).err).not.toContain('did you mean');
  });

  it('keeps the time that is given', async () => {
    const { note } = await onLogbook();
    const ran = await note('rain', '3mm', '--at', '2026-04-01T10:00+02:00', '--json');
    expect(ran.json<Noted>().noted[0]?.time).toBe('2026-04-01T10:00:00+02:00');
  });

  it.each([
    [['moisture', '130%'], 2, 'PERCENT: must be from 0% to 100%, got "130%"'],
    [['moisture', '23'], 2, 'PERCENT: needs a unit'],
    [['moisture'], 2, 'missing required argument'],
    [['moistre', '23%'], 2, 'Did you mean moisture'],
    [['rain', '1'], 2, 'DEPTH: needs a unit, such as 12mm or 0.5in'],
    [['rain', '-3mm'], 2, 'DEPTH: must be from 0mm to 10m, got "-3mm"'],
    [['joint', 'lug', '12'], 2, 'needs a unit, such as 12mohm'],
    [['field', '-12dB'], 2, '--place'],
    [['field', '--place', 'bench'], 2, 'LEVEL'],
    [['field', '-12dB', '--plaice', 'bench'], 2, ''],
    [['field', '-12dB', '--place', 'bench', '--power', '0W'], 2, '--power'],
    [['current', 'seven', '1A'], 2, 'needs numbers'],
    [['rain', '1mm', '--at', '2026-03-01T10:00'], 2, '--at: needs a zone'],
    [['baseline', '4', 'yes'], 1, 'there is no visit 4'],
    [['baseline', '4', 'perhaps'], 2, 'must be yes or no'],
  ])('refuses %j and logs nothing', async (args, code, text) => {
    const { note, folder } = await onLogbook();
    const ran = await note(...args);
    expect(ran).toMatchObject({ code, out: '' });
    expect(ran.err).toContain(text);
    expect((await openLogbook(folder)).events).toHaveLength(1);
  });

  it('logs what looks odd, and says what is odd about it', async () => {
    const site = { ...SITE, joints: [{ name: 'plate to strap', metals: ['copper'] }] };
    const { folder, note } = await onLogbook(site);
    const ran = await note('joint', 'plate to strp', '12mohm');
    expect(ran).toMatchObject({ code: 0 });
    expect(ran.err).toContain('did you mean "plate to strap"?');
    expect((await note('current', '3', '1mA')).err).toContain('as far as the journal tells (none does)');
    const then = ['--at', '2026-03-01T10:00:00Z'];
    await runCommand(['lay', '--logbook', folder, '--count', '8', '--length', '6m', ...then]);
    const near = await note('current', '9', '1mA', ...then);
    expect(near.err).toContain('(the nearest numbers are radials 6 to 8): it is logged all the same');
  });

  it('says of a look at no joint of the site that it counts for none, and of a repair where one seems meant', async () => {
    const { note } = await onLogbook({ ...SITE, joints: [{ name: 'plate to strap', metals: ['copper'] }] });
    const odd =
      'site.json has no joint "plate to strp", so it counts for none, did you mean "plate to strap"?';
    expect((await note('inspection', 'plate to strp', 'clean')).err).toContain(odd);
    expect((await note('repair', 'plate to strp', 'cleaned')).err).toContain(odd);
    expect((await note('inspection', 'mast', 'clean')).err).toContain('"mast", so it counts for none');
    expect((await note('repair', 'mast', 'painted')).err).toBe('');
    expect((await note('inspection', 'Plate to strap', 'clean')).err).toBe('');
  });

  it('marks visits as baseline or not', async () => {
    const { note, folder } = await onLogbook();
    for (const number of [1, 2, 3]) await addVisit(folder, someVisit(number));
    await note('baseline', '1-2', 'yes');
    await note('baseline', '2', 'no');
    const { visits, events } = await openLogbook(folder);
    expect(visits.map(({ baseline }) => baseline)).toEqual([true, false, null]);
    const words = events.filter(({ event }) => event === 'baseline').map(({ time }) => time);
    expect(words).toEqual([1, 2, 2].map((number) => visits[number - 1]?.time));
    await note('baseline', '3', 'no', '--at', '2026-05-01T10:00Z');
    expect((await openLogbook(folder)).events.at(-1)?.time).toBe('2026-05-01T10:00:00Z');
  });

  it('takes names that differ by a number alone for other places', async () => {
    const { note } = await onLogbook();
    for (const place of ['stake 1', 'stake 2', 'stake 13']) {
      expect((await note('field', '-12dB', '--place', place)).err).toBe('');
    }
    expect((await note('field', '-12dB', '--place', 'steak 1')).err).toContain('did you mean "stake 1"?');
  });

  it('takes field readings from a file, none of them twice', async () => {
    const { note, folder } = await onLogbook();
    writeFileSync(
      join(folder, 'readings.csv'),
      'time;place;level_db;power_w\n2026-03-01T10:00Z;bench;-12,5;100\n2026-03-01T10:05Z;gate;-20;\n',
    );
    expect((await note('field', '--from', 'readings.csv')).out).toContain(
      'field -12.5 dB at bench with 100 W',
    );
    expect((await note('field', '--from', 'readings.csv')).out).toContain('every reading is there already');
    expect((await openLogbook(folder)).readings.map(({ value, powerW }) => [value, powerW])).toEqual([
      [-12.5, 100],
      [-20, null],
    ]);
  });

  it('keeps formulas, terminal escapes and HTML harmless, and gives them back as they were', async () => {
    const { note, folder } = await onLogbook();
    const text = '=HYPERLINK("x") \u001b[31m<img src=x onerror=alert(1)>\r\n"quoted", \\ and so on';
    const ran = await note('text', text);
    expect(ran.out).not.toContain('\u001b');
    expect((await openLogbook(folder)).readings[0]?.text).toBe(text);
    const history = await runCommand(['history'], { cwd: folder });
    expect(history.out).not.toContain('\u001b');
    expect(history.out).toContain('\\u{1b}[31m');
    expect((await runCommand(['check'], { cwd: folder })).code).toBe(0);
  });
});
