// The handbook as it is read, searched and printed: each kind of page once.
//
// SITE=<folder of a handbook> node --test handbook.mjs
//
// That every link leads somewhere and every page is reached is tested in tests/it/handbook.rs.

import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';

import { HtmlValidate, StaticConfigLoader } from 'html-validate';

import rules from './htmlvalidate.mjs';
import { assertAllWords, assertInside, each, of, open, pages, site, text } from './tools.mjs';

const axe = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
const size = (name) => statSync(join(site, name)).size;
const bySize = (names) => names.toSorted((one, two) => size(one) - size(two));
const chapters = pages.filter((name) => !/[/\\]|^(index|search|commands)\.html$/.test(name));
const findings = of('findings').filter((name) => !name.endsWith('index.html'));
// Contents, commands, search, lists; the shortest and the longest of chapters, findings and keys.
const ends = (names) => [bySize(names)[0], bySize(names).at(-1)];
const keys = of('keys').filter((name) => !name.endsWith('index.html'));
const kinds = [
  'index.html', 'commands.html', 'search.html', join('findings', 'index.html'),
  join('keys', 'index.html'), ...ends(chapters), ...ends(findings), ...ends(keys),
];

test('there are chapters, commands, and a page for each finding', () => {
  assert.ok(chapters.length > 15, `${chapters.length}`);
  assert.ok(findings.length > 200, `${findings.length}`);
});

test('no barrier by WCAG 2.2 A and AA, in light, dark and print', () =>
  each(kinds, {}, async (page, name) => {
    await page.evaluate(readFileSync(axe, 'utf8'));
    for (const look of [{ colorScheme: 'light' }, { colorScheme: 'dark' }, { media: 'print' }]) {
      await page.emulateMedia({ media: 'screen', ...look });
      const { violations } = await page.evaluate(
        (wcag) => axe.run(document, { runOnly: wcag, preload: false, resultTypes: ['violations'] }),
        wcag);
      assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes[0].target}`), [], name);
    }
  }));

test('no page scrolls sideways, and links are large enough for a glove', () =>
  each(kinds, {}, async (page, name) => {
    for (const width of [360, 768, 1280, 2560]) {
      await page.setViewportSize({ width, height: 800 });
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(over <= 0, `${name}: ${over} px at ${width}`);
    }
    await page.setViewportSize({ width: 360, height: 800 });
    const small = await page.evaluate(() =>
      [...document.querySelectorAll('nav a, .actions a, .links a, .index a, input')]
        .filter((one) => one.checkVisibility())
        .filter((one) => Math.min(one.getBoundingClientRect().width, one.getBoundingClientRect().height) < 44)
        .map((one) => one.outerHTML));
    assert.deepEqual(small, [], name);
  }));

test('the HTML is valid, and the policy lets nothing in but style and search', async () => {
  const validator = new HtmlValidate(new StaticConfigLoader(rules));
  for (const name of kinds) {
    const html = readFileSync(join(site, name), 'utf8');
    const { results } = await validator.validateString(html, name);
    const wrong = results.flatMap(({ messages }) => messages).map((m) => `${m.line}: ${m.ruleId}: ${m.message}`);
    assert.deepEqual(wrong, [], name);
    assert.match(html, /content="default-src 'none'; style-src 'self'; (script-src 'self'; )?base-uri 'none'/);
    assert.equal(html.includes('<script'), name === 'search.html', name);
  }
});

test('a chapter prints whole, inside the margins, on A4 and Letter', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'chapter-'));
  try {
    await each(ends(chapters), {}, async (page, name) => {
      for (const format of ['A4', 'Letter']) {
        const pdf = join(folder, 'chapter.pdf');
        await page.pdf({ path: pdf, format });
        assertInside(pdf, name);
        await page.emulateMedia({ media: 'print' });
        const words = await page.evaluate(() => document.querySelector('main').innerText);
        assertAllWords(words, text(pdf), name);
      }
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('a key, a command and a finding are found by their names', async () => {
  const { page, loud, close } = await open('search.html');
  try {
    for (const [words, place] of [
      ['accepts_deviation', 'files.html#the-plant'],
      ['machine rails spacing', join('keys', 'machine.html#at-rails')],
      ['checkpoint prints', 'commands.html#checkpoint'],
      ['not-isolated', 'findings/not-isolated.html'],
    ]) {
      await page.getByRole('searchbox').fill(words);
      assert.ok((await page.locator(`.index li:visible a[href="${place}"]`).count()) === 1, words);
    }
    await page.getByRole('searchbox').fill('zzzz');
    assert.equal(await page.locator('.index li:visible').count(), 0);
    assert.deepEqual(loud, []);
  } finally {
    await close();
  }
});
