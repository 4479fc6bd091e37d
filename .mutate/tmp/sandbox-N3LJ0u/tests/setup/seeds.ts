/** Gives property tests the seed of the run; fast-check prints it, and the way to the case, when one fails. */
// @ts-nocheck

import fc from 'fast-check';
import { seed } from './size.js';

fc.configureGlobal({ seed });
