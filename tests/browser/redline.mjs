// What changed in a plant, in Chromium: read without colour, on a telephone, in the dark, on paper.
//
// BIN=<witnessmark> SITE=<any site> node --test redline.mjs

import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { after, before, test } from 'node:test';
import { pathToFileURL } from 'node:url';

import { HtmlValidate, StaticConfigLoader } from 'html-validate';

import rules from './htmlvalidate.mjs';
import { assertAllWords, assertInside, assertSizes, browser, text } from './tools.mjs';

const root = resolve(import.meta.dirname, '../..');
const program = resolve(process.env.BIN ?? join(root, 'target/debug/witnessmark'));
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
const scratch = mkdtempSync(join(tmpdir(), 'redline-'));
const plant = join(scratch, 'plant');
after(() => rmSync(scratch, { recursive: true }));

/** Pages: the one file, and those of a site. */
let pages;

function edit(file, pairs) {
  const path = join(plant, file);
  let content = readFileSync(path, 'utf8');
  for (const [from, to] of pairs) {
    assert.ok(content.includes(from), `${from} in ${file}`);
    content = content.replace(from, to);
  }
  writeFileSync(path, content);
}

function run(code, ...words) {
  const { status, stderr, stdout } = spawnSync(program, words, { cwd: scratch, encoding: 'utf8' });
  assert.equal(status, code, stdout + stderr);
}

before(() => {
  cpSync(join(root, 'tests/it/small-plant'), plant, { recursive: true });
  const git = (...words) => execFileSync('git', words, { cwd: scratch });
  git('init', '-q', '.');
  git('add', 'plant');
  git('-c', 'user.name=A', '-c', 'user.email=a@plant.example', 'commit', '-q', '--no-gpg-sign', '-m', 'one');
  edit('instructions/knives.md', [
    ['revision: 1', 'revision: 2'],
    ['reason: First issue', 'reason: One wrench less to fetch'],
    ['until it snaps in', 'until it clicks'],
    ['Set the torque wrench to', 'Set the **small** torque wrench to'],
    ['hazards: [knife-edge, in-running-rollers]\ntools: [Lint-free cloth]', 'hazards: [knife-edge]\ntools: [Lint-free cloth]'],
  ]);
  edit('recipes/large-pouch.yaml', [['fin: 5 mm', 'fin: 6 mm'], ['tolerance: ±1 mm', 'tolerance: ±2 mm']]);
  run(1, 'redline', 'plant', '--out', 'red.html');
  run(0, 'publish', 'plant', '--out', 'site', '--since', 'HEAD');
  const site = readdirSync(join(scratch, 'site/redline')).map((name) => join('site/redline', name));
  assert.equal(site.length, 3, 'a list and two texts');
  pages = ['red.html', ...site];
});

/** Opens each page, and wants it quiet. */
async function each(options, check) {
  for (const name of pages) {
    const context = await browser.newContext(options);
    const page = await context.newPage();
    const loud = [];
    page.on('console', (message) => loud.push(message.text()));
    page.on('requestfailed', (request) => loud.push(request.url()));
    await page.goto(pathToFileURL(join(scratch, name)).href);
    await check(page, name);
    assert.deepEqual(loud, [], name);
    await context.close();
  }
}

test('the pages are valid and have no barriers, in light, dark and on paper', async () => {
  const validate = new HtmlValidate(new StaticConfigLoader(rules));
  await each({}, async (page, name) => {
    const report = await validate.validateString(readFileSync(join(scratch, name), 'utf8'), name);
    assert.deepEqual(report.results.flatMap((one) => one.messages.map((m) => `${m.line}: ${m.message}`)), [], name);
    await page.evaluate(axe);
    for (const look of [{ colorScheme: 'light' }, { colorScheme: 'dark' }, { media: 'print' }]) {
      await page.emulateMedia({ media: 'screen', ...look });
      const { violations } = await page.evaluate((tags) => axe.run(document, { runOnly: tags, preload: false }), wcag);
      assert.deepEqual(violations.map((one) => `${one.id}: ${one.nodes.map((n) => n.html)}`), [], name);
    }
  });
});

test('what is gone, new and marked is read without colour', async () => {
  await each({ viewport: { width: 1280, height: 900 } }, async (page, name) => {
    if (name.endsWith('index.html')) return;
    const line = (tag) =>
      page.locator(tag).first().evaluate((one) => getComputedStyle(one).textDecorationLine);
    assert.equal(await line('del'), 'line-through', name);
    assert.equal(await line('ins'), 'underline', name);
    const bar = page.locator('.changed').first();
    assert.equal(await bar.evaluate((one) => getComputedStyle(one).borderLeftStyle), 'solid', name);
    assert.match(await page.locator('.mark').first().innerText(), /^For safety: /, name);
    // Who hears the page hears where it begins and ends.
    assert.match(await page.locator('del').first().textContent(), /^\[gone: .* end\]$/, name);
  });
});

test('nothing scrolls sideways on a telephone', async () => {
  await each({ viewport: { width: 320, height: 800 } }, async (page, name) => {
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(wide <= 320, `${name}: ${wide}`);
  });
});

test('the one file prints on A4 and Letter with every word inside the margins', async () => {
  const pdf = join(scratch, 'red.pdf');
  for (const format of ['A4', 'Letter']) {
    const page = await browser.newPage();
    await page.goto(pathToFileURL(join(scratch, 'red.html')).href);
    await page.pdf({ path: pdf, format });
    assertInside(pdf, format);
    assertSizes(pdf, format);
    await page.emulateMedia({ media: 'print' });
    const words = await page.evaluate(() => document.querySelector('main').innerText);
    assertAllWords(words, text(pdf), format);
    await page.close();
  }
});
