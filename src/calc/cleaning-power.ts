/**
 * Which solvents take up what is in a bearing, and in which order: hydrocarbon first, polar rinse last.
 * Distance of Hansen parameters Ra = sqrt(4 dD^2 + dP^2 + dH^2), MPa^0.5: the nearer, the better it takes it up. Up to 8 it
 * dissolves it, up to 12 it helps, beyond it is poor (this guide's own steps); where a radius is known, inside it dissolves.
 * Says nothing of what a solvent spoils: each one is held against every material by itself (solvent), and each is a wash of its
 * own. Sources: Hansen's handbook, 2nd ed. 2007, in the tables hansen (solvents) and soils.
 */
import { defineCalculator } from './define.js';
import { commonPractice, figure, oneOf, word } from './spec.js';
import { findRow, sourceOf, textIn } from './table.js';
import type { RowSource, TableRow, Tables } from './types.js';

const usual = ['acetone', 'isopropanol', 'n-heptane', 'white-spirit'] as const;
const soils = [
  'base-oil',
  'gear-oil',
  'coolant',
  'coolant-propylene',
  'water',
  'fluorinated-oil',
  'silicone-oil',
] as const;

type Power = 'dissolves' | 'helps' | 'poor' | 'not known';
const best: readonly Power[] = ['dissolves', 'helps', 'poor', 'not known'];
const [near, far] = [8, 12];

interface Judged {
  readonly solvent: string;
  readonly power: Power;
  readonly distance: number;
}

const number = (row: TableRow | undefined, column: string): number => {
  const value = row?.[column];
  return typeof value === 'number' ? value : Number.NaN;
};

function judge(solvent: string, soil: TableRow | undefined, tables: Tables): Judged {
  const liquid = findRow(tables, 'hansen', solvent);
  const apart = (column: string): number => number(liquid, column) - number(soil, column);
  const distance = Math.sqrt(4 * apart('dispersion') ** 2 + apart('polar') ** 2 + apart('hydrogen') ** 2);
  if (!Number.isFinite(distance)) return { solvent, power: 'not known', distance: Number.POSITIVE_INFINITY };
  const radius = number(soil, 'radius');
  const limit = Number.isFinite(radius) ? radius : near;
  const power: Power = distance <= limit ? 'dissolves' : distance <= Math.max(far, limit) ? 'helps' : 'poor';
  return { solvent, power, distance };
}

export const cleaningPower = defineCalculator({
  name: 'cleaning-power',
  title: 'What takes up what, and in which order',
  inputs: {
    soils: { type: 'choices', label: 'What is to come out', choices: soils, table: 'soils' },
    solvents: { type: 'choices', label: 'Solvents at hand', choices: usual, table: 'solvents', optional: true },
  },
  results: {
    order: word('Best for the wash first', true),
    first: word('First wash'),
    last: word('Last rinse'),
    enough: oneOf('What is at hand takes up all of it', ['yes', 'partly', 'no']),
    ranked: word('For each, best first', true),
    left: word('Nothing at hand takes up', true),
  },
  formula: 'Ra = sqrt(4 dD^2 + dP^2 + dH^2); hydrocarbon first, polar rinse last',
  source: commonPractice('steps at a distance of 8 and 12; hydrocarbon first, polar rinse last'),
  aliases: {
    grease: 'base-oil',
    oil: 'base-oil',
    glycol: 'coolant',
    'ethylene-glycol': 'coolant',
    'propylene-glycol': 'coolant-propylene',
    pfpe: 'fluorinated-oil',
    silicone: 'silicone-oil',
    heptane: 'n-heptane',
    ipa: 'isopropanol',
    'mineral-spirits': 'white-spirit',
  },
  run: (given, tables) => {
    const wanted = [...new Set(given.words('soils'))];
    const typed = given.words('solvents');
    const atHand = [...new Set(typed.length > 0 ? typed : usual)];
    const ranked = wanted.map((soil) => {
      const row = findRow(tables, 'soils', soil);
      const judged = atHand
        .map((solvent) => judge(solvent, row, tables))
        .sort((a, b) => best.indexOf(a.power) - best.indexOf(b.power) || a.distance - b.distance);
      return { soil, row, label: row ? textIn(row, 'label') : soil, judged };
    });
    const taken = ranked.filter(({ judged }) => judged[0] && ['dissolves', 'helps'].includes(judged[0].power));
    const left = ranked.filter((r) => !taken.includes(r)).map((r) => r.label);
    const polarity = (solvent: string): number => {
      const row = findRow(tables, 'hansen', solvent);
      return number(row, 'polar') + number(row, 'hydrogen');
    };
    const order = [...new Set(taken.map(({ judged }) => judged[0]?.solvent ?? ''))].sort(
      (a, b) => polarity(a) - polarity(b),
    );
    const enough =
      left.length === 0
        ? taken.every((t) => t.judged[0]?.power === 'dissolves')
          ? 'yes'
          : 'partly'
        : taken.length > 0
          ? 'partly'
          : 'no';
    const warnings = [
      'This says what it takes up, not what it spoils: hold each solvent against cage, seals, varnish and glue as well.',
      ...(order.length > 1
        ? [`Two washes, each with its own cloth, dried in between: ${order[0]} first, ${order.at(-1)} last.`]
        : []),
      ...left.map(
        (soil) =>
          `Nothing at hand takes up ${soil.toLowerCase()}: wipe it out, and take its solvent from its data sheet.`,
      ),
    ];
    const used = [...wanted.map((s) => findRow(tables, 'soils', s)), ...order.map((s) => findRow(tables, 'hansen', s))];
    const sources: RowSource[] = used.filter((row): row is TableRow => row !== undefined).map(sourceOf);
    const said = ({ solvent, power, distance }: Judged): string =>
      power === 'not known' ? `${solvent} not known` : `${solvent} ${power} (${figure(distance, 3)})`;
    return {
      results: {
        order: { value: order },
        first: { value: order[0] ?? 'none' },
        last: { value: order.length > 1 ? (order.at(-1) ?? 'none') : 'none' },
        enough: { value: enough },
        ranked: { value: ranked.map((r) => `${r.label}: ${r.judged.map(said).join(', ')}`) },
        left: { value: left },
      },
      warnings,
      worked: ranked.map((r) => `distance to ${r.label.toLowerCase()}: ${r.judged.map(said).join(', ')}`),
      sources,
    };
  },
});
