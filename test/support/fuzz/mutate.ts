import type { Random } from '../random.ts';
import { ODD_NUMBERS, ODD_WORDS } from './odd-words.ts';

/** What a mutation may draw upon besides the input itself. */
export interface Stock {
  /** Valid inputs, one character a byte. */
  readonly seeds: readonly string[];
  /** Words of the format, whose right place a random text would hardly ever find. */
  readonly words: readonly string[];
}

/** Most mutated inputs stay small, because small ones are quick and say as much. */
const USUAL_LIMIT = 1 << 16;

/** A block is repeated up to this size, to show what takes more than linear time. */
const PUMPED_CHARACTERS = 1 << 18;

/**
 * A valid input damaged by one to six mutations; text and result have one character a byte.
 * @param pumpedShare - of the inputs that are pumped up to a quarter of a megabyte
 */
export function mutate(random: Random, start: string, stock: Stock, pumpedShare: number): string {
  let text = start;
  const steps = 1 + below(random, 6);
  for (let i = 0; i < steps; i++) text = random.pick(MUTATIONS)(random, text, stock).slice(0, USUAL_LIMIT);
  return random.chance(pumpedShare) ? pump(random, text) : text;
}

/** A whole number from 0 to before `end`. */
export function below(random: Random, end: number): number {
  return Math.floor(random.between(0, end));
}

/** UTF-8 bytes of a text, one character each. */
export function byteText(text: string): string {
  return Buffer.from(text, 'utf8').toString('latin1');
}

/** An odd number, an odd word or a word of the format. */
export function oddToken(random: Random, words: readonly string[]): string {
  const from = random.pick([ODD_NUMBERS, ODD_WORDS, words]);
  return from.length === 0 ? '' : byteText(random.pick(from));
}

type Mutation = (random: Random, text: string, stock: Stock) => string;

const MUTATIONS: readonly Mutation[] = [
  flipBits,
  cutOut,
  truncate,
  insertNoise,
  repeatBlock,
  splice,
  replaceNumber,
  replaceNumber,
  insertToken,
  insertToken,
  replaceCell,
  replaceCell,
  swapDelimiter,
  nest,
  moveLine,
  dropLine,
  otherLineEnds,
  otherCase,
];

function flipBits(random: Random, text: string): string {
  if (text === '') return text;
  const at = below(random, text.length);
  return replaceAt(text, at, 1, String.fromCharCode(text.charCodeAt(at) ^ (1 << below(random, 8))));
}

function cutOut(random: Random, text: string): string {
  const [from, to] = range(random, text, 200);
  return text.slice(0, from) + text.slice(to);
}

function truncate(random: Random, text: string): string {
  return text.slice(0, below(random, text.length + 1));
}

function insertNoise(random: Random, text: string): string {
  const noise = Array.from({ length: 1 + below(random, 8) }, () => String.fromCharCode(below(random, 256)));
  return replaceAt(text, below(random, text.length + 1), 0, noise.join(''));
}

function repeatBlock(random: Random, text: string): string {
  const [from, to] = range(random, text, 100);
  return replaceAt(text, to, 0, text.slice(from, to).repeat(1 + below(random, 30)));
}

function splice(random: Random, text: string, { seeds }: Stock): string {
  const other = random.pick(seeds);
  return text.slice(0, below(random, text.length + 1)) + other.slice(below(random, other.length + 1));
}

function replaceNumber(random: Random, text: string): string {
  const numbers = [...text.slice(0, 20_000).matchAll(/[-+]?\d+(?:\.\d+)?/gu)];
  if (numbers.length === 0) return text;
  const { index, 0: found } = random.pick(numbers);
  return replaceAt(text, index, found.length, byteText(random.pick(ODD_NUMBERS)));
}

function insertToken(random: Random, text: string, { words }: Stock): string {
  const [from, to] = random.chance(0.5) ? range(random, text, 20) : [below(random, text.length + 1), 0];
  return replaceAt(text, from, Math.max(0, to - from), oddToken(random, words));
}

/** Puts something odd into one cell of one line. */
function replaceCell(random: Random, text: string, { words }: Stock): string {
  const lines = text.split('\n');
  const line = below(random, lines.length);
  const delimiter = random.pick([',', ';', '\t', ' ']);
  const cells = (lines[line] as string).split(delimiter);
  cells[below(random, cells.length)] = oddToken(random, words);
  lines[line] = cells.join(delimiter);
  return lines.join('\n');
}

function swapDelimiter(random: Random, text: string): string {
  const delimiters = [',', ';', '\t', ' ', '|', '.', ':', '\n'];
  return text.replaceAll(random.pick(delimiters), random.pick(delimiters));
}

function nest(random: Random, text: string): string {
  const bracket = random.pick(['[', '{', '(', '{"a":', '[[', '"', '<']);
  return replaceAt(
    text,
    below(random, text.length + 1),
    0,
    bracket.repeat(1 + below(random, random.chance(0.1) ? 20_000 : 300)),
  );
}

function moveLine(random: Random, text: string): string {
  const lines = text.split('\n');
  const [line] = lines.splice(below(random, lines.length), random.chance(0.5) ? 1 : 0);
  lines.splice(below(random, lines.length + 1), 0, line ?? random.pick(lines));
  return lines.join('\n');
}

function dropLine(random: Random, text: string): string {
  const lines = text.split('\n');
  lines.splice(below(random, lines.length), 1 + below(random, 3));
  return lines.join('\n');
}

function otherLineEnds(random: Random, text: string): string {
  return text.replaceAll(/\r?\n/gu, random.pick(['\r\n', '\r', '\n', '\n\n', '\n\r', '\u0085']));
}

function otherCase(random: Random, text: string): string {
  const [from, to] = range(random, text, 200);
  const part = text.slice(from, to);
  // Case changes that leave the bytes would be no bytes any more.
  const ascii = random.chance(0.5)
    ? part.replaceAll(/[a-z]/gu, (letter) => letter.toUpperCase())
    : part.replaceAll(/[A-Z]/gu, (letter) => letter.toLowerCase());
  return text.slice(0, from) + ascii + text.slice(to);
}

/** Repeats a block until the input is large. */
function pump(random: Random, text: string): string {
  const [from, to] = range(random, text, 80);
  const block = to > from ? text.slice(from, to) : random.pick([' ', '-', '"', ',', '[', '\n', '0']);
  return replaceAt(text, to, 0, block.repeat(Math.ceil(PUMPED_CHARACTERS / block.length)));
}

function range(random: Random, text: string, longest: number): [from: number, to: number] {
  const from = below(random, text.length + 1);
  return [from, Math.min(text.length, from + 1 + below(random, longest))];
}

function replaceAt(text: string, at: number, length: number, by: string): string {
  return text.slice(0, at) + by + text.slice(at + length);
}
