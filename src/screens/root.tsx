/** The top of the tree: the one place that takes keys, and the page that lies on top. */
import { useInput, useStdout } from 'ink';
import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Terminal } from './app-contract.js';
import { toKeys } from './keys.js';
import { Frame } from './parts/frame.js';
import type { Session } from './session.js';

export function Root({ session, terminal }: { session: Session; terminal: Terminal }) {
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
  if (!page) return null;
  const { room } = session;
  const view = page.view(room);
  // In front, where it is never cut off: no page of a practice job can be taken for one of a real job.
  const practice = session.pages.some((p) => p.practice?.());
  const marked = practice ? { ...view, head: `PRACTICE · ${view.head}` } : view;
  return (
    <>
      {terminal.pacer?.({
        step: `${session.pages.length}:${page.name}:${page.step?.() ?? ''}`,
        typing: page.typing?.() ?? false,
        letters: (page.takesLetters ?? page.typing)?.call(page) ?? false,
      })}
      <Frame view={marked} room={room} message={session.message} />
    </>
  );
}
