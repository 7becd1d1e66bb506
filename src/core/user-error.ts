/** Who has to act, which is also the exit code of a command (see {@link EXIT_CODES}). */
export type UserErrorKind = 'input' | 'command-line' | 'instrument' | 'logbook';

/** The exit code of each kind of error. */
export const EXIT_CODES: Readonly<Record<UserErrorKind, number>> = {
  input: 1,
  'command-line': 2,
  instrument: 3,
  logbook: 4,
};

/** Where the trouble is; every part that is known is given. Lines and columns count from 1. */
export interface Place {
  readonly file?: string | undefined;
  readonly line?: number | undefined;
  readonly column?: number | undefined;
  readonly field?: string | undefined;
}

/**
 * Something the user can mend. The message says what came and what is needed, in lower case and
 * without a final dot; the place says where. Anything else that is thrown is a bug.
 */
export class UserError extends Error {
  override readonly name = 'UserError';
  readonly kind: UserErrorKind;
  readonly code: string;
  readonly place: Place;

  /**
   * @param code - stable, kebab-case, for programs (`sweep-not-rising`)
   * @param message - for people: what is needed, what came
   * @param options - `kind` defaults to `input`; `cause` keeps the origin
   */
  constructor(
    code: string,
    message: string,
    options: { kind?: UserErrorKind; place?: Place; cause?: unknown } = {},
  ) {
    super(message, options.cause === undefined ? {} : { cause: options.cause });
    this.code = code;
    this.kind = options.kind ?? 'input';
    this.place = options.place ?? {};
  }
}

/** `file:line:column: field: ` as far as known, or the empty string. */
export function describePlace(place: Place): string {
  const spot = [place.file, place.line, place.line === undefined ? undefined : place.column]
    .filter((part) => part !== undefined)
    .join(':');
  const parts = [spot.replaceAll(/[\r\n]+/gu, ' '), place.field ?? ''].filter((part) => part !== '');
  return parts.length === 0 ? '' : `${parts.join(': ')}: `;
}
