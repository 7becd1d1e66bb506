import type { PlanAnswer } from '../../src/formats/page-data.ts';
import { asSentence } from '../../src/formats/words.ts';
import { type Child, h } from '../dom.ts';
import type { Handful } from '../model/field-words.ts';
import { proseList } from '../parts/prose-list.ts';
import { dataTable } from '../parts/table.ts';
import type { Reader } from '../reader.ts';

/** What was laid when. */
export function handfulTable(groups: readonly Handful[], reader: Reader): HTMLElement {
  let radials = 0;
  let wireM = 0;
  const rows = groups.map((group) => {
    radials += group.wires.length;
    wireM += group.wireM;
    return [
      group.since === null ? 'before the journal' : reader.time(group.since),
      group.wires.length,
      reader.length(group.wireM),
      radials,
      reader.length(wireM),
    ];
  });
  return dataTable(
    'What lies there, by the day it was laid',
    ['laid', 'radials', 'wire', 'radials then', 'wire then'],
    rows,
  );
}

/** All that a plan tells in figures, and the work it asks for. */
export function planTables(plan: PlanAnswer, reader: Reader): Child {
  return [
    dataTable(
      'What the ground takes, with the plan',
      ['band', 'loss in the ground, Ω', 'radiated, %', 'lost, dB', 'as measurements found it, dB'],
      plan.efficiency.map(({ band, groundLossOhm, efficiencyPercent, lossDb, lossRangeDb }) => [
        band,
        reader.number(groundLossOhm, 1),
        reader.number(efficiencyPercent, 0),
        reader.number(lossDb, 2),
        lossRangeDb === null
          ? '–'
          : `${reader.number(lossRangeDb[0], 1)} to ${reader.number(lossRangeDb[1], 1)}`,
      ]),
    ),
    proseList(plan.efficiency.flatMap(({ band, outside }) => outside.map((why) => `${band}: ${why}`))),
    plan.lesson === null ? null : h('p', {}, asSentence(plan.lesson)),
    dataTable(
      'What more wire would buy',
      ['extra wire', 'radials', 'gain, dB', 'from', 'to'],
      plan.moreWire.map(({ extraM, radials, gainDb, lowDb, highDb }) => [
        reader.length(extraM, 0),
        radials,
        reader.number(gainDb, 2),
        reader.number(lowDb, 2),
        reader.number(highDb, 2),
      ]),
    ),
    dataTable(
      'The pattern, strongest and weakest direction',
      ['band', 'elevation', 'most, dB', 'toward', 'least, dB', 'toward'],
      plan.pattern.map(({ band, elevationDeg, azimuthDeg, relativeDb }) => {
        const most = relativeDb.indexOf(Math.max(...relativeDb));
        const least = relativeDb.indexOf(Math.min(...relativeDb));
        return [
          band,
          `${elevationDeg}°`,
          reader.signed(relativeDb[most], 2),
          `${azimuthDeg[most]}°`,
          reader.signed(relativeDb[least], 2),
          `${azimuthDeg[least]}°`,
        ];
      }),
    ),
    h('h2', {}, 'The work, and what to mind'),
    proseList([...plan.work, ...plan.notes].map(asSentence)),
  ];
}
