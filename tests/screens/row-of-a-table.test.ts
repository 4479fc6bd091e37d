/** A row of a table is asked for by what the question calls it: only a bearing has its size on a ring. */
import { expect, it } from 'vitest';
import { askChoiceFromTable } from '../../src/screens/ask/choice-from-table.js';

const said = (more: object): unknown => {
  const question = { key: 'plug', kind: 'choice-from-table', label: 'Drain plug', table: 'plugs', ...more };
  const options = [
    { value: 'G1/4', label: 'G1/4' },
    { value: 'G3/8', label: 'G3/8' },
  ];
  const input = { text: '', cursor: 0, index: -1 };
  const press = askChoiceFromTable.press as unknown as (...given: unknown[]) => { say?: string };
  return press(input, { name: 'enter' }, { question, options }).say;
};

it('by its label, and as printed on the ring where that has letters behind it', () => {
  expect(said({})).toBe('Drain plug: type its beginning, or pick a line with the arrows, then Enter.');
  expect(said({ suffixes: [{ value: '2rs', label: 'Two seals' }] })).toBe(
    'Type the size as it stands on the ring, or pick a line with the arrows, then Enter.',
  );
});
