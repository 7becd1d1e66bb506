/** What one column of a table is. */
export type Role =
  | 'frequency'
  | 'resistance'
  | 'reactance'
  | 'reactance-size'
  | 'impedance-size'
  | 'impedance-phase'
  | 'reflection-re'
  | 'reflection-im'
  | 'reflection-size'
  | 'reflection-db'
  /** Of which it is not said whether it is in dB. */
  | 'reflection'
  | 'reflection-phase'
  /** Of which it is not said what it is the phase of. */
  | 'phase'
  | 'return-loss'
  | 'swr'
  /** Of which it is not said what they are parts of. */
  | 're'
  | 'im'
  | 'size';

/** What a column holds, by its header. */
export interface ColumnMeaning {
  readonly role: Role;
  /** Lower case, as in {@link UNIT_WORDS}; null when the header says none. */
  readonly unit: string | null;
}

/** Spellings of units, all in lower case and after {@link plainWords}. */
const UNIT_WORDS: ReadonlyMap<string, string> = new Map(
  Object.entries({
    hz: 'hz',
    khz: 'khz',
    mhz: 'mhz',
    ghz: 'ghz',
    ohm: 'ohm',
    ohms: 'ohm',
    johm: 'ohm',
    kohm: 'kohm',
    kohms: 'kohm',
    db: 'db',
    deg: 'deg',
    degs: 'deg',
    degree: 'deg',
    degrees: 'deg',
    rad: 'rad',
    radian: 'rad',
    radians: 'rad',
  }),
);

const Z = '(?:z|z11|zin|zs|impedance)';
const S = '(?:s|s11|gamma|rho|reflection|reflectioncoefficient|reflcoeff|refl)';
const RE = '(?:re|real)';
const IM = '(?:im|imag|imaginary)';
const SIZE = '(?:mag|magnitude|abs|modulus|lin|linmag)';
const PHASE = '(?:phase|angle|ang|arg|theta|phi)';

/** `part(of)`, `part of`, `of part`, `of(part)`. */
function part(name: string, of: string): string {
  return `${name}\\(?${of}\\)?|${of}\\(?${name}\\)?`;
}

const FREQUENCY_UNITS = ['', 'hz', 'khz', 'mhz', 'ghz'];
const OHMS = ['', 'ohm', 'kohm'];
const ANGLES = ['', 'deg', 'rad'];

/** Role, its words, and the units that it may have (`''`: none); the first that fits is taken. */
const ROLES: readonly (readonly [role: Role, words: RegExp, units: readonly string[]])[] = [
  [
    'frequency',
    whole('f|freq|frequency|frequencies|frequenz|frequence|fréquence|frecuencia|frequenza|frequência'),
    FREQUENCY_UNITS,
  ],
  ['resistance', whole(`r|rs|rser|rseries|rin|resistance|seriesresistance|${part(RE, Z)}`), OHMS],
  ['resistance', whole(RE), ['ohm', 'kohm']],
  ['reactance', whole(`x|xs|xser|xseries|xin|jx|reactance|seriesreactance|${part(IM, Z)}`), OHMS],
  ['reactance', whole(IM), ['ohm', 'kohm']],
  ['reactance-size', whole(`\\|xs?\\||${part(SIZE, 'x')}`), OHMS],
  ['impedance-size', whole(`${Z}|\\|${Z}\\||${part(SIZE, Z)}`), OHMS],
  ['impedance-size', whole(SIZE), ['ohm', 'kohm']],
  ['impedance-phase', whole(part(PHASE, Z)), ANGLES],
  ['impedance-phase', whole(Z), ['deg', 'rad']],
  ['reflection-re', whole(part(RE, S)), ['']],
  ['reflection-im', whole(part(IM, S)), ['']],
  ['reflection-db', whole(`${S}|\\|${S}\\||${part(SIZE, S)}|${SIZE}|${part('logmag', S)}`), ['db']],
  ['reflection-db', whole(`${part('(?:db|logmag|magdb)', S)}|logmag`), ['', 'db']],
  ['reflection-size', whole(`\\|${S}\\||${part(SIZE, S)}`), ['']],
  ['reflection', whole(S), ['']],
  ['reflection-phase', whole(part(PHASE, S)), ANGLES],
  ['reflection-phase', whole(S), ['deg', 'rad']],
  ['phase', whole(PHASE), ANGLES],
  ['return-loss', whole('rl|returnloss|retloss'), ['', 'db']],
  ['re', whole(RE), ['']],
  ['im', whole(IM), ['']],
  ['size', whole(SIZE), ['']],
  ['swr', whole('v?swr(?:1|ratio)?|ros'), ['']],
];

/** No name of a column is longer; patterns are not tried on anything that is. */
const MAX_NAME_CHARACTERS = 80;

function whole(words: string): RegExp {
  return new RegExp(`^(?:${words})$`, 'u');
}

/** What the words over a column say of it, in many spellings with or without a unit; null when not understood. */
export function columnMeaning(header: string): ColumnMeaning | null {
  if (header.length > MAX_NAME_CHARACTERS) return null;
  const text = plainWords(header);
  for (const [words, unit] of splitsOff(text)) {
    const compact = words.replace(/[\s_:.,-]+/gu, '');
    if (compact === '' && unit !== null && FREQUENCY_UNITS.includes(unit)) return { role: 'frequency', unit };
    for (const [role, pattern, units] of ROLES) {
      if (units.includes(unit ?? '') && pattern.test(compact)) return { role, unit };
    }
  }
  return null;
}

/** True for a cell that holds nothing but a unit, as in a second header line. */
export function isUnitCell(cell: string): boolean {
  const text = plainWords(cell).replace(/^[([]|[)\]]$/gu, '');
  return text === '' || text === '-' || text === '1' || UNIT_WORDS.has(text);
}

/** Lower case, signs of the trade as words, no comment sign or quotes around it. */
function plainWords(header: string): string {
  return header
    .replace(/[Ωω\u2126]/gu, 'ohm')
    .replace(/[°º]/gu, 'deg')
    .replace(/[Γγρ]/gu, 'gamma')
    .replace(/[θϑφϕΦΘ∠]/gu, 'phase')
    .toLowerCase()
    .replace(/^[\s#!%"']+|[\s"']+$/gu, '');
}

/** The ways to take a header apart into words and unit: `R [ohm]`, `f / MHz`, `freq_hz`, `phase deg`, `rdb`. */
function* splitsOff(text: string): Generator<readonly [words: string, unit: string | null]> {
  const bracket = /^(.*?)\s*[([]\s*([^()[\]]+?)\s*[)\]]\s*$/u.exec(text);
  const slash = /^(.*?)\s*\/\s*(\S+)$/u.exec(text);
  const word = /^(.*?)(?:[\s_,:-]|\bin\b)+([a-z]+)$/u.exec(text);
  for (const match of [bracket, slash, word]) {
    const unit = UNIT_WORDS.get(match?.[2] ?? '');
    if (match !== null && unit !== undefined) yield [match[1] as string, unit];
  }
  // An ohm or degree sign that an encoding has mangled says nothing, but is no reason to refuse the column.
  const mangled = bracket !== null && /^(?:\?|[^a-z0-9%]{1,2})$/u.test(bracket[2] as string);
  if (mangled) yield [bracket[1] as string, null];
  yield [text, null];
  const alone = UNIT_WORDS.get(text);
  if (alone !== undefined) yield ['', alone];
  const glued = /^(.*?)(hz|khz|mhz|ghz|k?ohms?|db|deg|rad)$/u.exec(text);
  if (glued !== null && glued[1] !== '')
    yield [glued[1] as string, UNIT_WORDS.get(glued[2] as string) as string];
}
