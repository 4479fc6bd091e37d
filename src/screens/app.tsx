/** Puts the screens on a terminal. */
import { render } from 'ink';
import type { App, OpenApp, Terminal } from './app-contract.js';
import { keptScrollback } from './kept-scrollback.js';
import { homePage } from './pages/home.js';
import { Root } from './root.js';
import { Session } from './session.js';

/** How often waits are looked at, in ms. */
const tick = 5000;

const roomOf = (t: Terminal) => () => ({
  cols: Math.max(20, t.stdout.columns || 80),
  rows: Math.max(6, t.stdout.rows || 24),
  ascii: t.ascii,
  color: t.color ?? !process.env.NO_COLOR,
  reader: t.screenReader,
});

/** A session with its first page; nothing is drawn yet. */
export function beginSession(app: App, ended: (code: number) => void): Session {
  const session = new Session(roomOf(app.terminal), ended, app.terminal.hold);
  session.push(homePage(app, session));
  if (app.start) void begin(app, session, app.start);
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
  let unmount = (): void => undefined;
  const session = beginSession(app, (c) => {
    code = c;
    unmount();
  });
  const instance = render(<Root session={session} terminal={terminal} />, {
    stdin: terminal.stdin,
    stdout: keptScrollback(terminal.stdout),
    ...(terminal.stderr ? { stderr: terminal.stderr } : {}),
    exitOnCtrlC: false,
    patchConsole: false,
    isScreenReaderEnabled: terminal.screenReader,
  });
  const stop = watchWaits(session);
  unmount = () => {
    stop();
    instance.unmount();
  };
  const ended = instance.waitUntilExit().then(async () => {
    stop();
    await session.closed;
    return code;
  });
  return {
    ended,
    unmount() {
      session.quit(code);
      unmount();
    },
  };
};
