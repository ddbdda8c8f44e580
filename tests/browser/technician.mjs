// The technician's whole way on the tablet's own page: open, pick a name, do a step, close, open again,
// make a key, sign, save; then the desk takes the file in and `ssh-keygen` finds the signature good.
//
// Works on a small plant of its own. BIN=<program> names another witnessmark than target/debug's.

import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import { appendFileSync, cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { test } from 'node:test';
import { pathToFileURL } from 'node:url';

import { chromium } from 'playwright-core';

const root = resolve(import.meta.dirname, '../..');
const program = resolve(process.env.BIN ?? join(root, 'target/debug/witnessmark'));
const who = 't.one@plant.example';

test('a step is done on the tablet, signed there, and taken in at the desk', async () => {
  const scratch = mkdtempSync(join(tmpdir(), 'technician-'));
  const at = (...names) => join(scratch, ...names);
  const run = (...words) => {
    const done = spawnSync(program, words, { cwd: scratch, encoding: 'utf8' });
    return { code: done.status, said: done.stdout + done.stderr };
  };
  const open = async () => {
    const context = await chromium.launchPersistentContext(at('profile'), {
      executablePath: process.env.BROWSER ?? '/usr/bin/chromium',
      args: ['--no-sandbox', '--disable-gpu', '--no-first-run'],
    });
    const page = await context.newPage();
    page.on('pageerror', (error) => assert.fail(error));
    await page.goto(pathToFileURL(at('site/steps/J-1.html')).href);
    return { context, page };
  };
  try {
    cpSync(join(root, 'tests/it/small-plant'), at('plant'), { recursive: true });
    const published = run('publish', 'plant', '--out', 'site');
    assert.equal(published.code, 0, published.said);

    const first = await open();
    await first.page.selectOption('#person', who);
    await first.page.goto(`${first.page.url().split('#')[0]}#step-1`);
    await first.page.locator('#step-1 [data-check]').evaluateAll((boxes) => boxes.forEach((box) => box.click()));
    await first.page.locator('#step-1 [data-sign="performed"]').click();
    await first.context.close();

    const { context, page } = await open();
    await page.selectOption('#person', who);
    await page.goto(`${page.url().split('#')[0]}#finish`);
    await page.locator('#make-key').click();
    await page.locator('#key-line').filter({ hasText: who }).waitFor();
    const line = await page.locator('#key-line').textContent();
    // What the tablet says of its key is what the lead sees of the line.
    const fingerprint = (await page.locator('#signing-says').textContent()).match(/SHA256:\S+?(?=[\s,.;]|$)/)[0];
    appendFileSync(at('plant/allowed_signers'), `${line}\n`);
    // A slow tablet and a quick hand: the file waits for the signatures.
    await page.evaluate(() => {
      const sign = crypto.subtle.sign.bind(crypto.subtle);
      crypto.subtle.sign = (...by) => new Promise((done) => setTimeout(done, 400)).then(() => sign(...by));
    });
    const download = page.waitForEvent('download');
    await page.locator('#sign').click();
    await page.locator('#save').click();
    await (await download).saveAs(at('filled.json'));
    await context.close();

    const { signed } = JSON.parse(readFileSync(at('filled.json'), 'utf8'));
    assert.equal(signed.length, 1);
    const taken = run('signoff', 'plant', 'J-1', '--from', 'filled.json');
    assert.equal(taken.code, 0, taken.said);
    const entry = readFileSync(at('plant/records/J-1/000001.json'), 'utf8');
    assert.equal(entry, signed[0].entry);
    const { by, kind, at: time } = JSON.parse(entry);
    assert.deepEqual([by, kind], [who, 'performed']);
    const stamp = `${new Date(time).toISOString().slice(0, 19).replace(/[-T:]/g, '')}Z`;
    const verify = ['-Y', 'verify', '-f', at('plant/allowed_signers'), '-I', who, '-n', 'signoff@plant.example'];
    const said = execFileSync('ssh-keygen', [...verify, '-s', at('plant/records/J-1/000001.json.sig'),
      `-Overify-time=${stamp}`], { input: entry, encoding: 'utf8' });
    assert.ok(said.includes(fingerprint), `${said} has ${fingerprint}`);
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
});
