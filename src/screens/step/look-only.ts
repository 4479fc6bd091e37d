/** A step of a job that can only be looked at: what comes next here, and nothing that asks for an answer. */
import { fillIn } from '../../engine/values/texts.js';
import type { Block } from '../look/line.js';
import { paragraph } from '../words/blocks.js';
import { alertBlock, type Moment, type MomentOf, momentId } from './moment.js';

const next = ({ desk, view }: MomentOf): string => {
  switch (view.wants) {
    case 'question':
      return view.question
        ? `the answer to “${fillIn(desk.state.values, view.question.label, view.place)}”`
        : 'the work of this step';
    case 'caution':
      return 'a caution, to be confirmed';
    case 'predict':
      return 'what the apprentice expects';
    case 'sign':
      return 'a signature';
    default:
      return 'the work of this step';
  }
};

export function lookMoment(of: MomentOf): Moment {
  const { desk, view } = of;
  return {
    where: momentId(view, 'look'),
    blocks(room): Block[] {
      if (view.wants === 'gate')
        return view.gates.map((g) => alertBlock(fillIn(desk.state.values, g.gate.say, view.place), room));
      return [paragraph(`Not done yet. What comes next here: ${next(of)}.`)];
    },
    hints: () => [],
    press(key) {
      if (key.name !== 'enter' && !(key.name === 'char' && /^[\d+]$/.test(key.char))) return undefined;
      desk.stack.say(desk.job.whyReadOnly ?? 'This job can only be looked at here.');
      return true;
    },
  };
}
