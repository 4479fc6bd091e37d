/** The top of the tree: draws what the page on top shows. It takes no keys. */
import { useStdout } from 'ink';
import { useEffect, useMemo, useSyncExternalStore } from 'react';
import { whenToDraw } from './draw-when.js';
import type { PageStack } from './page-stack.js';
import { Frame } from './parts/frame.js';

export function Root({ stack }: { stack: PageStack }) {
  useSyncExternalStore(
    useMemo(() => whenToDraw(stack), [stack]),
    stack.version,
  );
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
