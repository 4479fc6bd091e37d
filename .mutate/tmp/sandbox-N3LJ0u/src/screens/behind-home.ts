/** Everything that is reached from the first screen, in one part that is loaded on the way there. */
// @ts-nocheck

export { duePage } from './pages/due.js';
export { keysPage } from './pages/keys-page.js';
export { newJobPage } from './pages/new-job.js';
export { openJob } from './pages/open-job.js';
export { beginPage, practicePage } from './pages/practice.js';
