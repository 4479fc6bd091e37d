/** The top of the tree: the one place that takes keys, and the page that lies on top. */
// @ts-nocheck

import { useInput, useStdout } from 'ink';
import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Pacer } from './app-contract.js';
import { toKeys } from './keys.js';
import { Frame } from './parts/frame.js';
import type { Session } from './session.js';
import { shownOn } from './shown.js';

export function Root({ session, pacer }: { session: Session; pacer?: Pacer | undefined }) {
  useSyncExternalStore(session.subscribe, session.version);
  const { stdout } = useStdout();
  const [, setSize] = useState('');
  useEffect(() => {
    const resized = (): void => setSize(`${stdout.columns}x${stdout.rows}`);
    stdout.on('resize', resized);
    return () => {
      stdout.off('resize', resized);
    };
  }, [stdout]);
  // Reads and writes the session itself, never a value of an earlier frame.
  useInput((input, key) => {
    for (const k of toKeys(input, key)) session.press(k);
  });
  const page = session.top;
  const shown = shownOn(session);
  if (!page || !shown) return null;
  return (
    <>
      {pacer?.({
        step: `${session.pages.length}:${page.name}:${page.step?.() ?? ''}`,
        typing: page.typing?.() ?? false,
        letters: (page.takesLetters ?? page.typing)?.call(page) ?? false,
        enterOnlyCloses: page.enterOnlyCloses?.() ?? false,
        careful: page.careful?.() ?? false,
      })}
      <Frame {...shown} />
    </>
  );
}
