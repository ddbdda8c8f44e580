// What the browser tests share: a browser, pages opened from disk, and what a printed page must keep.
//
// SITE=<folder> names a published site. Nothing is fetched: pages are opened as files, and a request
// that leaves the folder is collected and fails the test. BROWSER names another Chromium than the
// system's.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve, sep } from 'node:path';
import { after, before } from 'node:test';
import { pathToFileURL } from 'node:url';

import { chromium } from 'playwright-core';

export const site = resolve(process.env.SITE ?? '');
assert.ok(process.env.SITE && existsSync(join(site, 'index.html')), 'SITE names a published site');

export const files = readdirSync(site, { recursive: true }).sort();
export const pages = files.filter((name) => name.endsWith('.html'));
/** Pages of one folder. */
export const of = (folder) => pages.filter((name) => name.startsWith(`${folder}${sep}`));

export let browser;
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

/** Opens a page in a context of its own. */
export async function open(name, options = {}) {
  const context = await browser.newContext(options);
  return { ...(await listened(context, name)), close: () => context.close() };
}

/** Opens a page; `loud` collects what it complains about and what it fetches from elsewhere. */
export async function listened(context, name) {
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
  return { page, loud };
}

/** Runs a check on every page of a list, each with its own fresh context. */
export async function each(names, options, check) {
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

/** Prints pages that hang at a machine, and wants everything inside the margins and legible. */
export async function printed(names, format, check) {
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

/** A text of the program in a language, as its file has it. */
export function textOf(tag, topic, key) {
  const file = resolve(import.meta.dirname, '../../src/language', tag.slice(0, 2), `${topic}.ftl`);
  return readFileSync(file, 'utf8').match(new RegExp(`^${key} = (.*)$`, 'm'))[1];
}

/** The text of a PDF, sheets parted by form feeds. */
export const text = (pdf) => execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8', maxBuffer: 1 << 26 });

/** Every word stands inside the margins; the foot stands in the lower one. */
export function assertInside(pdf, name) {
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
export function assertSizes(pdf, name, least = 8.5) {
  const zoom = 3;
  const xml = execFileSync('pdftohtml', ['-xml', '-stdout', '-i', '-zoom', `${zoom}`, pdf], { maxBuffer: 1 << 26 });
  const sizes = [...`${xml}`.matchAll(/<fontspec [^>]*size="(\d+)"/g)].map((match) => match[1]);
  assert.ok(sizes.length > 0, name);
  assert.ok(Math.min(...sizes) >= Math.floor(least * zoom), `${name}: sizes / ${zoom}: ${sizes}`);
}

/** What the screen says, the paper says too; the paper may break lines elsewhere. */
export function assertAllWords(screen, paper, name) {
  const gaps = /[^\p{L}\p{N}.,±−+]+/u;
  const words = (content) => content.split(gaps).filter((word) => word.length > 3);
  const printed = new Set(words(paper));
  const joined = paper.replace(/\s+/g, '');
  const missing = words(screen).filter((word) => !printed.has(word) && !joined.includes(word));
  assert.deepEqual(missing, [], name);
}
