import type { Measure } from './figures.ts';

/** Computes something when it is first wanted. */
export function once<T>(compute: () => T): () => T {
  let found: { readonly value: T } | null = null;
  return () => {
    found ??= { value: compute() };
    return found.value;
  };
}

/** Computes something of each measure when it is first wanted. */
export function oncePerMeasure<T>(compute: (measure: Measure) => T): (measure: Measure) => T {
  const found = new Map<Measure, () => T>();
  return (measure) => {
    const known = found.get(measure) ?? once(() => compute(measure));
    found.set(measure, known);
    return known();
  };
}
