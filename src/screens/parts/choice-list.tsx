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
  // The component hands only a label back to what draws an item: it is the item's id, as two items may read the same.
  const items = rows.map(({ item: { value } }) => ({ key: value, value, label: value }));
  const digits = choices.items.some((i) => i.digit);
  const byId = new Map(rows.map((row) => [row.item.value, row]));
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
          const { item, lines = [] } = byId.get(label) ?? {};
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
              <Text {...styleOf(tone, colors)}>{lines.join('\n')}</Text>
            </Box>
          );
        }}
      />
      {after ? <Text {...styleOf('quiet', colors)}>{`    ${after}`}</Text> : null}
    </Box>
  );
}
