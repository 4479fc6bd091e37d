/** An invented procedure with every kind of question, caution, gate, wait and hold point, on a hand pump with two valves. */
import type { Entry } from '../../src/engine/journal/entry.js';
import { type Model, modelOf } from '../../src/procedure/model.js';
import { procedureSchema } from '../../src/procedure/schema.js';

const step = (id: string, more: Record<string, unknown>) => ({
  id,
  phase: 'work',
  at: 'job',
  title: `Title of ${id}`,
  do: `Do ${id} now.`,
  why: `Because of ${id}.`,
  ...more,
});

/** One step at a time, so that a test needs to walk nothing before it. */
export function pump(steps: readonly Record<string, unknown>[], more: Record<string, unknown> = {}): Model {
  const procedure = procedureSchema.parse({
    procedure: 'pump',
    version: '1.0.0',
    title: 'Hand pump',
    summary: 'An invented pump for tests.',
    places: [
      {
        id: 'valve',
        name: 'Valve',
        instances: [
          { id: 'a', label: 'Upper valve' },
          { id: 'b', label: 'Lower valve' },
        ],
      },
    ],
    phases: [{ id: 'work', title: 'Work' }],
    steps,
    ...more,
  });
  return modelOf(procedure, 'hash', tables, {});
}

export const tables = {
  sizes: {
    id: 'sizes',
    rows: ['6004', '6005', '6205', '6206'].map((id) => ({ id, tag: 'A' as const, source: 'invented' })),
  },
};

export const bore = {
  key: 'bore',
  kind: 'quantity',
  quantity: 'length',
  unit: 'mm',
  label: 'Bore',
  plausible: [5, 50],
  limits: [1, 500],
  plus_minus: 0.1,
};

export const asks = {
  choice: step('colour', {
    ask: [
      {
        key: 'colour',
        kind: 'choice',
        label: 'Colour',
        options: [
          { value: 'red', label: 'Red' },
          { value: 'blue', label: 'Blue', note: 'often' },
        ],
      },
    ],
  }),
  yesNo: step('leak', { ask: [{ key: 'leak', kind: 'yes-no', label: 'It leaks' }] }),
  quantity: step('bore', { ask: [bore], show: ['bore'] }),
  dimensions: step('block', {
    ask: [
      {
        key: 'block',
        kind: 'dimensions',
        parts: ['block_l', 'block_w', 'block_h'],
        unit: 'mm',
        label: 'Block',
        limits: [1, 100],
      },
    ],
  }),
  number: step('bolts', { ask: [{ key: 'bolts', kind: 'number', whole: true, label: 'Bolts', limits: [1, 20] }] }),
  text: step('words', { ask: [{ key: 'words', kind: 'text', label: 'Words' }] }),
  series: step('knocks', {
    ask: [
      {
        key: 'knocks',
        kind: 'series',
        label: 'Knocks',
        least: 2,
        most: 3,
        options: [
          { value: 'dull', label: 'Dull' },
          { value: 'ringing', label: 'Ringing' },
        ],
      },
    ],
  }),
  counter: step('turns', { ask: [{ key: 'turns', kind: 'counter', to: '3.0', label: 'Turns', unit: 'turns' }] }),
  table: step('size', {
    ask: [
      {
        key: 'size',
        kind: 'choice-from-table',
        table: 'sizes',
        label: 'Size',
        options: [{ value: 'not-listed', label: 'Not listed' }],
      },
    ],
  }),
  danger: step('danger', { hazard: true, caution: ['Hot steam. It burns at once.', 'Loud. Cover your ears.'] }),
  hold: step('held', {
    ask: [{ key: 'looked', kind: 'yes-no', label: 'Looked at it' }],
    hold: { say: 'The mentor looks too.', self_check: 'I looked twice.' },
  }),
  gated: step('gated', {
    ask: [{ key: 'tight', kind: 'yes-no', label: 'It is tight' }],
    gates: [{ id: 'tight', must: 'tight', say: 'Tighten it first.', overrule: 'with-reason' }],
  }),
  walled: step('walled', {
    ask: [{ key: 'safe', kind: 'yes-no', label: 'It is safe' }],
    gates: [{ id: 'safe', must: 'safe', say: 'Make it safe first.', overrule: 'never' }],
  }),
  end: step('end', { ask: [{ key: 'end_word', kind: 'text', label: 'Last word' }] }),
};

export { step };

/** The first entries of a job on it. */
export function begun(
  more: Partial<Extract<Entry, { kind: 'job' }>> = {},
  rest: readonly Record<string, unknown>[] = [],
): Entry[] {
  const first = {
    kind: 'job',
    name: 'Bench job',
    by: 'AP',
    procedure: 'pump',
    version: '1.0.0',
    hash: 'hash',
    seq: 1,
    at: '2026-03-02T08:00:00.000Z',
    ...more,
  };
  return [first, ...rest.map((r, i) => ({ by: 'AP', at: '2026-03-02T08:00:00.000Z', ...r, seq: i + 2 }))] as Entry[];
}
