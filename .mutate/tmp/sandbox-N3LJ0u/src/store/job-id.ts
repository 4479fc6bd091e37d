/** Names of jobs as file names that can't leave the data folder. */
// @ts-nocheck

import { randomBytes } from 'node:crypto';

const pattern = /^[a-z0-9][a-z0-9-]{0,59}-[a-z0-9]{8}$/;
const alphabet = 'abcdefghijkmnpqrstuvwxyz23456789';

/** Whether a text is an id that this store gave: never a path, never a reserved device name. */
export function isJobId(id: unknown): id is string {
  return typeof id === 'string' && pattern.test(id);
}

/** Eight characters that are easy to read aloud. */
export function randomTail(): string {
  return Array.from(randomBytes(8), (byte) => alphabet[byte % alphabet.length]).join('');
}

/** A new id: the name in plain letters, then eight random ones (so two jobs of one name never meet). */
export function newJobId(name: string, tail = randomTail()): string {
  const slug = name
    .slice(0, 400)
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 40)
    .replace(/^-+|-+$/g, '');
  return `${slug || 'job'}-${tail}`;
}
