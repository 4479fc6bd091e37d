/** Pieces of schema that several kinds of question are made of. */
import type * as zod from 'zod';
import { canonicalUnit, type QuantityKind } from '../../units/kinds.js';

/** What every question says. */
export interface Asked {
  kind: string;
  key: string;
  label: string;
  help?: string | undefined;
  when?: string | undefined;
  otherwise?: number | string | boolean | undefined;
  optional?: boolean | undefined;
  suggest?: string | undefined;
  filled?: boolean | undefined;
  shelf?: boolean | undefined;
}

const idForm = [/^[a-z][a-z0-9-]*$/, 'small letters, digits and hyphens, beginning with a letter'] as const;
const keyForm = [/^[a-z][a-z0-9_]*$/, 'small letters, digits and underscores, beginning with a letter'] as const;

export function baseOf(z: typeof zod) {
  const key = z.string().regex(...keyForm);
  const words = z.string().min(1);
  const cel = z.string().min(1).describe('CEL expression');
  const range = z.tuple([z.number(), z.number()]);
  return {
    z,
    key,
    words,
    cel,
    id: z.string().regex(...idForm),
    quantity: z.enum(Object.keys(canonicalUnit) as [QuantityKind, ...QuantityKind[]]),
    option: z.strictObject({
      value: z.string().regex(/^[a-z0-9][a-z0-9-]*$/, 'small letters, digits and hyphens'),
      label: words,
      note: words.optional(),
    }),
    asked: {
      key,
      label: words,
      help: words.optional().describe('how to read it off'),
      when: cel.optional(),
      otherwise: z
        .union([z.number(), z.string(), z.boolean()])
        .optional()
        .describe('value that expressions use while the question does not apply or is unanswered'),
      /** May be left empty with one key; the value then stays unknown (or `otherwise`). */
      optional: z.boolean().optional(),
      suggest: cel.optional().describe('value that Enter takes in an empty field, such as the stage that is due'),
      shelf: z
        .boolean()
        .optional()
        .describe('of what the shop has at hand: the brisk pace offers it as in its latest finished jobs'),
      filled: z
        .boolean()
        .optional()
        .describe('in the brisk pace recorded as suggested, once everything else of the step or row is answered'),
    },
    /** Of a value that is measured or counted. */
    plausible: range.optional().describe('canonical unit; outside it the guide warns'),
    limits: range.describe('canonical unit; outside it the guide refuses'),
    kept_in: z
      .string()
      .optional()
      .describe(
        'the canonical unit, where “unit” is another: says that limits, plausible, plus_minus and all conditions are in it',
      ),
    plus_minus: z
      .number()
      .nonnegative()
      .optional()
      .describe('half width of this kind of reading, canonical unit; 0 where it is exact'),
  };
}
export type Base = ReturnType<typeof baseOf>;
