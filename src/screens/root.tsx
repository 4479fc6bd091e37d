/** The top of the tree: draws what the page on top shows. It takes no keys. */
import { useStdout } from 'ink';
import { useEffect, useSyncExternalStore } from 'react';
import type { PageStack } from './page-stack.js';
import { Frame } from './parts/frame.js';

export function Root({ stack }: { stack: PageStack }) {
  useSyncExternalStore(stack.subscribe, stack.version);
  const { stdout } = useStdout();
  useEffect(() => {
    const resized = (): void => stack.changed();
    stdout.on('resize', resized);
    return () => {
      stdout.off('resize', resized);
    };
  }, [stdout, stack]);
  const { shown } = stack;
  return shown ? <Frame {...shown} /> : null;
}
