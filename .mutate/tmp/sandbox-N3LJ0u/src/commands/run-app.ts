/** Joins terminal, store, library and screens. The one place where all of them meet. */
// @ts-nocheck

import type { Draft } from '../engine/entry.js';
import { openSession } from '../keys/session.js';
import { keep } from '../library/kept.js';
import type { Library } from '../library/library.js';
import { openApp } from '../screens/app.js';
import type { App, OpenJob, Outcome, RunningApp, Summary } from '../screens/app-contract.js';
import type { Store } from '../store/open-store.js';
import { unitField } from '../store/preferences.js';
import { entriesFrom } from './find-job.js';
import type { PracticeClock } from './practice-clock.js';

export interface Joined {
  readonly store: Store;
  /** Loaded when it is first asked for. */
  readonly library: () => Library;
  /** Where the jobs are. */
  readonly folder: string;
  readonly start: App['start'];
  readonly clock: PracticeClock;
}

/** The open job tells the clock when it begins, what is recorded, and when it ends. */
function onClock(opened: Outcome<OpenJob>, clock: PracticeClock): Outcome<OpenJob> {
  if (!opened.ok) return opened;
  const job = opened.value;
  clock.begin(job.entries);
  const value: OpenJob = Object.create(job, {
    append: {
      value: (drafts: readonly Draft[], summary?: Summary) => {
        clock.before(drafts);
        return job.append(drafts, summary);
      },
    },
    close: {
      value: () => {
        clock.end();
        return job.close();
      },
    },
  });
  return { ...opened, value };
}

const utf8 = (): boolean => /utf-?8/i.test(process.env.LC_ALL || process.env.LC_CTYPE || process.env.LANG || '');

export async function runApp({ store, library, folder, start, clock }: Joined): Promise<number> {
  let running: RunningApp | undefined;
  let draw: App['drawing'];
  /** What can wait until nobody waits for it. */
  let later = (): void => undefined;
  /** The open job may only be looked at, which leaves no trace. */
  let looksOnly = false;
  /** Keeps today's version of a procedure, where that is the one with this hash. */
  const keepProcedure = (id: string, hash: string): void => {
    const found = library().procedures.get(id);
    if (found?.hash !== hash) return;
    keep(folder, hash, { procedure: found.procedure, tables: library().tables, shop: found.shop });
  };
  return new Promise<number>((resolve) => {
    const ways = { onEnd: () => running?.unmount(), onContinue: () => running?.redraw(), exit: resolve };
    void openSession(ways).then((session) => {
      const app: App = {
        jobs: {
          list: () => store.list(),
          latest: () => store.latest(),
          create: async (name, first) => {
            keepProcedure(first.procedure, first.hash);
            if (first.earlier === undefined) return onClock(await store.create(name, first), clock);
            const { carrying } = await import('./job-basis.js');
            const whole = await carrying(library(), folder, first, entriesFrom(store));
            return onClock(await store.create(name, whole), clock);
          },
          open: async (id, options) => {
            const opened = await store.open(id, options);
            looksOnly = opened.ok && opened.value.readOnly;
            return onClock(opened, clock);
          },
        },
        procedures: () =>
          [...library().procedures.values()].map(({ procedure, hash, shop }) => ({
            id: procedure.procedure,
            title: procedure.title,
            version: procedure.version,
            hash,
            follows: procedure.follows?.procedure,
            shop,
          })),
        practices: () =>
          [...library().rotors.values()].map(({ rotor: id, title, teaches, story, procedure }) => ({
            id,
            title,
            teaches,
            story,
            procedure,
          })),
        basisOf: async (entries) => {
          const { basisOfJob } = await import('./job-basis.js');
          draw ??= (await import('../drawing/text-drawing.js')).textDrawing;
          const basis = await basisOfJob(library(), folder, entries, entriesFrom(store));
          const first = entries[0];
          // One that was spoilt since is mended while today's version is still the same.
          if (first?.kind === 'job' && !looksOnly) later = () => keepProcedure(first.procedure, first.hash);
          if (typeof basis === 'string' || first?.kind !== 'job' || !(first.practice || first.apprentice)) return basis;
          const { judgeInWords: judge } = await import('../training/judge-in-words.js');
          if (first.practice === undefined) return { ...basis, judge };
          const { rotorFor } = await import('./practice-rotors.js');
          clock.knows(basis.model);
          return { ...basis, judge, practice: rotorFor(library(), first.practice, basis.model) };
        },
        debrief: async (state, jobId) => {
          const { rotorFor, rotorsOf } = await import('./practice-rotors.js');
          const { debriefOf } = await import('../training/debrief.js');
          const { debriefLines } = await import('../training/debrief-lines.js');
          const { noteProgress } = await import('./debrief.js');
          const rotor = rotorFor(library(), state.ledger.job?.practice, state.model);
          const made = debriefOf(state, rotor, rotorsOf(library()));
          const trouble = await noteProgress(store, jobId, made);
          return [...debriefLines(made), ...(trouble ? [{ text: trouble, as: 'plain' as const }] : [])];
        },
        now: clock.now,
        passTime: (minutes) => clock.pass(minutes),
        initials: {
          get: () => store.preferences().initials ?? '',
          set: (initials) => void store.setPreferences({ initials }),
        },
        units: {
          get: (key) => {
            const unit = store.preferences()[unitField(key)];
            return typeof unit === 'string' ? unit : undefined;
          },
          set: (key, unit) => void store.setPreferences({ [unitField(key)]: unit }),
        },
        bell: {
          on: () => store.preferences().bell ?? false,
          turn: async (bell) => {
            const kept = await store.setPreferences({ bell });
            return kept.ok ? undefined : kept.trouble.sentence;
          },
          // It moves no cursor, so it may come between two frames.
          ring: () => void process.stdout.write('\u0007'),
        },
        drawing: (name, values, room) => draw?.(name, values, room) ?? [],
        pictures: {
          keep: async (job, typed) => (await import('../store/pictures.js')).keepPicture(folder, job, typed),
        },
        sheetPages: async (state, number) => {
          const { sheetOf } = await import('../sheet/sheet.js');
          const { toScreen } = await import('../sheet/to-screen.js');
          return toScreen(sheetOf(state, { number, issued: new Date(clock.now()).toISOString() }), {
            zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
          });
        },
        sourcesPages: async ({ model: { tables, calculators, procedure } }) => {
          const { sourcesOf } = await import('../review/sources.js');
          const { sourcesPages } = await import('./sources-pages.js');
          return sourcesPages(sourcesOf(Object.values(tables), Object.values(calculators), [procedure]));
        },
        terminal: {
          stdin: session.keys.stdin,
          stdout: process.stdout,
          ascii: !utf8(),
          screenReader: process.env.INK_SCREEN_READER === 'true',
          color: !process.env.NO_COLOR,
          pacer: async () => (await import('../keys/key-pacer.js')).pacerOf(session.keys),
          hold: () => session.keys.hold(),
        },
        start,
        idle: () => {
          void store.warm();
          later();
        },
      };
      running = openApp(app);
      running.ended.then(session.end, session.fail);
    });
  });
}
