/** Puts the screens on a terminal: the first one at once, ink behind it. */
// @ts-nocheck

import type { App, OpenApp, Terminal } from './app-contract.js';
import { drawFirstFrame } from './first-frame.js';
import { homePage } from './pages/home.js';
import { screenOutput } from './screen-output.js';
import { Session } from './session.js';
import { warmUp } from './warm-up.js';

/** How often waits are looked at, in ms. */
const tick = 5000;

const roomOf = (t: Terminal) => () => ({
  cols: t.stdout.columns || 80,
  rows: t.stdout.rows || 24,
  ascii: t.ascii,
  color: t.color ?? !process.env.NO_COLOR,
  reader: t.screenReader,
});

/** A session with its first page; nothing is drawn yet. */
export function beginSession(app: App, ended: (code: number) => void): Session {
  const session = new Session(roomOf(app.terminal), ended, app.terminal.hold);
  session.push(homePage(app, session));
  if (app.start) {
    session.opening = begin(app, session, app.start).catch((error: unknown) =>
      session.say(`This could not be opened: ${error instanceof Error ? error.message : String(error)}`),
    );
    session.tellWhile(session.opening);
  }
  return session;
}

/** Goes on from the first screen to where it was asked to open. */
async function begin(app: App, session: Session, start: NonNullable<App['start']>): Promise<void> {
  const { beginPage, openJob, practicePage } = await import('./behind-home.js');
  if ('job' in start) {
    await openJob(app, session, start.job);
    return;
  }
  const rotor = app.practices().find((r) => r.id === start.practice);
  session.push(rotor ? beginPage(app, session, rotor) : practicePage(app, session));
}

/** Draws again while something waits, and tells what has finished waiting. */
function watchWaits(session: Session): () => void {
  const timer = setInterval(() => {
    if (session.pages.some((p) => p.time?.())) session.changed();
  }, tick);
  timer.unref();
  return () => clearInterval(timer);
}

export const openApp: OpenApp = (app) => {
  const { terminal } = app;
  let code = 0;
  let over = false;
  let unmount = (): void => undefined;
  const { stdout, redraw } = screenOutput(terminal.stdout);
  const session = beginSession(app, (c) => {
    code = c;
    over = true;
    unmount();
  });

  async function show(): Promise<void> {
    // Straight into a job: the list of jobs does not flash up before it.
    await session.opening;
    if (over) return;
    // Keys that come from now on wait until ink takes them.
    const output = terminal.screenReader ? stdout : drawFirstFrame(session, stdout);
    const [{ mount }, pacer] = await Promise.all([import('./on-ink.js'), terminal.pacer?.()]);
    if (over) return;
    const instance = mount(session, { ...terminal, stdout: output }, pacer);
    const ends = [watchWaits(session), warmUp(session)];
    unmount = instance.unmount;
    await instance.ended.finally(() => {
      for (const end of ends) end();
    });
  }
  const ended = show().then(async () => {
    await session.closed;
    return code;
  });
  return {
    ended,
    redraw,
    unmount() {
      session.quit(code);
      unmount();
    },
  };
};
