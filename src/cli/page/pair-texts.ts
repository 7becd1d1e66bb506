/**
 * Walks along two documents of the same form, told in two systems of units, and notes under each text of the first what
 * the second says in its place, where the two differ.
 */
export function pairTexts(one: unknown, other: unknown, pairs: Map<string, string>): void {
  if (typeof one === 'string' && typeof other === 'string') {
    if (one !== other) pairs.set(one, other);
    return;
  }
  if (!isObject(one) || !isObject(other)) return;
  const keys = Object.keys(one);
  // Where one list has more than the other, nobody can tell which of them belong together.
  if (keys.length !== Object.keys(other).length) return;
  for (const key of keys) pairTexts(one[key], other[key], pairs);
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}
