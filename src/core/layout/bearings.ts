/**
 * Bearings spread evenly from one to another, clockwise; both ends carry a radial, except on a full
 * circle, whose ends are one.
 *
 * @param toDeg - equal to `fromDeg`, or a whole turn from it, means the full circle
 * @returns `count` bearings, each from 0 to below 360; a single one lies in the middle
 */
export function bearingsBetween(fromDeg: number, toDeg: number, count: number): number[] {
  const arcDeg = asBearing(toDeg - fromDeg) || 360;
  const stepDeg = arcDeg === 360 ? 360 / count : arcDeg / (count - 1);
  if (count === 1) return [asBearing(fromDeg + (arcDeg === 360 ? 0 : arcDeg / 2))];
  return Array.from({ length: count }, (_, i) => asBearing(fromDeg + i * stepDeg));
}

/** An angle as a bearing from true north, from 0 to below 360. */
export function asBearing(angleDeg: number): number {
  const turned = angleDeg % 360;
  return turned < 0 ? turned + 360 : turned;
}
