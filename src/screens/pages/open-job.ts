/** From a job's id to its desk. */
import type { Entry, Pace } from '../../engine/journal/entry.js';
import { FILLED_BY } from '../../engine/journal/initials.js';
import { isChar } from '../../keys/key.js';
import type { App, Offered, OpenJob } from '../app-contract.js';
import { Desk } from '../desk.js';
import type { Stack } from '../page.js';
import { StepPage } from '../step/step-page.js';
import { heading, paragraph } from '../words/blocks.js';
import { glancePage } from './glance.js';
import { beganLate, knownPage } from './known.js';
import { PickPage } from './pick-page.js';
import { ReadingPage } from './reading-page.js';

/**
 * Lays the desk on the stack; on return to a job first where everything stands.
 * @param recovered what was wrong with the file of the job: noted in it
 */
export async function layOut(
  app: App,
  stack: Stack,
  job: OpenJob,
  back: boolean,
  recovered?: string,
): Promise<boolean> {
  const basis = await app.basisOf(job.entries);
  if (typeof basis === 'string') {
    await job.close();
    stack.say(basis);
    return false;
  }
  const desk = new Desk(app, job, basis, stack);
  stack.popTo('home');
  stack.push(new StepPage(desk));
  await desk.lookAtClock();
  if (recovered && !job.readOnly) await desk.act({ do: 'note', place: 'job', text: `Recovered. ${recovered}` });
  if (back || job.readOnly) stack.push(glancePage(desk));
  if (!back && !job.readOnly && beganLate(desk)) stack.push(knownPage(desk));
  if (basis.notice) stack.say(basis.notice);
  if (app.idle) setImmediate(app.idle);
  return true;
}

/**
 * What the procedure says openly before its first step. There is no job until somebody has gone on from it.
 * @param begin makes the job, in the pace that was chosen
 */
export async function beforeYouBegin(
  stack: Stack,
  { title, notice }: Offered,
  begin: (pace: Pace) => Promise<void>,
): Promise<void> {
  if (!notice) return begin('learning');
  stack.push(
    new ReadingPage(
      {
        name: 'notice',
        head: 'Before you begin',
        blocks: () => [heading(title), paragraph(notice)],
        hints: [
          { key: 'Enter', does: 'go on', rank: 1 },
          { key: 'b', does: 'brisk, if you know the job', rank: 1 },
        ],
        async press(key) {
          const brisk = isChar(key, 'b');
          if (key.name !== 'enter' && !brisk) return false;
          await begin(brisk ? 'brisk' : 'learning');
          return true;
        },
      },
      stack,
    ),
  );
}

/** Typed by a person: neither its beginning nor what was filled in before a late start. */
const isOwn = ({ kind, by }: Entry): boolean => kind !== 'job' && kind !== 'operator' && by !== FILLED_BY;

/** A practice job that was set up for somebody: what is said openly before the first step nobody has read yet. */
async function seenFirst(app: App, stack: Stack, job: OpenJob, offered: Offered): Promise<boolean> {
  const { id } = job;
  await job.close();
  await beforeYouBegin(stack, offered, async (pace) => {
    const again = await app.jobs.open(id);
    if (!again.ok) return stack.say(again.trouble.sentence);
    const { by = '' } = again.value.entries[0] ?? {};
    if (pace === 'brisk') await again.value.append([{ kind: 'pace', pace, by }]);
    await layOut(app, stack, again.value, false);
  });
  return true;
}

/** @param damage what is wrong with its file, where it is to be recovered */
export async function openJob(app: App, stack: Stack, id: string, damage?: string): Promise<boolean> {
  const recover = damage !== undefined;
  const opened = await app.jobs.open(id, { recover });
  if (opened.ok) {
    const first = opened.value.entries[0];
    const begun = opened.value.readOnly || first?.kind !== 'job' || !first.practice || opened.value.entries.some(isOwn);
    const offered = begun ? undefined : app.procedures().find((o) => o.id === first.procedure);
    if (offered?.notice) return seenFirst(app, stack, opened.value, offered);
    const laid = await layOut(app, stack, opened.value, true, damage);
    if (laid && opened.notice) stack.say(opened.notice);
    return laid;
  }
  const { trouble } = opened;
  if (!trouble.offer || recover) {
    stack.say(trouble.sentence);
    return false;
  }
  stack.push(
    new PickPage(
      {
        name: 'recover',
        head: 'This job is damaged',
        above: () => [paragraph(trouble.sentence)],
        items: () => [
          { value: 'leave', label: 'Leave it as it is' },
          { value: 'recover', label: 'Recover what is readable; the damaged file is kept aside' },
        ],
        picked: (value) => {
          if (value === 'recover') return openJob(app, stack, id, trouble.sentence);
          stack.pop();
          return true;
        },
      },
      stack,
    ),
  );
  return false;
}
