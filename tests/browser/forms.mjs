// The compact forms of a packet, as they are printed and as they are read on a screen.
//
// SITE=<folder> node --test forms.mjs

import assert from 'node:assert/strict';
import { mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';

import { assertAllWords, assertInside, assertSizes, each, of, text, textOf } from './tools.mjs';

const axe = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
const checklists = of('checklists');
const kits = of('kits');
const lockouts = of('lockouts');
const moves = of('moves');
const forms = [...checklists, ...kits, ...lockouts, ...moves];
// One of each: what one shows, the others show in the same parts.
const one = [checklists, kits, lockouts, moves].map((names) => names.at(-1));

/** Prints a form, and hands over its sheets with the PDF. */
async function printed(names, format, check) {
  const folder = mkdtempSync(join(tmpdir(), 'form-'));
  try {
    await each(names, {}, async (page, name) => {
      const pdf = join(folder, 'form.pdf');
      await page.pdf({ path: pdf, format });
      await page.emulateMedia({ media: 'print' });
      await check(text(pdf).split('\f').slice(0, -1), page, name, pdf);
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

test('each packet has its four forms', () => {
  const packets = of('packets').length;
  assert.ok(packets > 0);
  for (const names of [checklists, kits, lockouts, moves]) assert.equal(names.length, packets);
});

for (const format of ['A4', 'Letter']) {
  test(`forms print on ${format}: foot and digest on each sheet, nothing cut off`, async () => {
    await printed(forms, format, async (sheets, page, name, pdf) => {
      const digest = await page.locator('.form-head .digest').textContent();
      const job = (await page.locator('h1 .num').textContent()).trim();
      const own = await page.locator('html').getAttribute('lang');
      const foot = textOf(own, 'forms', 'forms-foot-page').replace('{ $pages }', sheets.length);
      sheets.forEach((sheet, index) => {
        for (const said of [foot.replace('{ $page }', index + 1), digest.slice(0, 16), job])
          assert.ok(sheet.includes(said), `${name}, sheet ${index + 1}: ${said}`);
      });
      assert.ok(sheets[0].includes(digest), `${name}: whole digest on the first sheet`);
      if (checklists.includes(name) || kits.includes(name))
        assert.ok(sheets.length <= 2, `${name}: ${sheets.length} sheets`);
      assertInside(pdf, name);
      assertSizes(pdf, name);
      const words = await page.evaluate(() => document.querySelector('main').innerText);
      assertAllWords(words, sheets.join(' '), name);
    });
  });
}

test('no group of a checklist is torn from its energy and its hazards', async () => {
  await printed(checklists, 'Letter', async (sheets, page, name) => {
    const heads = await page.locator('.group-head').evaluateAll((heads) =>
      heads.map((head) => {
        const first = head.nextElementSibling.querySelector('li');
        return { inside: getComputedStyle(head).breakInside, after: getComputedStyle(head).breakAfter, first: Boolean(first) };
      }));
    assert.ok(heads.length > 0, name);
    for (const head of heads)
      assert.deepEqual(head, { inside: 'avoid', after: 'avoid', first: true }, name);
  });
});

test('numbers at the machine are printed at 13 pt and more', async () => {
  await printed(moves, 'A4', async (sheets, page, name) => {
    const small = await page.evaluate(() => {
      const cells = document.querySelectorAll('.far tbody .num, .lane-list li');
      const points = (cell) => parseFloat(getComputedStyle(cell).fontSize) * 0.75;
      return [...cells].filter((cell) => points(cell) < 12.99).map((cell) => cell.outerHTML);
    });
    assert.deepEqual(small, [], name);
  });
});

test('a sign line and a blank are large enough to write on', async () => {
  await printed(one, 'A4', async (sheets, page, name) => {
    const heights = await page.evaluate(() => {
      const mm = (part) => (part.getBoundingClientRect().height * 25.4) / 96;
      const of = (parts) => [...document.querySelectorAll(parts)].map(mm);
      return { signs: of('.signs li'), boxes: of('.box, .fill') };
    });
    assert.ok(Math.min(10, ...heights.signs) >= 10, `${name}: ${heights.signs}`);
    assert.ok(Math.min(5, ...heights.boxes) >= 5, `${name}: ${heights.boxes}`);
  });
});

for (const [media, colorScheme] of [['screen', 'light'], ['screen', 'dark'], ['print', 'light']])
  test(`no barrier by WCAG 2.2 A and AA, ${media}, ${colorScheme}`, async () => {
    await each(one, { colorScheme, bypassCSP: true }, async (page, name) => {
      await page.emulateMedia({ media, colorScheme });
      await page.addScriptTag({ path: axe });
      const options = { runOnly: wcag, preload: false };
      const { violations } = await page.evaluate((set) => axe.run(document, set), options);
      const found = violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target).join(', ')}`);
      assert.deepEqual(found, [], name);
    });
  });

test('no form scrolls sideways on a telephone', async () => {
  await each(one, { viewport: { width: 360, height: 800 } }, async (page, name) => {
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(over <= 0, `${name} is ${over} px too wide`);
  });
});

test('every signal word stands with its alert sign, NOTICE without', async () => {
  await each(one, {}, async (page, name) => {
    const signals = await page.evaluate(() =>
      [...document.querySelectorAll('.hazard')].map((hazard) => ({
        look: hazard.classList[1], word: hazard.querySelector('.signal').textContent.trim(),
        alert: Boolean(hazard.querySelector('.alert, [href="#alert"]')),
        lang: hazard.closest('[lang]').lang,
      })));
    for (const { look, word, alert, lang } of signals) {
      assert.equal(word, textOf(lang, 'common', `signal-${look}`), name);
      assert.equal(alert, look !== 'notice', `${name}: ${word}`);
    }
  });
});
