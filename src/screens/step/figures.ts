/** The figures of a step: what decides first, measured ones large where there is room. */

import { restsOnShop } from '../../engine/state/shop-mark.js';
import { lackedOf } from '../../engine/steps/look.js';
import { namedItems, predictionWords, showKey } from '../../engine/values/texts.js';
import { isBrisk } from '../desk.js';
import { bigQuantity } from '../look/big-figures.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Line, Room } from '../look/line.js';
import { lineWidth, wrap } from '../look/wrap.js';
import { labelOf } from '../words/entry-words.js';
import { alertBlock, answersAgain, type MomentOf, momentId } from './moment.js';
import { readBefore } from './read-before.js';

/** A mentor is to find something without looking: what the guide and the technician found stands back until then. */
export const findsFirst = ({ desk, view }: MomentOf): boolean =>
  view.wants === 'sign' &&
  view.step.hold?.own !== undefined &&
  desk.state.ledger.job?.mentor !== undefined &&
  desk.ready !== momentId(view, 'sign');

interface Figure {
  readonly label: string;
  readonly shown: string;
  readonly tail: string;
  readonly large: boolean;
  /** The same words were read at another place in this sitting. */
  readonly stood: boolean;
  /** One word that decides; stands out from sentences. */
  readonly verdict: boolean;
}

/** What made the first verdict, or what stops the step, stands before what did not: it is what one reads first. */
function decisiveFirst({ desk, view }: MomentOf): readonly string[] {
  const [head, ...rest] = view.step.show ?? [];
  if (head === undefined) return [];
  const gate = view.wants === 'gate' ? view.gates[0]?.gate.must : undefined;
  const asked = new Set(gate === undefined ? [] : desk.model.expression(gate).names);
  const first = desk.state.values.get(head, view.place);
  const weight = (key: string): number => {
    const v = desk.state.values.get(key, view.place);
    if (asked.has(key)) return 0;
    if (first.known && v.known && typeof v.value === 'string' && v.value === first.value) return 1;
    return !v.known && v.refusal !== undefined ? 1 : 2;
  };
  return [
    head,
    ...rest
      .map((key) => [weight(key), key] as const)
      .sort((a, b) => a[0] - b[0])
      .map(([, key]) => key),
  ];
}

/** Work of the hands whose figure has no value: nobody is to go by a guess instead. */
function lacking({ desk, view }: MomentOf, room: Room): Block[] {
  const lacked = view.wants === 'confirm' ? lackedOf(desk.state.values, view.step, view.place, undefined) : [];
  const labels = lacked.map((key) => labelOf(desk.state, key, view.place)).join(', ');
  const way = 'This work rests on it: do not go by a guess. Press n to see what it lacks.';
  return labels ? [alertBlock(`Not known: ${labels}. ${way}`, room)] : [];
}

/** Figures of the step. They would distract from a caution and give away what is to be predicted. */
export function figures(of: MomentOf, room: Room): Block[] {
  const { desk, view } = of;
  // What the answers so far came to is measured anew.
  if (view.wants === 'caution' || view.wants === 'predict' || findsFirst(of) || answersAgain(of)) return [];
  // What the step's own answers are still to bring would only be noise.
  const open = view.wants === 'question';
  const keys = decisiveFirst(of).filter((key) => {
    const v = desk.state.values.get(key, view.place);
    // Who knows the job is not told that there is nothing.
    if (isBrisk(desk) && v.known && v.value === '') return false;
    // What lacks nothing and is not known does not apply.
    return v.known || v.refusal !== undefined || (!open && v.missing.length > 0);
  });
  const folds = isBrisk(desk) && open && !view.step.repeat && !view.step.decision;
  const known = readBefore(desk, view)?.place;
  /** The same words stood there at another place. */
  const stood = (key: string): boolean => {
    const [here, there] = [view.place, known ?? view.place].map((p) => showKey(desk.state.values, key, p, true));
    return known !== undefined && here === there;
  };
  const list = keys.flatMap((key, i): Figure[] => {
    const value = desk.state.values.get(key, view.place);
    const refused = value.known ? undefined : value.refusal;
    const shown = refused ? `not known: ${refused}` : showKey(desk.state.values, key, view.place, true);
    const expected = view.ledger?.predictions.findLast((p) => p.key === key);
    const shop = restsOnShop(desk.state, key, view.place) ? '   (rests on the shop’s own row)' : '';
    const tail = `${expected ? `   (you expected ${predictionWords(desk.state.model, expected)})` : ''}${shop}`;
    const items = namedItems(desk.state.values, key, view.place, true);
    if (items)
      return items.map((item, n) => ({
        label: `${item.name}:`,
        shown: item.shown,
        tail: n === items.length - 1 ? tail : '',
        stood: false,
        verdict: false,
        large: false,
      }));
    const info = desk.model.keys.get(key);
    const figure: Figure = {
      label: labelOf(desk.state, key, view.place),
      shown,
      tail,
      stood: stood(key),
      verdict: i === 0 && info?.type === 'string' && value.known && /^\S{1,20}$/.test(shown),
      large:
        value.known &&
        info?.type === 'double' &&
        info.quantity !== undefined &&
        info.quantity !== 'count' &&
        !room.reader,
    };
    return [figure];
  });
  /** Of a log each sentence begins a line: while only its figures change, nothing moves. */
  const parts = (text: string): readonly string[] =>
    view.step.repeat && isBrisk(desk) ? text.split(/(?<=\.) (?=\p{Lu})/u) : [text];
  const small = (f: Figure, width: number): Line[] => {
    const [head = '', ...more] = parts(f.shown);
    const all = [
      ...wrap(
        [
          { text: `${f.label}${f.label.endsWith(':') || f.verdict ? ' ' : '  '}`, tone: 'quiet' },
          f.verdict ? { text: ` ${head} `, tone: 'invert' } : { text: head, tone: 'strong' },
          { text: f.tail, tone: 'quiet' },
        ],
        width,
        2,
      ),
      ...more.flatMap((text) => wrap([{ text: `  ${text}`, tone: 'strong' }], width, 2)),
    ];
    const first = all[0];
    // Its first line says what it is about; who wants the whole of it asks behind it.
    return (folds || f.stood) && first && all.length > 1 && !f.large
      ? [[...first, { text: ` ${glyphs(room.ascii).more} n`, tone: 'quiet' }]]
      : all;
  };
  const big = list.filter((f) => f.large);
  /** As many as fit beside one another are large; the others follow as lines. */
  const rows = (width: number): Line[] => {
    for (let n = Math.min(3, big.length); n > 0; n--) {
      const large = beside(big.slice(0, n), width, room.ascii);
      if (large) return [...large, ...big.slice(n).flatMap((f) => small(f, width))];
    }
    return big.flatMap((f) => small(f, width));
  };
  // What a hand sets, and what changes from row to row, has its line for itself.
  const close = isBrisk(desk) && !view.step.repeat && list.length >= CLOSE && !list.some((f) => f.label.endsWith(':'));
  const plain = (all: readonly Figure[], width: number): Line[] => all.flatMap((f) => small(f, width));
  const rest = list.filter((f) => !f.large);
  const bigBlock: Block[] = big.length
    ? [{ rank: 2, gap: true, lines: rows, small: (width) => (close ? packed(big, small, width) : plain(big, width)) }]
    : [];
  const restBlocks: Block[] = close
    ? [{ rank: 2, gap: true, lines: (width) => packed(rest, small, width) }]
    : rest.map((f, i): Block => ({ rank: 2, gap: i === 0, lines: (width) => small(f, width) }));
  const shownAll = list[0]?.large ? [...bigBlock, ...restBlocks] : [...restBlocks, ...bigBlock];
  // By its first figure something is decided.
  return [...lacking(of, room), ...shownAll.map((b, i) => ({ ...b, yields: i > 0 || !view.step.decision }))];
}

/** So many figures stand beside one another in the brisk pace where they fit, so that the question stays in sight. */
const CLOSE = 4;

/** Short figures beside one another, in their order. */
function packed(list: readonly Figure[], lines: (f: Figure, width: number) => Line[], width: number): Line[] {
  const out: Line[] = [];
  for (const f of list) {
    const own = lines(f, width);
    const last = out.at(-1);
    const both = last && own.length === 1 ? [...last, { text: '   ' }, ...(own[0] ?? [])] : undefined;
    if (both && lineWidth(both) <= width) out[out.length - 1] = both;
    else out.push(...own);
  }
  return out;
}

/** Large figures beside one another under their labels; undefined where they can't be drawn large. */
function beside(list: readonly Figure[], width: number, ascii: boolean): Line[] | undefined {
  const columns = list.map((f) => bigQuantity(f.shown, ascii, width));
  if (columns.some((c) => c.length < 3)) return undefined;
  const wide = list.map((f, i) =>
    Math.max(lineWidth([{ text: f.label + f.tail }]), ...(columns[i] ?? []).map((l) => lineWidth(l))),
  );
  const gap = 4;
  if (wide.reduce((a, b) => a + b, gap * (wide.length - 1)) > width) return undefined;
  const cell = (line: Line, i: number): Line => {
    const last = i === wide.length - 1;
    return last ? line : [...line, { text: ' '.repeat((wide[i] ?? 0) - lineWidth(line) + gap) }];
  };
  return [
    list.flatMap((f, i) => [...cell([{ text: f.label + f.tail, tone: 'quiet' }], i)]),
    ...[0, 1, 2].map((r) => columns.flatMap((c, i) => [...cell(c[r] ?? [], i)])),
  ];
}
