/** Text files that a person names. */
import { readFileSync, statSync } from 'node:fs';
import { codeOf } from '../guards/guards.js';

const MOST_BYTES = 2_000_000;

/** The text of a file, or why it can't be had. */
export function readText(path: string): { text: string } | { problem: string } {
  try {
    const stat = statSync(path);
    if (stat.isDirectory()) return { problem: `${path} is a folder; give a file.` };
    // A device or a pipe has no end, or never begins.
    if (!stat.isFile()) return { problem: `${path} is no ordinary file; give the path of one.` };
    const { size } = stat;
    if (size > MOST_BYTES)
      return { problem: `${path} is too large to be a text file of this kind; give one below 2 MB.` };
    return { text: readFileSync(path, 'utf8') };
  } catch (e) {
    const code = codeOf(e);
    if (code === 'ENOENT') return { problem: `There is no file ${path}; give the path of one that is there.` };
    if (code === 'ENAMETOOLONG') return { problem: 'There is no such file: its name is too long.' };
    if (code === 'EISDIR') return { problem: `${path} is a folder; give a file.` };
    return { problem: `${path} can’t be read (${code ?? 'unknown reason'}); check the right to read it.` };
  }
}
