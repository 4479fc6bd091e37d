/** Two or three lengths typed in one go, such as 12x9x4. */
import type { Controls } from '../../procedure/questions/kind.js';
import type { Line } from '../look/line.js';
import { type Asker, emptyInput, type Input } from './asker.js';
import { edit, fieldLines } from './edit-line.js';
import { nextUnit, unitNow, unitRow, unitsFor, withUnit } from './quantity.js';

type Q = Controls['lengths'];

const lengthUnits = (input: Input, { unit }: Q, last: string | undefined): Line => [
  { text: '  ' },
  ...unitRow(unitsFor('length', unit), unitNow(input, 'length', unit, last)),
];

export const askDimensions: Asker<Q> = {
  press(input, key, { question, unit }) {
    const units = unitsFor('length', question.unit);
    const now = unitNow(input, 'length', question.unit, unit);
    if (key.name === 'up' || key.name === 'down')
      return { input: { ...input, unit: nextUnit(units, now, key.name === 'down' ? 1 : -1) } };
    if (key.name === 'enter') {
      const bare = !/[a-wyz"'µ]/i.test(input.text);
      return {
        input,
        submit:
          bare && now !== question.unit
            ? withUnit(input.text.replace(/x/gi, '×'), now, question.unit, 'length')
            : input.text.trim(),
      };
    }
    // The star of a number pad stands for the sign between.
    const typed = key.name === 'char' && key.char === '*' ? { ...key, char: 'x' } : key;
    const edited = edit(input, typed, 60);
    return edited && { input: edited };
  },
  blocks: (input, { question, ascii, unit, brief }) => [
    { rank: 0, lines: (width) => fieldLines(input, width, ascii, true, unitNow(input, 'length', question.unit, unit)) },
    ...(brief && input.unit === ''
      ? []
      : [{ rank: 1, label: 'Unit', lines: () => [lengthUnits(input, question, unit)] }]),
    {
      rank: 4,
      lines: () => [
        [
          {
            text: `  ${question.parts.length} lengths with x or * between, such as ${question.parts.map(() => '10').join('x')}`,
            tone: 'quiet',
          },
        ],
      ],
    },
  ],
  hints: () => [
    { key: 'Enter', does: 'record', rank: 1, told: true },
    { key: '↑↓', does: 'unit', rank: 2, told: true },
  ],
  takesLetters: (input) => input.text !== '',
  keep: (input) => (input.text ? `${input.text}\n${input.unit}` : undefined),
  restore(kept) {
    const [text = '', unit = ''] = kept.split('\n');
    return { ...emptyInput, text, unit, at: [...text].length };
  },
};
