import { coverage } from '../core/proof/coverage.ts';
import { resonanceFor } from '../core/proof/figures.ts';
import type { ItuRegion, Site } from '../core/site.ts';
import { type Band, bandsOfRegion, DEFAULT_REGION } from '../core/sweep/bands.ts';
import type { AnySweep } from '../core/sweep/sweep.ts';
import { UserError } from '../core/user-error.ts';
import { visitsInBand } from '../core/visits-in-band.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { measuredInBand } from './logbook-visits.ts';
import { bandAsked } from './placed-at.ts';

/** What the command line says of bands. */
export interface BandFlags {
  /** Names with commas between them. */
  readonly band?: string;
  readonly region?: string;
}

/** The bands asked for, else those of the site; null where neither names one. */
export function bandsNamed(flags: BandFlags, site: Site | null): Band[] | null {
  const names = flags.band?.split(',') ?? site?.antenna.bands ?? [];
  return names.length === 0
    ? null
    : names.map((name) => bandAsked(name.trim(), regionOf(flags, site), site?.bandEdges));
}

/** The one band that sweeps are about: all cover it alone, or cross X = 0 in it alone. */
export function bandOfSweeps(sweeps: readonly AnySweep[], flags: BandFlags, site: Site | null): Band {
  const all = bandsOfRegion(regionOf(flags, site), site?.bandEdges);
  const covered = all.filter((band) => coverage(band, sweeps) !== null);
  const resonant = covered.filter((band) =>
    sweeps.some((sweep) => {
      const f = resonanceFor(sweep, band)?.frequencyHz ?? 0;
      return f >= band.fromHz && f <= band.toHz;
    }),
  );
  const [only] = covered.length === 1 ? covered : resonant.length === 1 ? resonant : [];
  if (only !== undefined) return only;
  const names = (bands: readonly Band[]): string => bands.map(({ band }) => band).join(', ');
  const touched = all.filter((band) => sweeps.some((sweep) => coverage(band, [sweep]) !== null));
  const message =
    covered.length > 0
      ? `needs a band, such as --band ${covered[0]?.band}; the sweeps have ${names(covered)} in common`
      : touched.length > 0
        ? `needs one band in all the sweeps, which have ${names(touched)} but none in common: sweep the same band before and after, or name one to see what each side says by itself`
        : 'needs a band, such as --band 40m; the sweeps reach no amateur band';
  throw new UserError('band-needed', message, { kind: 'command-line', place: { field: '--band' } });
}

/** The bands of a logbook: those asked for, else those of the site, else the ones that its visits are about. */
export async function bandsOfLogbook(flags: BandFlags, logbook: Logbook): Promise<Band[]> {
  const { site, visits } = logbook;
  const named = bandsNamed(flags, site);
  if (named !== null) return named;
  const held = bandsOfRegion(regionOf(flags, site), site.bandEdges).filter(
    (band) => visitsInBand(visits, band).length > 0,
  );
  if (held.length === 1) return held;
  const measured = await Promise.all(held.map((band) => measuredInBand(logbook, band)));
  const shots = measured
    .flatMap(({ states }) => states)
    .flatMap(({ visits: those }) => those.flatMap((v) => v.shots));
  return [bandOfSweeps(shots, flags, site)];
}

/** A band's name as it is kept. */
export function bandName(name: string, flags: BandFlags, site: Site | null): string {
  return bandAsked(name, regionOf(flags, site), site?.bandEdges).band;
}

/** The bands that the visits of a logbook hold: those of the site first, in its order. */
export function bandsMeasured({ site, visits }: Logbook): string[] {
  const held = bandsOfRegion(site.region ?? DEFAULT_REGION, site.bandEdges)
    .filter((band) => visitsInBand(visits, band).length > 0)
    .map(({ band }) => band);
  const named = site.antenna.bands.filter((band) => held.includes(band));
  return named.length > 0 ? named : held;
}

function regionOf({ region }: BandFlags, site: Site | null): ItuRegion {
  return (Number(region) || site?.region || DEFAULT_REGION) as ItuRegion;
}
