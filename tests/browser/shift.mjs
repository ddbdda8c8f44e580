// Pages of shifts, in the site and as one file: what is ticked, what is printed, what works without
// script.
//
// SITE=<folder> BIN=<the program> node --test shift.mjs

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { test } from 'node:test';
import { pathToFileURL } from 'node:url';

import { assertAllWords, assertInside, assertSizes, browser, each, of, text } from './tools.mjs';

const root = resolve(import.meta.dirname, '../..');
const bin = resolve(process.env.BIN ?? join(root, 'target/debug/witnessmark'));
const axe = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
const shifts = of('shifts').filter((name) => basename(name) !== 'index.html');
// The one of the day that the demo leads to, and the last.
const some = [shifts.find((name) => name.endsWith('2026-11-26-early.html')), shifts.at(-1)];
const millimetre = 96 / 25.4;

/** Boxes to tick, each with the row it stands in. */
const boxes = (page) =>
  page.locator('.fetch .tick').evaluateAll((ticks) =>
    ticks.map((tick) => {
      const { width, height } = tick.getBoundingClientRect();
      return { width, height, says: tick.closest('tr').innerText };
    }));

test('every job is in one shift, and every shift says what to fetch', async () => {
  const jobs = [];
  await each(shifts, { javaScriptEnabled: true }, async (page, name) => {
    jobs.push(...(await page.locator('table.jobs tbody th').allTextContents()));
    assert.ok((await boxes(page)).length > 0, name);
  });
  const known = of('jobs').map((name) => basename(name, '.html')).filter((name) => name !== 'index');
  assert.deepEqual([...jobs].sort(), known.sort());
});

test('a box is large enough for a glove, and its row says for which job', async () => {
  await each(some, {}, async (page, name) => {
    for (const box of await boxes(page)) {
      assert.ok(Math.min(box.width, box.height) >= 8.9 * millimetre, `${name}: ${JSON.stringify(box)}`);
      assert.match(box.says, /[A-Z]{2}-\d+/, name);
    }
  });
});

test('the page says the same without script, and has none', async () => {
  const says = {};
  for (const javaScriptEnabled of [true, false])
    await each(some, { javaScriptEnabled }, async (page, name) => {
      assert.equal(await page.locator('script').count(), 0, name);
      const main = await page.locator('main').textContent();
      assert.equal(says[name] ?? main, main, name);
      says[name] = main;
    });
});

for (const format of ['A4', 'Letter']) {
  test(`the page as one file has no barriers and prints on ${format}, nothing cut off, in black and white`, async () => {
    const folder = mkdtempSync(join(tmpdir(), 'shift-'));
    const page = await browser.newPage({ bypassCSP: true });
    try {
      const file = join(folder, 'early.html');
      execFileSync(bin, ['shift', join(root, 'demo-data'), '2026-11-26', 'early', '--out', file]);
      await page.goto(pathToFileURL(file).href);
      await page.addScriptTag({ path: axe });
      const { violations } = await page.evaluate((tags) => globalThis.axe.run({ runOnly: tags }), wcag);
      assert.deepEqual(violations.map((one) => one.id), []);
      const pdf = join(folder, 'early.pdf');
      await page.pdf({ path: pdf, format });
      const sheets = text(pdf);
      assertInside(pdf, file);
      assertSizes(pdf, file);
      await page.emulateMedia({ media: 'print' });
      const words = await page.evaluate(() => document.querySelector('main').innerText);
      assertAllWords(words, sheets, file);
      for (const box of await boxes(page))
        assert.ok(Math.min(box.width, box.height) >= 8.9 * millimetre, JSON.stringify(box));
      // A box is its border: it is there without any colour.
      const border = await page.locator('.fetch .tick').first()
        .evaluate((tick) => getComputedStyle(tick).borderTopWidth);
      assert.ok(Number.parseFloat(border) >= 1, border);
    } finally {
      await page.close();
      rmSync(folder, { recursive: true });
    }
  });
}
