import { formatLength, type UnitSystem } from '../core/quantity.ts';
import type { BandAssessment, SafetyAssessment } from '../core/safety/assess.ts';
import type { DueInspection } from '../core/safety/inspections.ts';
import { TOUCH_DISTANCE_M } from '../core/safety/keep-off.ts';
import { LIMITS_DATE } from '../core/safety/limit-sets.ts';
import { roundDown, roundUp } from '../core/safety/rounding.ts';
import { table } from './answer.ts';

/** The answer of `safety` for people: one sentence, the tables, the cautions once, the limits of the method. */
export function safetyText(
  assessment: SafetyAssessment,
  due: readonly DueInspection[] | null,
  units: UnitSystem,
): string {
  const { set, why } = assessment.limits;
  return [
    answer(assessment, units),
    `Limits: ${set.title} (${set.id}, ${why}). ${set.source}. Read on ${LIMITS_DATE}; your local rule decides.`,
    bandTable(assessment.bands, units),
    `The far-field figures (power density, reflection factor 4 and 2.56) are for comparison and hold only beyond λ/2π, the last column. Touch nothing bare at any power: ${up(TOUCH_DISTANCE_M, units)} is arm’s reach.`,
    placeTable(assessment.bands, units),
    endTable(assessment.bands, units),
    'Volts are the peak of the wave at peak power, each wire taken as an open line; keep people off a bare end by the last column.',
    jointTable(assessment, due),
    section('Cautions', assessment.cautions),
    section('Taken, because the site does not say', assessment.assumptions),
    section('What this does not tell', assessment.limitsOfMethod),
  ]
    .filter((part) => part !== '')
    .join('\n\n');
}

function answer({ bands }: SafetyAssessment, units: UnitSystem): string {
  const widest = bands.reduce((a, b) => (b.keepOut.distanceM > a.keepOut.distanceM ? b : a));
  const { band, mode, peakPowerW } = widest.transmission;
  const unclear = new Set(
    bands.flatMap(({ places }) =>
      places.filter(({ verdict }) => verdict !== 'clear').map(({ name }) => name),
    ),
  );
  const judged = bands.some(({ places }) => places.length > 0);
  const rest =
    unclear.size > 0
      ? `; not clear: ${[...unclear].join(', ')}`
      : judged
        ? '; every place is within the limits'
        : '';
  return `While you send, nobody stays within ${up(widest.keepOut.distanceM, units)} of the antenna (most on ${band.band}, ${peakPowerW} W ${mode.mode})${rest}.`;
}

function bandTable(bands: readonly BandAssessment[], units: UnitSystem): string {
  const far = (distanceM: number | null): string => (distanceM === null ? '-' : up(distanceM, units));
  return table([
    [
      'band',
      'mode',
      'peak W',
      'average W',
      'keep out',
      'decided by',
      'far ×4',
      'far ×2.56',
      'far field from',
    ],
    ...bands.map(({ transmission, averagePowerW, keepOut, ruleOfThumb }) => [
      transmission.band.band,
      transmission.mode.mode,
      String(transmission.peakPowerW),
      averagePowerW.toFixed(2),
      up(keepOut.distanceM, units),
      keepOut.basis,
      far(ruleOfThumb.fullReflectionM),
      far(ruleOfThumb.practicalReflectionM),
      up(ruleOfThumb.validFromM, units),
    ]),
  ]);
}

function placeTable(bands: readonly BandAssessment[], units: UnitSystem): string {
  const rows = bands.flatMap(({ transmission, places }) =>
    places.map((place) => [
      place.name,
      down(place.distanceM, units),
      transmission.band.band,
      transmission.mode.mode,
      place.verdict,
      place.maxPowerW === 0 ? 'none' : `${place.maxPowerW}`,
      place.exemption ?? '-',
    ]),
  );
  if (rows.length === 0) return '';
  const tested = bands.some(({ places }) => places.some(({ exemption }) => exemption !== null));
  const head = ['place', 'distance', 'band', 'mode', 'verdict', 'up to peak W', 'US evaluation'];
  const note = tested
    ? '\nExempt means exempt from an evaluation, never from the limits; the test does not apply nearer than λ/2π.'
    : '';
  return table([head, ...rows].map((row) => (tested ? row : row.slice(0, -1)))) + note;
}

function endTable(bands: readonly BandAssessment[], units: UnitSystem): string {
  return table([
    ['wire', 'band', 'peak V', 'good to', 'shared by', 'keep off'],
    ...bands.flatMap(({ transmission, wireEnds }) =>
      wireEnds.map((end) => [
        end.end,
        transmission.band.band,
        String(end.peakVoltageV),
        end.accuracy,
        String(end.sharedBy),
        up(end.keepOffM, units),
      ]),
    ),
  ]);
}

function jointTable({ joints }: SafetyAssessment, due: readonly DueInspection[] | null): string {
  if (joints.length === 0) return '';
  const state = (name: string): string => {
    const inspection = due?.find(({ joint }) => joint === name);
    if (inspection === undefined) return '-';
    if (inspection.due === null) return 'never inspected';
    return `${inspection.overdue ? 'overdue since' : 'due'} ${inspection.due.slice(0, 10)}`;
  };
  const rows = joints.map((joint) => [
    joint.name,
    joint.metals.join(' / '),
    `${joint.differenceV.toFixed(2)} of ${joint.allowedV.toFixed(2)} V`,
    joint.verdict,
    `every ${joint.inspectionMonths} months`,
    state(joint.name),
  ]);
  const advice = joints.flatMap((joint) => joint.advice.map((sentence) => `${joint.name}: ${sentence}`));
  return [
    table([['joint', 'metals', 'difference', 'verdict', 'look at it', 'next'], ...rows]),
    ...advice,
  ].join('\n');
}

function section(title: string, sentences: readonly string[]): string {
  return sentences.length === 0
    ? ''
    : [`${title}:`, ...sentences.map((sentence) => `- ${sentence}`)].join('\n');
}

const STEPS_PER_UNIT = 10;

/** A distance to keep: rounded up in the unit that is shown. */
function up(lengthM: number, units: UnitSystem): string {
  return formatLength(roundUp(lengthM / unitM(units), STEPS_PER_UNIT) * unitM(units), units);
}

/** A distance that is there: rounded down in the unit that is shown. */
function down(lengthM: number, units: UnitSystem): string {
  return formatLength(roundDown(lengthM / unitM(units), STEPS_PER_UNIT) * unitM(units), units);
}

function unitM(units: UnitSystem): number {
  return units === 'metric' ? 1 : 0.3048;
}
