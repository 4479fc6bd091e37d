/** What Enter takes is what the guide itself says: no stop of the same step may refuse it. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { propose } from '../../src/engine/actions/propose.js';
import { boundsOf } from '../../src/engine/actions/propose-answer.js';
import { replay } from '../../src/engine/replay/replay.js';
import { replaySchema } from '../../src/engine/replay/replay-file.js';
import { withDrafts } from '../../src/engine/state/impact.js';
import type { State } from '../../src/engine/state/state.js';
import { suggestionOf } from '../../src/engine/values/texts.js';
import { optionsOf } from '../../src/procedure/questions/index.js';
import { modelFor } from '../procedure/library.js';
import { long } from '../setup/size.js';
import { modelOfRotor, rotorNamed } from '../training/library.js';
import { closed } from './closures.js';
import { Job } from './good-job.js';

/** Steps that offer something, each with its place. */
const offering = (state: State): [step: string, place: string][] =>
  [...state.model.steps.values()]
    .filter((s) => s.ask?.some((q) => q.suggest !== undefined))
    .flatMap((s) => (s.at === 'job' ? ['job'] : ['a', 'b']).map((p): [string, string] => [s.id, p]));

/** What was offered, and by which stops it is refused. */
interface Met {
  readonly offered: Set<string>;
  readonly refused: Set<string>;
}

function look(then: State, { offered, refused }: Met): void {
  for (const [step, place] of offering(then)) {
    const view = then.view(step, place);
    const asked = view?.status === 'open' && view.wants === 'question' ? view.question : undefined;
    if (!view || asked?.suggest === undefined) continue;
    const text = suggestionOf(then.values, asked, place);
    offered.add(`${step}@${place}: ${text}`);
    if (text === undefined) continue;
    // In a log what is offered again was judged with the row before.
    const last = view.step.repeat && then.values.get(asked.key, place);
    if (last?.known && String(last.value) === text) continue;
    let now = then;
    const answer = (key: string, said: string): void => {
      const p = propose(now, { do: 'answer', step, place, key, text: said }, 'AP');
      if (p.ok) now = withDrafts(now, p.drafts);
      else refused.add(`${step}@${place}: ${said} is refused. ${p.message}`);
    };
    answer(asked.key, text);
    // A row is judged once it is whole: nothing else has changed since the last one.
    if (view.step.repeat)
      for (const q of view.step.ask ?? []) {
        const near = boundsOf(now, q, place).near;
        if (q !== asked && (!q.when || now.values.holds(q.when, place)))
          answer(q.key, near === undefined ? optionsOf(q, now.model.tables)[0]!.value : String(near));
      }
    const about = new RegExp(view.step.repeat ? '\\bahead_' : `\\b${asked.key}\\b`);
    for (const { gate } of now.view(step, place)?.gates ?? [])
      if (about.test(gate.must)) refused.add(`${step}@${place}: ${text} is refused by ${gate.id}`);
  }
}

/** A job may end at a stop: what was met until then counts. */
function metIn({ file, model }: Pick<Job, 'file' | 'model'>): Met {
  const met: Met = { offered: new Set(), refused: new Set() };
  replay(model, file, {}, (then) => look(then, met));
  return met;
}

const folder = new URL('../../procedures/practice/', import.meta.url).pathname;
const files = readdirSync(folder).filter((f) => f.endsWith('.replay.yaml'));
// Those that differ in what is offered.
const few = ['college-30kw.', 'stage-six.', 'two-tins.', 'coolant-line.caught.', 'glitter.caught.'];

describe('what is offered is refused by no stop of its own step', () => {
  it.each(files.filter((f) => long || few.some((x) => f.startsWith(x))))('in %s', (name) => {
    const file = replaySchema.parse(parse(readFileSync(`${folder}${name}`, 'utf8')));
    const rotor = /^(.+)\.(?:caught|fell)\./.exec(name)?.[1];
    const model = rotor ? modelOfRotor(rotorNamed(rotor)) : modelFor(file.procedure);
    const { offered, refused } = metIn({ file, model });
    expect([...refused]).toEqual([]);
    expect([...offered].join()).toContain('run-in-plan@job: 70 degC');
  });

  const plan = (more: Record<string, string>, grease = '120 C', run = '62 C'): Job =>
    new Job()
      .answer('grease-figures', 'job', { grease_max: grease })
      .answer('duty', 'job', { run_temp: run })
      .answer('run-in-plan', 'job', more);
  const shields = (): Job => closed({ front: 'shield', back: 'shield' });
  const small = (job: Job, at: string, filled: string): Job => {
    const step = job.step('volume-known', at);
    step.answers = { volume_by: 'weighed', spare_dry: '106.20 g', spare_filled: filled, spare_oil: '0.85 g/mL' };
    step.overrule = { gate: 'not-smaller', reason: 'weighed three times', initials: 'MN' };
    return job;
  };
  const doubtful = (job: Job): Job => {
    const why = { reason: 'the owner wants it', initials: 'MN' };
    job.drop((x) => ['run-in-log', 'standstill'].includes(x.step));
    const answers = { room_run_in: '21 C', sensor_at: 'ring', drive_way: 'by-hand', temp_limit: '45 C' };
    job.step('run-in-plan').answers = answers;
    for (const at of ['a', 'b']) {
      job.step('grease-fit', at).overrule = { gate: 'viscosity-window', ...why };
      job.step('cause', at).answers = { cause_is: 'unknown' };
      job.step('refit-back', at).overrule = { gate: 'cause-before-back', ...why };
      job.step('second-verdict', at).overrule = { gate: 'second-scrap', ...why };
      job.answer('raceway-look', at, { inside_findings: ['pitting'] });
    }
    job.answer('duty', 'job', { top_speed: '14300 rpm' });
    job.answer('grease-figures', 'job', { grease_type: 'general' });
    return job;
  };
  it.each<[string, string, () => Job]>([
    ['a grease good to less than the usual stop', 'run-in-plan@job: 66 degC', () => plan({}, '66 C', '55 C')],
    [
      'such a grease, sensors at the seat',
      'run-in-plan@job: 58 degC',
      () => plan({ sensor_at: 'seat' }, '58 C', '45 C'),
    ],
    ['steady running as hot as the grease is good for', 'run-in-plan@job: undefined', () => plan({}, '66 C', '66 C')],
    ['steady running hotter than the usual stop', 'run-in-plan@job: undefined', () => plan({}, '120 C', '75 C')],
    ['that, at the seat', 'run-in-plan@job: undefined', () => plan({ sensor_at: 'seat' }, '120 C', '65 C')],
    // 1.00 g of oil of 0.85 g/mL is 1.18 mL, 30 % of it 0.353 mL: to one digit it would be off by more than a tenth.
    ['a dose under half a millilitre', 'dose@b: 0.35 mL', () => small(new Job(), 'b', '107.20 g')],
    // 0.13 g is 0.153 mL, 30 % of it 0.046 mL: less than can be typed.
    ['a dose under a twentieth of a millilitre', 'dose@b: undefined', () => small(new Job(), 'b', '106.33 g')],
    ['two shields that stay', 'dose@a: 0.7 mL', shields],
    // 1.12 g is 1.32 mL, 20 to 22 % of it is 0.26 to 0.29 mL, a quarter of that 0.066 to 0.072 mL.
    ['a little behind two shields', 'dose@a: 0.07 mL', () => small(shields(), 'a', '107.32 g')],
    ['open bearings', 'dose@a: 3 mL', () => closed({ front: 'none', back: 'none' })],
    ['grease that does not last a day', 'next-inspection@job: undefined', () => doubtful(plan({}, '180 C', '109.9 C'))],
  ])('with %s', (_, offer, job) => {
    const { offered, refused } = metIn(job());
    expect([...refused]).toEqual([]);
    expect([...offered]).toContain(offer);
  });
});
