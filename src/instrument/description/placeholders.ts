import type { Grid } from '../codec/grid.ts';

const PLACEHOLDERS: Readonly<Record<string, (grid: Grid) => number>> = {
  startHz: ({ startHz }) => startHz,
  stopHz: ({ stopHz }) => stopHz,
  startKhz: ({ startHz }) => startHz / 1e3,
  stopKhz: ({ stopHz }) => stopHz / 1e3,
  startMhz: ({ startHz }) => startHz / 1e6,
  stopMhz: ({ stopHz }) => stopHz / 1e6,
  centreHz: ({ startHz, stopHz }) => (startHz + stopHz) / 2,
  spanHz: ({ startHz, stopHz }) => stopHz - startHz,
  stepHz: ({ startHz, stopHz, points }) => (stopHz - startHz) / (points - 1),
  points: ({ points }) => points,
};

/** What may stand in braces in a command. */
export const PLACEHOLDER_NAMES: readonly string[] = Object.keys(PLACEHOLDERS);

/** The names in braces that a command uses. */
export function placeholdersIn(command: string): string[] {
  return [...command.matchAll(/\{([^{}]*)\}/gu)].map(([, name]) => name as string);
}

/** A command with the figures of a sweep in place of its braces. */
export function fillPlaceholders(command: string, grid: Grid): string {
  return command.replace(/\{([^{}]*)\}/gu, (braces, name: string) =>
    String(PLACEHOLDERS[name]?.(grid) ?? braces),
  );
}
