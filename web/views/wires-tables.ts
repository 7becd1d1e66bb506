import { leaningOf, leaningText } from '../../src/core/layout/leaning.ts';
import { bearingOf } from '../../src/core/layout/route.ts';
import type { PageWire, PlanAnswer } from '../../src/formats/page-data.ts';
import { asSentence } from '../../src/formats/words.ts';
import { type Child, h } from '../dom.ts';
import { type Handful, leavesToward } from '../model/field-words.ts';
import { proseList } from '../parts/prose-list.ts';
import { dataTable } from '../parts/table.ts';
import { NONE, type Reader } from '../reader.ts';

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

/** What is planned and not laid yet. */
export function plannedTable(wires: readonly PageWire[], reader: Reader): HTMLElement {
  return dataTable(
    'Planned in the journal, not laid yet',
    ['radial', 'toward', 'wire', 'planned'],
    wires
      .filter(({ state }) => state === 'planned')
      .map(({ number, lengthM, since, points }) => [
        `radial ${number}`,
        degrees(bearingOf(leavesToward(points)), reader),
        reader.length(lengthM),
        since === null ? NONE : reader.time(since),
      ]),
  );
}

function degrees(bearingDeg: number, reader: Reader): string {
  return `${reader.number(bearingDeg, 0)}°`;
}

/** Where each proposed wire goes, and what to cut for it. */
function cuttingTables({ radials, cuttingPlan, allowanceM }: PlanAnswer, reader: Reader): Child {
  if (radials.length === 0) return null;
  const routes = dataTable(
    'The proposed wires, bearings from true north',
    ['radial', 'toward', 'way of the wire', 'bends'],
    radials.map(({ number, bearingDeg, lengthM, route }) => [
      number,
      degrees(bearingDeg, reader),
      reader.length(lengthM, 2),
      route.length - 2,
    ]),
  );
  if (!cuttingPlan?.length) return routes;
  return [
    routes,
    dataTable(
      `What to cut, each piece ${reader.length(allowanceM, 2)} longer than its way, to join it`,
      ['from a piece of', 'cut', 'left over'],
      cuttingPlan.map(({ stockM, pieces, offcutM }) => [
        reader.length(stockM),
        piecesWords(pieces, reader),
        reader.length(offcutM, 2),
      ]),
    ),
  ];
}

/** `8 × 6.15 m, 4.02 m` */
function piecesWords(piecesM: readonly number[], reader: Reader): string {
  const counts = new Map<string, number>();
  for (const pieceM of piecesM) {
    const shown = reader.length(pieceM, 2);
    counts.set(shown, (counts.get(shown) ?? 0) + 1);
  }
  return [...counts].map(([shown, count]) => (count === 1 ? shown : `${count} × ${shown}`)).join(', ');
}

/** All that a proposal tells in figures, and the work it asks for. */
export function planTables(plan: PlanAnswer, reader: Reader): Child {
  const { efficiency, lesson = null, moreWire = [], elevated = [], pattern, work = [], notes } = plan;
  return [
    cuttingTables(plan, reader),
    elevated.length === 0 ? null : elevatedTable(elevated, reader),
    elevated.length === 0 ? lossTable(efficiency, reader) : null,
    proseList(efficiency.flatMap(({ band, outside }) => outside.map((why) => `${band}: ${why}`))),
    lesson === null ? null : h('p', {}, asSentence(lesson)),
    moreWire.length === 0 ? null : worthTable(moreWire, reader),
    pattern.length === 0 ? null : patternTable(pattern, reader),
    h('h2', {}, 'The work, and what to mind'),
    proseList([...work, ...notes].map(asSentence)),
  ];
}

function lossTable(efficiency: PlanAnswer['efficiency'], reader: Reader): HTMLElement {
  return dataTable(
    'What the ground takes, with the proposed wires too',
    ['band', 'loss in the ground, Ω', 'radiated, %', 'lost, dB', 'range of method and soil, dB'],
    efficiency.map(({ band, groundLossOhm, efficiencyPercent, lossDb, lossRangeDb = null }) => [
      band,
      reader.number(groundLossOhm, 1),
      reader.number(efficiencyPercent, 0),
      reader.number(lossDb, 2),
      lossRangeDb === null
        ? NONE
        : `${reader.number(lossRangeDb[0], 1)} to ${reader.number(lossRangeDb[1], 1)}`,
    ]),
  );
}

function elevatedTable(elevated: NonNullable<PlanAnswer['elevated']>, reader: Reader): HTMLElement {
  return dataTable(
    'Tuned raised radials',
    ['band', 'radials', 'cut to', 'velocity factor'],
    elevated.map(({ band, radials, cutLengthM, velocityFactor }) => [
      band,
      radials,
      reader.length(cutLengthM, 2),
      reader.number(velocityFactor, 3),
    ]),
  );
}

function worthTable(moreWire: NonNullable<PlanAnswer['moreWire']>, reader: Reader): HTMLElement {
  return dataTable(
    'What more wire would buy',
    ['extra wire', 'radials', 'gain, dB', 'from', 'to'],
    moreWire.map(({ extraM, radials, gainDb, lowDb, highDb }) => [
      reader.length(extraM, 0),
      radials,
      reader.number(gainDb, 2),
      reader.number(lowDb, 2),
      reader.number(highDb, 2),
    ]),
  );
}

function patternTable(pattern: PlanAnswer['pattern'], reader: Reader): HTMLElement {
  return dataTable(
    'The pattern with the proposed wires, against its mean all round',
    ['band', 'elevation', 'strongest and weakest direction'],
    pattern.map((each) => [
      each.band,
      `${each.elevationDeg}°`,
      leaningText(leaningOf(each), (db) => reader.signed(db, 2)),
    ]),
  );
}
