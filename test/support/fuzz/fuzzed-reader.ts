import { UserError } from '../../../src/core/user-error.ts';

/** A reader under test: it may give a result or throw a UserError, whatever the bytes are. */
export interface FuzzedReader {
  readonly name: string;
  /** Valid inputs, from which the others are made. */
  readonly seeds: readonly Uint8Array[];
  /** Words of its format. */
  readonly words: readonly string[];
  readonly isJson?: boolean;
  /** Makes checksums of a text right again, so that the mutation gets past them; one character a byte. */
  readonly seal?: (text: string) => string;
  /**
   * Reads once, and looks at what came.
   * @throws UserError for what is refused, {@link WrongResult} for a result that may not be
   */
  read(bytes: Uint8Array): void;
}

/** The reader came back with something that breaks its contract. */
export class WrongResult extends Error {
  override readonly name = 'WrongResult';
}

/** @throws WrongResult */
export function require(holds: boolean, what: string): asserts holds {
  if (!holds) throw new WrongResult(what);
}

/** What an input showed. */
export interface Find {
  /** Alike for finds of one cause. */
  readonly signature: string;
  readonly error: unknown;
}

/** No message about an input needs to be longer, whatever the input holds. */
const LONGEST_MESSAGE = 20_000;

/** Reads one input; null when all is as it should be. */
export function tryInput(reader: FuzzedReader, bytes: Uint8Array): Find | null {
  try {
    reader.read(bytes);
    return null;
  } catch (error) {
    if (!(error instanceof UserError)) return { signature: signatureOf(error), error };
    if (error.message.length <= LONGEST_MESSAGE) return null;
    return { signature: `long message of ${error.code}`, error };
  }
}

/** The kind of error, and where in the sources it came from. */
function signatureOf(error: unknown): string {
  if (error instanceof WrongResult) return `${error.name}: ${error.message}`;
  if (!(error instanceof Error)) return String(error);
  const frame = /src\/[\w/.-]+\.ts:\d+/u.exec(error.stack ?? '')?.[0] ?? '';
  return `${error.name} ${frame}`;
}
