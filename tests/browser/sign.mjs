// Signing in the browser: a key made there, entries that `ssh-keygen` finds good and `signoff --from`
// takes in, and everything that has to be refused.
//
// Works on a small plant of its own. BIN=<program> names another witnessmark than target/debug's.

import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { after, before, test } from 'node:test';
import { pathToFileURL } from 'node:url';

import { chromium } from 'playwright-core';

import { soon } from './soon.mjs';

const root = resolve(import.meta.dirname, '../..');
const program = resolve(process.env.BIN ?? join(root, 'target/debug/witnessmark'));
const DOER = { principal: 't.one@plant.example', name: 'Technician One', role: 'technician' };
const LEAD = { principal: 'l.two@plant.example', name: 'Lead Two', role: 'lead' };
const NAMESPACE = 'signoff@plant.example';

const scratch = mkdtempSync(join(tmpdir(), 'signing-'));
const at = (...names) => join(scratch, ...names);
let context;

/** Runs the program beside the plant. */
function run(...words) {
  const done = spawnSync(program, words, { cwd: scratch, encoding: 'utf8' });
  return { code: done.status, said: done.stdout + done.stderr };
}

/** The page a tablet opens, as far as signing reads it; its own script is no part of this test. */
function sheet(packet, digest) {
  const attribute = (name, value) => (value == null ? '' : ` data-${name}="${value}"`);
  const blank = (reading) => `<input${attribute('blank', reading.id)}${attribute('unit', reading.unit)}${
    attribute('low', reading.low)}${attribute('high', reading.high)}${
    attribute('instrument', reading.instrument?.id)}>`;
  const sign = (one) => `<button${attribute('sign', one.meaning)}${attribute('row', one.row)}${
    attribute('role', one.role)}>sign</button>`;
  const steps = packet.steps.map((step) => `<section data-step="${step.id}">${
    step.readings.map(blank).join('')}${step.signs.map(sign).join('')}</section>`);
  return `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Sign</title>
    <meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'">
    <script src="assets/sign.js" defer></script></head>
    <body><main data-packet="${digest}">${steps.join('')}</main></body></html>`;
}

const lineOf = (page, person) => page.evaluate(async ([principal, namespace]) => (
  (await window.witnessmarkSign.keyOf(principal)).line(namespace)), [person.principal, NAMESPACE]);

/** Signs on the page what a person typed. */
const signed = (page, facts, typed, person, before) => page.evaluate(
  async ([facts, typed, person, before]) => {
    const { entries, sign } = window.witnessmarkSign;
    return sign(entries(facts, typed, person, before), facts, person.principal);
  },
  [facts, typed, person, before],
);

async function opened(name = 'sign.html') {
  const page = await context.newPage();
  page.on('pageerror', (error) => assert.fail(error));
  await page.goto(pathToFileURL(at('site', name)).href);
  return page;
}

const item = (is, step, person, more = {}) => (
  { is, step, by: person.principal, at: '2026-01-20T06:00:00+00:00', ...more });

/** The file a page saves. */
function save(facts, typed, pairs) {
  const file = { filled: 1, job: facts.job, packet: facts.packet, saved: '2026-01-20T06:00:00+00:00',
    clock: 'ok', typed, signed: pairs };
  writeFileSync(at('filled.json'), JSON.stringify(file));
}

const take = () => run('signoff', 'plant', 'J-1', '--from', 'filled.json');

function refuses(code) {
  const count = readdirSync(at('plant/records/J-1')).length;
  const { code: exit, said } = take();
  assert.ok(exit === 1 && said.includes(`refused[${code}]`), `${exit}: ${said}`);
  assert.equal(readdirSync(at('plant/records/J-1')).length, count, 'nothing was added');
}

/** The system's own tool finds every signature good. */
function verified(pairs) {
  for (const [index, { entry, signature }] of pairs.entries()) {
    const { by, at: time } = JSON.parse(entry);
    const stamp = `${new Date(time).toISOString().slice(0, 19).replace(/[-T:]/g, '')}Z`;
    writeFileSync(at(`${index}.sig`), signature);
    const said = execFileSync('ssh-keygen', ['-Y', 'verify', '-f', at('plant/allowed_signers'), '-I', by,
      '-n', NAMESPACE, '-s', at(`${index}.sig`), `-Overify-time=${stamp}`], { input: entry, encoding: 'utf8' });
    assert.match(said, /Good/);
  }
}

let packet;
let facts;

before(async () => {
  cpSync(join(root, 'tests/it/small-plant'), at('plant'), { recursive: true });
  const machine = at('plant/machines/line-1.yaml');
  writeFileSync(machine, readFileSync(machine, 'utf8').replace('2027-06-30', '2098-12-31'));
  // The first step is signed at the desk: what a browser signs goes on after it.
  execFileSync('ssh-keygen', ['-q', '-t', 'ed25519', '-N', '', '-C', '', '-f', at('desk')]);
  const desk = readFileSync(at('desk.pub'), 'utf8').split(' ').slice(0, 2).join(' ');
  // A year from yesterday: longer than two years is advised against.
  const day = (days) => new Date(Date.now() + days * 864e5).toISOString().slice(0, 10).replaceAll('-', '');
  writeFileSync(at('plant/allowed_signers'), `${DOER.principal} namespaces="${NAMESPACE}",` +
    `valid-after="${day(-1)}Z",valid-before="${day(364)}Z" ${desk.trim()}\n`);
  const { digest } = JSON.parse(run('packet', 'plant', 'J-1', '--out', 'sheet.html', '--json').said);
  const first = ['signoff', 'plant', 'J-1', '--sheet', digest, '--by', DOER.principal, '--key', 'desk'];
  assert.equal(run(...first, '--performed', '1').code, 0);
  const published = run('publish', 'plant', '--out', 'site');
  assert.equal(published.code, 0, published.said);
  packet = JSON.parse(readFileSync(at('plant/records/J-1/packet.json'), 'utf8'));
  const head = JSON.parse(run('audit', 'plant', 'J-1', '--json').said).records[0].head;
  facts = { job: 'J-1', packet: digest, machine: packet.machine.id, namespace: NAMESPACE, seq: 1, prev: head };
  writeFileSync(at('site/sign.html'), sheet(packet, digest));
  context = await chromium.launchPersistentContext(at('profile'), {
    executablePath: process.env.BROWSER ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--no-first-run'],
  });
});

after(async () => {
  await context?.close();
  rmSync(scratch, { recursive: true, force: true });
});

test('a key is made once, stays in the browser, and is told to the lead by one line', async () => {
  const page = await opened();
  await soon.equal(() => page.evaluate(() => window.isSecureContext), true);
  await soon.equal(() => page.evaluate(() => window.witnessmarkSign.available()), '');
  await soon.equal(() => page.evaluate((who) => window.witnessmarkSign.keyOf(who), DOER.principal), null);
  const { fingerprint } = await page.evaluate((who) => window.witnessmarkSign.make(who), DOER.principal);

  // Two windows at once: one makes it, the other is told.
  const other = await opened();
  const make = (who) => window.witnessmarkSign.make(who).then(() => 'made', (error) => error.message);
  const both = await Promise.all([page, other].map((one) => one.evaluate(make, LEAD.principal)));
  assert.deepEqual(both.sort(), ['made', 'there-is-one']);
  await soon.equal(() => page.evaluate(make, DOER.principal), 'there-is-one');

  await page.reload();
  const line = await lineOf(page, DOER);
  assert.match(line, /^t\.one@plant\.example namespaces="signoff@plant\.example",valid-after="\d{14}Z",valid-before="\d{14}Z" ssh-ed25519 \S+ tablet \d{4}-\d\d-\d\d$/);
  writeFileSync(at('made.pub'), line.split(' ').slice(2, 4).join(' '));
  const listed = execFileSync('ssh-keygen', ['-l', '-f', at('made.pub')], { encoding: 'utf8' });
  assert.ok(listed.includes(fingerprint), `${listed} has ${fingerprint}`);

  const secret = await page.evaluate(async (who) => {
    const base = await new Promise((resolve) => {
      const request = indexedDB.open('witnessmark-sign');
      request.onsuccess = () => resolve(request.result);
    });
    const key = await new Promise((resolve) => {
      const request = base.transaction('keys').objectStore('keys').get(who);
      request.onsuccess = () => resolve(request.result.pair.privateKey);
    });
    base.close();
    const out = (form) => crypto.subtle.exportKey(form, key).then(() => 'exported', (error) => error.name);
    return [key.extractable, await out('pkcs8'), await out('jwk'), await out('raw')];
  }, DOER.principal);
  assert.deepEqual(secret, [false, 'InvalidAccessError', 'InvalidAccessError', 'InvalidAccessError']);

  const signers = at('plant/allowed_signers');
  const lines = `${line}\n${await lineOf(page, LEAD)}\n`;
  writeFileSync(signers, readFileSync(signers, 'utf8') + lines);
  const checked = run('check', 'plant');
  assert.equal(checked.code, 0, checked.said);
  await page.close();
  await other.close();
});

test('a shift is signed on the page, found good by ssh-keygen, and taken in as it is', async () => {
  const page = await opened();
  const typed = [];
  let pairs = [];
  const lay = async (person, items) => {
    typed.push(...items);
    pairs = pairs.concat(await signed(page, facts, typed, person, pairs));
  };
  for (const step of packet.steps.slice(1, 16)) {
    const asks = (is) => step.signs.filter((sign) => sign.meaning === is);
    const signs = (is, person) => asks(is).map((sign) => (
      item(is, step.id, person, sign.row ? { row: sign.row } : {})));
    const readings = step.readings.map((reading) => (
      item('reading', step.id, DOER, { blank: reading.id, value: reading.target ?? '0.0' })));
    const done = signs('performed', DOER);
    // Typed in any order, and once wrongly: they are signed in the order of the packet.
    const wrong = readings.slice(0, 1).map((reading) => ({ ...reading, value: '99' }));
    await lay(DOER, [...done, ...wrong, ...readings, item('tick', step.id, DOER, { check: 0, on: true })]);
    if (asks('verified').length) await lay(LEAD, signs('verified', LEAD));
  }
  assert.ok(pairs.length > 25, `${pairs.length}`);
  await soon.deepEqual(() => signed(page, facts, typed, DOER, pairs), [], 'nothing is signed twice');
  verified(pairs);

  const good = JSON.stringify(pairs);
  const changed = (change) => {
    const own = JSON.parse(good);
    change(own);
    save(facts, typed, own);
  };
  changed((own) => { own[1].entry = own[1].entry.replace('Technician One', 'Technician Onf'); });
  refuses('signature-bad');
  changed((own) => own.splice(2, 1));
  refuses('chain-broken');

  const signers = at('plant/allowed_signers');
  const listed = readFileSync(signers, 'utf8');
  changed(() => {});
  writeFileSync(signers, listed.split('\n').filter((line) => !line.startsWith(LEAD.principal)).join('\n'));
  refuses('signer-unlisted');
  writeFileSync(signers, listed.replaceAll(/valid-after="\d{14}Z",valid-before="\d{14}Z"/g,
    'valid-after="20260101000000Z",valid-before="20260102000000Z"'));
  refuses('key-expired');
  writeFileSync(signers, listed);

  const taken = take();
  assert.equal(taken.code, 0, taken.said);
  for (const [index, pair] of pairs.entries()) {
    const file = at('plant/records/J-1', `${`${index + 2}`.padStart(6, '0')}.json`);
    assert.equal(readFileSync(file, 'utf8'), pair.entry);
    assert.equal(readFileSync(`${file}.sig`, 'utf8'), pair.signature);
  }
  const audited = run('audit', 'plant', 'J-1');
  assert.ok(audited.code === 0 && audited.said.includes('0 errors, 0 warnings'), audited.said);
  const again = take();
  assert.ok(again.code === 0 && again.said.includes('nothing was added'), again.said);
  await page.close();
});

test('what follows another head, another purpose or another clock is refused', async () => {
  const page = await opened();
  const next = item('performed', packet.steps[16].id, DOER);
  const head = JSON.parse(run('audit', 'plant', 'J-1', '--json').said).records[0];
  const now = { ...facts, seq: head.count, prev: head.head };
  const forget = (own) => page.evaluate((own) => window.witnessmarkSign.forget(own), own);

  await forget(facts);
  save(facts, [next], await signed(page, facts, [next], DOER, []));
  refuses('record-moved-on');

  const purpose = { ...now, namespace: 'file@plant.example' };
  save(now, [next], await signed(page, purpose, [next], DOER, []));
  refuses('signature-namespace');

  await forget(now);
  await page.evaluate(() => {
    const Real = Date;
    window.Date = class extends Real {
      constructor(...given) { super(...(given.length ? given : [Real.now() + 3600e3])); }
    };
  });
  save(now, [next], await signed(page, now, [next], DOER, []));
  refuses('time-future');
  await page.reload();

  await forget(now);
  save(now, [next], await signed(page, now, [next], DOER, []));
  const taken = take();
  assert.equal(taken.code, 0, taken.said);
  await page.close();
});

test('two windows of one page do not sign one after the other has', async () => {
  const [page, other] = [await opened(), await opened()];
  const own = { ...facts, seq: 90, prev: '9'.repeat(64) };
  const typed = packet.steps.slice(0, 3).map((step) => item('performed', step.id, DOER));
  const first = await signed(page, own, typed.slice(0, 1), DOER, []);
  const outcome = await other.evaluate(async ([own, typed, person]) => {
    const { entries, sign, signedOn } = window.witnessmarkSign;
    try {
      await sign(entries(own, typed, person, []), own, person.principal);
      return 'signed';
    } catch (error) {
      return [error.message, await signedOn(own)];
    }
  }, [own, typed.slice(0, 2), DOER]);
  assert.deepEqual(outcome, ['signed-elsewhere', first]);
  // With what the first has signed the second goes on.
  const more = await signed(other, own, typed.slice(0, 2), DOER, first);
  assert.equal(JSON.parse(more[0].entry).seq, 92);
  // Both at the same moment: one signs, the other is told, and the chain has no fork.
  const before = [...first, ...more];
  const race = ([own, typed, person, before]) => {
    const { entries, sign } = window.witnessmarkSign;
    return sign(entries(own, typed, person, before), own, person.principal)
      .then(() => 'signed', (error) => error.message);
  };
  const both = await Promise.all([page, other].map((one) => one.evaluate(race, [own, typed, DOER, before])));
  assert.deepEqual(both.sort(), ['signed', 'signed-elsewhere']);
  await page.close();
  await other.close();
});

test('entries are judged exactly, and what the desk has to read is left to it', async () => {
  const page = await opened();
  const plain = { blank: 's/a', unit: 'mm', low: '-0.30', high: '9007199254740993.1', instrument: 'rule' };
  const guarded = { blank: 's/b', unit: '', low: '1', high: '9', guardLow: '2', guardHigh: '8', outerLow: '0', outerHigh: '10' };
  const open = { blank: 's/c', unit: 'V', low: '', high: '0' };
  const steps = [{ step: 's', blanks: [plain, guarded, open], signs: [
    { sign: 'performed', role: 'electrician' }, { sign: 'performed', role: 'technician', row: 'r' }] }];
  const judge = (blank, value) => page.evaluate(([facts, typed, person]) => (
    window.witnessmarkSign.entries(facts, typed, person, []).map((entry) => entry.reading.verdict).join()),
  [{ ...facts, steps }, [item('reading', 's', DOER, { blank, value })], DOER]);
  for (const [blank, value, expected] of [
    ['s/a', '-0.3', 'within'], ['s/a', '-0.300', 'within'], ['s/a', '-0.3001', 'outside'],
    ['s/a', '9007199254740993.1', 'within'], ['s/a', '9007199254740993.10001', 'outside'],
    ['s/b', '2', 'within'], ['s/b', '1.99', 'too-close'], ['s/b', '8.0', 'within'],
    ['s/b', '8.1', 'too-close'], ['s/b', '10', 'too-close'], ['s/b', '-0.1', 'outside'], ['s/b', '10.01', 'outside'],
    ['s/c', '0', 'within'], ['s/c', '-0', 'within'], ['s/c', '0.1', 'outside'], ['s/c', '-4', 'within'],
    ['s/a', '2 7/32', ''], ['s/a', '1,5', ''], ['s/a', '1e3', ''], ['s/a', '.5', ''], ['s/a', `${'1'.repeat(32)}`, ''],
    ['s/none', '1', ''],
  ]) await soon.equal(() => judge(blank, value), expected, `${blank} ${value}`);

  const made = (typed, person = DOER) => page.evaluate(([facts, typed, person]) => (
    window.witnessmarkSign.entries(facts, typed, person, [])), [{ ...facts, steps }, typed, person]);
  const [reading, done] = await made([
    item('performed', 's', DOER, { row: 'r' }),
    item('reading', 's', LEAD, { blank: 's/a', value: '1' }),
    item('reading', 's', DOER, { blank: 's/c', value: '0.0' }),
  ]);
  assert.deepEqual(reading.reading, { blank: 's/c', value: '0.0', unit: 'V', verdict: 'within', high: '0' });
  assert.deepEqual([done.kind, done.row, done.role, done.seq], ['performed', 'r', 'technician', 3]);
  // The later counts, whoever typed it; what was taken back is not signed.
  const over = item('reading', 's', LEAD, { blank: 's/c', value: '7' });
  const back = item('taken-back', 's', LEAD, { what: 'performed', row: 'r' });
  await soon.deepEqual(() => made([item('reading', 's', DOER, { blank: 's/c', value: '0' }), over]), []);
  await soon.deepEqual(() => made([item('performed', 's', DOER, { row: 'r' }), back]), []);
  await page.close();
});

test('a key that is gone and a browser that cannot are said by a word', async () => {
  const page = await opened();
  await page.evaluate((who) => window.witnessmarkSign.remove(who), DOER.principal);
  const gone = await page.evaluate(async ([facts, typed, person]) => {
    const { keyOf, entries, sign } = window.witnessmarkSign;
    const said = await sign(entries(facts, typed, person, []), facts, person.principal)
      .then(() => 'signed', (error) => error.message);
    return [await keyOf(person.principal), said];
  }, [facts, [item('performed', packet.steps[1].id, DOER)], DOER]);
  assert.deepEqual(gone, [null, 'no-key']);
  await page.close();
  for (const [expected, lack] of [
    ['no-crypto', () => Object.defineProperty(Crypto.prototype, 'subtle', { value: undefined })],
    ['no-ed25519', () => { SubtleCrypto.prototype.generateKey = () => Promise.reject(new Error('unknown')); }],
    ['no-store', () => Object.defineProperty(window, 'indexedDB', { value: undefined })],
    ['no-store', () => { IDBObjectStore.prototype.put = () => { throw new DOMException('full', 'QuotaExceededError'); }; }],
  ]) {
    const lacking = await context.newPage();
    await lacking.addInitScript(lack);
    await lacking.goto(pathToFileURL(at('site/sign.html')).href);
    await soon.equal(() => lacking.evaluate(() => window.witnessmarkSign.available()), expected);
    await lacking.close();
  }
});

test('the script is small and fetches nothing', () => {
  const text = readFileSync(join(root, 'site/assets/sign.js'), 'utf8');
  assert.ok(Buffer.byteLength(text) <= 12_800, `${Buffer.byteLength(text)} bytes`);
  assert.doesNotMatch(text, /fetch\(|XMLHttpRequest|import\(|https?:|localStorage|innerHTML|eval\(/);
});
