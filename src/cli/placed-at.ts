import type { ItuRegion } from '../core/site.ts';
import { type Band, type BandOverrides, DEFAULT_REGION, findBand } from '../core/sweep/bands.ts';
import { type Place, UserError } from '../core/user-error.ts';

/** Says where the trouble is that an error speaks of, as far as the error does not. */
export function placedAt<T>(known: Place, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    const { code, message, kind, place } = error;
    throw new UserError(code, message, { kind, place: { ...known, ...place }, cause: error });
  }
}

/** A band that `--band` names; the site's own were looked up when the site was read. */
export function bandAsked(
  name: string,
  region: ItuRegion | null | undefined,
  overrides?: BandOverrides,
): Band {
  return placedAt({ field: '--band' }, () => findBand(name, region ?? DEFAULT_REGION, overrides));
}
