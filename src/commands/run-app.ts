/** Joins terminal, store, library and screens. The one place where all of them meet. */
import { createElement } from 'react';
import { textDrawing } from '../drawing/text-drawing.js';
import { KeyPacer } from '../keys/key-pacer.js';
import { openSession } from '../keys/session.js';
import { keep } from '../library/kept.js';
import type { Library } from '../library/library.js';
import { openApp } from '../screens/app.js';
import type { App, RunningApp } from '../screens/app-contract.js';
import type { Store } from '../store/open-store.js';
import { entriesFrom } from './find-job.js';
import { basisOfJob } from './job-basis.js';

export interface Joined {
  readonly store: Store;
  readonly library: Library;
  /** Where the jobs are. */
  readonly folder: string;
  readonly start: App['start'];
}

const utf8 = (): boolean => /utf-?8/i.test(process.env.LC_ALL || process.env.LC_CTYPE || process.env.LANG || '');

export async function runApp({ store, library, folder, start }: Joined): Promise<number> {
  let running: RunningApp | undefined;
  return new Promise<number>((resolve) => {
    void openSession({ onEnd: () => running?.unmount(), exit: resolve }).then((session) => {
      const app: App = {
        jobs: {
          list: () => store.list(),
          create: async (name, first) => {
            const found = library.procedures.get(first.procedure);
            if (found)
              keep(folder, found.hash, { procedure: found.procedure, tables: library.tables, shop: found.shop });
            return store.create(name, first);
          },
          open: (id, options) => store.open(id, options),
        },
        procedures: () =>
          [...library.procedures.values()].map(({ procedure, hash }) => ({
            id: procedure.procedure,
            title: procedure.title,
            version: procedure.version,
            hash,
            follows: procedure.follows?.procedure,
          })),
        practices: () =>
          [...library.rotors.values()].map(({ rotor: id, title, teaches, story, procedure }) => ({
            id,
            title,
            teaches,
            story,
            procedure,
          })),
        basisOf: async (entries) => {
          const basis = await basisOfJob(library, folder, entries, entriesFrom(store));
          const first = entries[0];
          if (typeof basis === 'string' || first?.kind !== 'job' || first.practice === undefined) return basis;
          const { rotorFor } = await import('./practice-rotors.js');
          return { ...basis, practice: rotorFor(library, first.practice, basis.model) };
        },
        debrief: async (state, jobId) => {
          const { rotorFor, rotorsOf } = await import('./practice-rotors.js');
          const { debriefOf } = await import('../training/debrief.js');
          const { debriefLines } = await import('../training/debrief-lines.js');
          const { noteProgress } = await import('./debrief.js');
          const rotor = rotorFor(library, state.ledger.job?.practice, state.model);
          const made = debriefOf(state, rotor, rotorsOf(library));
          const trouble = await noteProgress(store, jobId, made);
          return [...debriefLines(made), ...(trouble ? [{ text: trouble, as: 'plain' as const }] : [])];
        },
        now: () => Date.now(),
        initials: {
          get: () => store.preferences().initials ?? '',
          set: (initials) => void store.setPreferences({ initials }),
        },
        drawing: textDrawing,
        sheetText: async (state) => {
          const { sheetOf } = await import('../sheet/sheet.js');
          const { toMarkdown } = await import('../sheet/to-markdown.js');
          return toMarkdown(sheetOf(state));
        },
        terminal: {
          stdin: session.keys.stdin,
          stdout: process.stdout,
          ascii: !utf8(),
          screenReader: process.env.INK_SCREEN_READER === 'true',
          color: !process.env.NO_COLOR,
          pacer: ({ step, typing }) => createElement(KeyPacer, { keys: session.keys, step, typing }),
          hold: () => session.keys.hold(),
        },
        start,
        idle: () => void store.warm(),
      };
      running = openApp(app);
      running.ended.then(session.end, session.fail);
    });
  });
}
