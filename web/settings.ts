import type { UnitSystem } from '../src/core/quantity.ts';

/** `auto` follows the system between light and dark. */
export const THEMES = [
  { name: 'auto', label: 'As the system' },
  { name: 'light', label: 'Light' },
  { name: 'dark', label: 'Dark' },
  { name: 'sunlight', label: 'Sunlight' },
] as const;

export type Theme = (typeof THEMES)[number]['name'];

/** What this reader chose, remembered where the browser lets us. */
export interface Settings {
  readonly theme: Theme;
  /** Null for the site's own. */
  readonly units: UnitSystem | null;
}

const KEY = 'turfwire';

export function loadSettings(): Settings {
  const kept = recall();
  return {
    theme: THEMES.find(({ name }) => name === kept['theme'])?.name ?? 'auto',
    units: kept['units'] === 'metric' || kept['units'] === 'imperial' ? kept['units'] : null,
  };
}

/** Browsers may refuse storage, for a page from a file above all; then the choice holds as long as the page. */
export function keepSettings(settings: Settings): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(settings));
  } catch {
    // held by the page alone
  }
}

function recall(): Record<string, unknown> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}');
    return typeof kept === 'object' && kept !== null ? (kept as Record<string, unknown>) : {};
  } catch {
    return {};
  }
}
