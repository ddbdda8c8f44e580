// Looks at a published site in a browser, as a person at the line and an auditor would.
//
// SITE=<folder> node --test site.mjs
//
// Nothing is fetched: pages are opened as files, and a request that leaves the folder fails the
// test. BROWSER names another Chromium than the system's.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { after, before, test } from 'node:test';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { createRequire } from 'node:module';

import { HtmlValidate, StaticConfigLoader } from 'html-validate';
import { chromium } from 'playwright-core';

import rules from './htmlvalidate.mjs';

const site = resolve(process.env.SITE ?? '');
assert.ok(process.env.SITE && existsSync(join(site, 'index.html')), 'SITE names a published site');

const axe = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
const files = readdirSync(site, { recursive: true }).sort();
const pages = files.filter((name) => name.endsWith('.html'));
const packets = pages.filter((name) => name.startsWith(`packets${sep}`));
const placards = pages.filter((name) => name.startsWith(`placards${sep}`));
const tags = pages.filter((name) => name.startsWith(`tags${sep}`));

let browser;
before(async () => {
  browser = await chromium.launch({
    executablePath: process.env.BROWSER ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking',
      '--disable-component-update', '--disable-sync',
    ],
  });
});
after(() => browser?.close());

/** Opens a page; `loud` collects what it complains about and what it fetches from elsewhere. */
async function open(name, options = {}) {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  const loud = [];
  page.on('console', (message) => loud.push(`console: ${message.text()}`));
  page.on('pageerror', (error) => loud.push(`error: ${error.message}`));
  page.on('requestfailed', (request) => loud.push(`failed: ${request.url()}`));
  page.on('request', (request) => {
    const inside = request.url().startsWith(pathToFileURL(site).href + '/');
    if (!inside) loud.push(`outside: ${request.url()}`);
  });
  await page.goto(pathToFileURL(join(site, name)).href);
  return { page, loud, close: () => context.close() };
}

/** Runs a check on every page of a list, each with its own fresh context. */
async function each(names, options, check) {
  for (const name of names) {
    const opened = await open(name, options);
    try {
      await check(opened.page, name, opened.loud);
      assert.deepEqual(opened.loud, [], `${name} is quiet`);
    } finally {
      await opened.close();
    }
  }
}

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

test('the policy lets the page\'s own style in and no script', async () => {
  await each(pages, {}, async (page, name, loud) => {
    const policy = await page.getAttribute('meta[http-equiv="Content-Security-Policy"]', 'content');
    assert.match(policy, /^default-src 'none'; style-src /, name);
    assert.doesNotMatch(policy, /unsafe|script-src|\*/, name);
    const foreign = page.locator('script, [style], iframe, object, embed, img, form');
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

/** Prints pages that hang at a machine, and wants everything inside the margins and legible. */
async function printed(names, format, check) {
  const folder = mkdtempSync(join(tmpdir(), 'sheet-'));
  try {
    await each(names, {}, async (page, name) => {
      const pdf = join(folder, 'sheet.pdf');
      await page.pdf({ path: pdf, format });
      const sheets = text(pdf).split('\f').slice(0, -1);
      check(sheets, name, await page.locator('.tag').count());
      assertInside(pdf, name);
      assertSizes(pdf, name);
      await page.emulateMedia({ media: 'print' });
      const words = await page.evaluate(() => document.querySelector('main').innerText);
      assertAllWords(words, sheets.join(' '), name);
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const text = (pdf) => execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8', maxBuffer: 1 << 26 });

/** Every word stands inside the margins; the foot stands in the lower one. */
function assertInside(pdf, name) {
  const boxes = execFileSync('pdftotext', ['-bbox', pdf, '-'], { encoding: 'utf8', maxBuffer: 1 << 26 });
  let sheet = [0, 0];
  const margin = (10 / 25.4) * 72;
  for (const line of boxes.split('\n')) {
    const size = line.match(/<page width="([\d.]+)" height="([\d.]+)"/);
    if (size) sheet = [Number(size[1]), Number(size[2])];
    const word = line.match(/<word xMin="(.+)" yMin="(.+)" xMax="(.+)" yMax="(.+)">(.*)<\/word>/);
    if (!word) continue;
    const [left, top, right, bottom] = word.slice(1, 5).map(Number);
    const across = left >= margin && right <= sheet[0] - margin;
    const down = top >= margin && bottom <= sheet[1] - margin / 2;
    assert.ok(across && down, `${name}: "${word[5]}" at ${word.slice(1, 5)} of ${sheet}`);
  }
}

/**
 * The foot is set in 8.5 pt, all else in 9 pt or more, drawings too. A browser shrinks the whole
 * sheet when something on it is too wide, which shows here first.
 */
function assertSizes(pdf, name) {
  const zoom = 3;
  const xml = execFileSync('pdftohtml', ['-xml', '-stdout', '-i', '-zoom', `${zoom}`, pdf], { maxBuffer: 1 << 26 });
  const sizes = [...`${xml}`.matchAll(/<fontspec [^>]*size="(\d+)"/g)].map((match) => match[1]);
  assert.ok(sizes.length > 0, name);
  assert.ok(Math.min(...sizes) >= Math.floor(8.5 * zoom), `${name}: sizes / ${zoom}: ${sizes}`);
}

/** What the screen says, the paper says too; the paper may break lines elsewhere. */
function assertAllWords(screen, paper, name) {
  const gaps = /[^\p{L}\p{N}.,±−+]+/u;
  const words = (content) => content.split(gaps).filter((word) => word.length > 3);
  const printed = new Set(words(paper));
  const joined = paper.replace(/\s+/g, '');
  const missing = words(screen).filter((word) => !printed.has(word) && !joined.includes(word));
  assert.deepEqual(missing, [], name);
}
