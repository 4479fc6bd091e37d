/** One of a few words. */
import type { Asked } from './base.js';
import { kindOfQuestion, type Option } from './kind.js';
import { isPick, noPick, pick } from './reading.js';

interface ChoiceOption extends Option {
  only_with?: string | undefined;
  offered?: false | undefined;
  takes_back?: true | undefined;
}
export interface Choice extends Asked {
  kind: 'choice';
  options: ChoiceOption[];
  goes_on?: string[] | undefined;
}

/** The list itself where nothing is left out of it: what is kept with a list is then found again. */
const offered = ({ options }: Choice): ChoiceOption[] =>
  options.some((o) => o.offered === false) ? options.filter((o) => o.offered !== false) : options;

export const choice = kindOfQuestion<Choice>({
  schema: ({ z, asked, option, key }) =>
    z.strictObject({
      ...asked,
      kind: z.literal('choice'),
      options: z
        .array(
          option.extend({
            only_with: key
              .optional()
              .describe('in a part: a need; where the procedure does not give it, this is not offered'),
            offered: z.literal(false).optional().describe('what becomes of “only_with” there'),
            takes_back: z
              .literal(true)
              .optional()
              .describe('in a step of a branch: takes its report back, while nothing that it reopened was done again'),
          }),
        )
        .min(2),
      goes_on: z
        .array(z.string())
        .min(1)
        .optional()
        .describe('in a step that makes safe: answers that no gate has to hold'),
    }),
  type: 'string',
  control: 'pick',
  read: (q, text) => pick(text, offered(q), q.label),
  unfit: (q, value) => (isPick(value, offered(q)) ? undefined : noPick),
  words: (q) =>
    offered(q)
      .map((o) => o.label)
      .join(' / '),
  options: offered,
  all: (q) => offered(q).map((o) => o.value),
  tried: true,
});
