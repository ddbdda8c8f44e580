// What goes to the machine on paper: packets, tags, placards.
//
// SITE=<folder> node --test print.mjs

import assert from 'node:assert/strict';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';

import { assertAllWords, assertInside, assertSizes, each, of, printed, text } from './tools.mjs';

const packets = of('packets');
const placards = of('placards');
const tags = of('tags');

test('hazards stand before the text, blanks and signatures of their step', async () => {
  await each(packets, {}, async (page, name) => {
    const steps = await page.evaluate(() => {
      const parts = '.hazard, .step-text, .rows, .blank-list, .checks, .signs';
      return [...document.querySelectorAll('.step')].map((step) => ({
        title: step.querySelector('h3').textContent,
        order: [...step.querySelectorAll(parts)].map((part) => part.classList[0]),
      }));
    });
    assert.ok(steps.length > 0, name);
    for (const { title, order } of steps) {
      assert.equal(order.filter((part) => part === 'step-text').length, 1, title);
      const text = order.indexOf('step-text');
      assert.ok(order.lastIndexOf('hazard') < text, `${name}, ${title}: ${order}`);
      // People sign in their rows; who signs a row of a source has a name below.
      const last = ['signs', 'personal'];
      assert.ok(last.includes(order.at(-1)), `${name}, ${title}: signatures come last`);
    }
    const first = await page.evaluate(() => {
      const caution = document.querySelector('.caution-first');
      const step = document.querySelector('.step');
      return Boolean(caution.compareDocumentPosition(step) & Node.DOCUMENT_POSITION_FOLLOWING);
    });
    assert.ok(first, `${name}: the general caution comes before the steps`);
  });
});

test('every signal word stands with its alert sign, NOTICE without', async () => {
  await each(packets, {}, async (page, name) => {
    const signals = await page.evaluate(() =>
      [...document.querySelectorAll('.hazard')].map((hazard) => ({
        word: hazard.querySelector('.signal').textContent.trim(),
        alert: Boolean(hazard.querySelector('.alert')),
        look: hazard.classList[1],
      })));
    assert.ok(signals.length > 0, name);
    for (const { word, alert, look } of signals) {
      assert.equal(look, word.toLowerCase(), name);
      assert.equal(alert, word !== 'NOTICE', `${name}: ${word}`);
    }
  });
});

test('safety signs are drawn: 9 mm beside a message, 6 mm in the kit', async () => {
  let drawn = 0;
  await each(packets, {}, async (page, name) => {
    const signs = await page.evaluate(() =>
      [...document.querySelectorAll('.shows svg')].map((sign) => ({
        least: sign.closest('.kit') ? 6 : 9,
        mm: (sign.getBoundingClientRect().width * 25.4) / 96,
        // The frame alone fills the square nearly; a drawing that is not there has no box.
        box: sign.querySelector('use').getBBox().width,
      })));
    for (const { least, mm, box } of signs) {
      assert.ok(mm > least - 0.1 && box > 20, `${name}: ${mm} mm, ${box}`);
    }
    drawn += signs.length;
  });
  assert.ok(drawn > 0, 'some packet has signs');
});

for (const format of ['A4', 'Letter'])
  test(`a packet prints on ${format}: foot on each sheet, nothing cut off`, async () => {
    const folder = mkdtempSync(join(tmpdir(), 'packet-'));
    try {
      await each(packets, {}, async (page, name) => {
        const pdf = join(folder, 'packet.pdf');
        await page.pdf({ path: pdf, format });
        const digest = await page.locator('.title-block .digest').textContent();
        const sheets = text(pdf).split('\f').slice(0, -1);
        assert.ok(sheets.length > 1, name);
        sheets.forEach((sheet, index) => {
          const foot = `page ${index + 1} of ${sheets.length}`;
          assert.ok(sheet.includes(foot), `${name}: ${foot}`);
          assert.ok(sheet.includes(digest.slice(0, 16)), `${name}: digest on sheet ${index + 1}`);
        });
        assert.ok(sheets[0].includes(digest), `${name}: whole digest on the first sheet`);
        assertInside(pdf, name);
        assertSizes(pdf, name);
        const words = await page.evaluate(() => document.querySelector('main').innerText);
        assertAllWords(words, sheets.join(' '), name);
      });
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

for (const format of ['A4', 'Letter']) {
  test(`a placard is one sheet of ${format} that holds all it says`, async () => {
    await printed(placards, format, (sheets, name) => assert.equal(sheets.length, 1, name));
  });

  test(`four tags stand on a sheet of ${format}, none is cut in two`, async () => {
    await printed(tags, format, (sheets, name, count) => {
      assert.ok(count > 0, name);
      assert.equal(sheets.length, Math.ceil(count / 4), name);
      sheets.forEach((sheet, index) => {
        const whole = Math.min(4, count - 4 * index);
        for (const words of ['DO NOT OPERATE', 'Tag '])
          assert.equal(sheet.split(words).length - 1, whole, `${name}: ${words}`);
      });
    });
  });
}
