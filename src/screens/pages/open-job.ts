/** From a job's id to its bench. */
import type { App, OpenJob } from '../app-contract.js';
import { Desk } from '../desk.js';
import type { Stack } from '../page.js';
import { StepPage } from '../step/step-page.js';
import { paragraph } from '../words/blocks.js';
import { glancePage } from './glance.js';
import { PickPage } from './pick-page.js';

/** Lays the bench on the stack; on return to a job first where everything stands. */
export async function layOut(app: App, stack: Stack, job: OpenJob, back: boolean): Promise<boolean> {
  const first = job.entries.find((e) => e.kind === 'job');
  const model = await app.modelFor(first?.kind === 'job' ? first.procedure : '');
  if (typeof model === 'string') {
    await job.close();
    stack.say(model);
    return false;
  }
  const desk = new Desk(app, job, model, stack);
  stack.popTo('home');
  stack.push(new StepPage(desk));
  if (back || job.readOnly) stack.push(glancePage(desk));
  return true;
}

export async function openJob(app: App, stack: Stack, id: string, recover = false): Promise<boolean> {
  const opened = await app.jobs.open(id, { recover });
  if (opened.ok) {
    const laid = await layOut(app, stack, opened.value, true);
    if (laid && opened.notice) stack.say(opened.notice, 'good');
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
          { value: 'recover', label: 'Have back what can be had; the damaged file is kept aside' },
        ],
        picked: (value) => {
          if (value === 'recover') return openJob(app, stack, id, true);
          stack.pop();
          return true;
        },
      },
      stack,
    ),
  );
  return false;
}
