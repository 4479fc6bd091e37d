/** What is said of a bearing that hisses. */
import { showDuration } from '../units/show.js';
import { type Reading, type Rules, type Said, say } from './run-in-said.js';

/** `minutes`: since it began to; `after`: where it goes on once it was looked at. */
export const hissing = (r: Reading, minutes: number, { longestHiss }: Rules, stage: number, after: string): Said =>
  minutes >= longestHiss
    ? say(
        'stop',
        stage,
        `it has hissed for ${showDuration(minutes)}: switch off, and have it opened only once it is locked out and proven dead; then ${after}`,
        { hissed: true, standing: true },
      )
    : say('hold', r.stage, 'a hiss: hold until it turns smooth; if it stays half an hour, switch off and report it');
