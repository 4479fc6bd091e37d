/** A practice rotor on the screens in this process, to be worked by the same keys as the program in a terminal. */
import { onClock } from '../../src/commands/on-clock.js';
import { PracticeClock } from '../../src/commands/practice-clock.js';
import { Splitter } from '../../src/keys/splitter.js';
import { asPractised } from '../../src/training/absent.js';
import { debriefOf } from '../../src/training/debrief.js';
import { debriefLines } from '../../src/training/debrief-lines.js';
import { judgeInWords } from '../../src/training/expected.js';
import type { PracticeRotor } from '../../src/training/practice-rotor.js';
import type { Keyboard } from '../pty/drive.js';
import { keySequences } from '../pty/harness.js';
import { openBench } from '../screens/bench.js';
import { modelOfRotor, rotors } from './library.js';

/** Opens what `practice ROTOR` opens. */
export function onScreens(rotor: PracticeRotor): { term: Keyboard; clock: PracticeClock; end: () => void } {
  const model = modelOfRotor(rotor);
  const { title, story, procedure } = rotor;
  const phases = model.procedure.phases.slice(1);
  const b = openBench({
    model,
    start: { practice: rotor.id },
    app: {
      practices: () => [{ id: rotor.id, title, story, procedure, phases }],
      passTime: (minutes) => clock.pass(minutes),
      basisOf: () => {
        clock.knows(model);
        return { model, judge: judgeInWords, practice: asPractised(rotor) };
      },
      debrief: (state) => debriefLines(debriefOf(state, rotor, rotors)),
    },
  });
  /** What is let pass moves the clock by which the bench stamps its entries. */
  class BenchClock extends PracticeClock {
    override pass(minutes: number): void {
      b.clock.now += minutes * 60_000;
    }
  }
  const clock = new BenchClock(() => b.clock.now);
  const { create } = b.app.jobs;
  Object.assign(b.app.jobs, {
    create: async (...of: Parameters<typeof create>) => onClock(await create(...of), clock),
  });

  let typed = '';
  /** All that was typed, and then the frame that it brings. */
  const taken = async (): Promise<void> => {
    const splitter = new Splitter();
    const keys = [...splitter.push(Buffer.from(typed)), ...splitter.rest()];
    typed = '';
    for (const key of keys) await b.stack.press(key);
    if (keys.length) await b.ready();
  };
  const write = (data: string | Uint8Array): void => {
    typed += String(data);
  };
  const term: Keyboard = {
    write,
    press: (...keys) => write(keys.map((key) => (typeof key === 'string' ? keySequences[key] : key.text)).join('')),
    screen: b.screen,
    taken,
    rest: taken,
    readDanger: taken,
    async waitFor(wanted: Parameters<Keyboard['waitFor']>[0]) {
      await taken();
      return b.waitFor(wanted);
    },
  };
  return { term, clock, end: b.end };
}
