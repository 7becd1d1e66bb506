import { type Band, bandsOfRegion, DEFAULT_REGION } from '../../src/core/sweep/bands.ts';
import type { Sweep } from '../../src/core/sweep/sweep.ts';
import { writeCanonical } from '../../src/formats/canonical.ts';
import { asSentence } from '../../src/formats/words.ts';
import type { Description } from '../../src/instrument/description/description.ts';
import type { App } from '../app.ts';
import { h, replace } from '../dom.ts';
import { looseLayer } from '../model/layers.ts';
import { Choice } from '../parts/choice.ts';
import { type Measured, measureSweep } from './measure-sweep.ts';
import { type WebSerialPort, webSerial } from './web-serial.ts';

const LINE_PROTOCOL = { value: '', label: 'our line protocol' };

/** Measuring from the page itself; nothing at all where the browser or the place does not allow it. */
export function measureHere(app: App): HTMLElement | null {
  const serial = webSerial();
  if (serial === null || app.data?.source !== 'loopback') return null;
  const { site } = app.data;
  const bands = bandsOfRegion(site?.region ?? DEFAULT_REGION, site?.bandEdges);
  let band = bands.find((one) => one.band === site?.antenna.bands[0]) ?? (bands[0] as Band);
  let description: Description | null = null;
  const words = h('div', { role: 'status', class: 'measure-words' });
  const choice = new Choice('Band', (name) => {
    band = bands.find((one) => one.band === name) ?? band;
  });
  choice.set(
    bands.map(({ band: value }) => ({ value, label: value })),
    band.band,
  );
  let descriptions: readonly Description[] = [];
  const driver = new Choice('Instrument speaks', (name) => {
    description = descriptions.find((one) => one.name === name) ?? null;
  });
  driver.set([LINE_PROTOCOL], LINE_PROTOCOL.value);
  void servedDescriptions().then((served) => {
    descriptions = served;
    driver.set([LINE_PROTOCOL, ...served.map(({ name }) => ({ value: name, label: name }))], '');
  });
  let count = 0;
  const button = h('button', { type: 'button' }, 'Measure here');
  button.addEventListener('click', () => {
    button.disabled = true;
    void run(serial.requestPort(), description, band, words).then((measured) => {
      button.disabled = false;
      if (measured === null) return;
      count++;
      const label = `measured here ${count}, ${measured.by}`;
      app.addLoose([looseLayer(`here-${count}`, label, 'instrument', [measured.sweep])]);
      app.go({ view: 'sweep', visit: `here-${count}` });
      replace(
        words,
        `Measured ${band.band}, taken as at the feed point. The sweep is in this page alone. `,
        saveLink(measured.sweep, count),
      );
    });
  });
  return h('div', { class: 'measure-here' }, choice.element, driver.element, button, words);
}

/** The descriptions that the server read and checked: those that come with the program, and the user's own. */
async function servedDescriptions(): Promise<readonly Description[]> {
  try {
    return (await (await fetch('descriptions.json')).json()) as readonly Description[];
  } catch {
    return [];
  }
}

/** One sweep over a port that the user is being asked for; null, with words why, where there is none. */
async function run(
  asked: Promise<WebSerialPort>,
  description: Description | null,
  band: Band,
  words: HTMLElement,
): Promise<Measured | null> {
  try {
    words.textContent =
      'Is the transmitter disconnected from the antenna? Then choose the port of the instrument.';
    return await measureSweep(await asked, description, band, (by, received, points) => {
      words.textContent = `${by}: ${received} of ${points} points.`;
    });
  } catch (error) {
    words.textContent = whyNot(error);
    return null;
  }
}

function whyNot(error: unknown): string {
  if (error instanceof DOMException && error.name === 'NotFoundError') return 'No port was chosen.';
  // The drivers speak of a flag of the commands; here the description holds the speed.
  const why =
    error instanceof Error ? error.message.replaceAll('--baud', 'the baud rate') : 'the port gave up';
  return asSentence(`not measured: ${why}`);
}

function saveLink(sweep: Sweep, number: number): HTMLElement {
  const file = URL.createObjectURL(new Blob([writeCanonical(sweep)], { type: 'text/csv' }));
  const name = `measured-here-${number}.csv`;
  return h('a', { href: file, download: name }, `Save it as ${name}, then: turfwire import ${name}`);
}
