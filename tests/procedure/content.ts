/** The shipped procedures, tables and parts with all that is wrong with them, read from the sources. */
import { readFolder } from '../../src/library/read-folder.js';
import { root } from './library.js';

export const content = readFolder(`${root}procedures`);
