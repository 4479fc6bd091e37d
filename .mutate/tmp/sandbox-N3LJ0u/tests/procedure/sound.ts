/** A small sound procedure, and the calculators and tables that it uses; all made up for these tests. */
// @ts-nocheck

import type { Calculator, Table, Tables } from '../../src/calc/types.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { type Problem, showProblem } from '../../src/procedure/problem.js';

export const sound = `procedure: fan-bearing
version: 1.0.0
title: Fan bearing
summary: Made up for tests.
places:
  - id: position
    name: Bearing
    instances:
      - { id: a, label: Left, label_from: name_a }
      - { id: b, label: Right }
  - id: seal
    within: position
    name: Seal
    instances:
      - { id: front, label: front }
phases:
  - { id: look, title: Look }
  - { id: work, title: Work }
steps:
  - id: start
    phase: look
    at: job
    title: Start
    do: Write down the fan.
    why: Fans look alike.
    ask:
      - { key: name_a, kind: text, label: Left name }
      - { key: grease, kind: choice, label: Grease, options: [ { value: good, label: Good }, { value: bad, label: Bad } ] }
      - { key: speed, kind: quantity, quantity: speed, unit: rpm, label: Speed, plausible: [100, 3000], limits: [1, 5000] }
  - id: measure
    phase: look
    at: position
    title: Measure
    do: Measure the bore at {speed}.
    why: The dose hangs on it.
    when: "grease == 'good' || event_dropped"
    ask:
      - { key: series, kind: choice-from-table, table: sizes, label: Size }
      - { key: bore, kind: quantity, quantity: length, unit: mm, label: Bore, limits: [3, 300] }
      - { key: runs, kind: yes-no, label: It runs, otherwise: true }
    gates:
      - id: wide-enough
        must: bore > 10.0
        say: The bore {bore} is too small.
        overrule: never
  - id: open
    phase: work
    at: seal
    title: Open
    do: Lift the seal.
    why: The grease is behind it.
    hazard: true
    caution:
      - The spring flies.
    ask:
      - { key: state, kind: choice, label: State, options: [ { value: whole, label: Whole }, { value: torn, label: Torn } ] }
  - id: fill
    phase: work
    at: position
    title: Fill
    do: Fill in {dose}.
    why: Dry bearings die.
    physical: true
    rests_on: [dose]
    remedy: It is now {dose}, it was {dose.old}; change it by {dose.change}.
    wait: { minutes: "10.0", label: settling }
  - id: drop
    branch: dropped
    phase: work
    at: position
    title: Dropped
    do: Pick it up.
    why: It lies on the floor.
facts:
  - { key: fast, at: job, label: Fast, type: bool, is: "speed > 1000.0" }
  - { key: all_whole, at: position, label: All whole, over: seal, all: "state == 'whole'" }
  - { key: verdict, at: job, label: Verdict, is: "fast ? 'quick' : 'slow'" }
calcs:
  - { calc: dose, at: position, with: { bore: bore, speed: speed }, gives: { volume: dose } }
branches:
  - { id: dropped, at: position, title: Dropped, mark: It was dropped, reopens: [measure] }
sheet:
  headline: [grease]
  figures:
    - { key: dose }
`;

const row = { tag: 'A', source: 'made up' } as const;
export const tables: Tables = {
  sizes: {
    id: 'sizes',
    rows: [
      { id: 'small', width: 5, ...row },
      { id: 'large', width: 9, ...row },
    ],
  } satisfies Table,
};

const dose: Calculator = {
  name: 'dose',
  title: 'Dose',
  inputs: {
    bore: { label: 'Bore', type: 'quantity', kind: 'length', unit: 'mm' },
    speed: { label: 'Speed', type: 'quantity', kind: 'speed', unit: 'rpm' },
    wet: { label: 'Wet', type: 'flag', optional: true },
  },
  results: { volume: { label: 'Dose', kind: 'volume', unit: 'mL' }, band: { label: 'Band', unit: '' } },
  formula: 'bore / 10',
  source: { tag: 'A', text: 'made up' },
  run: (inputs) => ({
    results: { volume: { value: (inputs.bore as { value: number }).value / 10 }, band: { value: 'middle' } },
    warnings: [],
    worked: [],
  }),
};
export const calculators: Readonly<Record<string, Calculator>> = { dose };

/** The sound text with one passage exchanged; throws when the passage is not there just once. */
export function changed(find: string, replace: string, text = sound): string {
  if (text.split(find).length !== 2) throw new Error(`“${find}” is there ${text.split(find).length - 1} times`);
  return text.replace(find, () => replace);
}

export const problemsOf = (text: string, file = 'p.yaml'): readonly Problem[] =>
  loadProcedure(text, file, { tables, calculators }).problems;

/** Complaints as they are printed, without the file name. */
export const says = (text: string): string[] => problemsOf(text, 'p').map((p) => showProblem(p).slice(2));
