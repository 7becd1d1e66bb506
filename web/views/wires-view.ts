import type { Missing, PageData, PageLot, PageWire, PlanAnswer } from '../../src/formats/page-data.ts';
import { worstVerdicts } from '../../src/formats/worst-verdicts.ts';
import type { App } from '../app.ts';
import { h } from '../dom.ts';
import { type Handful, handfuls } from '../model/field-words.ts';
import type { LineStyle } from '../model/shown.ts';
import { coverageSentence, proposalSentence, wiresSentence, wiresStage } from '../model/wires-words.ts';
import { Choice } from '../parts/choice.ts';
import { lineKey } from '../pictures/key.ts';
import { lotPicture } from '../pictures/lot-picture.ts';
import { responsive } from '../pictures/responsive.ts';
import { patternRose, ROSE_STYLES } from '../pictures/rose.ts';
import type { Reader } from '../reader.ts';
import { answerView } from './answer-view.ts';
import { notYet } from './not-yet.ts';
import type { View } from './view.ts';
import { handfulTable, plannedTable, planTables } from './wires-tables.ts';

/** Where should wires go? */
export function wiresView(app: App): View {
  const band = new Choice('Pattern on', (name) => app.go({ band: name }));
  return answerView(
    app,
    (data) => data.lot,
    ({ answer: { lot, wires }, data, reader }) => {
      const plan = data.plan.data;
      const stage = wiresStage(data, wires);
      const shown = stage === 'proposed' && plan !== null ? [...wires, ...proposed(plan, lot.base)] : wires;
      const rose = plan === null || plan.pattern.length === 0 ? null : roseFigure(plan, band, app);
      const groups = handfuls(wires);
      return [
        h('p', { class: 'answer' }, wiresSentence(data, wires, reader)),
        h('p', { class: 'answer-second' }, coverageSentence(wires)),
        h(
          'div',
          { class: 'lot-and-rose' },
          lotFigure(data, lot, shown, reader),
          stage === 'proposed' ? rose : null,
        ),
        groups.length === 0 ? null : handfulTable(groups, reader),
        plan === null && stage === 'laid' ? notYet(data.plan.missing as Missing) : null,
        stage === 'planned' ? plannedTable(wires, reader) : null,
        stage === 'proposed' && plan !== null ? planTables(plan, reader) : null,
        stage === 'stop' && plan !== null
          ? h(
              'details',
              {},
              h('summary', {}, 'What the wire at hand could give all the same'),
              h('p', {}, proposalSentence(plan, reader)),
              rose,
              planTables(plan, reader),
            )
          : null,
      ];
    },
  );
}

function lotFigure(
  data: PageData,
  lot: PageLot['lot'],
  wires: readonly PageWire[],
  reader: Reader,
): HTMLElement {
  return h(
    'figure',
    {},
    lotPicture({
      lot,
      wires,
      circles: [],
      verdicts: worstVerdicts(data.safety.data?.places ?? []),
      title: `The lot of ${data.site?.name ?? 'the site'}, to scale`,
      reader,
    }),
    wireKeys(handfuls(wires), wires, reader),
    h(
      'figcaption',
      {},
      'Drawn to scale. The ring is the foot of the antenna. Older wires are darker; planned and proposed ones are dashed.',
    ),
  );
}

/** The wires of a proposal. */
function proposed(plan: PlanAnswer, [east, north]: readonly [number, number]): PageWire[] {
  return plan.radials.map(({ number, route, lengthM }) => ({
    number,
    lengthM,
    since: null,
    state: 'planned',
    age: 0,
    points: route.map(([e, n]) => [e - east, n - north] as const),
  }));
}

function wireKeys(groups: readonly Handful[], wires: readonly PageWire[], reader: Reader): HTMLElement {
  const keys = groups.map(({ since, wires: own }) => {
    const key = lineKey({ colour: '--wire-new', widthPx: 4, dash: [], mark: null });
    const line = key.querySelector('path');
    if (line !== null) {
      line.style.stroke = `color-mix(in oklab, var(--wire-old) ${Math.round(100 * (own[0]?.age ?? 0))}%, var(--wire-new))`;
    }
    return h('li', {}, key, `${own.length} laid ${since === null ? 'before' : reader.date(since)}`);
  });
  const dashed = wires.filter(({ state }) => state === 'planned').length;
  return h(
    'ul',
    { class: 'keys' },
    keys,
    dashed === 0
      ? null
      : h(
          'li',
          {},
          lineKey({ colour: '--wire-planned', widthPx: 3, dash: [7, 4], mark: null }),
          `${dashed} ${wires.some(({ since, state }) => state === 'planned' && since !== null) ? 'planned' : 'proposed'}`,
        ),
  );
}

function roseFigure(plan: PlanAnswer, choice: Choice, app: App): HTMLElement {
  const bands = [...new Set(plan.pattern.map(({ band }) => band))];
  const chosen = bands.find((name) => name === app.address.band) ?? bands[0] ?? '';
  choice.set(
    bands.map((value) => ({ value, label: value })),
    chosen,
  );
  const shown = plan.pattern.filter(({ band }) => band === chosen);
  return h(
    'figure',
    {},
    bands.length > 1 ? choice.element : null,
    responsive((width) => patternRose(shown, width, app.reader)),
    h(
      'ul',
      { class: 'keys' },
      shown.map(({ elevationDeg }, i) =>
        h(
          'li',
          {},
          lineKey(ROSE_STYLES[i % ROSE_STYLES.length] as LineStyle),
          `${elevationDeg}° above the horizon`,
        ),
      ),
    ),
    h(
      'figcaption',
      {},
      `How evenly the field goes out on ${chosen}, with the wires that lie there and the proposed ones; against the mean all round.`,
    ),
  );
}
