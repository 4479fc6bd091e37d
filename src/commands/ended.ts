/** What a command prints and how it ends. */
import { codeOf } from '../guards/guards.js';
import { troubleOf } from '../store/trouble.js';
export interface Ended {
  readonly out?: string;
  readonly err?: string;
  readonly code: number;
}

export function notWritten(file: string, error: unknown, what = 'The sheet'): string {
  const code = codeOf(error);
  const kind = what === 'The folder' ? 'folder' : 'file';
  if (code === 'EEXIST') return `${file} is there already and is not overwritten; name another ${kind}.`;
  if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'EACCES' || code === 'EPERM' || code === 'EISDIR')
    return `${file} can’t be written; name a ${kind} in a folder that is there and yours.`;
  return troubleOf(error, `${what} could not be written to ${file}`, 'No part of it was left there.').trouble.sentence;
}
