import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openStore } from '../../src/store/open-store.js';
import { unitField } from '../../src/store/preferences.js';
import { got, newFolder, troubleIn } from './sample-job.js';

test('preferences are kept, changed one by one, and forgotten', async () => {
  const folder = newFolder();
  expect(openStore(folder).preferences()).toEqual({});
  got(await openStore(folder).setPreferences({ initials: 'AB', bell: true }));
  got(await openStore(folder).setPreferences({ 'unit of bore': 'mm', 'a.b': 1 }));
  expect(openStore(folder).preferences()).toEqual({ initials: 'AB', bell: true, 'unit of bore': 'mm', 'a.b': 1 });
  got(await openStore(folder).setPreferences({ bell: undefined }));
  expect(openStore(folder).preferences()).toEqual({ initials: 'AB', 'unit of bore': 'mm', 'a.b': 1 });
});

test('two changes at once both count', async () => {
  const store = openStore(newFolder());
  await Promise.all([store.setPreferences({ bell: true }), store.setPreferences({ initials: 'AB' })]);
  expect(store.preferences()).toEqual({ bell: true, initials: 'AB' });
});

test('progress belongs to a person, however the initials are written', async () => {
  const store = openStore(newFolder());
  got(await store.setProgress('ab', { 'rotor.1': 3, dose: true }));
  got(await store.setProgress('__proto__', { dose: false }));
  got(await store.setProgress(' AB ', { dose: false }));
  expect(store.progress('AB')).toEqual({ 'rotor.1': 3, dose: false });
  expect(store.progress('CD')).toEqual({});
  expect(store.progress('constructor')).toEqual({});
  expect(store.progress('__proto__')).toEqual({ dose: false });
});

test.each(['', 'null', '{"bell":', '\0\0\0', '[]', '{"bell":"loud","initials":7,"deep":{"x":1}}'])(
  'preferences that read %j count as none and can be written again',
  async (text) => {
    const folder = newFolder();
    writeFileSync(join(folder, 'preferences.json'), text);
    const store = openStore(folder);
    expect(store.preferences()).toEqual({});
    got(await store.setPreferences({ initials: 'AB' }));
    expect(openStore(folder).preferences()).toEqual({ initials: 'AB' });
    expect(existsSync(join(folder, 'preferences.json.damaged'))).toBe(!text.startsWith('{"bell":"'));
  },
);

test('a unit that was once kept by kind of quantity stands beside no question', async () => {
  const folder = newFolder();
  const store = openStore(folder);
  writeFileSync(join(folder, 'preferences.json'), JSON.stringify({ initials: 'AB', 'unit length': 'in' }));
  expect(store.preferences()[unitField('length')]).toBeUndefined();
  got(await store.setPreferences({ [unitField('length')]: 'mm' }));
  expect(openStore(folder).preferences()).toMatchObject({ initials: 'AB', [unitField('length')]: 'mm' });
});

test('what can’t be saved is said, and nothing is kept of it', async () => {
  const file = join(newFolder(), 'file');
  writeFileSync(file, '');
  const store = openStore(file);
  const why =
    'because a file stands where the folder should be. Jobs are not touched. Move that file away and try again.';
  expect(troubleIn(await store.setPreferences({ bell: true })).sentence).toBe(`This setting could not be saved ${why}`);
  expect(troubleIn(await store.setProgress('AB', { dose: true })).sentence).toBe(
    `The progress could not be saved ${why}`,
  );
  expect([store.preferences(), store.progress('AB')]).toEqual([{}, {}]);
});
