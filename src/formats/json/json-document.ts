import {
  findNodeAtLocation,
  getNodeValue,
  type Node,
  type ParseError,
  parseTree,
  printParseErrorCode,
} from 'jsonc-parser';
import { quoted } from '../../core/quoted.ts';
import { type Place, UserError } from '../../core/user-error.ts';

/** JSON text with the way back from a value to its place in the file. */
export interface JsonDocument {
  readonly value: unknown;
  /** Place of the value at a path of keys and indices; of the nearest outer value when it is missing. */
  placeOf(path: readonly (string | number)[]): Place;
}

/** A file that people write by hand is far smaller and flatter than this. */
const MAX_CHARACTERS = 1 << 20;
const MAX_DEPTH = 64;

/**
 * Parses strict JSON (no comments, no trailing commas). A key that stands twice in one object is refused,
 * because one of the two would be lost unseen.
 *
 * @throws UserError `json-too-large`, `json-syntax` or `json-key-twice`, with line and column
 */
export function parseJsonDocument(text: string, fileName: string): JsonDocument {
  const source = text.replace(/^\uFEFF/u, '');
  if (source.length > MAX_CHARACTERS || depth(source) > MAX_DEPTH) {
    throw new UserError('json-too-large', 'needs less than 1 MiB and fewer than 64 levels of brackets', {
      place: { file: fileName },
    });
  }
  const errors: ParseError[] = [];
  const root = parseTree(source, errors, { disallowComments: true, allowTrailingComma: false });
  const placeAt = (offset: number): Place => ({ file: fileName, ...lineAndColumn(source, offset) });
  const first = errors[0];
  if (first !== undefined || root === undefined) {
    const came = first === undefined ? 'nothing' : JSON.stringify(source.slice(first.offset).slice(0, 20));
    const what = first === undefined ? 'value expected' : inWords(printParseErrorCode(first.error));
    throw new UserError('json-syntax', `this is not JSON: ${what}, got ${came === '""' ? 'the end' : came}`, {
      place: placeAt(first?.offset ?? 0),
    });
  }
  refuseDoubleKeys(root, placeAt);
  return {
    value: getNodeValue(root),
    placeOf: (path) => {
      for (let length = path.length; length >= 0; length--) {
        const node = findNodeAtLocation(root, path.slice(0, length));
        if (node !== undefined) return placeAt(node.offset);
      }
      return { file: fileName };
    },
  };
}

/** An upper bound on the nesting: brackets inside of texts count too. */
function depth(text: string): number {
  let [open, deepest] = [0, 0];
  for (const [bracket] of text.matchAll(/[[\]{}]/gu)) {
    open += bracket === '[' || bracket === '{' ? 1 : -1;
    deepest = Math.max(deepest, open);
  }
  return deepest;
}

/** `CommaExpected` as `comma expected`. */
function inWords(code: string): string {
  return code.replaceAll(/(?<=[a-z])[A-Z]/gu, (letter) => ` ${letter}`).toLowerCase();
}

function lineAndColumn(text: string, offset: number): { line: number; column: number } {
  const before = text.slice(0, offset);
  const lineStart = before.lastIndexOf('\n') + 1;
  return { line: before.split('\n').length, column: offset - lineStart + 1 };
}

function refuseDoubleKeys(node: Node, placeAt: (offset: number) => Place): void {
  const seen = new Set<unknown>();
  for (const child of node.children ?? []) {
    if (node.type === 'object') {
      const key = child.children?.[0];
      if (key !== undefined && seen.has(key.value)) {
        throw new UserError(
          'json-key-twice',
          `${quoted(String(key.value))} appears twice in one object: keep one`,
          {
            place: placeAt(key.offset),
          },
        );
      }
      seen.add(key?.value);
    }
    refuseDoubleKeys(child, placeAt);
  }
}
