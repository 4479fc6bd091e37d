import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { buildFixture, type Fixture } from '../keys/fixture/start.js';
import { closeTerminals } from './harness.js';

let fixture: Fixture;
beforeAll(async () => {
  fixture = await buildFixture();
});
afterAll(() => fixture.remove());
afterEach(closeTerminals);

const text = (t: string) => ({ text: t });
const answers = (term: ReturnType<Fixture['start']>) => term.recorded().map((r) => r.recorded);

describe('bursts in one write', () => {
  it('Down and Enter record the item that is highlighted then', async () => {
    const term = fixture.start();
    await term.waitFor('Step 1');
    term.press('down', 'enter');
    await term.waitFor('Step 2');
    expect(answers(term)).toEqual(['birch']);
  });
});
