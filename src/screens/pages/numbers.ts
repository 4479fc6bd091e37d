/** Where a number comes from: formula, numbers, inputs, sources, what makes it uncertain; inputs can be followed down. */

import type { SourceTag } from '../../calc/types.js';
import { type Derivation, derivation, type ShownSource } from '../../engine/state/derivation.js';
import type { StepView } from '../../engine/steps/board.js';
import { keysNamedIn, showKey } from '../../engine/values/texts.js';
import { isChar } from '../../keys/key.js';
import { kindOf } from '../../procedure/questions/index.js';
import type { Desk } from '../desk.js';
import type { Block } from '../look/line.js';
import type { Page } from '../page.js';
import { warningsAt } from '../step/warnings.js';
import { heading, paragraph, spans } from '../words/blocks.js';
import { labelOf } from '../words/entry-words.js';
import { timeOfDay } from '../words/times.js';
import { PickPage } from './pick-page.js';
import { ReadingPage } from './reading-page.js';

/**
 * What may be looked at before a prediction: for a figure that which it is worked out from, for a word only what a
 * person read. Its sisters, such as the reason for a verdict, would say it.
 */
export function openBeforeGuess(desk: Desk, view: StepView): (key: string) => boolean {
  if (view.wants !== 'predict') return () => true;
  const guessed = view.step.predict ?? [];
  const under = new Set<string>();
  const visit = (d: Derivation): void => {
    for (const i of d.inputs)
      if (!under.has(i.key)) {
        under.add(i.key);
        visit(i);
      }
  };
  for (const k of guessed) if (desk.model.keys.get(k)?.type === 'double') visit(derivation(desk.state, k, view.place));
  return (key) => {
    if (guessed.includes(key)) return false;
    const by = desk.model.keys.get(key)?.from.by;
    return under.has(key) || by === 'question' || by === 'rows' || by === 'earlier';
  };
}

/** Figures that a step shows, names or rests on; what would say a prediction is left out. */
export function figuresBehind(desk: Desk, view: StepView): string[] {
  const { step } = view;
  const open = openBeforeGuess(desk, view);
  const keys = [
    ...(step.show ?? []),
    ...keysNamedIn(step.do),
    ...(step.rests_on ?? []),
    ...view.answered.map((a) => a.question.key),
  ];
  return [...new Set(keys)].filter((k) => {
    const info = desk.model.keys.get(k);
    // A piece of a sentence that is left out here says nothing.
    const v = desk.state.values.get(k, view.place);
    if (!info || (v.known && v.value === '')) return false;
    return open(k) && !(info.from.by === 'question' && kindOf(info.from.question).control === 'words');
  });
}

export function numbersPage(desk: Desk, view: StepView): Page {
  const keys = figuresBehind(desk, view);
  const warnings = warningsAt(desk.state, view);
  const only = keys.length === 1 && warnings.length === 0 ? keys[0] : undefined;
  if (only) return derivationPage(desk, derivation(desk.state, only, view.place));
  return new PickPage(
    {
      name: 'numbers',
      head: `Where does it come from · ${view.step.title}`,
      title: 'Which figure?',
      above: () => warnings.map((w) => paragraph(w, { rank: 2, gap: true })),
      items: () =>
        keys.map((k) => ({
          value: k,
          label: `${labelOf(desk.state, k, view.place)}: ${showKey(desk.state.values, k, view.place, true)}`,
        })),
      picked: (key) => {
        desk.stack.push(derivationPage(desk, derivation(desk.state, key, view.place)));
        return true;
      },
    },
    desk.stack,
  );
}

/** Who read it, when, at which step. */
function reading(desk: Desk, d: Derivation): string {
  const when = d.at ? timeOfDay(Date.parse(d.at), desk.state.now, desk.app.terminal.zone) : '';
  const who = [d.step ? `step “${d.step}”` : '', when, d.by ?? ''].filter(Boolean).join(', ');
  const typed = d.typed && !d.shown.includes(d.typed) ? `; typed ${d.typed}` : '';
  switch (d.kind) {
    case 'reading':
      return `read: ${who}${typed}`;
    case 'corrected':
      return `corrected: ${who}${typed}; before it was ${d.before ?? 'not known'}; ${d.reason ?? ''}`;
    case 'assumed':
      return 'not asked or left empty: the procedure’s own value';
    case 'log':
      return `from the log${d.step ? ` “${d.step}”` : ''}`;
    case 'event':
      return `unforeseen event${who ? `, ${who}` : ''}`;
    case 'earlier-job':
      return 'from the earlier job';
    case 'rule':
      return 'a rule of the procedure';
    case 'calculation':
      return 'worked out';
    default:
      return 'not known';
  }
}

/** A source in a few words, for the line of an input; which handbook it is stands behind that line. */
const brief: Readonly<Record<SourceTag, string>> = {
  P: 'published',
  M: 'usual, verify',
  CP: 'common practice, no source',
  A: 'arithmetic',
  shop: 'the shop’s own',
};

/** Where an input comes from, and on what evidence. */
function origin(desk: Desk, d: Derivation): string {
  const evidence = [...new Set(d.sources.map((s) => brief[s.tag]))].filter((b) => b !== brief.A);
  return [reading(desk, d), ...evidence].join('; ');
}

/** Only what is published is cited; all else says openly what it is. */
function sourceLine(s: ShownSource): string {
  const cited = s.tag === 'P' ? ` [${brief.P}]` : '';
  return `${s.row ? `${s.row}: ` : ''}${s.says}${cited}`;
}

function sourceBlocks(d: Derivation): Block[] {
  const lines = d.sources.map(sourceLine);
  if (d.kind === 'rule' && lines.length === 0) lines.push('the procedure’s own rule');
  return lines.length ? [heading('Source'), ...lines.map((l) => paragraph(l, { indent: 2 }))] : [];
}

function derivationPage(desk: Desk, d: Derivation): Page {
  const inputs = d.inputs.slice(0, 9);
  // A figure of the procedure itself is no reading, whatever a reading of the same kind says.
  const fixed = d.run?.given.filter((g) => g.names.length === 0 && g.sources.length === 0) ?? [];
  const blocks = (): Block[] => [
    spans([{ text: `${d.label}${d.where ? ` (${d.where})` : ''}  ` }, { text: d.shown, tone: 'strong' }]),
    paragraph(reading(desk, d), { tone: 'quiet' }),
    ...(d.formula && d.kind === 'calculation' ? [heading('Formula'), paragraph(d.formula, { indent: 2 })] : []),
    ...(d.worked.length ? [heading('With these numbers'), ...d.worked.map((w) => paragraph(w, { indent: 2 }))] : []),
    ...(d.inputs.length || fixed.length ? [heading('From')] : []),
    ...d.inputs.map((i, n) => ({
      rank: 1,
      lines: spans(
        [
          { text: n < 9 ? `${n + 1}  ` : '   ', tone: 'strong' as const },
          {
            text: `${i.label}${i.where && i.place !== d.place ? ` (${i.where})` : ''}  `,
          },
          { text: i.shown, tone: 'strong' as const },
          { text: `  ${origin(desk, i)}`, tone: 'quiet' as const },
        ],
        { indent: 5 },
      ).lines,
    })),
    ...fixed.map((g) =>
      spans(
        [
          { text: `   ${g.label}  ` },
          { text: g.shown ?? '', tone: 'strong' as const },
          { text: '  fixed in the procedure', tone: 'quiet' as const },
        ],
        { indent: 5 },
      ),
    ),
    ...(d.dominant
      ? [
          heading('Uncertainty'),
          paragraph(
            `Most of it comes from ${d.dominant.label}${d.dominant.reading === d.dominant.label ? '' : ` (the reading: ${d.dominant.reading})`}.`,
          ),
        ]
      : []),
    ...(d.warnings.length ? [heading('Mind'), ...d.warnings.map((w) => paragraph(w))] : []),
    ...sourceBlocks(d),
  ];
  return new ReadingPage(
    {
      name: `derivation:${d.key}@${d.place}`,
      head: 'Where does it come from',
      blocks,
      hints: inputs.length
        ? [
            {
              key: inputs.length === 1 ? '1' : `1-${inputs.length}`,
              does: 'look behind that one',
              rank: 1,
            },
          ]
        : [],
      press(key) {
        const hit = isChar(key, '1', '2', '3', '4', '5', '6', '7', '8', '9') ? inputs[Number(key.char) - 1] : undefined;
        if (!hit) return false;
        desk.stack.push(derivationPage(desk, hit));
        return true;
      },
    },
    desk.stack,
  );
}
