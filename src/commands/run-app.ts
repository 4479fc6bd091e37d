/** Joins terminal, store, library and screens. The one place where all of them meet. */
import os from 'node:os';
import { openSession } from '../keys/terminal-session.js';
import { keep } from '../library/kept.js';
import type { Library } from '../library/library.js';
import { openApp } from '../screens/app.js';
import type { App, JobSummary, PracticeHead, RunningApp } from '../screens/app-contract.js';
import type { Store } from '../store/open-store.js';
import { unitField } from '../store/preferences.js';
import { entriesFrom } from './find-job.js';
import { onClock } from './on-clock.js';
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

const utf8 = (): boolean => /utf-?8/i.test(process.env.LC_ALL || process.env.LC_CTYPE || process.env.LANG || '');

/** What an open job stands on, kept between the calls that ask for it. */
class Grounds {
  draw: App['drawing'];
  /** The open job may only be looked at, which leaves no trace. */
  private looksOnly = false;
  /** What can wait until nobody waits for it. */
  private later = (): void => undefined;

  constructor(private readonly joined: Joined) {}

  /** Keeps today's version of a procedure, where that is the one with this hash. */
  private keep(id: string, hash: string): void {
    const { library, folder } = this.joined;
    const found = library().procedures.get(id);
    if (found?.hash !== hash) return;
    keep(folder, hash, { procedure: found.procedure, tables: library().tables, shop: found.shop });
  }

  readonly jobs: App['jobs'] = {
    list: () => this.joined.store.list(),
    latest: () => this.joined.store.latest(),
    canSave: () => this.joined.store.canSave(),
    create: async (name, first, rotor) => {
      const { store, library, folder, clock } = this.joined;
      this.keep(first.procedure, first.hash);
      // Whose it is stands in the list before anything is typed.
      const by = first.apprentice ?? first.by;
      const whose: JobSummary =
        first.practice === undefined ? { by } : { by, touched: new Date(clock.now()).toISOString() };
      if (first.from !== undefined) {
        const { beginLate } = await import('./fill-practice.js');
        return beginLate(store, library(), first, whose, clock);
      }
      if (first.earlier === undefined && rotor === undefined)
        return onClock(await store.create(name, first, whose), clock);
      const { carrying } = await import('./job-basis.js');
      const { livedSoFar } = await import('./rotor-life.js');
      const whole = await carrying(library(), folder, first, entriesFrom(store));
      const life = await livedSoFar(store, library(), folder, rotor ?? first.earlier ?? '');
      return onClock(await store.create(name, { ...whole, ...(life.length ? { life } : {}) }, whose), clock);
    },
    open: async (id, options) => {
      const opened = await this.joined.store.open(id, options);
      this.looksOnly = opened.ok && opened.value.readOnly;
      return onClock(opened, this.joined.clock);
    },
  };

  readonly basisOf: App['basisOf'] = async (entries) => {
    const { store, library, folder, clock } = this.joined;
    const { basisOfJob } = await import('./job-basis.js');
    this.draw ??= (await import('../drawing/text-drawing.js')).textDrawing;
    const basis = await basisOfJob(library(), folder, entries, entriesFrom(store));
    const first = entries[0];
    // One that was spoilt since is mended while today's version is still the same.
    if (first?.kind === 'job' && !this.looksOnly) this.later = () => this.keep(first.procedure, first.hash);
    if (typeof basis === 'string' || first?.kind !== 'job' || !(first.practice || first.apprentice)) return basis;
    const { judgeInWords: judge } = await import('../training/expected.js');
    if (first.practice === undefined) return { ...basis, judge };
    const { rotorFor } = await import('./practice-rotors.js');
    clock.knows(basis.model);
    const rotor = rotorFor(library(), first.practice, basis.model);
    const { asPractised } = await import('../training/absent.js');
    const practice = rotor && asPractised(rotor);
    if (!rotor || !practice || first.lessons !== 'at-once') return { ...basis, judge, practice };
    const { harmsNow } = await import('../training/harm.js');
    return { ...basis, judge, practice, harms: (state) => harmsNow(state, rotor) };
  };

  readonly debrief: App['debrief'] = async (state, jobId) => {
    const { store, library } = this.joined;
    const { rotorFor, rotorsOf } = await import('./practice-rotors.js');
    const { debriefOf } = await import('../training/debrief.js');
    const { debriefLines } = await import('../training/debrief-lines.js');
    const { noteProgress, withAgain } = await import('./debrief-of-job.js');
    const rotor = rotorFor(library(), state.ledger.job?.practice, state.model);
    const keys = this.joined.clock.atTheKeys();
    const made = { ...debriefOf(state, rotor, rotorsOf(library())), ...(keys === undefined ? {} : { keys }) };
    const trouble = await noteProgress(store, jobId, made);
    return [
      ...debriefLines(withAgain(store, library(), made)),
      ...(trouble ? [{ text: trouble, as: 'plain' as const }] : []),
    ];
  };

  readonly classTold: App['classTold'] = async () => {
    const { classIn } = await import('./class.js');
    const { classLines } = await import('../training/class-lines.js');
    const { store, library, folder, clock } = this.joined;
    const made = await classIn(store, library(), folder, clock.now());
    if (typeof made === 'string') return [{ text: made, as: 'plain' }];
    return [...classLines(made, 'anybody'), ...made.troubles.map((text) => ({ text, as: 'plain' as const }))];
  };

  readonly idle = (): void => {
    void this.joined.store.warm();
    this.later();
  };
}

const offeredOf = (library: Library): ReturnType<App['procedures']> =>
  [...library.procedures.values()].map(({ procedure, hash, shop }) => ({
    id: procedure.procedure,
    title: procedure.title,
    version: procedure.version,
    hash,
    notice: procedure.notice,
    follows: procedure.follows?.procedure,
    followsOwn: procedure.follows?.again,
    shop,
  }));

const phasesOf = (library: Library, procedure: string): PracticeHead['phases'] =>
  library.procedures.get(procedure)?.procedure.phases.slice(1);

const practicesOf = (library: Library): ReturnType<App['practices']> =>
  [...library.rotors.values()]
    .filter((r) => r.offered !== false)
    .map(({ rotor: id, title, story, procedure }) => ({
      id,
      title,
      story,
      procedure,
      phases: phasesOf(library, procedure),
    }));

/** In whole seconds on some systems; a computer that sleeps goes on counting. Where it is not told, nothing is held against it. */
function clockLead(): number {
  try {
    return Date.now() - os.uptime() * 1000;
  } catch {
    return Number.NaN;
  }
}

/** What is remembered of people between one job and the next. */
const remembered = (store: Store): Pick<App, 'initials' | 'units' | 'bell'> => ({
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
});

export async function runApp({ store, library, folder, start, clock }: Joined): Promise<number> {
  let running: RunningApp | undefined;
  const grounds = new Grounds({ store, library, folder, start, clock });
  return new Promise<number>((resolve) => {
    const ways = { onEnd: () => running?.unmount(), onContinue: () => running?.redraw(), exit: resolve };
    void openSession(ways).then((session) => {
      const app: App = {
        jobs: grounds.jobs,
        procedures: () => offeredOf(library()),
        practices: () => practicesOf(library()),
        drawPractice: async (named, by) => {
          const { freshNumber, rotorById } = await import('./practice-rotors.js');
          const { dueSkills } = await import('../training/progress.js');
          const { anyId } = await import('../training/generate.js');
          const due = by ? dueSkills(store.progress(by), new Date(clock.now())) : new Map<string, string>();
          const rotor = rotorById(library(), named ?? anyId(freshNumber(library(), due)));
          return (
            rotor && {
              id: rotor.rotor,
              title: rotor.title,
              story: rotor.story,
              procedure: rotor.procedure,
              phases: phasesOf(library(), rotor.procedure),
            }
          );
        },
        basisOf: grounds.basisOf,
        debrief: grounds.debrief,
        classTold: grounds.classTold,
        now: clock.now,
        lead: clockLead,
        passTime: (minutes) => clock.pass(minutes),
        ...remembered(store),
        drawing: (name, values, room) => grounds.draw?.(name, values, room) ?? [],
        pictures: {
          keep: async (job, typed) => (await import('../store/pictures.js')).keepPicture(folder, job, typed),
        },
        sheetTold: async (state, number) => {
          const { sheetOf } = await import('../sheet/sheet.js');
          const { toScreen } = await import('../sheet/to-screen.js');
          const { recordSum } = await import('../store/job-file.js');
          const made = { number, issued: new Date(clock.now()).toISOString(), check: recordSum(state.entries) };
          return toScreen(sheetOf(state, made), {
            zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
          });
        },
        rotorTold: async (rotor) => (await import('./rotor-life.js')).rotorTold(store, library(), folder, rotor),
        takenOver: async (rotor, procedure) =>
          (await import('./rotor-life.js')).takenOverFrom(store, library(), folder, rotor, procedure),
        shelf: async (procedure) => (await import('./rotor-life.js')).shelfFrom(store, library(), folder, procedure),
        sourcesTold: async ({ model: { tables, calculators, procedure } }) => {
          const { sourcesOf } = await import('../review/sources.js');
          const { sourcesTold } = await import('./sources-told.js');
          return sourcesTold(sourcesOf(Object.values(tables), Object.values(calculators), [procedure]));
        },
        terminal: {
          stdout: process.stdout,
          ascii: !utf8(),
          screenReader: process.env.INK_SCREEN_READER === 'true',
          color: !process.env.NO_COLOR,
          keysTo: (taker) => session.keys.handTo(taker),
        },
        start,
        idle: grounds.idle,
      };
      running = openApp(app);
      running.ended.then(session.end, session.fail);
    });
  });
}
