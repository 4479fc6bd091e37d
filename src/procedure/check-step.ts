/** Checks one step: its texts, cautions, figures, gates and questions. */
import { sayOf, whenOf } from './caution.js';
import { duplicates } from './check-names.js';
import { checkQuestion } from './check-question.js';
import type { Judge } from './judge.js';
import type { Code, Complain, Path } from './problem.js';
import type { Step } from './schema.js';

export function checkStep(s: Step, path: Path, judge: Judge, complain: Complain): void {
  const lacks = (code: Code, message: string, cure: string): void => complain(code, [...path, 'id'], message, cure);
  judge.expression(s.when, s.at, 'bool', [...path, 'when']);
  for (const name of ['title', 'do', 'why', 'otherwise', 'tell', 'mark', 'picture'] as const)
    judge.text(s[name], s.at, [...path, name]);
  judge.text(s.remedy, s.at, [...path, 'remedy'], true);
  judge.expression(s.no_remedy?.when, s.at, 'bool', [...path, 'no_remedy', 'when']);
  judge.text(s.no_remedy?.say, s.at, [...path, 'no_remedy', 'say']);
  judge.text(s.wait?.label, s.at, [...path, 'wait', 'label']);
  for (const name of ['say', 'self_check', 'own'] as const) judge.text(s.hold?.[name], s.at, [...path, 'hold', name]);
  judge.name(s.hold?.near?.key, s.at, [...path, 'hold', 'near', 'key']);
  (s.caution ?? []).forEach((c, j) => {
    const at = [...path, 'caution', j];
    judge.text(sayOf(c), s.at, typeof c === 'string' ? at : [...at, 'say']);
    judge.expression(whenOf(c), s.at, 'bool', [...at, 'when']);
  });
  if (s.hazard && !s.caution?.length)
    lacks(
      'hazard-without-caution',
      `The step “${s.id}” is marked as hazardous but has no caution.`,
      'Add “caution:” with what can hurt and how to prevent it.',
    );
  for (const list of ['show', 'predict', 'rests_on'] as const)
    (s[list] ?? []).forEach((k, j) => {
      judge.name(k, s.at, [...path, list, j]);
    });
  if (s.physical && s.rests_on?.length && !s.remedy)
    lacks(
      'remedy-missing',
      `The step “${s.id}” rests on figures but has no remedy.`,
      'Add “remedy:” with what to do when a figure changes after the work.',
    );
  if ((s.remedy || s.no_remedy) && !s.rests_on?.length)
    lacks(
      'remedy-without-figures',
      `The step “${s.id}” has a remedy but rests on no figure.`,
      'Add “rests_on:” with the keys, or take “remedy” out.',
    );
  if (s.decision && !s.rests_on?.length)
    lacks(
      'decision-without-figures',
      `The decision “${s.id}” does not say what it rests on.`,
      'Add “rests_on:” with the keys.',
    );
  if (s.decision && !s.ask?.length)
    lacks(
      'decision-without-question',
      `The decision “${s.id}” asks nothing.`,
      'Add “ask:” with the choice, or take “decision” out.',
    );
  if (s.rests_on?.length && !s.physical && !s.decision)
    lacks(
      'figures-without-work',
      `The step “${s.id}” rests on figures but is neither physical work nor a decision.`,
      'Add “physical: true” or “decision: true”, or take “rests_on” out.',
    );
  if (s.alike && (!s.ask?.length || s.repeat || s.decision || s.at === 'job'))
    lacks(
      'alike-not-possible',
      `The step “${s.id}” can’t be taken over from another place.`,
      'Take “alike” out: it is for questions of a bearing or a seal that are no log and no decision.',
    );
  if (s.brief !== undefined && (s.hazard || (s.brief === '' && !s.ask?.length)))
    complain(
      'brief-not-possible',
      [...path, 'brief'],
      s.hazard ? `The step “${s.id}” is hazardous: its work is told whole.` : `The step “${s.id}” would say nothing.`,
      s.hazard ? 'Take “brief” out.' : 'Say in a few words what to do, or take “brief” out.',
    );
  judge.text(s.brief, s.at, [...path, 'brief']);
  judge.expression(s.fresh?.minutes, s.at, 'double', [...path, 'fresh', 'minutes'], 'duration');
  judge.text(s.fresh?.say, s.at, [...path, 'fresh', 'say']);
  if (s.repeat) judge.expression(s.repeat.until, s.at, 'bool', [...path, 'repeat', 'until']);
  judge.expression(s.repeat?.pause, s.at, 'double', [...path, 'repeat', 'pause'], 'duration');
  if (s.repeat && !s.ask?.length)
    complain(
      'log-without-questions',
      [...path, 'repeat'],
      'A log needs questions.',
      'Add “ask:” or take “repeat” out.',
      -1,
    );
  judge.expression(s.wait?.minutes, s.at, 'double', [...path, 'wait', 'minutes'], 'duration');
  for (const [k, e] of Object.entries(s.draw?.with ?? {}))
    judge.expression(e, s.at, undefined, [...path, 'draw', 'with', k]);
  checkGates(s, path, judge, complain);
  (s.ask ?? []).forEach((q, j) => {
    checkQuestion(q, s, [...path, 'ask', j], judge, complain);
  });
}

function checkGates(s: Step, path: Path, judge: Judge, complain: Complain): void {
  duplicates(
    (s.gates ?? []).map((g, j) => ({ name: g.id, path: [...path, 'gates', j, 'id'] })),
    'gate',
    complain,
  );
  (s.gates ?? []).forEach((g, j) => {
    const at = [...path, 'gates', j];
    judge.expression(g.when, s.at, 'bool', [...at, 'when']);
    judge.expression(g.must, s.at, 'bool', [...at, 'must']);
    judge.text(g.say, s.at, [...at, 'say']);
    if (g.id === 'wait' || g.id === 'fresh')
      complain(
        'name-reserved',
        [...at, 'id'],
        `No gate can be called “${g.id}”.`,
        'That name stands for the step’s own time.',
      );
  });
}
