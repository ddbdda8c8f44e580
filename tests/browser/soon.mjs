// Asking a page until it says what it should: an event is seen a little later on a busy machine.

import assert from 'node:assert/strict';
import { setTimeout as sleep } from 'node:timers/promises';

/**
 * What `assert` has, for what a page shows after an event: asked again until it holds, for ten seconds
 * at most. What is asked must not change anything.
 */
export const soon = new Proxy(assert, {
  get: (_, name) => async (ask, ...expected) => {
    for (const end = Date.now() + 10_000; ;) {
      try {
        return assert[name](await ask(), ...expected);
      } catch (error) {
        if (!(error instanceof assert.AssertionError) || Date.now() > end) throw error;
        await sleep(50);
      }
    }
  },
});
