import { type Band, bandsOfRegion, DEFAULT_REGION } from '../../src/core/sweep/bands.ts';
import { createReflectionSweep, impedanceSweepOf } from '../../src/core/sweep/reflection-sweep.ts';
import type { Sweep } from '../../src/core/sweep/sweep.ts';
import { UserError } from '../../src/core/user-error.ts';
import { writeCanonical } from '../../src/formats/canonical.ts';
import type { Grid } from '../../src/instrument/codec/grid.ts';
import type { IAm } from '../../src/instrument/codec/messages.ts';
import type { App } from '../app.ts';
import { h, replace } from '../dom.ts';
import { looseLayer } from '../model/layers.ts';
import { Choice } from '../parts/choice.ts';
import { SerialLines } from './serial-lines.ts';
import { PageInstrument } from './take-sweep.ts';
import { webSerial } from './web-serial.ts';

const BAUD = 115_200;
const POINTS = 201;
/** The resonance may lie outside the band by this part of its frequency. */
const AROUND = 0.08;

/** Measuring from the page itself; nothing at all where the browser or the place does not allow it. */
export function measureHere(app: App): HTMLElement | null {
  const serial = webSerial();
  if (serial === null || app.data?.source !== 'loopback') return null;
  const { site } = app.data;
  const bands = bandsOfRegion(site?.region ?? DEFAULT_REGION, site?.bandEdges);
  let band = bands.find((one) => one.band === site?.antenna.bands[0]) ?? (bands[0] as Band);
  const words = h('div', { role: 'status', class: 'measure-words' });
  const choice = new Choice('Band', (name) => {
    band = bands.find((one) => one.band === name) ?? band;
  });
  choice.set(
    bands.map(({ band: value }) => ({ value, label: value })),
    band.band,
  );
  let count = 0;
  const button = h('button', { type: 'button' }, 'Measure here');
  button.addEventListener('click', () => {
    void run(serial.requestPort(), band, words).then((measured) => {
      if (measured === null) return;
      count++;
      const label = `measured here ${count}, ${measured.by}`;
      app.addLoose([looseLayer(`here-${count}`, label, 'instrument', [measured.sweep])]);
      app.go({ view: 'sweep', visit: `here-${count}` });
      replace(words, `Measured ${band.band}. It is in this page alone. `, saveLink(measured.sweep, count));
    });
  });
  return h('div', { class: 'measure-here' }, choice.element, button, words);
}

/** One sweep over a port that the user is being asked for; null, with words why, where there is none. */
async function run(
  asked: ReturnType<NonNullable<ReturnType<typeof webSerial>>['requestPort']>,
  band: Band,
  words: HTMLElement,
): Promise<{ sweep: Sweep; by: string } | null> {
  let lines: SerialLines | null = null;
  try {
    words.textContent = 'Transmitter disconnected? Choose the port of the instrument.';
    lines = await SerialLines.open(await asked, BAUD);
    const instrument = new PageInstrument(lines);
    const iam = await instrument.meet();
    const grid = gridFor(band, iam);
    const assembled = await instrument.sweep(grid, (received) => {
      words.textContent = `${iam.model}: ${received} of ${grid.points} points.`;
    });
    const reflection = createReflectionSweep({ ...assembled, referenceOhm: iam.referenceMilliohm / 1000 });
    return { sweep: impedanceSweepOf(reflection, 'feedpoint'), by: iam.model };
  } catch (error) {
    words.textContent = whyNot(error);
    return null;
  } finally {
    await lines?.close();
  }
}

/** @throws UserError `instrument-raw`, `band-out-of-reach` */
function gridFor({ band, fromHz, toHz }: Band, iam: IAm): Grid {
  if (iam.correction === 'raw') {
    throw new UserError(
      'instrument-raw',
      'this instrument gives raw readings, which need standards to correct them: use `turfwire measure`',
      { kind: 'instrument' },
    );
  }
  const startHz = Math.max(iam.lowestHz, Math.round(fromHz * (1 - AROUND)));
  const stopHz = Math.min(iam.highestHz, Math.round(toHz * (1 + AROUND)));
  const points = Math.min(POINTS, iam.mostPoints);
  if (stopHz - startHz >= points) return { startHz, stopHz, points };
  throw new UserError('band-out-of-reach', `this instrument does not reach ${band}`, { kind: 'instrument' });
}

function whyNot(error: unknown): string {
  if (error instanceof UserError) return `Not measured: ${error.message}.`;
  if (error instanceof DOMException && error.name === 'NotFoundError') return 'No port was chosen.';
  return `Not measured: ${error instanceof Error ? error.message : 'the port gave up'}.`;
}

function saveLink(sweep: Sweep, number: number): HTMLElement {
  const file = URL.createObjectURL(new Blob([writeCanonical(sweep)], { type: 'text/csv' }));
  const name = `measured-here-${number}.csv`;
  return h('a', { href: file, download: name }, `Save it as ${name}, then: turfwire import ${name}`);
}
