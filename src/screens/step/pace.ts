/** The pace of the open job. */
import type { Desk } from '../desk.js';

export const isBrisk = (desk: Desk): boolean => desk.state.ledger.pace === 'brisk';
