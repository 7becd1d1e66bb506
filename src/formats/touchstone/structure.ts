import { quoted } from '../../core/quoted.ts';
import { OpenReading, type ProblemList, wholeFile } from '../problem.ts';
import { type Token, type TouchstoneLine, touchstoneLines } from './lexer.ts';
import { type OptionLine, parseOptionLine } from './option-line.ts';

/** The parts of a Touchstone file, before its numbers are looked at. */
export interface TouchstoneStructure {
  readonly version: '1' | '2.0' | '2.1';
  readonly option: OptionLine;
  /** What the keywords say; null where there is no such keyword. */
  readonly ports: number | null;
  readonly frequencies: number | null;
  readonly referencesOhm: readonly number[] | null;
  readonly matrix: 'full' | 'lower' | 'upper';
  readonly data: readonly { readonly line: number; readonly tokens: readonly Token[] }[];
}

/**
 * Takes a file apart: version, option line, keywords, data lines. What the specification calls an error but leaves the
 * data readable is noted; what would leave their meaning open is refused.
 * Source: Touchstone File Format Specification 2.1 (2024).
 *
 * @throws UserError naming the line, where the file's meaning is open
 */
export function readStructure(text: string, problems: ProblemList): TouchstoneStructure {
  const reader = new StructureReader(problems);
  for (const line of touchstoneLines(text)) {
    if (!reader.take(line)) break;
  }
  return reader.result();
}

class StructureReader {
  readonly #problems: ProblemList;
  #version: TouchstoneStructure['version'] = '1';
  #option: OptionLine | null = null;
  #wrongOption: { line: number; wrong: string } | null = null;
  #ports: number | null = null;
  #frequencies: number | null = null;
  #references: Token[] | null = null;
  #referenceLine = 0;
  #matrix: TouchstoneStructure['matrix'] = 'full';
  readonly #data: { line: number; tokens: readonly Token[] }[] = [];
  #stage: 'head' | 'information' | 'data' | 'noise' | 'ended' = 'head';

  constructor(problems: ProblemList) {
    this.#problems = problems;
  }

  /** @returns false when nothing after this line matters */
  take(line: TouchstoneLine): boolean {
    if (this.#stage === 'ended') {
      this.#problems.note('text-after-end', 'text after [End] is not read', line.line);
      return false;
    }
    if (line.kind === 'keyword') this.#takeKeyword(line);
    else if (this.#stage === 'information' || this.#stage === 'noise') return true;
    else if (line.kind === 'option') this.#takeOption(line.line, line.text);
    else this.#takeData(line);
    return true;
  }

  result(): TouchstoneStructure {
    if (this.#option === null) {
      const { line, wrong } = this.#wrongOption ?? { line: 1, wrong: 'got none' };
      throw optionLineMissing(wrong, line);
    }
    if (this.#version !== '1') this.#completeVersion2();
    return {
      version: this.#version,
      option: this.#option,
      ports: this.#ports,
      frequencies: this.#frequencies,
      referencesOhm: this.#references?.map((token) => Number(token.text)) ?? null,
      matrix: this.#matrix,
      data: this.#data,
    };
  }

  #completeVersion2(): void {
    if (this.#ports === null) throw wholeFile('keyword-missing', 'needs [Number of Ports], got none', 1);
    if (this.#stage === 'head') throw wholeFile('keyword-missing', 'needs [Network Data], got none', 1);
    if (this.#references !== null && !referencesGood(this.#references, this.#ports)) {
      const came = this.#references.map((token) => token.text).join(' ');
      throw wholeFile(
        'reference-not-positive',
        `[Reference] needs ${this.#ports} real value(s) above 0 ohm, got ${quoted(came)}`,
        this.#referenceLine,
      );
    }
    if (this.#frequencies === null) {
      this.#problems.note('keyword-missing', 'needs [Number of Frequencies], got none');
    }
    if (this.#stage === 'data') {
      this.#problems.note('end-missing', 'needs [End] after the data, got none: the file may be cut short');
    }
  }

  #takeOption(line: number, text: string): void {
    const parsed = parseOptionLine(text);
    if (this.#option !== null) {
      this.#problems.note(
        'option-line-ignored',
        'only the first option line counts, this one is not read',
        line,
      );
    } else if ('wrong' in parsed) {
      this.#wrongOption ??= { line, wrong: parsed.wrong };
      this.#problems.note('option-line-skipped', `not taken as an option line: ${parsed.wrong}`, line);
    } else {
      this.#option = parsed;
    }
  }

  #takeData(line: { line: number; tokens: readonly Token[] }): void {
    if (this.#version !== '1' && this.#stage === 'head') {
      if (this.#references !== null && this.#references.length < (this.#ports ?? 0)) {
        this.#references.push(...line.tokens);
      } else {
        throw wholeFile('data-misplaced', 'needs [Network Data] before the numbers, got none', line.line);
      }
      return;
    }
    if (this.#option === null) {
      const wrong = this.#wrongOption;
      const skipped = wrong === null ? '' : ` (line ${wrong.line}: ${wrong.wrong})`;
      throw optionLineMissing(`got ${quoted(line.tokens[0]?.text ?? '')}${skipped}`, line.line);
    }
    this.#data.push({ line: line.line, tokens: line.tokens });
  }

  #takeKeyword(line: Extract<TouchstoneLine, { kind: 'keyword' }>): void {
    const { keyword, tokens } = line;
    if (line.indented) this.#problems.note('keyword-indented', 'a keyword should begin its line', line.line);
    if (this.#stage === 'information') {
      if (keyword === 'end information') this.#stage = 'head';
      return;
    }
    const argument = tokens[0]?.text ?? '';
    if (keyword !== 'version' && this.#version === '1') {
      throw wholeFile(
        'version-missing',
        `${quoted(`[${keyword}]`)} needs "[Version] 2.1" (or 2.0) as its first line, got none`,
        line.line,
      );
    }
    switch (keyword) {
      case 'version':
        this.#takeVersion(line.line, argument);
        break;
      case 'number of ports':
        this.#ports = countOf(line.line, keyword, argument);
        break;
      case 'number of frequencies':
        this.#frequencies = countOf(line.line, keyword, argument);
        break;
      case 'reference':
        this.#references = [...tokens];
        this.#referenceLine = line.line;
        break;
      case 'matrix format':
        this.#takeMatrix(line.line, argument.toLowerCase());
        break;
      case 'begin information':
        this.#stage = 'information';
        break;
      case 'network data':
        this.#stage = 'data';
        break;
      case 'noise data':
        this.#stage = 'noise';
        break;
      case 'end':
        this.#stage = 'ended';
        break;
      // Neither changes anything for the reflection of one port.
      case 'two port data order':
      case 'number of noise frequencies':
        break;
      default:
        throw wholeFile('keyword-unknown', `keyword ${quoted(`[${keyword}]`)} is not known here`, line.line);
    }
  }

  #takeVersion(line: number, version: string): void {
    if (version !== '2.0' && version !== '2.1') {
      throw wholeFile(
        'version-unknown',
        `[Version] ${quoted(version)} is not known: 2.0 and 2.1 are, and version 1 has no such line`,
        line,
      );
    }
    if (this.#data.length > 0) {
      throw wholeFile('version-late', '[Version] must be the first line, got it after the numbers', line);
    }
    if (this.#option !== null) {
      this.#problems.note('version-late', '[Version] should be the first line', line);
    }
    this.#version = version;
  }

  #takeMatrix(line: number, format: string): void {
    if (format === 'full' || format === 'lower' || format === 'upper') this.#matrix = format;
    else
      throw wholeFile(
        'matrix-unknown',
        `[Matrix Format] must be Full, Lower or Upper, got ${quoted(format)}`,
        line,
      );
  }
}

function optionLineMissing(came: string, line: number): Error {
  return new OpenReading(
    'option-line-missing',
    `needs an option line such as "# MHz S RI R 50" before the numbers: ${came}; it can be read as a plain table`,
    [{ columns: 'Hz,S11 dB,phase' }],
    { line, examples: true },
  );
}

function countOf(line: number, keyword: string, argument: string): number {
  if (/^[1-9]\d{0,6}$/u.test(argument)) return Number(argument);
  throw wholeFile('count-wrong', `[${keyword}] needs a whole number above 0, got ${quoted(argument)}`, line);
}

function referencesGood(tokens: readonly Token[], ports: number): boolean {
  return (
    tokens.length === ports && tokens.every(({ text }) => Number(text) > 0 && Number.isFinite(Number(text)))
  );
}
