/** Gives property tests the seed of the run; fast-check prints it, and the way to the case, when one fails. */
import fc from 'fast-check';
import { seed } from './size.js';

fc.configureGlobal({ seed });
// As many lines as Node itself gives: Vitest asks for a hundred, and reading what is spoilt makes errors by the thousand.
Error.stackTraceLimit = 10;
