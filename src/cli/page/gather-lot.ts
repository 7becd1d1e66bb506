import { drawnRadials } from '../../core/layout/drawn-radials.ts';
import type { Radial } from '../../core/record.ts';
import type { PageLot, PageWire, Part } from '../../formats/page-data.ts';
import type { Logbook } from '../../logbook/logbook.ts';

/** The lot with what lies there and what is planned. */
export function gatherLot({ site, fieldStates, planned }: Logbook): Part<PageLot> {
  if (site.lot === null) {
    return {
      data: null,
      missing: {
        why: 'The site has no lot: give its outline, the base of the antenna and what stands in the way, under "lot" in site.json.',
        command: 'turfwire help plan',
      },
    };
  }
  const laid = fieldStates.at(-1)?.radials ?? [];
  return {
    data: {
      lot: site.lot,
      wires: [...wires(laid, 'laid'), ...wires(planned, 'planned')],
    },
    missing: null,
  };
}

function wires(radials: readonly Radial[], state: PageWire['state']): PageWire[] {
  return drawnRadials(radials, 'metric').map(({ number, points, age, assumed }, i) => {
    const { lengthM, since } = radials[i] as Radial;
    return {
      points,
      state,
      assumed: state === 'laid' && assumed === true,
      age: state === 'laid' ? age : 0,
      number,
      lengthM,
      since,
    };
  });
}
