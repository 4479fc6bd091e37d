/**
 * Every list that is picked from. ink-select-input draws it; the highlight is ours and comes in as its initial index
 * with a key of its own, because the component's own key handling can lag a press behind what is shown. An item is known
 * to it by its id alone: where words in a list change, such as the time that is left, it would highlight the first one.
 */
import { Box, Text } from 'ink';
import SelectInput from 'ink-select-input';
import type { Fitted } from '../look/fit.js';
import { styleOf } from './row.js';

type List = Extract<Fitted, { readonly from: number }>;

export function ChoiceList({ list, colors, pointer }: { list: List; colors: boolean; pointer: string }) {
  const { choices, rows, from, before, after } = list;
  const items = rows.map(({ item, lines }) => ({ key: item.value, value: item.value, label: lines.join('\n') }));
  const digits = choices.items.some((i) => i.digit);
  const byLabel = new Map(rows.map(({ item, lines }) => [lines.join('\n'), item]));
  return (
    <Box flexDirection="column" aria-role="listbox">
      {before ? <Text {...styleOf('quiet', colors)}>{`    ${from} more above`}</Text> : null}
      <SelectInput
        key={[choices.id, choices.index, from, ...items.map((i) => i.value)].join('\n')}
        isFocused={false}
        items={items}
        initialIndex={choices.index - from}
        indicatorComponent={({ isSelected }: { isSelected?: boolean }) => (
          <Box width={2} flexShrink={0} aria-hidden>
            <Text {...styleOf(isSelected ? 'strong' : 'plain', colors)}>{isSelected ? pointer : ' '}</Text>
          </Box>
        )}
        itemComponent={({ isSelected, label }: { isSelected?: boolean; label: string }) => {
          const item = byLabel.get(label);
          const tone = isSelected ? 'invert' : 'plain';
          return (
            <Box aria-role="option" aria-state={{ selected: Boolean(isSelected) }}>
              {digits ? (
                <Box width={3} flexShrink={0}>
                  <Text {...styleOf('strong', colors)}>{item?.digit ?? ' '}</Text>
                </Box>
              ) : null}
              {item?.on === undefined ? null : (
                <Box width={4} flexShrink={0}>
                  <Text>{item.on ? '[x]' : '[ ]'}</Text>
                </Box>
              )}
              <Text {...styleOf(tone, colors)}>{label}</Text>
            </Box>
          );
        }}
      />
      {after ? (
        <Text {...styleOf('quiet', colors)}>{`    ${choices.items.length - from - rows.length} more below`}</Text>
      ) : null}
    </Box>
  );
}
