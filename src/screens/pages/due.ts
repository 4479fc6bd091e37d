/** What has to be looked at, and when; one key from the first screen. */
import { type Due, dueHeadings, dueList, dueWords, marksOf, today } from '../../life/due.js';
import type { App } from '../app-contract.js';
import type { Block } from '../look/line.js';
import type { Page, Stack } from '../page.js';
import { heading, paragraph } from '../words/blocks.js';
import { ReadingPage } from './reading-page.js';

/** The list, or a sentence where the jobs can't be read. */
function dueOf(app: App): readonly Due[] | string {
  const listed = app.jobs.list();
  return listed.ok ? dueList(marksOf(listed.value), today(app.now())) : listed.trouble.sentence;
}

export function duePage(app: App, stack: Stack): Page {
  const list = dueOf(app);
  const blocks = (): Block[] => {
    if (typeof list === 'string') return [paragraph(list, { tone: 'strong' })];
    if (list.length === 0) return [paragraph('No rotor has a next look yet. A finished job gives it one.')];
    return list.flatMap((d, i) => [
      ...(d.when === list[i - 1]?.when ? [] : [heading(dueHeadings[d.when])]),
      paragraph(dueWords(d), { indent: 2, tone: d.when === 'overdue' ? 'strong' : 'plain' }),
    ]);
  };
  return new ReadingPage({ name: 'due', head: 'What is due', blocks }, stack);
}
