/** What a change would do, in words. */
import type { Impact } from '../../engine/state/impact.js';
import type { State } from '../../engine/state/state.js';
import { fillIn } from '../../engine/values/texts.js';
import type { Block } from '../look/line.js';
import { heading, paragraph, spans } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { changedFigures } from './changed-figures.js';

interface Told {
  /** Keys that are told elsewhere. */
  readonly skip?: readonly string[];
  /** So many figures at the most. */
  readonly most?: number;
  /** Of many only those that a step shows; the others are counted. */
  readonly brief?: boolean;
}

/** So many are read at one look. */
const FEW = 6;

/** What the steps that decide something show first. */
const decisions = ({ model }: State): ReadonlySet<string> =>
  new Set(model.procedure.steps.flatMap((s) => (s.decision ? (s.show ?? []).slice(0, 1) : [])));

export function impactBlocks(
  state: State,
  impact: Impact,
  { skip = [], most = 12, brief = false }: Told = {},
): Block[] {
  const at = (place: string): string => (place === 'job' ? '' : ` (${placeWords(state, place)})`);
  const told = impact.values.filter((v) => !skip.includes(v.key));
  const decided = decisions(state);
  // What is decided by first, then what a step shows. What only leads there says the same thing again.
  const rank = (v: (typeof told)[number]): number => (decided.has(v.key) ? 0 : v.shown ? 1 : 2);
  const all = changedFigures(
    state,
    [...told].sort((a, b) => rank(a) - rank(b)),
  );
  const matter = all.filter((v) => rank(v) < 2);
  const values = (brief && matter.length && all.length > FEW ? matter : all).slice(0, most);
  const left = all.length - values.length;
  if (!impact.steps.length && !impact.remedies.length && !values.length)
    return [paragraph('Nothing else changes.', { gap: true })];
  return [
    ...(impact.remedies.length ? [heading('Work already done that must be put right')] : []),
    ...impact.remedies.map((r) =>
      paragraph(`${r.view.step.title}${at(r.view.place)}: ${r.text}`, { rank: 1, indent: 2 }),
    ),
    ...(impact.steps.length ? [heading('Steps')] : []),
    ...impact.steps.map((s) => {
      const gate = impact.gates.find((g) => g.step === s.step && g.place === s.place && g.what === 'closes');
      const why = s.what === 'stopped' && gate ? `. ${gate.say}` : '';
      return paragraph(`${s.title}${at(s.place)}: ${s.what}${why}`, { rank: 2, indent: 2 });
    }),
    ...(values.length ? [heading('Figures')] : []),
    ...values.map((v) =>
      spans(
        [
          { text: `${fillIn(state.values, v.label, v.place)}${at(v.place)}  `, tone: 'quiet' },
          { text: v.old },
          { text: ' → ' },
          { text: v.now, tone: 'strong' },
        ],
        { rank: v.shown ? 2 : 4, indent: 2 },
      ),
    ),
    ...(left > 0
      ? [paragraph(`and ${left} other ${left === 1 ? 'figure' : 'figures'}`, { rank: 4, tone: 'quiet' })]
      : []),
  ];
}
