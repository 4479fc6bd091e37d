/** The pace of the open job. */
// @ts-nocheck

import type { Desk } from '../desk.js';

export const isBrisk = (desk: Desk): boolean => desk.state.ledger.pace === 'brisk';
