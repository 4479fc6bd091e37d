/** The baseline: the least that ink can show. */
// @ts-nocheck

import { render, Text, useInput } from 'ink';

function Hello() {
  useInput(() => {});
  return <Text>hello</Text>;
}
render(<Hello />);
