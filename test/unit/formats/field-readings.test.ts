import { describe, expect, it } from 'vitest';
import { parseFieldReadings } from '../../../src/formats/field-readings.ts';

const read = (csv: string) => parseFieldReadings(csv, 'r.csv', (time) => `at ${time}`);

describe('field readings from CSV', () => {
  it('takes bare numbers under a header with units, and quantities under one without', () => {
    const expected = [
      { event: 'field-strength', time: 'at T', value: -12.5, subject: 'bench', powerW: 100, text: '' },
    ];
    expect(read('time,place,level_db,power_w\nT,bench,-12.5,100\n')).toEqual(expected);
    expect(read('\uFEFFTime,Place,dB,power\r\nT,bench,-12.5,0.1kW\r\n')).toEqual(expected);
    expect(read('place\ttime\tlevel\tpower\nbench\tT\t-12,5dB\t100W')).toEqual(expected);
    expect(read('time;place;level_db;power_w\n\nT;bench;-12,5;100')).toEqual(expected);
  });

  it('lets power and text be left out', () => {
    expect(read('time,place,db,text\nT,bench,3,"windy, wet"\n')).toMatchObject([
      { powerW: null, text: 'windy, wet' },
    ]);
  });

  it('takes the band where a column tells it, and leaves it out where the cell is empty', () => {
    const [named, silent] = read('time,place,db,band\nT,bench,3,40 M\nT,bench,3,\n');
    expect(named).toMatchObject({ band: '40m' });
    expect(silent).not.toHaveProperty('band');
  });

  it.each([
    ['time,place,level_db\nT,,1\nT,bench,loud\n', 'r.csv:2: place: needs the name'],
    ['time,place,level_db\nT,,1\nT,bench,loud\n', 'r.csv:3: level: needs a level'],
    ['time,place,level\nT,bench,1\n', 'needs a unit'],
    ['time,plaice,level_db\n', 'did you mean "place"?'],
    ['time,level_db\n', 'missing: place'],
    ['', 'missing: time, place, level'],
    ['time,place,level_db\nT,bench\n', 'Invalid Record Length'],
  ])('refuses %j, naming the place', (csv, expected) => {
    expect(() => read(csv)).toThrow(expected);
  });
});
