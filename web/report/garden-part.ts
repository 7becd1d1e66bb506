import { levelsWords } from '../../src/formats/levels-words.ts';
import type { PageData, SafetyAnswer } from '../../src/formats/page-data.ts';
import { placeName } from '../../src/formats/place-reasons.ts';
import { jointsSentence, safetyAnswer } from '../../src/formats/safety-words.ts';
import { worstVerdicts } from '../../src/formats/worst-verdicts.ts';
import { type Child, h } from '../dom.ts';
import { figuresFor, radialEndWords, watts } from '../model/garden-words.ts';
import { proseList } from '../parts/prose-list.ts';
import type { Reader } from '../reader.ts';
import { plainTable } from './plain-table.ts';

/** More rows than these do not fit the page. */
const MOST_ROWS = 6;

export function gardenPart({ safety }: PageData, reader: Reader): Child {
  const heading = h('h3', {}, 'What transmitting asks of the garden');
  if (safety.data === null) return h('section', {}, heading, h('p', {}, safety.missing.why));
  const { bands, cautions, limits } = safety.data;
  const figures = figuresFor(reader);
  const widest = bands.toSorted((a, b) => b.distanceM - a.distanceM);
  return [
    h(
      'section',
      {},
      heading,
      h('p', {}, reader.prose([safetyAnswer(safety.data, figures), jointsSentence(safety.data)].join(' '))),
      rowsWithin(widest, (shown) =>
        plainTable(
          'Distances to keep',
          ['band', 'peak power', 'mode', 'keep out', 'decided by'],
          shown.map((band) => [
            band.band,
            `${watts(band.peakPowerW, reader)} W`,
            band.mode,
            figures.kept(band.distanceM),
            band.decidedBy,
          ]),
        ),
      ),
    ),
    h(
      'section',
      {},
      rowsWithin(worstPlaces(safety.data), (shown) =>
        plainTable(
          'Places',
          ['place', 'antenna', 'radial end', 'band', 'verdict'],
          shown.map((place) => [
            placeName(place, figures),
            figures.present(place.distanceM),
            radialEndWords(place, figures),
            place.band,
            place.verdict,
          ]),
        ),
      ),
      h('p', {}, `Held against ${limits.title}.`),
    ),
    proseList(cautions),
  ];
}

/** Each place once, with its worst verdict, the worst place first. */
function worstPlaces({ places }: SafetyAnswer): SafetyAnswer['places'] {
  const worst = worstVerdicts(places);
  const perPlace = places
    .filter(({ name, verdict }) => worst.get(name) === verdict)
    .filter(({ name }, i, all) => all.findIndex((one) => one.name === name) === i);
  return perPlace.toSorted((a, b) => a.maxPowerW - b.maxPowerW);
}

/** What fits, and how much does not. */
function rowsWithin<T>(rows: readonly T[], table: (shown: readonly T[]) => HTMLElement): Child {
  if (rows.length === 0) return null;
  const more = rows.length - MOST_ROWS;
  return [
    table(rows.slice(0, MOST_ROWS)),
    more > 0 ? h('p', {}, `${more} more are in the page itself.`) : null,
  ];
}

/** What anybody who was not there should know before believing it. */
export function methodPart({ progress, comparisons, safety }: PageData, reader: Reader): HTMLElement {
  const sentences = [
    'Sweeps are taken at the foot of the antenna, several shots a visit; figures are read where the reactance is zero, each visit at its own frequency.',
    '± is the expanded uncertainty (JCGM 100, two standard uncertainties or the factor k that is printed); “not shown” means that the difference may well be none.',
    'A fall of R at X = 0 is a lower estimate of the gain; received strength, where it was read, outranks it. A lower SWR alone proves nothing.',
    ...(progress.data?.[0]?.model.name === 'soil and ground loss'
      ? ['The fitted curve takes the field as even and straight, on one soil.']
      : []),
    ...(comparisons.data === null
      ? []
      : ['Soil moisture moves R as wires do; where it was noted it is corrected for.']),
    ...(safety.data === null
      ? []
      : [
          'Distances are computed for thin wires over perfect ground, not measured: real ground and metal close by change the field by tens of per cent and more. Local codes and licensed practice decide.',
          reader.prose(`${safety.data.limits.title}: ${levelsWords(safety.data.limits)}`),
        ]),
  ];
  return h('section', {}, h('h3', {}, 'Method, and its limits'), proseList(sentences));
}
