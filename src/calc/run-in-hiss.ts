/** What is said of a bearing that hisses. */
import { showDuration } from '../units/show.js';
import { type Reading, type Rules, type Said, say } from './run-in-said.js';

/** `minutes`: since it began to; `after`: where it goes on once it was looked at. */
export const hissing = (r: Reading, minutes: number, { longestHiss }: Rules, stage: number, after: string): Said =>
  minutes >= longestHiss
    ? say(
        'stop',
        stage,
        `it has hissed for ${showDuration(minutes)}: stop and look at seals, beads and cage; then ${after}`,
      )
    : say('hold', r.stage, 'a hiss: hold until it turns smooth; if it stays half an hour, stop and look');
