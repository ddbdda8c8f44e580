// A plant whose every text wants to do harm: its pages stay text, stand still and fit a telephone.
//
// BIN=<witnessmark> SITE=<any site> node --test hostile.mjs

import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { after, test } from 'node:test';
import { pathToFileURL } from 'node:url';

import { browser } from './tools.mjs';

const root = resolve(import.meta.dirname, '../..');
const program = resolve(process.env.BIN ?? join(root, 'target/debug/witnessmark'));
const scratch = mkdtempSync(join(tmpdir(), 'hostile-'));
after(() => rmSync(scratch, { recursive: true }));

/** Markup, a text that runs backwards, an emoji, marks upon marks, and a word without an end. */
const hostile =
  '<script>window.ran=1</script>"><img src=x onerror=window.ran=1> \u202Egnp.exe \u2066x 🦺 ' +
  `Z\u0335\u0322\u0349a\u0301 ${'W'.repeat(300)}`;

const keys =
  'name|location|datum|guard|interlock|device|place|safe|lock|stored|relieve|prove|author|reason|' +
  'source|order|shift|note|item|enforced_by|inspector';

/** Every free text of a YAML file as the hostile one, quoted as JSON is. */
function poisoned(yaml) {
  const put = (_, head) => `${head}${JSON.stringify(hostile)}`;
  return yaml
    .split('\n')
    .map((line) => line.replace(new RegExp(`^(\\s*(?:- )?(?:${keys}): )(?![[{>|]).+$`), put))
    .map((line) => line.replace(new RegExp(`([{,] ?(?:${keys}): )("[^"]*"|[^,}"]+)`, 'g'), put))
    .join('\n');
}

function publish() {
  const plant = join(scratch, 'plant');
  cpSync(join(root, 'tests/it/small-plant'), plant, { recursive: true });
  for (const name of readdirSync(plant, { recursive: true }).filter((one) => one.endsWith('.yaml')))
    writeFileSync(join(plant, name), poisoned(readFileSync(join(plant, name), 'utf8')));
  const out = join(scratch, 'site');
  // 1: all of its instruments have the same name, of which the check warns.
  const { status, stderr } = spawnSync(program, ['publish', plant, '--out', out], { encoding: 'utf8' });
  assert.equal(status, 1, stderr);
  return out;
}

test('every page of a hostile plant stays text and does not scroll sideways', async () => {
  const out = publish();
  const pages = readdirSync(out, { recursive: true }).filter((name) => name.endsWith('.html'));
  const context = await browser.newContext({ viewport: { width: 360, height: 800 } });
  const shows = new Set();
  const wide = [];
  for (const name of pages) {
    const page = await context.newPage();
    const loud = [];
    page.on('dialog', (dialog) => loud.push(dialog.message()));
    page.on('console', (message) => loud.push(message.text()));
    page.on('request', (request) => {
      if (!request.url().startsWith(pathToFileURL(out).href)) loud.push(request.url());
    });
    await page.goto(pathToFileURL(join(out, name)).href);
    const { over, ran, images, text } = await page.evaluate(() => ({
      over: document.documentElement.scrollWidth - innerWidth,
      ran: 'ran' in window,
      images: document.querySelectorAll('img').length,
      text: document.body.textContent,
    }));
    if (over > 0) wide.push(`${name}: ${over} px`);
    assert.equal(ran, false, `${name} ran a script`);
    assert.equal(images, 0, `${name} has an image`);
    assert.deepEqual(loud, [], name);
    if (text.includes(hostile)) shows.add(name.split(/[/\\]/)[0]);
    await page.close();
  }
  await context.close();
  assert.deepEqual(wide, []);
  for (const kind of ['index.html', 'search.html', 'jobs', 'machines', 'placards', 'tags', 'packets'])
    assert.ok(shows.has(kind), `the hostile text stands on ${kind}`);
});
