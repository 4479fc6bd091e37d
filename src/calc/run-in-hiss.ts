/** How long a bearing hisses, and what is said of it. */
import { showDuration } from '../units/show.js';
import { type Reading, type Rules, type Said, say } from './run-in-said.js';

export class Hiss {
  /** Minutes that it has hissed while it turned; undefined: it does not. */
  minutes: number | undefined;

  /** Only a bearing that turns can tell that it hisses no more. */
  add(r: Reading, last: Reading | undefined): void {
    if (r.stage > 0 && r.sound !== 'hiss') this.minutes = undefined;
    else if (this.minutes !== undefined) this.minutes += last && last.stage > 0 ? r.minutes - last.minutes : 0;
    else if (r.stage > 0) this.minutes = 0;
  }
}

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
