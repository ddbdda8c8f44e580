// Who does what when: the pages of plans, on a screen and on paper.
//
// SITE=<folder> node --test plan.mjs

import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';

import { assertAllWords, assertInside, assertSizes, each, of, text } from './tools.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
const plans = of('plans');

test('each packet has its plan', () => {
  assert.ok(plans.length > 0);
  assert.equal(plans.length, of('packets').length);
});

for (const format of ['A4', 'Letter']) {
  test(`the drawing of a plan is on one sheet of ${format}, and nothing is cut off`, async () => {
    const folder = mkdtempSync(join(tmpdir(), 'plan-'));
    try {
      await each(plans, {}, async (page, name) => {
        const pdf = join(folder, 'plan.pdf');
        await page.pdf({ path: pdf, format });
        const sheets = text(pdf).split('\f').slice(0, -1);
        assertInside(pdf, name);
        assertSizes(pdf, name);
        await page.emulateMedia({ media: 'print' });
        const words = await page.evaluate(() => document.querySelector('main').innerText);
        assertAllWords(words, sheets.join(' '), name);
        if ((await page.locator('.crew').count()) === 0) return;
        // Everything from its head to its legend, with each name and number of it.
        const said = await page.evaluate(() => [
          document.querySelector('#plan-drawn').innerText.split('\n')[0],
          document.querySelector('.plan-sheet figcaption').innerText.split(' ').slice(-3).join(' '),
          ...[...document.querySelectorAll('.crew text')].map((one) => one.textContent),
        ]);
        const whole = sheets.filter((sheet) => {
          const flat = sheet.replace(/\s+/g, '');
          return said.every((one) => flat.includes(one.replace(/\s+/g, '')));
        });
        assert.equal(whole.length, 1, `${name}: the drawing is whole on one sheet`);
        const steps = await page.locator('.plan-steps tbody tr').count();
        const short = await page.locator('.plan-sheet.long').count() === 0;
        assert.equal(short, steps <= 12, name);
        // Up to 60 steps have a table in few words beside the drawing; more go on behind it.
        if (!short && steps <= 60) {
          const rows = await page.locator('.plan-brief tr').allInnerTexts();
          assert.equal(rows.length, steps, name);
          const flat = whole[0].replace(/\s+/g, '');
          for (const row of rows) {
            const [number, span] = row.split(/\t/);
            assert.ok(flat.includes(number + span.replace(/\s+/g, '')), `${name}: ${row}`);
          }
        }
        // A short plan has its table on the same sheet.
        if (short) assert.ok(whole[0].includes(await page.locator('.plan-steps caption').innerText()), name);
      });
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
}

test('bars are told apart without colour, and each step of the table is drawn', async () => {
  await each(plans, {}, async (page, name) => {
    const told = await page.evaluate(() => {
      const style = (one) => {
        const { strokeWidth, strokeDasharray } = getComputedStyle(one);
        return `${strokeWidth} ${strokeDasharray}`;
      };
      const styles = (kind) => new Set([...document.querySelectorAll(`.crew .bar${kind}`)].map(style));
      const rows = [...document.querySelectorAll('.plan-steps tbody tr')];
      return {
        plain: [...styles(':not(.critical):not(.checks)')],
        critical: [...styles('.critical')],
        checks: [...styles('.checks')],
        numbers: rows.map((row) => row.querySelector('.num').textContent),
        words: rows.filter((row) => row.cells[4].textContent.includes('\u25b2')).length,
        drawn: [...document.querySelectorAll('.crew text')].map((one) => one.textContent),
        lines: document.querySelectorAll('.crew .stop').length,
      };
    });
    if (told.drawn.length === 0) return;
    assert.equal(told.critical.length, 1, name);
    assert.ok(told.words > 0, name);
    for (const kind of [told.plain, told.checks])
      assert.ok(!kind.includes(told.critical[0]), `${name}: ${kind}`);
    for (const number of told.numbers) assert.ok(told.drawn.includes(number), `${name}: ${number}`);
    assert.equal(told.lines % 2, 0, name);
  });
});

test('a plan has no barriers, with the least and the most on it', async () => {
  const named = [plans.at(0), plans.at(-1)];
  for (const colorScheme of ['light', 'dark']) {
    await each(named, { colorScheme }, async (page, name) => {
      await page.evaluate(axe);
      const found = await page.evaluate(
        (values) => window.axe.run(document, { runOnly: values, preload: false }), wcag,
      );
      const said = found.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html)}`);
      assert.deepEqual(said, [], `${name}, ${colorScheme}`);
    });
  }
});

test('a plan is read without a script, on a narrow screen', async () => {
  await each(plans.slice(0, 2), { javaScriptEnabled: false, viewport: { width: 360, height: 700 } },
    async (page, name) => {
      assert.ok(await page.locator('.plan-choices').isVisible(), name);
    });
});
