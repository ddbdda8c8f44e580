// The history as a shift lead reads it on screen and on paper: charts have words, a shape for what a
// rule fired on, and their points as a table that opens without a script.
//
// SITE=<folder> node --test history.mjs

import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';

import { assertInside, assertSizes, each, of, open, site, text } from './tools.mjs';

const source = (name) => readFileSync(join(site, name), 'utf8');
const list = join('history', 'index.html');
const charted = of('history').filter((name) => source(name).includes('class="drawing chart"'));

test('there is a list of machines, and a page with charts', () => {
  assert.ok(of('history').includes(list));
  assert.ok(charted.length > 0);
});

test('a chart is named and described, and its points are as many as the rows beneath', () =>
  each(charted, { javaScriptEnabled: false }, async (page, name) => {
    for (const series of await page.locator('.series:has(svg)').all()) {
      const svg = series.locator('svg');
      const named = await svg.getAttribute('aria-labelledby');
      for (const id of named.split(' ')) {
        const words = await page.locator(`#${id}`).textContent();
        assert.ok(words.trim().length > 10, `${name}: ${id}`);
      }
      const fired = await series.locator('svg .fired').count();
      const rules = await series.locator('.points tbody td:last-child').allTextContents();
      const marks = rules.flatMap((cell) => cell.split(', ').filter(Boolean));
      const readings = rules.filter((cell) => cell.replace(/,? ?MR/, '')).length;
      const ranges = marks.filter((mark) => mark === 'MR').length;
      assert.equal(fired, readings + ranges, name);
    }
  }));

test('the points open without a script, by mouse and by keyboard', () =>
  each(charted, { javaScriptEnabled: false }, async (page) => {
    const points = page.locator('.points').first();
    const table = points.locator('table');
    assert.equal(await table.isVisible(), false);
    await points.locator('summary').click();
    assert.equal(await table.isVisible(), true);
    await points.locator('summary').press('Enter');
    assert.equal(await table.isVisible(), false);
  }));

test('what fired is told by shape and word: without any colour both are there', () =>
  each(charted, { forcedColors: 'active' }, async (page, name) => {
    for (const svg of await page.locator('svg.chart:has(.fired)').all()) {
      const marks = await svg.locator('text').allTextContents();
      assert.ok(marks.some((mark) => /^(N\d|W\d|MR)/.test(mark)), name);
    }
  }));

for (const format of ['A4', 'Letter']) {
  test(`on ${format} every point is printed, inside the margins and large enough`, async () => {
    const folder = mkdtempSync(join(tmpdir(), 'history-'));
    try {
      for (const name of [list, ...charted]) {
        const { page, loud, close } = await open(name, { javaScriptEnabled: false });
        const pdf = join(folder, 'history.pdf');
        await page.pdf({ path: pdf, format });
        assertInside(pdf, name);
        // Heads of columns are the smallest; a sheet that was shrunk would have smaller ones.
        assertSizes(pdf, name, 7.8);
        const printed = text(pdf);
        for (const cell of await page.locator('.points tbody td:nth-child(3)').allTextContents())
          assert.ok(printed.includes(cell), `${name}: ${cell} is not printed`);
        const rows = await page.locator('.points tbody tr').count();
        const days = printed.match(/\b\d{4}-\d{2}-\d{2}\b/g) ?? [];
        assert.ok(days.length >= rows, `${name}: ${rows} rows, ${days.length} days`);
        assert.deepEqual(loud, []);
        await close();
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
}

test('a chart is no wider than a phone makes room for: it scrolls by itself', () =>
  each(charted, { viewport: { width: 360, height: 800 } }, async (page, name) => {
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(over <= 0, `${name}: ${over}`);
  }));
