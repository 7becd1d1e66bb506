import type { JournalEvent, ReadingEvent, StoredEvent } from '../core/journal-event.ts';
import { formatFrequency, formatLength, formatTemperature, type UnitSystem } from '../core/quantity.ts';
import { isSimulated } from '../core/simulated.ts';
import { standardText } from '../core/sweep/calibration-standards.ts';
import { oneLine } from './plain-text.ts';

const MM_PER_INCH = 25.4;

/** One event in words, on one line. */
export function eventText(event: JournalEvent, units: UnitSystem): string {
  return oneLine(wordsOf(event, units));
}

function wordsOf(event: JournalEvent, units: UnitSystem): string {
  const remark = event.text === '' ? '' : `: ${event.text}`;
  switch (event.event) {
    case 'begin':
      return `logbook begun${remark}`;
    case 'lay':
    case 'plan': {
      const bearing = event.bearingDeg === null ? '' : ` at ${event.bearingDeg.toFixed(0)}°`;
      const verb = event.event === 'lay' ? 'laid' : 'planned';
      return `radial ${event.number} ${verb}, ${formatLength(event.lengthM, units, 2)}${bearing}${remark}`;
    }
    case 'lift':
      return `radial ${event.number} lifted${remark}`;
    case 'shot': {
      const target = event.target === 'antenna' ? PLANES[event.plane] : 'of the reference load';
      return `visit ${event.visit}, shot ${event.shot} ${target}, ${rangeText(event)}, ${sourceText(event)}${remark}`;
    }
    case 'standard':
      return `calibration: ${standardText(event.definition)}, ${rangeText(event)}, ${sourceText(event)}${remark}`;
    case 'raw':
      return `visit ${event.visit}, shot ${event.shot}: uncorrected readings kept${remark}`;
    case 'baseline':
      return `visit ${event.visit} ${event.baseline ? 'counts' : 'does not count'} as baseline${remark}`;
    case 'withdraw':
      return `row ${event.row} withdrawn${remark}`;
    default:
      return readingText(event, units);
  }
}

const PLANES = { feedpoint: 'at the feed point', shack: 'in the shack' } as const;

function sourceText({ source }: { readonly source: string }): string {
  return isSimulated(source) ? 'simulated' : `from ${source}`;
}

function rangeText({ fromHz, toHz }: StoredEvent): string {
  return `${formatFrequency(fromHz)} to ${formatFrequency(toHz)}`;
}

function readingText(event: ReadingEvent, units: UnitSystem): string {
  const remark = event.text === '' ? '' : `: ${event.text}`;
  const value = event.value ?? Number.NaN;
  const power = event.powerW === null ? '' : ` with ${event.powerW} W`;
  switch (event.event) {
    case 'soil-moisture':
      return `soil moisture ${decimals(value * 100, 1)} %${remark}`;
    case 'rain':
      return units === 'metric'
        ? `rain ${decimals(value * 1e3, 1)} mm${remark}`
        : `rain ${decimals((value * 1e3) / MM_PER_INCH, 2)} in${remark}`;
    case 'temperature':
      return `temperature ${formatTemperature(value, units)}${remark}`;
    case 'field-strength':
      return `field ${decimals(value, 2)} dB at ${event.subject}${event.band === undefined ? '' : ` on ${event.band}`}${power}${remark}`;
    case 'joint-resistance':
      return `joint "${event.subject}" ${decimals(value * 1e3, 1)} mohm${remark}`;
    case 'radial-current':
      return `current in radial ${event.subject} ${decimals(value * 1e3, 1)} mA${power}${remark}`;
    case 'inspection':
    case 'repair':
      return `${event.event} of "${event.subject}"${remark}`;
    case 'text':
      return `remark${remark}`;
  }
}

/** At most so many decimals, without trailing zeros. */
function decimals(value: number, most: number): string {
  return String(Number(value.toFixed(most)));
}
