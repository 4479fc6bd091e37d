// @ts-nocheck
import { createHash } from 'node:crypto';
import type { Tables } from '../calc/types.js';
import type { Procedure } from '../procedure/schema.js';

/** First 16 hex digits of SHA-256 over what the procedure says and what its tables hold. */
export function contentHash(procedure: Procedure, tables: Tables): string {
  const ordered = Object.keys(tables)
    .sort()
    .map((k) => tables[k]);
  return createHash('sha256')
    .update(JSON.stringify([procedure, ordered]))
    .digest('hex')
    .slice(0, 16);
}
