/** An open job whose clock is told when it begins, what is recorded, and when it ends. */
import type { JobSummary, OpenJob, Outcome } from '../screens/app-contract.js';
import type { PracticeClock } from './practice-clock.js';

export function onClock(opened: Outcome<OpenJob>, clock: PracticeClock): Outcome<OpenJob> {
  if (!opened.ok) return opened;
  const job = opened.value;
  clock.begin(job.entries);
  clock.worksOn('head' in job ? (job.head as { summary?: JobSummary }).summary : undefined);
  const value: OpenJob = {
    id: job.id,
    get name() {
      return job.name;
    },
    get entries() {
      return job.entries;
    },
    get readOnly() {
      return job.readOnly;
    },
    get whyReadOnly() {
      return job.whyReadOnly;
    },
    reread: () => job.reread?.() ?? false,
    append(drafts, summary) {
      clock.before(drafts);
      return job.append(drafts, summary && clock.noted(summary));
    },
    draftTexts: () => job.draftTexts(),
    setDraftTexts: (drafts) => job.setDraftTexts(drafts),
    close() {
      clock.end();
      return job.close();
    },
  };
  return { ...opened, value };
}
