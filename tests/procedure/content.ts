/** The shipped procedures, tables and parts, as they are compiled and as they are read with all that is wrong with them. */
import type { Shipped } from '../../src/library/library.js';
import { type FolderContent, readFolder } from '../../src/library/read-folder.js';
import { compiled } from '../setup/compiled.js';
import { root } from './library.js';

/** From the sources. It takes some seconds. */
export const fromSources = (): FolderContent => readFolder(`${root}procedures`);

const built = compiled<Shipped>('shipped');
const parts = compiled<FolderContent['parts']>('parts');
/** Compiled in the repository's folder, read from anywhere. */
const fromRoot = <T extends { readonly file: string }>(x: T): T => ({ ...x, file: `${root}${x.file}` });
export const content: Omit<FolderContent, 'problems'> =
  built && parts ? { ...built, procedures: built.procedures.map(fromRoot), parts: parts.map(fromRoot) } : fromSources();
