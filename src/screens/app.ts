/** Puts the screens on a terminal: the first one at once, ink behind it. */
import type { App, OpenApp, Terminal } from './app-contract.js';
import { drawEarly } from './early-frames.js';
import { PageStack } from './page-stack.js';
import { homePage } from './pages/home.js';
import { screenOutput } from './screen-output.js';
import { warmUp } from './warm-up.js';

/** How often waits are looked at, in ms. */
const tick = 5000;
/** Nobody who answers the first frame at once takes longer, in ms. */
const quiet = 40;

const roomOf = (t: Terminal) => () => ({
  cols: t.stdout.columns || 80,
  rows: t.stdout.rows || 24,
  ascii: t.ascii,
  color: t.color ?? !process.env.NO_COLOR,
  reader: t.screenReader,
});

/** The stack with its first page; nothing is drawn yet. */
export function beginStack(app: App, ended: (code: number) => void): PageStack {
  const stack = new PageStack(roomOf(app.terminal), ended);
  stack.push(homePage(app, stack));
  if (app.start) {
    stack.opening = begin(app, stack, app.start).catch((error: unknown) =>
      stack.say(`This could not be opened: ${error instanceof Error ? error.message : String(error)}`),
    );
    stack.tellWhile(stack.opening);
  }
  return stack;
}

/** Goes on from the first screen to where it was asked to open. */
async function begin(app: App, stack: PageStack, start: NonNullable<App['start']>): Promise<void> {
  const { beginPage, openJob, practicePage } = await import('./behind-home.js');
  if ('job' in start) {
    await openJob(app, stack, start.job);
    return;
  }
  const rotor =
    app.practices().find((r) => r.id === start.practice) ??
    (start.practice ? await app.drawPractice?.(start.practice) : undefined);
  stack.push(rotor ? beginPage(app, stack, rotor, start.given) : practicePage(app, stack, start.given));
}

/** Draws again while something waits, and tells what has finished waiting. */
function watchWaits(stack: PageStack): () => void {
  const timer = setInterval(() => {
    if (stack.pages.some((p) => p.time?.())) stack.changed();
  }, tick);
  timer.unref();
  return () => clearInterval(timer);
}

/** Resolves when nothing has changed for a moment: loading ink holds up whoever presses a key meanwhile. */
async function quietTime(stack: PageStack): Promise<void> {
  for (let before = -1; before !== stack.version(); ) {
    before = stack.version();
    await new Promise((resolve) => setTimeout(resolve, quiet));
  }
}

export const openApp: OpenApp = (app) => {
  const { terminal } = app;
  let code = 0;
  let over = false;
  let unmount = (): void => undefined;
  const { stdout, redraw } = screenOutput(terminal.stdout);
  const stack = beginStack(app, (c) => {
    code = c;
    over = true;
    unmount();
  });

  async function show(): Promise<void> {
    // Straight into a job: the list of jobs does not flash up before it.
    await stack.opening;
    if (over) return;
    const early = terminal.screenReader ? undefined : drawEarly(stack, stdout);
    if (early) {
      terminal.keysTo(stack);
      await quietTime(stack);
    }
    const { mount } = await import('./on-ink.js');
    if (over) return;
    early?.end();
    const instance = mount(stack, { ...terminal, stdout: early?.stdout ?? stdout });
    if (!early) terminal.keysTo(stack);
    const ends = [watchWaits(stack), warmUp(stack)];
    unmount = instance.unmount;
    await instance.ended.finally(() => {
      for (const end of ends) end();
    });
  }
  const ended = show().then(async () => {
    await stack.closed;
    return code;
  });
  return {
    ended,
    redraw,
    unmount() {
      stack.quit(code);
      unmount();
    },
  };
};
