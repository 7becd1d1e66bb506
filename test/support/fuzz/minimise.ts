/**
 * A smaller input that still shows the same: blocks are left out, large ones first, as long as that goes.
 * Source: A. Zeller, R. Hildebrandt, "Simplifying and isolating failure-inducing input", IEEE TSE 28 (2002), in part.
 *
 * @param shows - whether an input still shows it
 * @param tries - the most inputs that are tried
 */
export function minimise(bytes: Uint8Array, shows: (bytes: Uint8Array) => boolean, tries = 3000): Uint8Array {
  let smallest = bytes;
  let left = tries;
  for (let block = bytes.length >> 1; block >= 1; block >>= 1) {
    for (let from = 0; from < smallest.length && left > 0; left--) {
      const without = Buffer.concat([smallest.subarray(0, from), smallest.subarray(from + block)]);
      if (shows(without)) smallest = without;
      else from += block;
    }
  }
  return smallest;
}
