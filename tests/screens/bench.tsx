/** A terminal with the screens on it and jobs in memory, for tests. */
import { EventEmitter } from 'node:events';
import { Text } from 'ink';
import { render } from 'ink-testing-library';
import { textDrawing } from '../../src/drawing/text-drawing.js';
import type { Draft, Entry } from '../../src/engine/journal/entry.js';
import { Splitter } from '../../src/keys/splitter.js';
import type { Model } from '../../src/procedure/model.js';
import { beginStack } from '../../src/screens/app.js';
import type { App, JobSummary, ListedJob, OpenJob, Outcome, TypedDraft } from '../../src/screens/app-contract.js';
import type { Desk } from '../../src/screens/desk.js';
import { whenToDraw } from '../../src/screens/draw-when.js';
import type { PageStack } from '../../src/screens/page-stack.js';
import { frameText } from '../../src/screens/parts/frame-text.js';
import { Root } from '../../src/screens/root.js';
import { StepPage } from '../../src/screens/step/step-page.js';

export interface BenchOptions {
  readonly model: Model;
  readonly cols?: number;
  readonly rows?: number;
  readonly ascii?: boolean;
  readonly reader?: boolean;
  /** Each frame by ink. Else as the text that is written before ink is loaded, drawn when ink would; the last is held against ink's. */
  readonly byInk?: boolean;
  readonly start?: App['start'];
  readonly app?: Partial<App>;
  /** Entries of a job that is there already, under the id `old`. */
  readonly entries?: readonly Entry[];
  /** Answers to the next appends; undefined lets one through. */
  readonly trouble?: (drafts: readonly Draft[]) => string | undefined;
  readonly readOnly?: string;
  readonly drafts?: readonly TypedDraft[];
  readonly at?: string;
}

const named: Readonly<Record<string, string>> = {
  enter: '\r',
  esc: '\x1b',
  tab: '\t',
  up: '\x1b[A',
  down: '\x1b[B',
  backspace: '\x7f',
  pagedown: '\x1b[6~',
  left: '\x1b[D',
};

interface Drawn {
  readonly lastFrame: () => string;
  readonly unmount: () => void;
}

function drawnByInk(stack: PageStack, stdout: { readonly columns: number }): Drawn {
  // The library has 100 columns; ink asks anew at each frame, so nothing is drawn before it has those of the screen.
  const drawn = render(<Text />);
  Object.defineProperty(drawn.stdout, 'columns', { get: () => stdout.columns });
  drawn.rerender(<Root stack={stack} />);
  return { lastFrame: () => drawn.lastFrame() ?? '', unmount: drawn.unmount };
}

/** What stands there as text, drawn when it is looked at. */
export function textOf({ shown }: PageStack): string {
  return shown ? frameText(shown.view, shown.room, shown.message, false).join('\n') : '';
}

function drawnAsText(stack: PageStack, stdout: EventEmitter & { readonly columns: number }): Drawn {
  let frame: string | undefined;
  const ended = whenToDraw(stack)(() => {
    frame = undefined;
  });
  return {
    // Worked out when somebody looks at it: most frames pass while a word is typed.
    lastFrame() {
      frame ??= textOf(stack);
      return frame;
    },
    unmount() {
      ended();
      const last = drawnByInk(stack, stdout);
      const [byInk, asText] = [last.lastFrame().trimEnd(), textOf(stack).trimEnd()];
      last.unmount();
      if (byInk !== asText) throw new Error(`By ink:\n${byInk}\nas text:\n${asText}`);
    },
  };
}

export function openBench(options: BenchOptions) {
  const { model } = options;
  const clock = { now: Date.parse(options.at ?? '2026-03-02T08:00:00Z') };
  const stdout = Object.assign(new EventEmitter(), { columns: options.cols ?? 80, rows: options.rows ?? 24 });
  const kept: {
    drafts: readonly TypedDraft[];
    entries: readonly Entry[];
    closed: number;
    summary: JobSummary;
    quit?: number;
  } = {
    drafts: options.drafts ?? [],
    entries: options.entries ?? [],
    closed: 0,
    summary: {},
  };
  const job = (): OpenJob => ({
    id: 'old',
    name: 'Bench job',
    get entries() {
      return kept.entries;
    },
    readOnly: options.readOnly !== undefined,
    ...(options.readOnly === undefined ? {} : { whyReadOnly: options.readOnly }),
    append(drafts, summary): Outcome<readonly Entry[]> {
      const sentence = options.trouble?.(drafts);
      if (sentence) return { ok: false, trouble: { code: 'full', sentence } };
      const at = new Date(clock.now).toISOString();
      const more = drafts.map((d, i) => ({ ...d, seq: kept.entries.length + 1 + i, at }) as Entry);
      kept.entries = [...kept.entries, ...more];
      kept.summary = summary ?? kept.summary;
      return { ok: true, value: more };
    },
    draftTexts: () => kept.drafts,
    setDraftTexts: (drafts) => {
      kept.drafts = drafts;
    },
    async close() {
      kept.closed += 1;
    },
  });
  const listed = (): ListedJob[] => {
    const first = kept.entries[0];
    if (first?.kind !== 'job') return [];
    const changed = kept.entries.at(-1)?.at ?? '';
    const { name, procedure, practice } = first;
    return [{ id: 'old', name, procedure, changed, summary: kept.summary, ...(practice ? { practice } : {}) }];
  };
  const app: App = {
    jobs: {
      list: () => ({ ok: true, value: listed() }),
      latest: () => ({ ok: true, value: { jobs: listed(), count: listed().length } }),
      async create(_name, first) {
        kept.entries = [{ ...first, seq: 1, at: new Date(clock.now).toISOString() } as Entry];
        return { ok: true, value: job() };
      },
      open: async () => ({ ok: true, value: job() }),
    },
    procedures: () => [
      {
        id: model.procedure.procedure,
        title: model.procedure.title,
        version: model.procedure.version,
        hash: model.hash,
        notice: model.procedure.notice,
      },
    ],
    practices: () => [],
    sheetTold: () => [],
    sourcesTold: () => [],
    rotorTold: async () => [],
    basisOf: () => ({ model }),
    now: () => clock.now,
    drawing: textDrawing,
    initials: { get: () => '', set: () => undefined },
    terminal: {
      stdout: stdout as unknown as NodeJS.WriteStream,
      ascii: options.ascii ?? false,
      screenReader: options.reader ?? false,
      color: false,
      zone: 'UTC',
      keysTo: () => undefined,
    },
    ...(options.start ? { start: options.start } : {}),
    ...options.app,
  };
  const stack = beginStack(app, (code) => {
    kept.quit = code;
  });
  // Only ink knows how to read a screen out.
  const drawn = options.byInk || options.reader ? drawnByInk(stack, stdout) : drawnAsText(stack, stdout);
  const screen = drawn.lastFrame;
  const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 1));

  async function waitFor(wanted: string | RegExp | ((screen: string) => boolean), ms = 60_000): Promise<string> {
    const until = Date.now() + ms;
    for (;;) {
      const now = screen();
      // Texts fold at the width of the terminal.
      const flat = now.replace(/\s+/g, ' ');
      const seen =
        typeof wanted === 'string'
          ? now.includes(wanted) || flat.includes(wanted)
          : wanted instanceof RegExp
            ? wanted.test(now) || wanted.test(flat)
            : wanted(now);
      if (seen) return now;
      if (Date.now() > until) throw new Error(`Waited for ${String(wanted)}; the screen is:\n${now}`);
      await pause();
    }
  }
  /** Two turns after a change at the latest it is drawn (draw-when.ts). */
  async function isDrawn(): Promise<void> {
    for (let turns = 0; turns < 2; turns++) await new Promise((resolve) => setImmediate(resolve));
    await pause();
  }
  /** Keys by name or as text, each followed by the frame that it brings. */
  async function press(...keys: readonly string[]): Promise<void> {
    for (const key of keys) {
      const splitter = new Splitter();
      const all = [...splitter.push(Buffer.from(named[key] ?? key)), ...splitter.rest()];
      // What takes long is not waited for: its test looks at what stands there meanwhile.
      for (const one of all)
        await Promise.race([stack.press(one), new Promise((resolve) => setTimeout(resolve, 1000))]);
      await isDrawn();
    }
  }
  /** Lets time go by; waits for the frame that shows it. */
  async function pass(minutes: number): Promise<void> {
    const before = screen();
    clock.now += minutes * 60_000;
    stack.changed();
    await waitFor((now) => now !== before);
  }
  const desk = (): Desk => {
    const page = stack.pages.find((p): p is StepPage => p instanceof StepPage);
    if (!page) throw new Error(`No bench is open; the screen is:\n${screen()}`);
    return (page as unknown as { desk: Desk }).desk;
  };
  return {
    app,
    stack,
    kept,
    clock,
    stdout,
    screen,
    waitFor,
    press,
    pass,
    desk,
    async ready() {
      await waitFor((s) => s.trim() !== '');
      await isDrawn();
    },
    end: () => drawn.unmount(),
  };
}
export type Bench = ReturnType<typeof openBench>;

/** A bench that stands on the first step of a begun job. */
export async function onStep(options: BenchOptions): Promise<Bench> {
  const b = openBench(options);
  await b.ready();
  await b.waitFor('Bench job');
  await b.press('1');
  await b.waitFor('go on');
  await b.press('enter');
  return b;
}
