/** The zone at the end of an ISO 8601 time. */
const ZONE = /(?:Z|([+-])(\d{2}):(\d{2}))$/u;

/** How far the clock by which a time was written is ahead of UTC, minutes; 0 without a zone. */
export function minutesAhead(iso: string): number {
  const [, sign, hours, minutes] = ZONE.exec(iso) ?? [];
  if (sign === undefined) return 0;
  return (sign === '-' ? -1 : 1) * (60 * Number(hours) + Number(minutes));
}

/** A moment as ISO 8601 on a clock so far ahead of UTC, to the second: `2026-03-01T10:15:00+01:00`. */
export function isoOnClock(timeMs: number, aheadMin: number): string {
  const local = new Date(timeMs + aheadMin * 60_000).toISOString().slice(0, 19);
  if (aheadMin === 0) return `${local}Z`;
  const two = (value: number): string => String(value).padStart(2, '0');
  const size = Math.abs(aheadMin);
  return `${local}${aheadMin < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}
