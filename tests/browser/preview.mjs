// A preview in a browser: pages follow each save, at the step that was edited; a broken file is named
// on the page until it is mended; nobody else's page can read it; nothing stays behind.
//
// Works on a small plant of its own. BIN=<program> names another witnessmark than target/debug's.

import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import {
  cpSync, mkdtempSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { after, before, test } from 'node:test';

import { chromium } from 'playwright-core';

import { soon } from './soon.mjs';

const root = resolve(import.meta.dirname, '../..');
const program = resolve(process.env.BIN ?? join(root, 'target/debug/witnessmark'));
const axe = readFileSync(join(import.meta.dirname, 'node_modules/axe-core/axe.min.js'), 'utf8');

const scratch = mkdtempSync(join(tmpdir(), 'preview-'));
const plant = (file) => join(scratch, 'plant', file);
let server;
let address;
let browser;

before(async () => {
  cpSync(join(root, 'tests/it/small-plant'), join(scratch, 'plant'), { recursive: true });
  server = spawn(program, ['preview', 'plant'], { cwd: scratch, env: { ...process.env, LC_ALL: 'C' } });
  let said = '';
  for await (const piece of server.stdout) {
    said += piece;
    address = said.match(/http:\/\/[^/]+/)?.[0];
    if (address) break;
  }
  browser = await chromium.launch({
    executablePath: process.env.BROWSER ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking',
      '--disable-component-update', '--disable-sync', '--host-resolver-rules=MAP evil.example 127.0.0.1',
    ],
  });
});
after(async () => {
  await browser?.close();
  server?.kill('SIGKILL');
  rmSync(scratch, { recursive: true });
});

/** Replaces text that stands in a file of the plant exactly once. */
function edit(file, from, to) {
  const text = readFileSync(plant(file), 'utf8');
  assert.equal(text.split(from).length, 2, `${from} in ${file}`);
  writeFileSync(plant(file), text.replace(from, to));
}

/** Opens a page; `loud` collects what it complains about and what it fetches from elsewhere. */
async function open(path) {
  const context = await browser.newContext({ viewport: { width: 1000, height: 700 } });
  const page = await context.newPage();
  const loud = [];
  page.on('console', (message) => loud.push(`console: ${message.text()}`));
  page.on('pageerror', (error) => loud.push(`error: ${error.message}`));
  page.on('request', (request) => {
    if (!request.url().startsWith(`${address}/`)) loud.push(`outside: ${request.url()}`);
  });
  await page.goto(`${address}/${path}`);
  return { page, loud, close: () => context.close() };
}

/** How far a place of the page is below the upper edge of the window. */
const topOf = (page, selector) => page.locator(selector).evaluate((one) => one.getBoundingClientRect().top);

async function barriers(page, name) {
  // The page's policy binds what is added to it, and not what a tool evaluates.
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => globalThis.axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa'] }));
  assert.deepEqual(violations.map((one) => `${one.id}: ${one.nodes[0].html}`), [], name);
}

test('an edited step shows itself on the open page', async () => {
  const { page, loud, close } = await open('packets/J-1.html');
  edit('instructions/first-piece.md', 'Run the line at its lowest speed.', 'Shout three times.');
  await page.getByText('Shout three times.').waitFor();
  const at = await page.evaluate(() => location.hash);
  assert.match(at, /^#step-\d+$/);
  await soon.match(() => page.locator(`section:has(${at})`).innerText(), /Shout three times/);
  await page.waitForFunction((id) => {
    const { top } = document.querySelector(id).getBoundingClientRect();
    return top >= 0 && top < innerHeight / 2;
  }, at);
  await soon.equal(() => page.locator('.preview').count(), 0, 'nothing is wrong, and nothing is said');

  // Where no step differs the page stays where it is.
  await page.evaluate(() => scrollTo(0, 300));
  await page.waitForFunction(() => scrollY === 300);
  edit('people.yaml', 'name: Lead Two', 'name: Lead Two Half');
  await page.getByText('Lead Two Half').first().waitFor();
  await page.waitForFunction(() => scrollY > 200 && scrollY < 400);
  assert.deepEqual(loud, []);
  await close();
});

test('the page of a procedure and the page of a tablet go to the step as well', async () => {
  for (const path of ['procedures/first-piece.html', 'steps/J-1.html']) {
    const { page, loud, close } = await open(path);
    const word = `Whistle ${path.length} times.`;
    const text = readFileSync(plant('instructions/first-piece.md'), 'utf8');
    writeFileSync(plant('instructions/first-piece.md'), text.replace('If the line jams', `${word} If the line jams`));
    await page.waitForFunction((word) => document.body.textContent.includes(word), word);
    await page.waitForFunction(() => location.hash.startsWith('#step-'));
    await soon.ok(() => page.getByText(word).first().isVisible(), path);
    assert.deepEqual(loud, [], path);
    await close();
  }
});

test('a broken file is named on every page until it is mended', async () => {
  const { page, loud, close } = await open('packets/J-1.html');
  const kept = await page.locator('main').innerText();
  const good = readFileSync(plant('recipes/large-pouch.yaml'), 'utf8');
  edit('recipes/large-pouch.yaml', 'fin: 5 mm', 'fin: 5 mmm');
  const bar = page.locator('.preview.old');
  await bar.waitFor();
  await soon.match(() => bar.innerText(), /1 error[\s\S]*recipes\/large-pouch\.yaml:\d+:\d+/);
  await soon.equal(() => page.locator('main').innerText(), kept, 'the last good page stays');
  const top = await topOf(page, '.preview');
  assert.ok(top >= 0 && top < 100, `the bar stands ${top} px below the edge`);
  await barriers(page, 'a page with the bar');

  const other = await page.context().newPage();
  await other.goto(`${address}/machines/line-1.html`);
  await other.locator('.preview.old a').click();
  await soon.match(() => other.locator('pre').innerText(), /error\[bad-quantity\][\s\S]*\^\^\^/);
  await barriers(other, 'all findings');

  // Written aside and put in its place, as some editors do.
  writeFileSync(plant('recipes/.aside'), good);
  renameSync(plant('recipes/.aside'), plant('recipes/large-pouch.yaml'));
  await bar.waitFor({ state: 'detached' });
  await other.getByText('Nothing was found.').waitFor();
  assert.deepEqual(loud, []);
  await close();
});

test('a page of another site cannot read it', async () => {
  const port = new URL(address).port;
  const context = await browser.newContext();
  const page = await context.newPage();
  // A name that was made to lead to this machine.
  const answer = await page.goto(`http://evil.example:${port}/packets/J-1.html`);
  assert.equal(answer.status(), 421);
  await soon.doesNotMatch(() => page.content(), /Large pouch/);
  // And a page that asks for it from its own place.
  const read = await page.evaluate((url) => fetch(url).then((got) => got.text(), () => 'refused'), `${address}/index.html`);
  assert.equal(read, 'refused');
  await context.close();
  for (const path of ['/..%2fplant.yaml', '/assets/..%2f..%2fplant.yaml', '/plant.yaml']) {
    assert.equal((await fetch(address + path)).status, 404, path);
  }
});

test('it ends on an interrupt, its port free and nothing left', async () => {
  const ended = new Promise((done) => server.once('exit', done));
  server.kill('SIGINT');
  await ended;
  await assert.rejects(fetch(address));
  assert.deepEqual(readdirSync(scratch), ['plant']);
});
