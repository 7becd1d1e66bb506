/** A colour of the theme in force, for canvases, which do not read style sheets. */
export function themeColour(name: string): string {
  return getComputedStyle(document.documentElement).getPropertyValue(name).trim();
}
