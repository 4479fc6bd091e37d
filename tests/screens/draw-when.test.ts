/** When what changed is drawn: what is asked at once, letters that come together once. */
import { expect, it } from 'vitest';
import { whenToDraw } from '../../src/screens/draw-when.js';
import { PageStack } from '../../src/screens/page-stack.js';

/** A page that takes text; `!` puts another question there. */
async function typing(field: 'text' | 'none', confirm: 'none' | 'danger' = 'none') {
  const stack = new PageStack(
    () => ({ cols: 80, rows: 24, ascii: false, color: false, reader: false }),
    () => undefined,
  );
  let typed = '';
  let question = 1;
  stack.push({
    name: 'form',
    advance: () => ({ id: String(question), field, confirm }),
    view: () => ({ head: typed, body: [], foot: [] }),
    press: (key) => {
      if (key.char === '!') question++;
      else typed += key.char;
      return true;
    },
  });
  const drawn: string[] = [];
  const end = whenToDraw(stack)(() => drawn.push(stack.shown?.view.head ?? ''));
  const press = async (text: string): Promise<void> => {
    for (const char of text) {
      await stack.press({ name: 'char', char });
      await new Promise(setImmediate);
    }
  };
  // The page itself was drawn.
  await new Promise(setImmediate);
  drawn.length = 0;
  return { drawn, press, end, settled: () => new Promise((resolve) => setTimeout(resolve, 20)) };
}

it('letters that come together are drawn once, when the last was handed over', async () => {
  const { drawn, press, settled } = await typing('text');
  await press('a');
  await settled();
  drawn.length = 0;
  await press('bcdefgh');
  await settled();
  // On a busy machine once more each twentieth of a second.
  expect(drawn.length).toBeLessThan(7);
  expect(drawn.at(-1)).toBe('abcdefgh');
});

it('what else is asked is drawn before the next key is handed over', async () => {
  const { drawn, press } = await typing('text');
  await press('a');
  drawn.length = 0;
  await press('!');
  expect(drawn).toEqual(['a']);
});

it.each([
  ['none', 'none'],
  ['text', 'danger'],
] as const)('where %s is typed and %s is confirmed each key is drawn at once', async (field, confirm) => {
  const { drawn, press } = await typing(field, confirm);
  await press('abc');
  expect(drawn).toEqual(['a', 'ab', 'abc']);
});

it('draws no more once it has ended', async () => {
  const { drawn, press, end, settled } = await typing('text');
  await press('a');
  await settled();
  drawn.length = 0;
  await press('b');
  end();
  await press('c');
  await settled();
  expect(drawn.length).toBeLessThan(2);
});
