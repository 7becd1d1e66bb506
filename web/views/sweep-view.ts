import type { Band } from '../../src/core/sweep/bands.ts';
import type { App } from '../app.ts';
import { h, replace } from '../dom.ts';
import type { Spot } from '../model/at-frequency.ts';
import type { Layer } from '../model/layers.ts';
import { type ShownLayer, shownLayers } from '../model/shown.ts';
import { figuresIn } from '../model/sweep-figures.ts';
import { layerName, pairSentence, sweepSentence } from '../model/sweep-words.ts';
import { LiveWords } from '../parts/live-words.ts';
import { ReflectionPlane } from '../pictures/reflection-plane.ts';
import { type Stake, Strata } from '../pictures/strata.ts';
import type { StripRange } from '../pictures/strips.ts';
import { notYet } from './not-yet.ts';
import { SweepChoices } from './sweep-choices.ts';
import { figuresTable, pointsTable } from './sweep-tables.ts';
import type { View } from './view.ts';

const EMPTY_WORDS =
  'No sweep is here yet. Drop a file anywhere on this page, or choose one with “Add sweep files”.';

const PLANE_WORDS =
  'The same sweeps in the plane of reflection: the middle is a perfect match, the rim reflects everything. ' +
  'Full circles are constant R, arcs constant X, both in ohms; the dashed ring is SWR 2. Each mark is where a line ends.';

/** What does this sweep say? */
export function sweepView(app: App): View {
  const answer = h('p', { class: 'answer' });
  const second = h('p', { class: 'answer-second' });
  const words = new LiveWords();
  const plane = new ReflectionPlane();
  const readout = h('p', { class: 'stake-words' });
  const choices = new SweepChoices(app);
  const tables = h('div', {});
  const strata = new Strata((stake) => {
    plane.pin('before', stake.before);
    plane.pin('after', stake.after);
    const said = stakeWords(stake, app);
    readout.textContent = said;
    words.say(said);
  });
  const summary = h('figcaption', {});
  const pictures = h(
    'div',
    { class: 'sweep-pictures' },
    h('figure', { class: 'sweep-strata' }, strata.element, readout, summary),
    h('figure', { class: 'sweep-plane' }, plane.element, h('figcaption', {}, PLANE_WORDS)),
  );
  const full = h('div', {}, answer, second, choices.element, words.element, pictures, tables);

  const element = h('div', {});
  const update = (): void => {
    const shown = shownLayers(app.layers, app.address);
    const after = shown.find(({ role }) => role === 'after');
    if (after === undefined) {
      replace(element, notYet({ why: EMPTY_WORDS, command: app.data?.commands.addSweeps ?? null }));
      return;
    }
    if (full.parentElement !== element) replace(element, full);
    const band = app.bands.find((one) => one.band === app.address.band) ?? null;
    const before = shown.find(({ role }) => role === 'before');
    const spoken = band ?? onlySiteBand(app);
    const range = rangeOf(shown, band);
    const input = { shown, range, bands: app.bands, reader: app.reader };
    const tell = (): void => {
      answer.textContent = sweepSentence(after.layer, spoken, app.reader);
      second.textContent =
        before === undefined ? '' : pairSentence(before.layer, after.layer, spoken, app.reader);
      choices.update(shown);
      summary.textContent = strataSummary(shown, range, app);
    };
    strata.draw(input, tell, [
      () => plane.draw(input),
      // Figures of many sweeps take their time: a few a turn, and the table finds them told.
      ...inHandfuls(shown).map((few) => () => {
        for (const { layer } of few) figuresIn(layer.sweep, spoken);
      }),
      () => replace(tables, figuresTable(shown, spoken, app.reader), pointsTable(shown, range, app.reader)),
    ]);
  };
  return { element, update, destroy: () => strata.destroy() };
}

/** So many sweeps have their figures told within one frame. */
const A_FEW = 5;

function inHandfuls<T>(things: readonly T[]): T[][] {
  return Array.from({ length: Math.ceil(things.length / A_FEW) }, (_, i) =>
    things.slice(i * A_FEW, (i + 1) * A_FEW),
  );
}

/** The band that is spoken of where the reader chose none: the site's, where it has one alone. */
function onlySiteBand(app: App): Band | null {
  const wanted = app.data?.site?.antenna.bands ?? [];
  const found = app.bands.filter(({ band }) => wanted.includes(band));
  return found.length === 1 ? (found[0] as Band) : null;
}

function rangeOf(shown: readonly ShownLayer[], band: Band | null): StripRange {
  if (band !== null) {
    const room = 0.1 * (band.toHz - band.fromHz);
    return { from: band.fromHz - room, to: band.toHz + room };
  }
  const ends = shown.map(({ layer: { sweep } }) => sweep.frequencyHz);
  return {
    from: Math.min(...ends.map((f) => f[0] as number)),
    to: Math.max(...ends.map((f) => f[f.length - 1] as number)),
  };
}

function strataSummary(shown: readonly ShownLayer[], range: StripRange, { reader, bands }: App): string {
  const names = (role: ShownLayer['role']): Layer[] =>
    shown.filter((one) => one.role === role).map(({ layer }) => layer);
  const pair = [...names('before'), ...names('after')]
    .map((layer) => layerName(layer, reader))
    .join('; then ');
  const others = names('other').length;
  return (
    `From ${reader.frequency(range.from)} to ${reader.frequency(range.to)}: ${pair}` +
    `${others === 0 ? '' : `, before the background of ${others} more`}. ` +
    `Shaded: ${bands.map(({ band }) => band).join(', ') || 'no amateur band lies here'}.`
  );
}

function stakeWords({ hz, before, after }: Stake, { reader }: App): string {
  const told = (spot: Spot): string =>
    `SWR ${reader.number(spot.swr, 2)}, R ${reader.number(spot.resistanceOhm, 1)} Ω, X ${reader.number(spot.reactanceOhm, 1)} Ω`;
  const parts = [
    ...(before === null ? [] : [`before ${told(before)}`]),
    ...(after === null ? [] : [before === null ? told(after) : `after ${told(after)}`]),
  ];
  return `At ${reader.frequency(hz)}: ${parts.join('; ')}.`;
}
