import { type Child, h } from '../dom.ts';

/** Sentences one under the other; nothing where there are none. */
export function proseList(sentences: readonly string[]): Child {
  if (sentences.length === 0) return null;
  return h(
    'ul',
    { class: 'prose' },
    sentences.map((sentence) => h('li', {}, withCommands(sentence))),
  );
}

/** Sentences under a heading, folded away until they are wanted. */
export function foldedList(heading: string, sentences: readonly string[]): Child {
  if (sentences.length === 0) return null;
  return h('details', {}, h('summary', {}, heading), proseList(sentences));
}

/** What stands between backticks in a sentence is a command. */
function withCommands(sentence: string): Child {
  return sentence.split(/`([^`]+)`/u).map((part, i) => (i % 2 === 0 ? part : h('code', {}, part)));
}
