/** Practice that begins late: what comes before is done from the rotor as a careful person does it, and marked as such. */
import { propose } from '../engine/actions/propose.js';
import { State } from '../engine/state/state.js';
import type { OpenJob } from '../screens/app-contract.js';
import { FILLED_BY } from '../training/filled.js';
import { nextMove } from '../training/play.js';
import type { PracticeRotor } from '../training/practice-rotor.js';
import type { PracticeClock } from './practice-clock.js';

/** More entries than any whole job has before its last phase. */
const MOST = 1500;

/**
 * The bench is who works until then, so that nobody has to take over what it began.
 * @returns a sentence where it stands earlier than it should
 */
export async function fillTo(
  job: OpenJob,
  rotor: PracticeRotor,
  phase: string,
  clock: PracticeClock,
): Promise<string | undefined> {
  const first = job.entries[0];
  const hands = (initials: string) => job.append([{ kind: 'operator', initials, by: initials }]);
  const taken = await hands(FILLED_BY);
  const short = taken.ok ? await fill(job, rotor, phase, clock) : taken.trouble.sentence;
  const back = await hands(first?.by ?? FILLED_BY);
  return short ?? (back.ok ? undefined : back.trouble.sentence);
}

async function fill(
  job: OpenJob,
  rotor: PracticeRotor,
  phase: string,
  clock: PracticeClock,
): Promise<string | undefined> {
  const { model } = rotor;
  const phases = model.procedure.phases.map((p) => p.id);
  const until = phases.indexOf(phase);
  const short = 'It could not be filled in up to there; go on from here.';
  clock.knows(model);
  let before: State | undefined;
  for (let i = 0; i < MOST; i++) {
    const state: State = new State(model, job.entries, clock.now(), { before });
    before = state;
    const position = model.places.find((p) => p.parent === 'job' && state.values.takesPart(p.id))?.id ?? 'job';
    const view = state.available(position)[0];
    if (!view) {
      const left = Math.min(...state.waiting.map((w) => w.wait?.left ?? Number.POSITIVE_INFINITY));
      if (!Number.isFinite(left)) return undefined;
      clock.pass(Math.ceil(left / 60_000));
      continue;
    }
    if (phases.indexOf(view.step.phase) >= until) return undefined;
    try {
      const plan = { ...rotor.file.careful, mentor: state.ledger.job?.mentor ? 'DONE' : FILLED_BY };
      const move = nextMove(rotor, state, view, plan, FILLED_BY);
      const proposal = move === 'end' ? undefined : propose(state, move, FILLED_BY);
      if (!proposal?.ok) return short;
      const kept = await job.append(proposal.drafts);
      if (!kept.ok) return kept.trouble.sentence;
    } catch {
      // The plan says nothing of what stands here; a hand goes on.
      return short;
    }
  }
  return short;
}
