// Every page of a published site, as a person at the line and an auditor would meet it.
//
// SITE=<folder> node --test pages.mjs
//
// Each page is loaded once and looked at in that load. Barriers are looked for on some pages of each
// folder: its list, its smallest and its largest page, and of the packets one for each machine.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { basename, dirname, join, relative, sep } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';

import { HtmlValidate, StaticConfigLoader } from 'html-validate';

import rules from './htmlvalidate.mjs';
import { soon } from './soon.mjs';
import { assertInside, browser, files, listened, of, open, pages, site, text } from './tools.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
const widths = [360, 768, 1280, 2560];
const source = (name) => readFileSync(join(site, name), 'utf8');

/** What one load of each page gave. */
const seen = {};

test('every page is loaded once, and looked at', async () => {
  const context = await browser.newContext();
  const barriers = new Set(chosen());
  const names = [...pages];
  // Two at a time: a page that is laid out and one that is waited for.
  const worker = async () => {
    for (let name = names.pop(); name; name = names.pop())
      seen[name] = await look(context, name, barriers.has(name));
  };
  await Promise.all([worker(), worker()]);
  await context.close();
  assert.equal(Object.keys(seen).length, pages.length);
});

/** Pages on which barriers are looked for. */
function chosen() {
  const folders = new Map();
  for (const name of pages) {
    const folder = dirname(name);
    if (!folders.has(folder)) folders.set(folder, []);
    folders.get(folder).push(name);
  }
  const size = (name) => statSync(join(site, name)).size;
  const some = [...folders.values()].flatMap((names) => {
    const own = names.filter((name) => basename(name) !== 'index.html');
    own.sort((one, two) => size(one) - size(two));
    const lists = names.filter((name) => basename(name) === 'index.html');
    return dirname(names[0]) === '.' ? names : [...lists, own[0], own.at(-1)];
  });
  const machines = new Map();
  for (const packet of of('packets')) {
    const job = source(join('jobs', basename(packet)));
    machines.set(job.match(/machines\/([^"]+)\.html"/)?.[1], packet);
  }
  return [...some.filter(Boolean), ...machines.values()];
}

/** Everything that is asked of a page, in one load. */
async function look(context, name, barriers) {
  const { page, loud } = await listened(context, name);
  const gave = await page.evaluate(facts);
  gave.over = {};
  for (const width of widths) {
    await page.setViewportSize({ width, height: 800 });
    gave.over[width] = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    if (width === widths[0]) gave.small = await page.evaluate(tooSmall);
  }
  gave.barriers = barriers ? await found(page) : null;
  gave.loud = [...loud];
  gave.ran = await page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = 'window.ran = true';
    document.body.append(script);
    return window.ran === true;
  });
  gave.refused = loud.slice(gave.loud.length);
  await page.close();
  return gave;
}

/** In the page: what it links to, lets in and brings along. */
function facts() {
  const all = (what) => [...document.querySelectorAll(what)];
  return {
    links: all('[href]').map((a) => new URL(a.getAttribute('href'), document.baseURI).href),
    ids: all('[id]').map((one) => one.id),
    policy: document.querySelector('meta[http-equiv="Content-Security-Policy"]')?.content ?? '',
    scripts: all('script').map((one) => one.outerHTML),
    foreign: all('iframe, object, embed, img').map((one) => one.outerHTML),
    styled: getComputedStyle(document.body).fontVariantNumeric,
  };
}

/** In the page: what is too small for a finger in a glove. */
function tooSmall() {
  const what =
    'nav a, .list a, .actions a, .links a, .papers a, .index a, .cards a, button, select, ' +
    'input:not([type=checkbox], [type=radio], [type=file])';
  return [...document.querySelectorAll(what)]
    .filter((one) => one.checkVisibility())
    .filter((one) => {
      const { width, height } = one.getBoundingClientRect();
      return width < 44 || height < 44;
    })
    .map((one) => one.outerHTML);
}

/** Barriers in light, dark and on paper. */
async function found(page) {
  const barriers = [];
  await page.evaluate(axe);
  const looks = [
    { colorScheme: 'light' }, { colorScheme: 'dark' }, { colorScheme: 'light', media: 'print' },
  ];
  for (const look of looks) {
    await page.emulateMedia({ media: 'screen', ...look });
    const { violations } = await page.evaluate(
      (wcag) => axe.run(document, { runOnly: wcag, preload: false, resultTypes: ['violations'] }),
      wcag);
    for (const { id, nodes } of violations)
      barriers.push(`${look.media ?? look.colorScheme}: ${id}: ${nodes.map((n) => n.target).join(', ')}`);
  }
  await page.emulateMedia({ media: null, colorScheme: null });
  return barriers;
}

/** Pages of which something is said, with what is said. */
const said = (what) =>
  Object.entries(seen).map(([name, gave]) => [name, what(gave)]).filter(([, list]) => list.length);

test('there are pages of every kind', () => {
  for (const folder of ['packets', 'tags', 'placards']) assert.ok(of(folder).length > 0, folder);
  const locked = of('packets').filter((name) => readFileSync(join(site, name), 'utf8').includes('<h2 id="energy">'));
  assert.deepEqual(of('tags').map((name) => basename(name)), locked.map((name) => basename(name)), 'tags where something is locked');
  for (const folder of ['jobs', 'machines', 'procedures', 'records'])
    assert.ok(pages.includes(join(folder, 'index.html')), `${folder}/index.html`);
  for (const name of ['search.html', 'parts.html']) assert.ok(pages.includes(name), name);
});

test('every link leads to a file of the site, every fragment to a place', () => {
  const wrong = said(({ links }) => links.filter((link) => {
    const url = new URL(link);
    if (['http:', 'https:', 'mailto:'].includes(url.protocol)) return false;
    const fragment = decodeURIComponent(url.hash.slice(1));
    url.hash = '';
    const file = fileURLToPath(url);
    const target = relative(site, file);
    if (target.startsWith('..') || !existsSync(file)) return true;
    return fragment !== '' && seen[target] && !seen[target].ids.includes(fragment);
  }));
  assert.deepEqual(wrong, []);
  assert.ok(Object.values(seen).every(({ links }) => links.length > 0));
});

test('every page is reached from the start page', () => {
  const reached = new Set();
  const next = ['index.html'];
  while (next.length) {
    const name = next.pop();
    if (reached.has(name) || !seen[name]) continue;
    reached.add(name);
    for (const link of seen[name].links.filter((link) => link.startsWith('file:')))
      next.push(relative(site, fileURLToPath(link.split('#')[0])));
  }
  assert.deepEqual(pages.filter((name) => !reached.has(name)), []);
});

test('no barrier by WCAG 2.2 A and AA, in light, dark and print', () => {
  assert.deepEqual(said(({ barriers }) => barriers ?? []), []);
  const folders = new Set(pages.map(dirname));
  const looked = Object.keys(seen).filter((name) => seen[name].barriers);
  assert.deepEqual(new Set(looked.map(dirname)), folders);
});

for (const width of widths)
  test(`no page scrolls sideways at ${width} px`, () => {
    assert.deepEqual(said(({ over }) => (over[width] > 0 ? [`${over[width]} px`] : [])), []);
  });

test('links in navigation and lists are large enough for a glove', () => {
  assert.deepEqual(said(({ small }) => small), []);
});

test('no page complains, and none fetches anything from elsewhere', () => {
  assert.deepEqual(said(({ loud }) => loud), []);
});

test('the HTML is valid', async () => {
  const validator = new HtmlValidate(new StaticConfigLoader(rules));
  for (const name of pages) {
    const report = await validator.validateString(source(name), name);
    const wrong = report.results
      .flatMap((result) => result.messages)
      .map((m) => `${m.line}:${m.column} ${m.ruleId}: ${m.message}`);
    assert.deepEqual(wrong, [], name);
  }
});

test('the policy lets the page\'s own style in, and scripts only where files of the site are named', () => {
  for (const [name, { policy, scripts, foreign, styled, ran, refused }] of Object.entries(seen)) {
    assert.match(policy, /^default-src 'none'; style-src ('self'|'sha256-[^']+'); /, name);
    assert.doesNotMatch(policy, /unsafe|\*|data:|http/, name);
    assert.equal(policy.includes("script-src 'self'"), scripts.length > 0, name);
    for (const script of scripts)
      assert.match(script, /^<script src="(\.\.\/)?assets\/[a-z-]+\.js" defer(="")?><\/script>$/, name);
    assert.deepEqual(foreign, [], name);
    assert.equal(styled, 'tabular-nums', `${name} is styled`);
    assert.equal(ran, false, `${name} ran a script that stood in the page`);
    assert.equal(refused.length, 1, `${name}: ${refused}`);
    assert.match(refused[0], /Content Security Policy/, name);
  }
});

test('all scripts together stay below 40 kB', () => {
  const scripts = files.filter((name) => name.endsWith('.js'));
  const bytes = scripts.reduce((sum, name) => sum + statSync(join(site, name)).size, 0);
  assert.ok(scripts.length > 0 && bytes < 40_000, `${bytes}`);
});

test('a packet is one file, and its style is the one its policy names', () => {
  for (const name of of('packets')) {
    const html = source(name);
    const styles = [...html.matchAll(/<style>([^]*?)<\/style>/g)].map((match) => match[1]);
    assert.equal(styles.length, 1, name);
    const hash = createHash('sha256').update(styles[0]).digest('base64');
    assert.ok(html.includes(`style-src 'sha256-${hash}'`), `${name}: ${hash}`);
    assert.doesNotMatch(html, /<link|<img|src=/, name);
  }
});

test('the lead opens tonight\'s job from the start page and prints its packet and tags', async () => {
  const { page, loud, close } = await open('index.html');
  const folder = mkdtempSync(join(tmpdir(), 'lead-'));
  try {
    const card = page.locator('.job').first();
    const id = await card.locator('h3').innerText();
    await card.locator('h3 a').click();
    await soon.match(() => page.locator('h1').innerText(), new RegExp(id));
    const job = page.url();
    for (const kind of ['packets', 'tags']) {
      await page.locator(`.actions a[href*="${kind}/"]`).first().click();
      await page.waitForURL(`**/${kind}/**`);
      const pdf = join(folder, `${kind}.pdf`);
      await page.pdf({ path: pdf, format: 'A4' });
      assert.ok(text(pdf).includes(id), `${kind} of ${id}`);
      await page.goto(job);
    }
    assert.deepEqual(loud, []);
  } finally {
    rmSync(folder, { recursive: true });
    await close();
  }
});

test('pages of the site print inside the margins', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'print-'));
  try {
    for (const name of ['index.html', 'search.html', 'parts.html', of('machines')[0], of('records')[0], of('jobs')[0]])
      for (const format of ['A4', 'Letter']) {
        const { page, close } = await open(name);
        const pdf = join(folder, 'page.pdf');
        await page.pdf({ path: pdf, format });
        assertInside(pdf, name);
        await close();
      }
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('the auditor checks a record with the commands on its page', async () => {
  const { page, close } = await open('index.html');
  try {
    await page.locator('nav a[href="records/index.html"]').click();
    await page.locator('.list th a').first().click();
    const record = relative(site, fileURLToPath(page.url())).replace(/\.html$/, '');
    const folder = join(site, record);
    const listed = await page.locator('#evidence ~ section a').allInnerTexts();
    for (const name of listed) assert.ok(readdirSync(folder).includes(name), name);
    const digests = await page.locator('.proof .digest').allInnerTexts();
    const lines = (await page.locator('pre').innerText()).trim().split('\n');
    const commands = lines.filter((line) => line !== '');
    assert.equal(commands.length, 3 * digests.length);
    let before = '0'.repeat(64);
    digests.forEach((digest, index) => {
      const [sum, verify, chain] = commands
        .slice(3 * index, 3 * index + 3)
        .map((line) => execFileSync('sh', ['-c', line], { cwd: folder, encoding: 'utf8' }));
      assert.equal(sum.slice(0, 64), digest);
      assert.match(verify, /^Good "signoff@/);
      const name = commands[3 * index].split(' ').at(-1);
      assert.equal(JSON.parse(readFileSync(join(folder, name), 'utf8')).prev, before);
      before = chain.slice(0, 64);
    });
  } finally {
    await close();
  }
});

test('by keyboard alone: past the navigation, along the links, and always seen', async () => {
  const { page, close } = await open('index.html');
  const here = () => page.evaluate(() => {
    const { outlineStyle, outlineWidth } = getComputedStyle(document.activeElement);
    return {
      href: document.activeElement.getAttribute('href'),
      seen: outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2,
      left: document.activeElement.getBoundingClientRect().left,
    };
  });
  try {
    await page.keyboard.press('Tab');
    const skip = await here();
    assert.ok(skip.href === '#main' && skip.left >= 0, 'the skip link comes first and is seen');
    const order = [];
    for (let press = 0; press < 6; press += 1) {
      await page.keyboard.press('Tab');
      const link = await here();
      assert.ok(link.seen, `${link.href} shows where one is`);
      order.push(link.href);
    }
    const wanted = ['index', 'jobs/index', 'machines/index', 'procedures/index', 'records/index', 'search'];
    assert.deepEqual(order, wanted.map((name) => `${name}.html`));
    await page.goto(page.url().split('#')[0]);
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    const first = await here();
    const inside = await page.evaluate(() => document.querySelector('main').contains(document.activeElement));
    assert.ok(inside && first.seen, `${first.href} is the first link of the text`);
    while (!(await here()).href?.startsWith('packets/')) await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.waitForURL('**/packets/**');
  } finally {
    await close();
  }
});

test('search hides what does not match, says how many are left, and folds marks', async () => {
  const { page, loud, close } = await open('search.html');
  const left = () => page.locator('.index li:visible').count();
  try {
    const all = await left();
    const job = (await page.locator('.group').last().locator('li a').first().innerText()).trim();
    await page.getByRole('searchbox').fill(job.toLowerCase());
    const some = await left();
    assert.ok(some > 0 && some < all, `${some} of ${all} for ${job}`);
    await soon.match(() => page.getByRole('status').innerText(), new RegExp(`^${some} `));
    const first = (await page.locator('.index li').nth(8).innerText()).split(/\s+/);
    const marked = first[0].normalize('NFD').replace(/[aeiou]/i, (letter) => `${letter}\u0301`);
    await page.getByRole('searchbox').fill(`  ${marked.toUpperCase()} ${first[1]} `);
    await soon.ok(async () => (await left()) > 0, `${marked} ${first[1]}`);
    await page.getByRole('searchbox').fill('zzzz');
    await soon.equal(() => left(), 0);
    await soon.equal(() => page.locator('.group:visible').count(), 0);
    await soon.notEqual(() => page.getByRole('status').innerText(), '');
    await page.getByRole('searchbox').fill('');
    await soon.equal(() => left(), all);
    assert.deepEqual(loud, []);
  } finally {
    await close();
  }
});

test('without script the whole list is there, and no field that does nothing', async () => {
  const { page, close } = await open('search.html', { javaScriptEnabled: false });
  await soon.equal(() => page.locator('#find').isVisible(), false);
  const listed = await page.locator('.index li').count();
  await soon.equal(() => page.locator('.index li:visible').count(), listed);
  assert.ok(statSync(join(site, 'search.html')).size < 300_000);
  const links = new Set(seen['search.html'].links.map((link) => link.split('#')[0]));
  const lists = ['jobs', 'machines', 'procedures', 'records', 'placards', 'packets'];
  for (const name of lists.flatMap(of))
    if (!seen[name].links.includes('')) assert.ok([...links].some((link) => link.endsWith(name.replaceAll(sep, '/'))), name);
  await close();
});
