import type { AnySweep } from '../core/sweep/sweep.ts';
import { UserError } from '../core/user-error.ts';
import { looksCanonical, readCanonical } from './canonical.ts';
import { readCsv } from './csv/read.ts';
import { checkText, decodeText } from './decode-text.ts';
import { type Problem, ProblemList } from './problem.ts';
import type { ReadOptions } from './read-options.ts';
import { saysTouchstone, touchstoneName } from './touchstone/detect.ts';
import { readTouchstone } from './touchstone/read.ts';

type SweepFormat = 'turfwire' | 'touchstone' | 'csv';

/** What a file holds, and all there is to say about it. */
export interface ReadResult {
  /** Null for a file that is no text of any kind. */
  readonly format: SweepFormat | null;
  /** One for each time the frequency starts again; what could be read, even where problems were refused. */
  readonly sweeps: readonly AnySweep[];
  readonly problems: readonly Problem[];
}

/**
 * Reads the sweeps of a file of unknown origin. The content decides the format, the extension only where the content
 * leaves it open. No content makes it throw: what is wrong comes back as problems.
 *
 * @param name - of the file, for its extension
 * @throws UserError (command-line) only when an option itself is wrong
 */
export function readSweeps(bytes: Uint8Array, name: string, options: ReadOptions = {}): ReadResult {
  const problems = new ProblemList();
  return readText(decodeText(bytes, problems), name, options, problems);
}

/** As {@link readSweeps}, for text that is decoded already. */
export function readSweepText(text: string, name: string, options: ReadOptions = {}): ReadResult {
  const problems = new ProblemList();
  return readText(checkText(text, problems), name, options, problems);
}

/** One way to read a text; what is refused of it goes to `problems`, a refusal of the whole is thrown. */
type Reader = (text: string, name: string, options: ReadOptions, problems: ProblemList) => AnySweep[];

const READERS: Readonly<Record<SweepFormat, Reader>> = {
  turfwire: (text, _, options) => {
    const { plane, referenceOhm = options.instrumentReferenceOhm } = options;
    return [readCanonical(text, { plane, referenceOhm })];
  },
  touchstone: readTouchstone,
  csv: (text, _, options, problems) => readCsv(text, options, problems),
};

function readText(
  text: string | null,
  name: string,
  options: ReadOptions,
  problems: ProblemList,
): ReadResult {
  if (text === null) return { format: null, sweeps: [], problems: problems.list() };
  const [first, otherwise] = likelyFormats(text, name, options);
  const read = tryFormat(first, text, name, options);
  const { format, sweeps, own } =
    otherwise === undefined || !read.own.anyRefused ? read : tryFormat(otherwise, text, name, options);
  return { format, sweeps, problems: [...problems.list(), ...own.list()] };
}

function tryFormat(
  format: SweepFormat,
  text: string,
  name: string,
  options: ReadOptions,
): { format: SweepFormat; sweeps: AnySweep[]; own: ProblemList } {
  const own = new ProblemList();
  try {
    return { format, sweeps: READERS[format](text, name, options, own), own };
  } catch (error) {
    if (!(error instanceof UserError) || error.kind !== 'input') throw error;
    own.refuseBecause(error);
    return { format, sweeps: [], own };
  }
}

/**
 * The format to try, and the one whose complaints count if that fails. A file under our own header that is not quite
 * ours may still be a good table; a table may have got a Touchstone name.
 */
function likelyFormats(text: string, name: string, options: ReadOptions): [SweepFormat, SweepFormat?] {
  if (options.columns !== undefined) return ['csv'];
  if (looksCanonical(text)) return ['turfwire', 'csv'];
  if (saysTouchstone(text)) return ['touchstone'];
  return touchstoneName(name) ? ['csv', 'touchstone'] : ['csv'];
}
