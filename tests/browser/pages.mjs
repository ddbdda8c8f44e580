// Every page of a published site, as a person at the line and an auditor would meet it.
//
// SITE=<folder> node --test pages.mjs

import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { createRequire } from 'node:module';

import { HtmlValidate, StaticConfigLoader } from 'html-validate';

import rules from './htmlvalidate.mjs';
import { each, of, pages, site } from './tools.mjs';

const axe = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
const packets = of('packets');
const placards = of('placards');
const tags = of('tags');

test('there are pages of every kind', () => {
  assert.ok(packets.length > 0, 'a packet');
  assert.ok(placards.length > 0, 'a placard');
  assert.equal(tags.length, packets.length, 'tags for each packet');
  for (const folder of ['jobs', 'machines', 'procedures', 'records'])
    assert.ok(pages.includes(join(folder, 'index.html')), `${folder}/index.html`);
});

test('every link leads to a file of the site, every fragment to a place', async () => {
  await each(pages, {}, async (page, name) => {
    const links = await page.evaluate(() =>
      [...document.querySelectorAll('[href]')].map(
        (a) => new URL(a.getAttribute('href'), document.baseURI).href));
    assert.ok(links.length > 0, `${name} has links`);
    for (const link of links) {
      const url = new URL(link);
      if (['http:', 'https:', 'mailto:'].includes(url.protocol)) continue;
      const fragment = decodeURIComponent(url.hash.slice(1));
      url.hash = '';
      const file = fileURLToPath(url);
      assert.ok(!relative(site, file).startsWith('..'), `${name}: ${link} stays in the site`);
      assert.ok(existsSync(file), `${name}: ${link} exists`);
      if (!fragment) continue;
      const target = readFileSync(file, 'utf8');
      assert.ok(target.includes(`id="${fragment}"`), `${name}: ${link} has its place`);
    }
  });
});

test('every page is reached from the start page', async () => {
  const seen = new Set();
  const next = ['index.html'];
  while (next.length) {
    const name = next.pop();
    if (seen.has(name)) continue;
    seen.add(name);
    const html = readFileSync(join(site, name), 'utf8');
    for (const [, href] of html.matchAll(/<a [^>]*?href="([^"#:]+\.html)/g))
      next.push(join(dirname(name), decodeURIComponent(href)));
  }
  assert.deepEqual(pages.filter((name) => !seen.has(name)), []);
});

for (const colorScheme of ['light', 'dark'])
  test(`no barrier by WCAG 2.2 A and AA, ${colorScheme}`, async () => {
    await each(pages, { colorScheme, bypassCSP: true }, async (page, name) => {
      await page.addScriptTag({ path: axe });
      const options = { runOnly: wcag, preload: false };
      const { violations } = await page.evaluate((set) => axe.run(document, set), options);
      const found = violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target).join(', ')}`);
      assert.deepEqual(found, [], name);
    });
  });

for (const width of [360, 768, 1280])
  test(`no page scrolls sideways at ${width} px`, async () => {
    await each(pages, { viewport: { width, height: 800 } }, async (page, name) => {
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(over <= 0, `${name} is ${over} px too wide`);
    });
  });

test('links in navigation and lists are large enough for a glove', async () => {
  await each(pages, { viewport: { width: 360, height: 800 } }, async (page, name) => {
    const small = await page.evaluate(() => {
      const links = document.querySelectorAll('nav a, .list a, .actions a, .links a, .papers a');
      const size = (a) => a.getBoundingClientRect();
      const small = (a) => size(a).height < 44 || size(a).width < 44;
      return [...links].filter(small).map((a) => a.outerHTML);
    });
    assert.deepEqual(small, [], name);
  });
});

test('the HTML is valid', async () => {
  const validator = new HtmlValidate(new StaticConfigLoader(rules));
  for (const name of pages) {
    const report = await validator.validateString(readFileSync(join(site, name), 'utf8'), name);
    const found = report.results
      .flatMap((result) => result.messages)
      .map((m) => `${m.line}:${m.column} ${m.ruleId}: ${m.message}`);
    assert.deepEqual(found, [], name);
  }
});

/** Folders of pages that are filled in with a script of the site's own. */
const scripted = ['steps'];

test('the policy lets the page\'s own style in, a script of the site where one is needed, no other', async () => {
  await each(pages, {}, async (page, name, loud) => {
    const policy = await page.getAttribute('meta[http-equiv="Content-Security-Policy"]', 'content');
    const own = scripted.includes(dirname(name));
    assert.match(policy, /^default-src 'none'; style-src /, name);
    assert.doesNotMatch(policy, own ? /unsafe|\*/ : /unsafe|script-src|\*/, name);
    if (own) assert.match(policy, /; script-src 'self'; /, name);
    const inline = own ? 'script:not([src^="../assets/"])' : 'script';
    const foreign = page.locator(`${inline}, [style], iframe, object, embed, img, form`);
    assert.equal(await foreign.count(), 0, name);
    const styled = await page.evaluate(() => getComputedStyle(document.body).fontVariantNumeric);
    assert.equal(styled, 'tabular-nums', `${name} is styled`);
    await page.evaluate(() => {
      const script = document.createElement('script');
      script.textContent = 'window.ran = true';
      document.body.append(script);
    });
    assert.equal(await page.evaluate(() => window.ran === true), false, `${name} ran a script`);
    assert.equal(loud.length, 1, `${name}: ${loud}`);
    assert.match(loud.pop(), /Content Security Policy/);
  });
});

test('a packet is one file, and its style is the one its policy names', async () => {
  for (const name of packets) {
    const html = readFileSync(join(site, name), 'utf8');
    const styles = [...html.matchAll(/<style>([^]*?)<\/style>/g)].map((match) => match[1]);
    assert.equal(styles.length, 1, name);
    const hash = createHash('sha256').update(styles[0]).digest('base64');
    assert.ok(html.includes(`style-src 'sha256-${hash}'`), `${name}: ${hash}`);
    assert.doesNotMatch(html, /<link|<img|src=/, name);
  }
});
