/** Everything that is reached from the first screen, in one part that is loaded on the way there. */
export { keysPage } from './pages/keys-page.js';
export { openJob } from './pages/open-job.js';
export { beginPage, practicePage } from './pages/practice.js';
export { duePage, startPage } from './pages/rotors.js';
