import type { UnitSystem } from '../quantity.ts';
import { unitsFirst } from '../units-first.ts';

/** The kinds of work in the garden or at the feed point that can hurt someone. */
export const CAUTION_JOBS = [
  'digging',
  'laying',
  'hanging',
  'pinning',
  'transmitting',
  'measuring',
  'thunder',
  'mains-earth',
  'ladders',
] as const;

/** A job that has cautions of its own. */
export type CautionJob = (typeof CAUTION_JOBS)[number];

/**
 * The cautions to show once where a job is planned or begun, most serious first.
 *
 * Figures stand in both systems, those of `units` first. They are reminders, not instruction: local codes, the network owners and licensed people decide.
 *
 * Sources: marking and hand digging, 811 before you dig (US) and state law, published; cover of buried
 * cables, NFPA 70 (NEC) table 300.5, published; thunder, US National Weather Service advice (16 km, 30 min),
 * published; bonding, NEC 810.21 and 810.58, and guidance on UK PME supplies under BS 7671, published; trip
 * height, ADA/ABA 303 (6.4 mm), published, a rule for public ways that is borrowed here; contact current,
 * ICNIRP, Health Physics 118(5) (2020), published; ladder slope 1 in 4, 29 CFR 1926.1053(b)(5)(i), memory;
 * everything else common practice.
 */
export function cautionsFor(job: CautionJob, units: UnitSystem = 'metric'): readonly string[] {
  return CAUTIONS[job].map((caution) => unitsFirst(caution, units));
}

/** The same in a clause, for whoever was shown all of them within the same day's work. */
export function cautionsInBrief(job: CautionJob): string {
  return IN_BRIEF[job];
}

const IN_BRIEF: Readonly<Record<CautionJob, string>> = {
  digging: 'buried services marked before you cut, by hand near a mark',
  laying:
    'transmitter disconnected, no wire thrown near a power line, eyes covered, wires flat, far ends insulated',
  hanging:
    'transmitter disconnected, no wire thrown near a power line, eyes covered, no wire across a way, far ends insulated',
  pinning: 'no pin over a service, pins flush and counted, wires down before mowing',
  transmitting: 'people and animals beyond the distances, wire ends capped and out of touch',
  measuring: 'transmitter disconnected, element discharged, no thunder heard or forecast',
  thunder: 'indoors at the first thunder and 30 min after the last',
  'mains-earth': 'mains earth and bonding by a licensed electrician',
  ladders: 'nothing can reach a power line, two people, no wind, rain or dark',
};

/** What wire asks wherever it goes, from the first moment on, and at the last. */
const HANDLING_WIRE = [
  'Transmitter off and disconnected before anyone touches wire, strap or element.',
  'Never throw or unroll wire under or near an overhead power line.',
  'Wear eye protection: the end of a cut or coiled wire springs.',
];
const FAR_ENDS = 'Insulate the far ends: along a radial the voltage is highest there while you transmit.';

const CAUTIONS: Readonly<Record<CautionJob, readonly string[]>> = {
  digging: [
    'Before you cut the turf, have buried services marked: in the US call 811 two to three business days ahead, elsewhere ask the network owners. Local rules decide.',
    'Marks leave out private lines (garden lighting, irrigation, fuel, septic): ask whoever laid them.',
    'Dig by hand within 0.6 m (24 in) of a mark. Cables may lie only 150 mm (6 in) down, private ones less: a slit for a radial can reach them.',
  ],
  laying: [
    ...HANDLING_WIRE,
    'Where people walk, wire lies flat or below the turf: a loop higher than 6 mm (1/4 in) trips.',
    FAR_ENDS,
  ],
  hanging: [
    ...HANDLING_WIRE,
    'Let no wire or guy cross a way at the height of a head, a rider or a vehicle; mark those that hang lower than they pass.',
    FAR_ENDS,
  ],
  pinning: [
    'No pin over a marked or suspected cable or pipe.',
    'Drive pins flush, count them out and in: a loose one trips, cuts, or is thrown by a mower.',
    'Check that wires are still down before each mowing.',
  ],
  transmitting: [
    'Keep people and animals outside the keep-out distance, and from touching element, wire or wire ends at any power.',
    'A light touch on a live wire burns even where the field is under its limit: the contact-current level for the public is 20 mA (ICNIRP 2020, to 10 MHz).',
    'Cap the open ends of wires and keep them out of reach: along each wire the voltage is highest there.',
    'Anyone with a pacemaker or other implant asks their physician or its maker first.',
  ],
  measuring: [
    'Transmitter disconnected, not merely idle, before the instrument is connected.',
    'Discharge the element to the radials before you connect: static builds up in wind, snow and near storms.',
    'No measuring when thunder is heard or forecast.',
  ],
  thunder: [
    'At the first thunder stop and go indoors: the next stroke can reach 16 km (10 miles).',
    'Wait 30 min after the last thunder. Touch no antenna lead, corded phone or plumbing meanwhile.',
    'Disconnect feed lines before a storm comes, never during one. Radials are not a lightning protection system.',
  ],
  'mains-earth': [
    'How the antenna earth joins the mains earth is for a licensed electrician and the local code (US: NEC 810.21 and 810.58).',
    'On a supply whose neutral is also its earth (UK: PME), a broken neutral can put mains voltage on radials brought indoors: ask the network owner or an electrician first.',
    'Never use a mains earth, a gas pipe or a water pipe as a radial.',
  ],
  ladders: [
    'Nothing you raise may reach an overhead power line if it slips, swings or falls: keep away by more than its whole length.',
    'Two people: one holds the foot. Set the foot out one quarter of the height.',
    'No ladder or mast work in wind, rain, the dark or when thunder is heard or forecast.',
  ],
};
