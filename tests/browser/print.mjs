// What goes to the machine on paper: packets, tags, placards.
//
// SITE=<folder> BIN=<the program> node --test print.mjs

import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { test } from 'node:test';
import { pathToFileURL } from 'node:url';

import {
  assertAllWords, assertInside, assertSizes, browser, each, of, printed, site, text,
  textOf,
} from './tools.mjs';

const root = resolve(import.meta.dirname, '../..');
const bin = resolve(process.env.BIN ?? join(root, 'target/debug/witnessmark'));
const packets = of('packets');
const placards = of('placards');
const tags = of('tags');

/** Runs a check in a folder that is gone afterwards. */
async function inScratch(check) {
  const folder = mkdtempSync(join(tmpdir(), 'packet-'));
  try {
    return await check(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A packet of the demo plant after some of its files were changed. */
function packetOf(folder, job, changes) {
  const plant = join(folder, 'plant');
  rmSync(plant, { recursive: true, force: true });
  cpSync(join(root, 'demo-data'), plant, { recursive: true });
  for (const [file, from, to] of changes) {
    const before = readFileSync(join(plant, file), 'utf8');
    assert.ok(before.includes(from), `${file} has ${from}`);
    writeFileSync(join(plant, file), before.replace(from, to));
  }
  const out = join(folder, `${job}.html`);
  execFileSync(bin, ['packet', plant, job, '--out', out]);
  return out;
}

/** Opens a file, runs a check on it, closes it. */
async function opened(file, check) {
  const page = await browser.newPage();
  try {
    await page.goto(pathToFileURL(file).href);
    return await check(page);
  } finally {
    await page.close();
  }
}

/** Pictures of the sheets of a PDF, three bytes a pixel. */
function pictures(pdf) {
  const bytes = execFileSync('pdftoppm', ['-r', '60', pdf], { maxBuffer: 1 << 30 });
  const sheets = [];
  for (let at = 0; at < bytes.length;) {
    const head = bytes.subarray(at, at + 40).toString('latin1').match(/^P6\s(\d+) (\d+)\s255\s/);
    const size = 3 * Number(head[1]) * Number(head[2]);
    sheets.push(bytes.subarray(at + head[0].length, at + head[0].length + size));
    at += head[0].length + size;
  }
  return sheets;
}

test('hazards stand before the text, blanks and signatures of their step', async () => {
  await each(packets, {}, async (page, name) => {
    const steps = await page.evaluate(() => {
      const parts = '.hazard, .brief, .step-text, .rows, .blank-list, .ticks, .signs';
      return [...document.querySelectorAll('.step')].map((step) => ({
        title: step.querySelector('h3').textContent,
        order: [...step.querySelectorAll(parts)].map((part) => part.classList[0]),
      }));
    });
    assert.ok(steps.length > 0, name);
    for (const { title, order } of steps) {
      assert.equal(order.filter((part) => part === 'step-text').length, 1, title);
      const text = order.indexOf('step-text');
      for (const message of ['hazard', 'brief'])
        assert.ok(order.lastIndexOf(message) < text, `${name}, ${title}: ${order}`);
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

test('every signal word stands with its alert sign, NOTICE without, and is never broken', async () => {
  await each(packets, {}, async (page, name) => {
    await page.emulateMedia({ media: 'print' });
    const signals = await page.evaluate(() =>
      [...document.querySelectorAll('.hazard, .brief')].map((hazard) => ({
        word: hazard.querySelector('b').textContent.trim(),
        alert: Boolean(hazard.querySelector('b').closest('p').querySelector('[href="#alert"]')),
        look: hazard.classList[1],
        lang: hazard.closest('[lang]').lang,
        lines: hazard.querySelector('b').getClientRects().length,
        high: hazard.querySelector('b').getBoundingClientRect().height,
      })));
    assert.ok(signals.length > 0, name);
    for (const { word, alert, look, lang, lines, high } of signals) {
      assert.ok(lines === 1 && high < 24, `${name}: ${word} is ${high} px high`);
      assert.equal(word, textOf(lang, 'common', `signal-${look}`), name);
      assert.equal(alert, look !== 'notice', `${name}: ${word}`);
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

/**
 * Gives each step's head, messages, text and signatures a name that the PDF keeps as a destination:
 * it keeps those that a link leads to. The links stand behind everything else.
 */
const nameParts = () => {
  const links = document.createElement('p');
  const named = [];
  const name = (element, what) => {
    if (!element.id) element.id = what;
    const link = document.createElement('a');
    link.href = `#${element.id}`;
    link.textContent = '.';
    links.append(link);
    return element.id;
  };
  document.querySelectorAll('.step').forEach((step, index) => {
    const parts = [...step.querySelectorAll('h3, .hazard, .brief, .step-text')];
    named.push(parts.map((part, n) => name(part, `part-${index}-${n}`)));
  });
  document.body.append(links);
  return named;
};

/** Sheet of each destination. */
function sheetsOf(pdf) {
  const lines = execFileSync('pdfinfo', ['-dests', pdf], { encoding: 'utf8', maxBuffer: 1 << 26 });
  const found = new Map();
  for (const [, sheet, name] of lines.matchAll(/^\s*(\d+) \[.*\] "(.*)"$/gm)) found.set(name, Number(sheet));
  return found;
}

for (const format of ['A4', 'Letter'])
  test(`a packet prints on ${format}: foot on each sheet, nothing torn or cut off`, () => inScratch((folder) =>
    each(packets, {}, async (page, name) => {
      const pdf = join(folder, 'packet.pdf');
      // The address is broken where it has to be; its code is read in a test of its own.
      const address = await page.locator('.title-code p').innerText();
      const words = (await page.evaluate(() => document.querySelector('main').innerText)).replace(address, '');
      const digest = await page.locator('.title-block .digest').first().textContent();
      const job = name.match(/([^/\\]+)\.html$/)[1];
      const steps = await page.evaluate(nameParts);
      await page.pdf({ path: pdf, format });
      const sheets = text(pdf).split('\f').slice(0, -1);
      assert.ok(sheets.length > 1, name);
      sheets.forEach((sheet, index) => {
        const foot = sheet.trimEnd().split('\n').at(-1);
        assert.ok(foot.includes(digest.slice(0, 16)), `${name}: digest on sheet ${index + 1}: ${foot}`);
        assert.ok(foot.includes(job) && /[Rr]ev\. \S/.test(foot), `${name}: job and revision: ${foot}`);
        const count = new RegExp(` ${index + 1} \\S+ ${sheets.length}$`);
        assert.match(foot.trimEnd(), count, `${name}: page n of m`);
      });
      assert.ok(sheets[0].replace(/\s/g, '').includes(digest), `${name}: whole digest on the first sheet`);
      assertInside(pdf, name);
      assertSizes(pdf, name);
      assertAllWords(words, sheets.join(' '), name);
      const at = sheetsOf(pdf);
      for (const parts of steps) {
        const on = new Set(parts.map((part) => at.get(part)));
        assert.ok(on.size === 1 && !on.has(undefined), `${name}: ${parts} on sheets ${[...on]}`);
      }
    })));

test('a table that runs over a sheet has its head on each', () => inScratch(async (folder) => {
  let over = 0;
  // Sheets so short that tables have to run over.
  await each(packets.slice(0, 2), {}, async (page, name) => {
    const pdf = join(folder, 'short.pdf');
    await page.pdf({ path: pdf, width: '210mm', height: '120mm' });
    const tables = await page.evaluate(() =>
      [...document.querySelectorAll('table.rows')].map((table) => ({
        head: table.querySelector('thead th').textContent.trim(),
        rows: [...table.querySelectorAll('tbody th')].map((row) => row.textContent),
      })).filter(({ rows }) => rows.length > 1));
    const boxes = execFileSync('pdftotext', ['-bbox', pdf, '-'], { encoding: 'utf8', maxBuffer: 1 << 26 });
    const sheets = boxes.split('<page ').slice(1).map((sheet) =>
      [...sheet.matchAll(/<word xMin="(.+)" yMin="(.+)" xMax=".+" yMax="(.+)">(.*)<\/word>/g)]
        .map(([, left, top, bottom, word]) => ({ left: +left, top: +top, bottom: +bottom, word }))
        // The first column: a torque may read like the number of a row.
        .filter(({ left }) => left < 62));
    for (const { head, rows } of tables) {
      const on = sheets.filter((words) => words.some(({ word }) => rows.includes(word)));
      if (on.length > 1) over += 1;
      for (const words of on) {
        const first = words.filter(({ word }) => rows.includes(word)).sort((a, b) => a.top - b.top)[0];
        const above = ({ left, bottom, word }) =>
          word === head && bottom <= first.top + 1 && Math.abs(left - first.left) < 3;
        assert.ok(words.some(above), `${name}: ${head} above ${first.word}`);
      }
    }
  });
  assert.ok(over > 0, 'some table runs over');
}));

test('lines to sign and blanks are large enough to write on', async () => {
  await each(packets, { viewport: { width: 703, height: 1000 } }, async (page, name) => {
    // A4 between its margins; Letter is wider.
    await page.emulateMedia({ media: 'print' });
    const sizes = await page.evaluate(() => {
      const mm = (pixels) => (pixels * 25.4) / 96;
      const box = (element) => element.getBoundingClientRect();
      return {
        lines: [...document.querySelectorAll('.signs li')].map((line) => mm(box(line).height)),
        names: [...document.querySelectorAll('.signs li i:nth-of-type(1)')].map((cell) => mm(box(cell).width)),
        cells: [...document.querySelectorAll('.rows .sign')].map((cell) => mm(box(cell).height)),
        blanks: [...document.querySelectorAll('.blank i')].map((blank) => mm(box(blank).height)),
        code: mm(box(document.querySelector('.qr')).width),
      };
    });
    const least = (list) => Math.min(...list);
    assert.ok(least(sizes.lines) >= 10, `${name}: lines ${least(sizes.lines)}`);
    assert.ok(least(sizes.names) >= 35, `${name}: names ${least(sizes.names)}`);
    assert.ok(least(sizes.cells) >= 9.9, `${name}: cells ${least(sizes.cells)}`);
    assert.ok(least(sizes.blanks) >= 8, `${name}: blanks ${least(sizes.blanks)}`);
    assert.ok(sizes.code >= 25, `${name}: code ${sizes.code}`);
  });
});

test('a telephone reads address and digest off the first sheet', () => inScratch(async (folder) => {
  const read = async (page, name) => {
    const pdf = join(folder, 'packet.pdf');
    await page.pdf({ path: pdf, format: 'A4' });
    execFileSync('pdftoppm', ['-r', '200', '-f', '1', '-l', '1', '-gray', '-png', pdf, join(folder, 'sheet')]);
    const picture = execFileSync('ls', [folder], { encoding: 'utf8' }).match(/sheet.*png/)[0];
    const said = execFileSync('zbarimg', ['--raw', '-q', join(folder, picture)], { encoding: 'utf8' }).trim();
    const [address, digest] = await Promise.all(
      ['.title-code p', '.digest'].map((part) => page.locator(`.title-block ${part}`).first().textContent()));
    assert.equal(said, `${address}#${digest}`, name);
    // The next one may number its sheets in another way.
    rmSync(join(folder, picture));
    return said;
  };
  await each(packets.slice(0, 1), {}, read);
  // A dark screen prints black on white, and a long address fits.
  await each(packets.slice(-1), { colorScheme: 'dark' }, read);
}));

/** Prints a packet, and counts what is as grey as the words across a sheet, sheet by sheet. */
async function greys(folder, job, changes) {
  return opened(packetOf(folder, job, changes), async (page) => {
    const pdf = join(folder, 'marked.pdf');
    await page.pdf({ path: pdf, format: 'A4' });
    const sheets = pictures(pdf).map((bytes) => {
      let grey = 0;
      for (let at = 0; at < bytes.length; at += 3) {
        const [red, green, blue] = bytes.subarray(at, at + 3);
        if (red === green && green === blue && red > 178 && red < 200) grey += 1;
      }
      return grey;
    });
    const words = await page.locator('.standing').allTextContents();
    assertInside(pdf, job);
    return { sheets, words: words.join(' ') };
  });
}

test('an outdated packet says so across each sheet, a draft too, others not', () => inScratch(async (folder) => {
  const plain = await greys(folder, 'SM-1042', []);
  assert.equal(plain.words, '');
  const changed = ['plant.yaml', 'name: ', 'name: New '];
  const outdated = await greys(folder, 'SM-1042', [changed]);
  assert.match(outdated.words, /Outdated/);
  const draft = await greys(folder, 'SM-1044', [draftOf('SM-1044')]);
  assert.match(draft.words, /Draft/);
  const most = Math.max(...plain.sheets);
  for (const marked of [outdated, draft])
    for (const [index, grey] of marked.sheets.entries())
      assert.ok(grey > 2 * most, `sheet ${index + 1}: ${grey}, plain at most ${most}`);
}));

/** The change that makes a draft of the recipe a job wants. */
function draftOf(job) {
  const wanted = readFileSync(join(root, 'demo-data/jobs', `${job}.yaml`), 'utf8').match(/^to: (.+)$/m)[1];
  return [`recipes/${wanted}.yaml`, `id: ${wanted}\n`, `id: ${wanted}\ndraft: true\n`];
}

// The outside judge of days and numbers is the browser's own Intl, which has them from CLDR.
for (const [tag, cldr] of [['en', 'en-GB'], ['es', 'es'], ['es-419', 'es-419'], ['de', 'de']])
  test(`days and numbers are written as ${cldr} writes them`, () => inScratch(async (folder) => {
    const entry = (key) => textOf(tag, 'step', key);
    const language = [`jobs/SM-1045.yaml`, 'id: SM-1045\n', `id: SM-1045\nlanguage: ${tag}\n`];
    await opened(packetOf(folder, 'SM-1045', [language]), async (page) => {
      const judge = await page.evaluate((cldr) => {
        const day = new Intl.DateTimeFormat(cldr, { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' });
        const groups = new Intl.NumberFormat(cldr).formatToParts(36000);
        return {
          days: [...Array(12).keys()].map((month) => day.format(new Date(Date.UTC(2026, month, 26)))),
          decimal: new Intl.NumberFormat(cldr).formatToParts(0.5).find(({ type }) => type === 'decimal').value,
          groups: groups.filter(({ type }) => type === 'integer').map(({ value }) => value),
        };
      }, cldr);
      judge.days.forEach((day, month) => {
        const ours = entry('step-day').replace('{ $day }', '26').replace('{ $year }', '2026')
          .replace('{ $month }', entry(`step-month-${month + 1}`));
        assert.equal(ours, day);
      });
      const block = await page.locator('.title-block').innerText();
      assert.ok(block.includes(judge.days[10]), `${judge.days[10]}: ${block}`);
      // The groups are those of the language; a space parts them in each.
      assert.ok(block.includes(judge.groups.join('\u00a0')), `${judge.groups}: ${block}`);
      const targets = await page.locator('.settings td.target').allInnerTexts();
      const moves = await page.locator('.moves td.target').allInnerTexts();
      const decimals = [...targets, ...moves].filter((target) => /\d[.,]\d/.test(target));
      assert.ok(decimals.length > 3, `${targets}`);
      for (const target of decimals) assert.equal(target.match(/\d([.,])\d/)[1], judge.decimal, target);
      assert.equal(await page.locator('html').getAttribute('lang'), tag.slice(0, 2));
      if (tag !== 'en') {
        const said = await page.locator('.title-block, .caution-first, .signs').allInnerTexts();
        for (const english of ['Planned', 'Signature', 'Local codes', 'Issued'])
          assert.ok(!said.join(' ').includes(english), english);
      }
    });
  }));

/** Whole tags on sheets, four a sheet, as the words of their language tell. */
function assertTags(sheets, count, tag, name) {
  const legend = textOf(tag, 'tags', 'tags-legend');
  const number = new RegExp(textOf(tag, 'tags', 'tags-number').replace(/\{ \$number \}.*/, '\\d+ '), 'g');
  assert.ok(count > 0, name);
  assert.equal(sheets.length, Math.ceil(count / 4), name);
  sheets.forEach((sheet, index) => {
    const whole = Math.min(4, count - 4 * index);
    assert.equal(sheet.split(legend).length - 1, whole, `${name}: ${legend}`);
    assert.equal(sheet.match(number)?.length, whole, `${name}: ${number}`);
  });
}

/** The language of a page of the site. */
const languageOf = (name) => readFileSync(join(site, name), 'utf8').match(/<html lang="([^"]+)"/)[1];

for (const format of ['A4', 'Letter']) {
  test(`a placard is one sheet of ${format} that holds all it says`, async () => {
    await printed(placards, format, (sheets, name) => assert.equal(sheets.length, 1, name));
  });

  test(`four tags stand on a sheet of ${format}, none is cut in two`, async () => {
    await printed(tags, format, (sheets, name, count) => assertTags(sheets, count, languageOf(name), name));
  });
}

/** Publishes the demo plant as one whose own language is another. */
function publishedIn(folder, tag) {
  const plant = join(folder, 'plant');
  cpSync(join(root, 'demo-data'), plant, { recursive: true });
  for (const name of readdirSync(plant, { recursive: true }).filter((name) => name.endsWith('.yaml'))) {
    const before = readFileSync(join(plant, name), 'utf8');
    // The demo has no texts in German: its English ones stand for them.
    const texts = tag === 'de' ? before.replace(/\ben: /g, 'de: ') : before;
    const head = name === 'plant.yaml' ? `language: ${tag}\n` : '';
    writeFileSync(join(plant, name), head + texts.replace('languages: [en, es]', `languages: [${tag}, en, es]`));
  }
  // A condition names kinds of machines as the plant's main language does.
  const guard = join(plant, 'instructions/dust-guard.md');
  writeFileSync(guard, readFileSync(guard, 'utf8').replace(/^when: .*\n/m, ''));
  // It ends with 1: some procedures are not translated, which is a warning. The site is there.
  const run = spawnSync(bin, ['publish', plant, '--out', join(folder, 'site')], { encoding: 'utf8' });
  assert.ok(run.status < 2 && run.stdout.includes('files in'), run.stdout);
  const found = (kind) =>
    readdirSync(join(folder, 'site', kind)).map((name) => join(folder, 'site', kind, name));
  return { placards: found('placards'), tags: found('tags') };
}

for (const tag of ['es', 'de'])
  test(`placards and tags of a plant that speaks ${tag} fit their sheets`, () => inScratch(async (folder) => {
    const sheetsOfPlant = publishedIn(folder, tag);
    const pdf = join(folder, 'sheet.pdf');
    for (const format of ['A4', 'Letter'])
      for (const [kind, names] of Object.entries(sheetsOfPlant))
        for (const name of names)
          await opened(name, async (page) => {
            await page.pdf({ path: pdf, format });
            const sheets = text(pdf).split('\f').slice(0, -1);
            const own = await page.locator('html').getAttribute('lang');
            const count = await page.locator('.tag').count();
            if (kind === 'tags') assertTags(sheets, count, own, `${format}: ${name}`);
            else assert.equal(sheets.length, 1, `${format}: ${name}`);
            assertInside(pdf, name);
            assertSizes(pdf, name);
          });
  }));
