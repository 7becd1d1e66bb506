import { lstat, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { UNFINISHED } from './disk.ts';

/** Files of one folder tree, told apart. Paths are relative to the logbook, with `/`. */
export interface Tree {
  readonly files: Set<string>;
  /** Links, and what is no plain file otherwise. */
  readonly links: string[];
  readonly unfinished: string[];
}

/** What is in a folder of the logbook and below it; links are told of, and never followed. */
export async function treeOf(folder: string, name: string): Promise<Tree> {
  const tree: Tree = { files: new Set(), links: [], unfinished: [] };
  const there = await lstat(join(folder, name)).catch(() => null);
  if (there?.isSymbolicLink()) tree.links.push(name);
  else if (there?.isDirectory()) await walk(folder, name, tree);
  return tree;
}

async function walk(folder: string, name: string, tree: Tree): Promise<void> {
  for (const entry of await readdir(join(folder, name), { withFileTypes: true })) {
    const path = `${name}/${entry.name}`;
    if (entry.isDirectory()) await walk(folder, path, tree);
    else if (!entry.isFile()) tree.links.push(path);
    else if (entry.name.endsWith(UNFINISHED)) tree.unfinished.push(path);
    else tree.files.add(path);
  }
}
