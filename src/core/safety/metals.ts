import { didYouMean } from '../near-miss.ts';
import { quoted } from '../quoted.ts';
import { UserError } from '../user-error.ts';

/** A surface that meets another in a joint. For plated parts it is the plating that counts. */
export interface Metal {
  readonly metal: string;
  /** Anodic index in whole millivolts, so that 0.50 V − 0.35 V is exactly 0.15 V. */
  readonly anodicIndexMv: number;
  readonly status: 'published' | 'memory';
}

/**
 * Anodic indices: the higher of two corrodes.
 *
 * Values in use by industry for the groups of the standard, which themselves agree within 50 mV against a
 * saturated calomel electrode in sea water at room temperature. Where tables differ the status is `memory`:
 * aluminium castings and cadmium (0.80 to 0.95 V), hot-dip zinc (1.20 or 1.25 V).
 *
 * Source: MIL-DTL-14072F, sec. 3.13 and table VI.
 */
const METALS: readonly Metal[] = [
  { metal: 'gold', anodicIndexMv: 0, status: 'published' },
  { metal: 'rhodium-plate', anodicIndexMv: 50, status: 'published' },
  { metal: 'silver', anodicIndexMv: 150, status: 'published' },
  { metal: 'nickel-copper', anodicIndexMv: 150, status: 'published' },
  { metal: 'nickel', anodicIndexMv: 300, status: 'published' },
  { metal: 'titanium', anodicIndexMv: 300, status: 'published' },
  { metal: 'copper', anodicIndexMv: 350, status: 'published' },
  { metal: 'silver-solder', anodicIndexMv: 350, status: 'published' },
  { metal: 'low-brass', anodicIndexMv: 350, status: 'published' },
  { metal: 'brass', anodicIndexMv: 400, status: 'published' },
  { metal: 'bronze', anodicIndexMv: 400, status: 'published' },
  { metal: 'high-brass', anodicIndexMv: 450, status: 'published' },
  { metal: 'stainless-18-8', anodicIndexMv: 500, status: 'published' },
  { metal: 'stainless-12', anodicIndexMv: 600, status: 'published' },
  { metal: 'chromium-plate', anodicIndexMv: 600, status: 'published' },
  { metal: 'tin-plate', anodicIndexMv: 650, status: 'published' },
  { metal: 'tin-lead-solder', anodicIndexMv: 650, status: 'published' },
  { metal: 'lead', anodicIndexMv: 700, status: 'published' },
  { metal: 'aluminium-2000', anodicIndexMv: 750, status: 'published' },
  { metal: 'steel', anodicIndexMv: 850, status: 'published' },
  { metal: 'aluminium-6000', anodicIndexMv: 900, status: 'memory' },
  { metal: 'aluminium-cast', anodicIndexMv: 950, status: 'memory' },
  { metal: 'cadmium-plate', anodicIndexMv: 950, status: 'memory' },
  { metal: 'galvanised-steel', anodicIndexMv: 1200, status: 'memory' },
  { metal: 'zinc', anodicIndexMv: 1250, status: 'published' },
  { metal: 'magnesium', anodicIndexMv: 1750, status: 'published' },
  { metal: 'beryllium', anodicIndexMv: 1850, status: 'memory' },
];

const ALIASES: Readonly<Record<string, string>> = {
  'copper-clad-steel': 'copper',
  'phosphor-bronze': 'bronze',
  stainless: 'stainless-18-8',
  'stainless-steel': 'stainless-18-8',
  'stainless-304': 'stainless-18-8',
  'stainless-316': 'stainless-18-8',
  a2: 'stainless-18-8',
  a4: 'stainless-18-8',
  'tinned-copper': 'tin-plate',
  'tinned-brass': 'tin-plate',
  tin: 'tin-plate',
  tinned: 'tin-plate',
  solder: 'tin-lead-solder',
  aluminium: 'aluminium-6000',
  'aluminium-6061': 'aluminium-6000',
  'aluminium-6063': 'aluminium-6000',
  'aluminium-6082': 'aluminium-6000',
  'aluminium-2024': 'aluminium-2000',
  'cast-aluminium': 'aluminium-cast',
  'carbon-steel': 'steel',
  'mild-steel': 'steel',
  iron: 'steel',
  'cast-iron': 'steel',
  galvanised: 'galvanised-steel',
  'hot-dip-zinc': 'galvanised-steel',
  'zinc-plate': 'zinc',
};

/**
 * A metal by name; case, spaces, underscores and the other side's spelling (aluminum, galvanized) do not matter.
 * @throws UserError `metal-unknown`, with the near miss
 */
export function findMetal(name: string, field = 'metal'): Metal {
  const plain = name
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_]+/gu, '-')
    .replace('aluminum', 'aluminium')
    .replace('galvanized', 'galvanised');
  const found = METALS.find(({ metal }) => metal === (ALIASES[plain] ?? plain));
  if (found !== undefined) return found;
  const names = METALS.map(({ metal }) => metal);
  const near = didYouMean(plain, [...names, ...Object.keys(ALIASES)]);
  throw new UserError('metal-unknown', `needs one of ${names.join(', ')}, got ${quoted(name)}${near}`, {
    place: { field },
  });
}
