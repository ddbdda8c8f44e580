// The tablet's page, as a technician meets it: pick a name, read, measure, tick, sign, save, in gloves,
// on a device that is put down, fills up or has its clock wrong.
//
// SITE=<folder> node --test tablet.mjs. BIN names the program, for plants that the demo has not.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { after, test } from 'node:test';
import { pathToFileURL } from 'node:url';

import { chromium } from 'playwright-core';

import { soon } from './soon.mjs';
import { browser, of, site } from './tools.mjs';

const axe = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
const bin = resolve(process.env.BIN ?? '../../target/debug/witnessmark');
const NAME = join('steps', 'SM-1042.html');
const ZERO = 'stored-energy.prove-zero-at-each-source';
const HOLDER = 'knives.move-each-holder-to-its-position';
const BUNTA = 'b.tanaka@saltmarsh.example';
const EDDA = 'e.whitcombe@saltmarsh.example';

const folders = [];
const scratch = () => {
  folders.push(mkdtempSync(join(tmpdir(), 'tablet-')));
  return folders.at(-1);
};
after(() => folders.forEach((folder) => rmSync(folder, { recursive: true })));

/** Publishes the small plant with some of its files changed; gives the address of its tablet page. */
function published(changes) {
  const folder = scratch();
  cpSync(resolve('../it/small-plant'), join(folder, 'plant'), { recursive: true });
  for (const [file, change] of changes) {
    const path = join(folder, 'plant', file);
    const text = readFileSync(path, 'utf8');
    const changed = change(text);
    assert.notEqual(changed, text, file);
    writeFileSync(path, changed);
  }
  execFileSync(bin, ['publish', join(folder, 'plant'), '--out', join(folder, 'site')], { stdio: 'pipe' });
  return pathToFileURL(join(folder, 'site', 'steps', 'J-1.html')).href;
}

const address = pathToFileURL(join(site, NAME)).href;
const blank = (page, id) => page.locator(`[data-blank="${id}"]`);
const fill = (page, id) => page.locator('.fill', { has: blank(page, id) });
const verdict = (page, id) => fill(page, id).locator('.verdict').innerText();
const show = (page, step) => page.evaluate((id) => {
  location.hash = document.querySelector(`[data-step="${id}"]`).id;
}, step);
const sign = (page, step, row, what) =>
  page.locator(`[data-step="${step}"] [data-sign="${what}"]${row ? `[data-row="${row}"]` : ''}`);

async function measure(page, id, value) {
  await blank(page, id).fill(value);
  await blank(page, id).blur();
}

/** What the page saves, as it lies on disk. */
async function saved(page, button = page.locator('#save')) {
  const [download] = await Promise.all([page.waitForEvent('download'), button.click()]);
  const path = join(scratch(), download.suggestedFilename());
  await download.saveAs(path);
  return { path, file: JSON.parse(readFileSync(path, 'utf8')) };
}

/** A page of its own browser; what it complains about fails the test. */
async function fresh(options = {}, before = () => {}, url = address) {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  const loud = [];
  page.on('console', (message) => loud.push(message.text()));
  page.on('pageerror', (error) => loud.push(error.message));
  await before(page, context);
  await page.goto(url);
  return { page, context, loud, close: () => context.close() };
}

test('every packet has its tablet page, and the scripts together are small', () => {
  assert.equal(of('steps').length, of('packets').length);
  const scripts = readdirSync(join(site, 'assets')).filter((name) => name.endsWith('.js'));
  const size = (name) => readFileSync(join(site, 'assets', name)).length;
  assert.ok(size('steps.js') <= 23 * 1024, `steps.js has ${size('steps.js')} bytes`);
  const all = scripts.reduce((sum, name) => sum + size(name), 0);
  assert.ok(all < 40_000, `${scripts}: ${all} bytes`);
});

test('without script every step can be read, hazards first, and the page says what does not work', async () => {
  const { page, close } = await fresh({ javaScriptEnabled: false, viewport: { width: 768, height: 1024 } });
  const html = readFileSync(join(site, NAME), 'utf8');
  const count = html.match(/class="step screen"/g).length;
  assert.ok(count > 20);
  for (const step of await page.locator('.step').all()) await soon.ok(() => step.isVisible());
  await soon.ok(() => page.locator('noscript p').isVisible());
  for (const hidden of ['#person', '#save', '#notices', '.way'])
    await soon.ok(async () => !(await page.locator(hidden).isVisible()), hidden);
  await soon.equal(() => page.locator('.step :enabled').count(), 0, 'nothing can be typed that is not kept');
  const places = html.split('class="step screen"').slice(1)
    .map((step) => [step.lastIndexOf('class="hazard '), step.indexOf('class="step-text"')]);
  for (const [hazard, text] of places) assert.ok(hazard < text || text < 0);
  await close();
});

test('a technician fills in, the tablet is closed, and all is there again; the file says it', async () => {
  const profile = scratch();
  const start = () => chromium.launchPersistentContext(profile, {
    executablePath: process.env.BROWSER ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu'], timezoneId: 'Europe/Berlin',
    viewport: { width: 800, height: 1100 }, acceptDownloads: true,
  });
  let context = await start();
  let page = await context.newPage();
  await page.goto(address);
  await show(page, ZERO);

  // Nobody is picked: what is typed is judged, stays in its field and is not kept.
  await measure(page, `${ZERO}/mains`, '0');
  await soon.match(() => verdict(page, `${ZERO}/mains`), /✓ Within.*say first who you are/);
  await page.locator('#person').selectOption(BUNTA);
  await soon.equal(() => verdict(page, `${ZERO}/mains`), '✓ Within the limits.');

  // A zero that is not there stops the row until it is measured again.
  await measure(page, `${ZERO}/coder`, '5');
  const said = await verdict(page, `${ZERO}/coder`);
  assert.match(said, /✗ OUTSIDE the limits\. Outside the limits: Do not reach in\./);
  await soon.ok(() => sign(page, ZERO, 'coder', 'performed').isDisabled());
  await soon.match(() => page.locator(`[data-step="${ZERO}"] .row[data-row="coder"] .stop`).first().innerText(), /zero is not proved.*Nobody may accept/);
  await soon.ok(() => sign(page, ZERO, 'jaw-heat', 'performed').isDisabled(), 'nothing is measured yet');
  await measure(page, `${ZERO}/coder`, '0');
  await soon.match(() => fill(page, `${ZERO}/coder`).locator('.also').innerText(), /Also typed: 5 \(Bunta Tanaka/);
  await sign(page, ZERO, 'coder', 'performed').click();
  await soon.match(() => page.locator(`[data-step="${ZERO}"] .row[data-row="coder"] .given`).first().innerText(), /✓ Bunta Tanaka/);

  // Another reading takes the signature of its row back.
  await measure(page, `${ZERO}/coder`, '0.0');
  await soon.equal(() => sign(page, ZERO, 'coder', 'performed').getAttribute('aria-pressed'), 'false');
  await sign(page, ZERO, 'coder', 'performed').click();

  // Who did it does not check it, who lacks the role does not sign.
  await sign(page, ZERO, 'coder', 'verified').click();
  const refused = page.locator(`[data-step="${ZERO}"] .row[data-row="coder"] .reason`);
  await soon.match(() => refused.nth(1).innerText(), /asks for the role lead/);
  await page.locator('#person').selectOption(EDDA);
  await sign(page, ZERO, 'coder', 'verified').click();
  await soon.equal(() => sign(page, ZERO, 'coder', 'verified').getAttribute('aria-pressed'), 'true');
  await sign(page, ZERO, 'coder', 'performed').click();
  await soon.match(() => refused.nth(0).innerText(), /Only Bunta Tanaka can take this back/);

  // Back to the one before with one tap.
  await page.locator('#recent button', { hasText: 'Bunta' }).click();
  await soon.equal(() => page.locator('#person').inputValue(), BUNTA);
  await page.locator(`[data-step="${ZERO}"] [data-check]`).first().check();

  await show(page, HOLDER);
  await measure(page, `${HOLDER}/holder-7`, '175,30');
  await soon.match(() => verdict(page, `${HOLDER}/holder-7`), /✓ Within/, 'on the limit');
  await soon.equal(() => blank(page, `${HOLDER}/holder-7`).inputValue(), '175,30', 'as typed');
  await measure(page, `${HOLDER}/holder-6`, '105.31');
  await soon.match(() => verdict(page, `${HOLDER}/holder-6`), /✗ OUTSIDE/);
  await measure(page, `${HOLDER}/holder-5`, 'about 35');
  await soon.match(() => verdict(page, `${HOLDER}/holder-5`), /Not a number, not kept/);
  await context.close();

  context = await start();
  page = await context.newPage();
  await page.goto(address);
  await show(page, ZERO);
  await soon.equal(() => page.locator('#person').inputValue(), '', 'who has the tablet now is asked again');
  await soon.equal(() => blank(page, `${ZERO}/mains`).inputValue(), '0');
  await soon.equal(() => blank(page, `${ZERO}/coder`).inputValue(), '0.0');
  await soon.equal(() => sign(page, ZERO, 'coder', 'verified').getAttribute('aria-pressed'), 'true');
  await soon.ok(() => page.locator(`[data-step="${ZERO}"] [data-check]`).first().isChecked());
  await show(page, HOLDER);
  await soon.equal(() => blank(page, `${HOLDER}/holder-7`).inputValue(), '175,30');
  await soon.equal(() => blank(page, `${HOLDER}/holder-5`).inputValue(), '', 'nonsense is not kept');
  await page.evaluate(() => { location.hash = 'list'; });
  await page.locator('#list').waitFor({ state: 'visible' });
  const states = await page.locator('#list [data-state]').allInnerTexts();
  assert.ok(states.includes('reading outside') && states.includes('begun') && states.includes('open'), states.join());
  await page.evaluate(() => { location.hash = 'finish'; });
  await soon.match(() => page.locator('#summary').innerText(), /Steps filled: 0 of \d+\. Still open: 1, 2/);

  const { path, file } = await saved(page);
  assert.match(path, /SM-1042-[0-9a-f]{16}\.json$/);
  const digest = await page.getAttribute('#main', 'data-packet');
  assert.deepEqual(Object.keys(file), ['filled', 'job', 'packet', 'saved', 'clock', 'typed', 'signed']);
  assert.deepEqual([file.filled, file.job, file.packet, file.clock], [1, 'SM-1042', digest, 'ok']);
  const times = file.typed.map((item) => item.at);
  for (const time of [...times, file.saved]) assert.match(time, /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\+0[12]:00$/);
  assert.deepEqual(times, [...times].sort(), 'in the order typed');
  const brief = file.typed.map(({ at, ...item }) => item);
  const row = { step: ZERO, row: 'coder' };
  const reading = (what, value) => ({ is: 'reading', step: ZERO, blank: `${ZERO}/${what}`, value, by: BUNTA });
  assert.deepEqual(brief, [
    reading('mains', '0'), reading('coder', '5'), reading('coder', '0'),
    { is: 'performed', ...row, by: BUNTA },
    reading('coder', '0.0'),
    { is: 'taken-back', ...row, what: 'performed', by: BUNTA },
    { is: 'performed', ...row, by: BUNTA },
    { is: 'verified', ...row, by: EDDA },
    { is: 'tick', step: ZERO, check: 0, on: true, by: BUNTA },
    { is: 'reading', step: HOLDER, blank: `${HOLDER}/holder-7`, value: '175.30', by: BUNTA },
    { is: 'reading', step: HOLDER, blank: `${HOLDER}/holder-6`, value: '105.31', by: BUNTA },
  ]);
  await context.close();
});

test('initials are enough, and are asked for before anything is kept', async () => {
  const { page, loud, close } = await fresh();
  await show(page, ZERO);
  const box = page.locator(`[data-step="${ZERO}"] [data-check]`).first();
  await box.click();
  await soon.ok(async () => !(await box.isChecked()));
  await soon.match(() => page.locator('#ask').innerText(), /say first who you are/);
  await soon.equal(() => page.evaluate(() => document.activeElement.id), 'person');
  await show(page, HOLDER);
  await page.locator('#person').selectOption('initials:');
  await soon.equal(() => page.locator('#ask').innerText(), '');
  await measure(page, `${HOLDER}/holder-7`, '175');
  await soon.match(() => verdict(page, `${HOLDER}/holder-7`), /say first who you are/);
  await page.locator('#initials').fill('Ök');
  await page.locator('#initials').blur();
  await page.evaluate(() => { location.hash = 'finish'; });
  const { file } = await saved(page);
  assert.equal(file.typed[0].by, 'initials:Ök');
  assert.deepEqual(loud, []);
  await close();
});

test('two tabs write beside one another and show what the other took in', async () => {
  const { page, context, loud, close } = await fresh();
  const other = await context.newPage();
  await other.goto(address);
  for (const tab of [page, other]) await show(tab, HOLDER);
  await page.locator('#person').selectOption(BUNTA);
  await other.locator('#person').selectOption(EDDA);
  await measure(page, `${HOLDER}/holder-7`, '175.1');
  await other.waitForFunction((id) => document.querySelector(`[data-blank="${id}"]`).value === '175.1', `${HOLDER}/holder-7`);
  await measure(other, `${HOLDER}/holder-7`, '175.2');
  await measure(page, `${HOLDER}/holder-6`, '105.0');
  const also = fill(page, `${HOLDER}/holder-7`).locator('.also');
  await page.waitForFunction((id) => document.querySelector(`[data-blank="${id}"]`).value === '175.2', `${HOLDER}/holder-7`);
  await soon.match(() => also.innerText(), /Also typed: 175\.1 \(Bunta Tanaka/);
  await page.reload();
  for (const tab of [page, other]) {
    await tab.evaluate(() => { location.hash = 'finish'; });
    const { file } = await saved(tab);
    assert.deepEqual(file.typed.map((item) => item.value), ['175.1', '175.2', '105.0']);
  }
  assert.deepEqual(loud, []);
  await close();
});

for (const [what, broken] of [
  ['full', () => {
    Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };
  }],
  ['refused', () => {
    Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } });
  }],
])
  test(`a store that is ${what} is told at once and loses nothing that is typed`, async () => {
    const { page, loud, close } = await fresh({}, (page) => page.addInitScript(broken));
    await soon.match(() => page.locator('#notices[role="alert"]').innerText(), /cannot keep what you type/);
    await page.locator('#person').selectOption(BUNTA);
    await show(page, HOLDER);
    await measure(page, `${HOLDER}/holder-7`, '175.1');
    await measure(page, `${HOLDER}/holder-6`, '105');
    await soon.equal(() => blank(page, `${HOLDER}/holder-7`).inputValue(), '175.1');
    const { file } = await saved(page, page.locator('#full button'));
    assert.deepEqual(file.typed.map((item) => item.value), ['175.1', '105']);
    assert.deepEqual(loud, []);
    await close();
  });

test('a clock before the packet was issued, or that runs backwards, is told and marks the file', async () => {
  const early = await fresh({}, (page) => page.clock.install({ time: new Date('2001-02-03T04:05:06Z') }));
  await soon.match(() => early.page.locator('#notices').innerText(), /shows 2001-02-03.*earlier than this packet was issued/);
  await early.page.locator('#person').selectOption(BUNTA);
  await show(early.page, HOLDER);
  await measure(early.page, `${HOLDER}/holder-7`, '175.1');
  await early.page.clock.setSystemTime(new Date('2031-01-01T00:00:00Z'));
  await measure(early.page, `${HOLDER}/holder-6`, '105');
  await soon.equal(() => early.page.locator('#clock').innerText(), '', 'the clock is right again');
  await early.page.clock.setSystemTime(new Date('2030-12-31T00:00:00Z'));
  await measure(early.page, `${HOLDER}/holder-6`, '105.1');
  await soon.match(() => early.page.locator('#notices').innerText(), /2030-12-31.*earlier than the last entry \(2031-01-01/);
  await soon.equal(() => blank(early.page, `${HOLDER}/holder-6`).inputValue(), '105.1', 'what was typed last counts');
  await early.page.evaluate(() => { location.hash = 'finish'; });
  const { file } = await saved(early.page);
  assert.equal(file.clock, 'doubtful');
  assert.deepEqual(file.typed.map((item) => [item.value, item.at.slice(0, 4)]), [['175.1', '2001'], ['105', '2031'], ['105.1', '2030']]);
  assert.deepEqual(early.loud, []);
  await early.close();
});

test('notes of another issue are told, saved and only discarded when asked twice', async () => {
  const old = 'a'.repeat(64);
  const { page, loud, close } = await fresh({}, (page) => page.addInitScript((digest) => {
    const item = { is: 'reading', step: 'x.y', blank: 'x.y/z', value: '1', by: 'a', at: '2026-01-01T00:00:00+01:00' };
    if (!sessionStorage.again)
      localStorage.setItem(`witnessmark/signoff@saltmarsh.example/SM-1042/${digest}/1`, JSON.stringify(item));
    sessionStorage.again = 'yes';
  }, old));
  const notice = page.locator('#notices p', { hasText: 'another issue' });
  await soon.match(() => notice.innerText(), /digest aaaaaaaaaaaaaaaa\)/);
  const { file } = await saved(page, notice.locator('button').first());
  assert.deepEqual([file.packet, file.typed[0].blank], [old, 'x.y/z']);
  await page.evaluate(() => { location.hash = 'finish'; });
  assert.deepEqual((await saved(page)).file.typed, [], 'never mixed in');
  page.once('dialog', (dialog) => dialog.dismiss());
  await notice.locator('button').last().click();
  await page.reload();
  await soon.equal(() => notice.count(), 1, 'still there');
  page.once('dialog', (dialog) => dialog.accept());
  await notice.locator('button').last().click();
  await soon.equal(() => notice.count(), 0);
  // The browser may write to its store a little later than the page does.
  await soon.equal(async () => {
    await page.reload();
    return notice.count();
  }, 0);
  assert.deepEqual(loud, []);
  await close();
});

test('the digest of another sheet in the address is told, its own is not', async () => {
  const { page, close } = await fresh({}, undefined, `${address}#${'b'.repeat(64)}`);
  await soon.match(() => page.locator('#notices').innerText(), /another issue of this packet \(digest bbbb/);
  await soon.ok(() => page.locator('#start').isVisible());
  const digest = await page.getAttribute('#main', 'data-packet');
  await page.evaluate((own) => { location.hash = own; }, digest);
  await page.waitForFunction(() => document.querySelector('#notices').innerText === '');
  await close();
});

test('a file is taken back, beside what is here; another issue and a broken file are refused', async () => {
  const one = await fresh();
  await one.page.locator('#person').selectOption(BUNTA);
  await show(one.page, HOLDER);
  await measure(one.page, `${HOLDER}/holder-7`, '175.1');
  await measure(one.page, `${HOLDER}/holder-6`, '105');
  await one.page.evaluate(() => { location.hash = 'finish'; });
  const { path, file } = await saved(one.page);
  await one.close();

  const { page, loud, close } = await fresh();
  await page.locator('#person').selectOption(EDDA);
  await show(page, HOLDER);
  await page.waitForTimeout(1100);
  await measure(page, `${HOLDER}/holder-7`, '175.2');
  await page.evaluate(() => { location.hash = 'finish'; });
  const load = async (text) => {
    const path = join(scratch(), 'f.json');
    writeFileSync(path, typeof text === 'string' ? text : JSON.stringify(text));
    await page.locator('#filed').evaluate((place) => { place.textContent = ''; });
    await page.locator('#load').setInputFiles(path);
    await page.waitForFunction(() => document.querySelector('#filed').textContent);
    return page.locator('#filed').innerText();
  };
  for (const bad of ['', '{', 'null', '[]', '{"filled":1}', { ...file, filled: 2 }, { ...file, typed: [null] },
    { ...file, typed: [{ ...file.typed[0], value: '<b>' }] }, { ...file, typed: [{ ...file.typed[0], is: 'released' }] },
    { ...file, typed: [{ ...file.typed[0], blank: 'no.such/blank' }] }, { ...file, signed: [{ entry: 1 }] }])
    assert.match(await load(bad), /not a file of filled steps/, JSON.stringify(bad));
  for (const other of [{ ...file, packet: 'c'.repeat(64) }, { ...file, job: 'SM-1' }])
    assert.match(await load(other), /another issue or another job/);
  assert.match(await load(readFileSync(path, 'utf8')), /Taken from the file: 2\. Nothing/);
  assert.match(await load(readFileSync(path, 'utf8')), /Taken from the file: 0\./, 'the same once more adds nothing');
  await soon.equal(() => blank(page, `${HOLDER}/holder-6`).inputValue(), '105');
  await soon.equal(() => blank(page, `${HOLDER}/holder-7`).inputValue(), '175.2', 'the later one counts');
  await soon.match(() => fill(page, `${HOLDER}/holder-7`).locator('.also').textContent(), /175\.1 \(Bunta/);
  const values = (await saved(page)).file.typed.map((item) => item.value);
  assert.deepEqual(values, ['175.1', '105', '175.2']);
  assert.deepEqual(loud, []);
  await close();
});

/** Which of two decimals is greater, by their digits. */
function greater(one, two) {
  const [a, b] = [one, two].map((text) => text.split('.'));
  const places = Math.max(a[1]?.length ?? 0, b[1]?.length ?? 0);
  const [x, y] = [a, b].map(([whole, rest = '']) => BigInt(whole.replace('-', '') + rest.padEnd(places, '0')) * (whole.startsWith('-') ? -1n : 1n));
  return x > y;
}

/** The decimal one unit of a far place above or below another. */
function beside(text, places, step) {
  const [whole, rest = ''] = text.replace('-', '').split('.');
  const sign = text.startsWith('-') ? -1n : 1n;
  const units = sign * BigInt(whole + rest.padEnd(places, '0')) + BigInt(step);
  const digits = `${units < 0n ? -units : units}`.padStart(places + 1, '0');
  return `${units < 0n ? '-' : ''}${digits.slice(0, -places)}.${digits.slice(-places)}`;
}

/** Types values and gives what the page says of them. */
const judged = (page, cases) => page.evaluate((cases) => cases.map(([id, value]) => {
  const field = document.querySelector(`[data-blank="${id}"]`);
  field.value = value;
  field.dispatchEvent(new Event('input', { bubbles: true }));
  return field.closest('.fill').dataset.verdict;
}), cases);

const limitsOf = (page) => page.evaluate(() =>
  [...document.querySelectorAll('[data-blank]')].map((field) => ({ ...field.dataset })));

function expected(value, { low, high, guardLow, guardHigh, outerLow, outerHigh }) {
  const inside = (from, to) => !(from && greater(from, value)) && !(to && greater(value, to));
  if (!guardLow && !guardHigh) return inside(low, high) ? 'within' : 'outside';
  if (inside(guardLow, guardHigh)) return 'within';
  return inside(outerLow, outerHigh) ? 'too-close' : 'outside';
}

test('readings at and beside every limit are judged exactly', async () => {
  const plain = await fresh();
  const guarded = await fresh({}, undefined, published([
    ['plant.yaml', (text) => `${text}judging: guarded\n`],
    ['machines/line-1.yaml', (text) => text.replace(/resolution: (\S+ \w+),/g, 'resolution: $1, error_limit: ±$1,')],
  ]));
  let count = 0;
  const seen = new Set();
  for (const { page, close, loud } of [plain, guarded]) {
    for (const limits of await limitsOf(page)) {
      const ends = ['low', 'high', 'guardLow', 'guardHigh', 'outerLow', 'outerHigh'].map((end) => limits[end]).filter(Boolean);
      const values = ends.flatMap((end) => [end, beside(end, 3, 1), beside(end, 3, -1), beside(end, 25, 1), beside(end, 25, -1)]);
      const verdicts = await judged(page, values.map((value) => [limits.blank, value]));
      values.forEach((value, index) => {
        assert.equal(verdicts[index], expected(value, limits), `${limits.blank}: ${value}`);
        seen.add(verdicts[index]);
      });
      count += values.length;
    }
    assert.deepEqual(loud, []);
    await close();
  }
  assert.ok(count > 300, `${count} values`);
  assert.deepEqual([...seen].sort(), ['outside', 'too-close', 'within']);
});

test('numbers are read as people write them, and what may be two numbers is none', async () => {
  const { page, close } = await fresh();
  const id = `${HOLDER}/holder-2`;
  const cases = [
    ['-175', 'within'], ['−175.0', 'within'], [' -175,30 ', 'within'], ['-175.30 mm', 'within'], ['-175.30\u00a0mm', 'within'],
    ['-175.31', 'outside'], ['175', 'outside'], ['-9999999999999999999999999999', 'outside'],
    ['-175,000', ''], ['-1,234.5', ''], ['-1.7e2', ''], ['--175', ''], ['-0175', ''], ['-175.', ''], ['-175 in', ''], ['½', ''],
    ['٥', ''], ['NaN', ''], ['-175 1/2', ''], ['', ''], ['9'.repeat(60), ''],
  ];
  const verdicts = await judged(page, cases.map(([value]) => [id, value]));
  cases.forEach(([value, verdict], index) => assert.equal(verdicts[index], verdict, JSON.stringify(value)));
  await judged(page, [[id, '-175,000']]);
  await soon.match(() => fill(page, id).locator('.verdict').textContent(), /Thousands or decimals\? Not kept\./);
  await close();
});

test('a blank in fractions takes fractions, exactly', async () => {
  const inch = (text) => text.replaceAll('steel-rule\n    source', 'inch-rule\n    source')
    .replaceAll('unit: mm', 'unit: in').replaceAll('±0.5 mm', '±5 mm').replaceAll('±1 mm', '±5 mm');
  const url = published([
    ['machines/line-1.yaml', (text) => text.replace('instruments:\n', 'instruments:\n  inch-rule: { name: Inch rule, resolution: 1/32 in }\n')],
    ['recipes/small-pouch.yaml', inch],
    ['recipes/large-pouch.yaml', (text) => inch(text).replace('flat_width: 40 mm', 'flat_width: 23 mm')],
  ]);
  const { page, close } = await fresh({}, undefined, url);
  const blanks = await limitsOf(page);
  const { blank: id, low, high } = blanks.find((one) => one.marks === '32' && one.low === '2.03125');
  assert.equal(high, '2.37500');
  const cases = [['2 1/32', 'within'], ['2 3/8', 'within'], ['2 7/32 in', 'within'], ['71/32', 'within'], ['2 13/32', 'outside'], ['2', 'outside'],
    ['2.03125', 'within'], ['2 1/3', ''], ['2 33/32', ''], ['2 7/32/4', ''], ['2 0/32', 'outside'], ['1/0', '']];
  const verdicts = await judged(page, cases.map(([value]) => [id, value]));
  cases.forEach(([value, verdict], index) => assert.equal(verdicts[index], verdict, `${value} against ${low}`));
  await page.locator('#person').selectOption('t.one@plant.example');
  const step = await blank(page, id).evaluate((field) => field.closest('.step').dataset.step);
  await show(page, step);
  await measure(page, id, '2 7/32');
  await soon.equal(() => blank(page, id).inputValue(), '2 7/32');
  await page.evaluate(() => { location.hash = 'finish'; });
  assert.equal((await saved(page)).file.typed[0].value, '2.21875');
  await close();
});

test('the keyboard is enough: who, next, a reading, a tick, done', async () => {
  const { page, loud, close } = await fresh({ viewport: { width: 1280, height: 800 } });
  const focused = () => page.evaluate(() => document.activeElement.id || document.activeElement.textContent.trim().slice(0, 40));
  const tabTo = async (wanted) => {
    for (let i = 0; i < 200; i += 1) {
      if ((await focused()) === wanted) return;
      await page.keyboard.press('Tab');
    }
    assert.fail(`${wanted} is not reached by Tab`);
  };
  await tabTo('person');
  await page.keyboard.type('Bun');
  await soon.equal(() => page.locator('#person').inputValue(), BUNTA);
  await tabTo('next');
  await page.keyboard.press('Enter');
  await soon.ok(() => page.locator('#step-1').isVisible());
  await soon.match(() => page.evaluate(() => document.activeElement.id), /^head-1$/, 'focus is on the heading of the step');
  await soon.equal(() => page.locator('.screen:visible').count(), 1, 'one step at a time');
  await page.goBack();
  await soon.ok(() => page.locator('#start').isVisible());
  await page.goForward();
  await tabTo('where');
  await page.keyboard.press('Enter');
  await page.locator('#list').waitFor({ state: 'visible' });
  await show(page, ZERO);
  await page.waitForFunction(() => document.activeElement.id.startsWith('head-'));
  const field = await blank(page, `${ZERO}/coder`).getAttribute('id');
  await tabTo(field);
  await page.keyboard.type('0');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Space');
  await soon.equal(() => sign(page, ZERO, 'coder', 'performed').getAttribute('aria-pressed'), 'true');
  assert.deepEqual(loud, []);
  await close();
});

/** The screens that differ: with an outside reading, a stop, a list with states, the end. */
const SCREENS = ['start', 'step-9', 'step-12', 'step-26', 'list', 'finish'];

async function filledIn(page) {
  await page.locator('#person').selectOption(BUNTA);
  await show(page, ZERO);
  await measure(page, `${ZERO}/mains`, '0');
  await measure(page, `${ZERO}/coder`, '5');
  await measure(page, `${ZERO}/jaw-heat`, 'x');
  await sign(page, ZERO, 'mains', 'performed').click();
  await sign(page, ZERO, 'mains', 'verified').click();
}

for (const colorScheme of ['light', 'dark'])
  test(`no barrier by WCAG 2.2 A and AA, ${colorScheme}`, async () => {
    const { page, close } = await fresh({ colorScheme, bypassCSP: true, viewport: { width: 360, height: 740 } });
    await page.addScriptTag({ path: axe });
    await filledIn(page);
    for (const screen of SCREENS) {
      await page.evaluate((id) => { location.hash = id; }, screen);
      const { violations } = await page.evaluate((set) => window.axe.run(document, { runOnly: set, preload: false }), wcag);
      const found = violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.target).join(', ')}`);
      assert.deepEqual(found, [], screen);
    }
    await close();
  });

for (const width of [360, 768, 1280, 2560])
  test(`large type, large targets, nothing sideways, at ${width} px`, async () => {
    const { page, loud, close } = await fresh({ viewport: { width, height: 800 } });
    await filledIn(page);
    for (const screen of SCREENS) {
      await page.evaluate((id) => { location.hash = id; }, screen);
      const found = await page.evaluate(() => {
        const seen = [...document.querySelectorAll('body *')].filter((part) => part.checkVisibility() && !part.closest('svg, .unseen, .skip'));
        const says = (part) => [...part.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim());
        const small = seen.filter((part) => says(part) && parseFloat(getComputedStyle(part).fontSize) < 18);
        const targets = seen.filter((part) => part.matches('a, button, select, input[type="text"], .ticked, .button'));
        const low = targets.filter((part) => part.getBoundingClientRect().height < 52);
        return {
          over: document.documentElement.scrollWidth - innerWidth,
          small: small.map((part) => part.outerHTML.slice(0, 120)),
          low: low.map((part) => part.outerHTML.slice(0, 120)),
        };
      });
      assert.ok(found.over <= 0, `${screen} is ${found.over} px too wide`);
      assert.deepEqual(found.small, [], `${screen}: type below 18 px`);
      assert.deepEqual(found.low, [], `${screen}: targets below 52 px`);
    }
    assert.deepEqual(loud, []);
    await close();
  });

test('on paper all steps stand, with boxes to write in', async () => {
  const { page, close } = await fresh();
  await page.emulateMedia({ media: 'print' });
  for (const step of await page.locator('.step').all()) await soon.ok(() => step.isVisible());
  for (const hidden of ['.way', '#notices', '#finish', '#list']) await soon.ok(async () => !(await page.locator(hidden).isVisible()), hidden);
  await close();
});

test('texts that want to do harm are texts', async () => {
  const evil = '<img src=x onerror=alert(1)><script>alert(2)<\\/script>{who}$& \\u202egnp.exe';
  const long = 'W'.repeat(200);
  const name = `"${evil} ${long}"`;
  const url = published([
    ['people.yaml', (text) => text.replace('name: Technician One', () => `name: ${name}`)],
    ['jobs/J-1.yaml', (text) => text.replace('order: The first order', () => `order: ${name}`)],
    ['machines/line-1.yaml', (text) => text.replace(/^name: .*$/m, () => `name: ${name}`)],
    ['recipes/large-pouch.yaml', (text) => text.replace('name: Strip width', () => `name: ${name}`)],
  ]);
  const { page, loud, close } = await fresh({ viewport: { width: 360, height: 740 } }, (page) => {
    page.on('dialog', () => assert.fail('a script of the plant ran'));
  }, url);
  await page.locator('#person').selectOption('t.one@plant.example');
  const first = (await limitsOf(page)).find((one) => one.low);
  await show(page, await blank(page, first.blank).evaluate((field) => field.closest('.step').dataset.step));
  await measure(page, first.blank, '<b>1</b>');
  await measure(page, first.blank, '1');
  await measure(page, first.blank, '2');
  const also = await fill(page, first.blank).locator('.also').textContent();
  assert.ok(also.includes('<img src=x onerror=alert(1)>') && also.includes('{who}$&'), also);
  for (const screen of ['start', 'list', 'finish']) {
    await page.evaluate((id) => { location.hash = id; }, screen);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(over <= 0, `${screen} is ${over} px too wide`);
  }
  await soon.equal(() => page.locator('main img, main script, #recent img').count(), 0);
  assert.deepEqual(loud, []);
  await close();
});

test('where the page can sign, what a person typed is handed to the signer and goes into the file', async () => {
  const { page, loud, close } = await fresh({}, (page) => page.addInitScript(() => {
    // The real signer comes after this and must not take its place.
    let key = null;
    const signed = [];
    const signer = {
      available: async () => '',
      keyOf: async () => key,
      make: async (principal) => {
        key = { principal, made: '2026-01-01T00:00:00Z', fingerprint: 'SHA256:abc', line: (namespace) => `${principal} ${namespace}` };
        return key;
      },
      entries: (page, typed, person, signed) => (signed.length ? [] : typed.filter((item) => item.by === person.principal)),
      sign: async (entries) => {
        signed.push(...entries.map((entry) => ({ entry: `${JSON.stringify(entry)}\n`, signature: 'S' })));
      },
      signedOn: async () => [...signed],
    };
    Object.defineProperty(window, 'witnessmarkSign', { get: () => signer, set() {} });
  }));
  await page.locator('#person').selectOption(BUNTA);
  await show(page, HOLDER);
  await measure(page, `${HOLDER}/holder-7`, '175');
  await page.evaluate(() => { location.hash = 'finish'; });
  await page.locator('#make-key').click();
  await page.waitForFunction(() => !document.querySelector('#with-key').hidden);
  await soon.match(() => page.locator('#key-line').innerText(), /^b\.tanaka@saltmarsh\.example signoff@saltmarsh\.example/);
  await soon.match(() => page.locator('#signing-says').innerText(), /fingerprint SHA256:abc/);
  for (const count of [1, 0]) {
    await page.locator('#sign').click();
    await page.waitForFunction((count) => document.querySelector('#signing-says').textContent.includes(`Signed: ${count}.`), count);
  }
  const { file } = await saved(page);
  assert.equal(file.typed.length, 1);
  assert.deepEqual(file.signed.map((one) => [JSON.parse(one.entry).value, one.signature]), [['175', 'S']]);
  assert.deepEqual(loud, []);
  await close();
});
