/** Loose files that were taken within one state of the antenna. */
export interface FileGroup {
  /** The common name without folder, extension and shot number; the whole name where two would be the same. */
  readonly label: string;
  /** In the order of their shot numbers. */
  readonly names: readonly string[];
}

/**
 * Groups file names into visits: names that differ only in a trailing shot number are shots of one visit, every other
 * file is a visit of its own.
 *
 * A trailing shot number is the word `shot` (any case, not the end of a longer word), digits after it with at most
 * one of `-`, `_`, `.`, `#` or blanks between, and then only the extension: `visit1-shot2.csv`, `Shot_03.s1p`. A bare
 * number at the end is none: `visit1.csv` and `visit2.csv`, or two dates, are two visits.
 */
export function groupIntoVisits(names: readonly string[]): FileGroup[] {
  const groups = new Map<string, { stem: string; shots: { name: string; shot: number }[] }>();
  for (const name of names) {
    const parts = partsOf(name);
    const key =
      parts.shot === null ? name : JSON.stringify([parts.folder, parts.stem.toLowerCase(), parts.extension]);
    const group = groups.get(key) ?? { stem: parts.stem, shots: [] };
    group.shots.push({ name, shot: parts.shot ?? 0 });
    groups.set(key, group);
  }
  const found = [...groups.values()];
  const groupsOfStem = new Map<string, number>();
  for (const { stem } of found) groupsOfStem.set(stem, (groupsOfStem.get(stem) ?? 0) + 1);
  return found.map(({ stem, shots }) => ({
    label: (groupsOfStem.get(stem) ?? 0) > 1 ? (shots[0]?.name ?? stem) : stem,
    names: shots.sort((a, b) => a.shot - b.shot).map(({ name }) => name),
  }));
}

function partsOf(name: string): { folder: string; stem: string; extension: string; shot: number | null } {
  const [, folder = '', base = name] = /^(.*[\\/])?([^\\/]*)$/su.exec(name) ?? [];
  const [, whole = base, extension = ''] = /^(.+?)(\.[^.]*)?$/su.exec(base) ?? [];
  const found = /(?<!\p{L})shot[-_.# ]?(\d{1,9})$/iu.exec(whole);
  if (found === null) return { folder, stem: whole, extension: extension.toLowerCase(), shot: null };
  const stem = withoutSeparators(whole.slice(0, found.index));
  return {
    folder,
    stem: stem === '' ? 'shots' : stem,
    extension: extension.toLowerCase(),
    shot: Number(found[1]),
  };
}

/** A stem without the separators at its end; a pattern would look at long runs of them again and again. */
function withoutSeparators(stem: string): string {
  let end = stem.length;
  while (end > 0 && '-_. #'.includes(stem.charAt(end - 1))) end--;
  return stem.slice(0, end);
}
