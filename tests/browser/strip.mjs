// Marking strips, measured: what stands on paper against what the packet says.
//
// SITE=<published folder> node --test strip.mjs
//
// Printed to PDF, taken apart by poppler, and every line measured in millimetres. The positions come
// from packets as JSON: those of the site's records, and one in inches of the made-up plant that
// `cargo test` writes to target/sample-site.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { after, before, test } from 'node:test';
import { fileURLToPath, pathToFileURL } from 'node:url';

import { assertInside, assertSizes, browser, files, of, site, text, textOf } from './tools.mjs';

const sample = resolve(fileURLToPath(import.meta.url), '../../../target/sample-site');
const read = (file) => JSON.parse(readFileSync(file, 'utf8'));

/** A page of strips and the packet whose places it must have. */
const measured = [
  ...of('strips')
    .map((name) => ({
      page: join(site, name),
      packet: join(site, 'records', basename(name, '.html'), 'packet.json'),
    }))
    .filter(({ packet }) => existsSync(packet)),
  ...['en', 'es', 'es-419', 'de'].map((tag) => ({
    page: join(sample, `strips/J-4107-${tag}.html`),
    packet: join(sample, 'strips/packet.json'),
  })),
];

let folder;
before(() => {
  folder = mkdtempSync(join(tmpdir(), 'strip-'));
});
after(() => rmSync(folder, { recursive: true }));

async function print(file, options) {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(pathToFileURL(file).href);
  const pdf = join(folder, 'strip.pdf');
  await page.pdf({ path: pdf, ...options });
  await context.close();
  return pdf;
}

/**
 * Upright lines of one printed sheet in millimetres: strokes, and dashes, which a browser prints as
 * one path of small filled boxes.
 */
function upright(pdf, number) {
  const svg = join(folder, 'sheet.svg');
  execFileSync('pdftocairo', ['-svg', '-f', `${number}`, '-l', `${number}`, pdf, svg]);
  const drawn = readFileSync(svg, 'utf8').replace(/<defs>[^]*?<\/defs>/g, '');
  const lines = [];
  for (const [path] of drawn.matchAll(/<path [^>]*\/>/g)) {
    const way = path.match(/ d="([-\d. MLZ]+)"/)?.[1];
    if (!way) continue;
    const [a, b, c, d, e, f] =
      path.match(/matrix\(([^)]+)\)/)?.[1].split(/[ ,]+/).map(Number) ?? [1, 0, 0, 1, 0, 0];
    const mm = (pt) => (pt / 72) * 25.4;
    const points = [...way.matchAll(/[ML] ([-\d.]+) ([-\d.]+)/g)].map(([, x, y]) => ({
      x: mm(a * x + c * y + e),
      y: mm(b * x + d * y + f),
    }));
    const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
    const [left, right] = [Math.min(...xs), Math.max(...xs)];
    const stroke = Number(path.match(/stroke-width[:=]"?([\d.]+)/)?.[1] ?? 0);
    const thick = stroke ? mm(stroke * Math.hypot(a, b)) : right - left;
    // A stroke is as thin as a hair, a box of dashes as thick as the line.
    if (right - left > (stroke ? 0.01 : 1) || thick === 0) continue;
    lines.push({ x: (left + right) / 2, top: Math.min(...ys), low: Math.max(...ys), thick });
  }
  return lines;
}

const about = (one, two, off) => Math.abs(one - two) <= off;
const thickness = { mark: 0.25, check: 0.22, datum: 0.35, register: 0.15, end: 0.9 };
const thick = (lines, kind) => lines.filter((line) => about(line.thick, thickness[kind], 0.004));

/** Lengths of the check bars of a sheet. */
function bars(lines) {
  const ticks = thick(lines, 'check').map((line) => line.x).sort((one, two) => one - two);
  assert.equal(ticks.length, 2, `one bar has two ends: ${ticks}`);
  return ticks[1] - ticks[0];
}

/** The segments of a sheet from the top: marks, ends of the rail, datum and crosses by their x. */
function segments(lines) {
  // Each mark begins at the upper cut of its segment.
  const tops = [];
  const starts = [...thick(lines, 'mark'), ...thick(lines, 'end'), ...thick(lines, 'datum')];
  for (const { top } of starts.sort((one, two) => one.top - two.top))
    if (!tops.some((known) => about(known, top, 1))) tops.push(top);
  const at = (kind, top, next) =>
    thick(lines, kind)
      .filter((line) => line.top > top - 1 && line.top < next - 1)
      .map((line) => line.x)
      .sort((one, two) => one - two);
  return tops.map((top, index) => {
    const next = tops[index + 1] ?? Infinity;
    const cross = thick(lines, 'register').filter((line) => about(line.low - line.top, 5.2, 0.01));
    return {
      marks: at('mark', top, next),
      ends: at('end', top, next),
      datum: at('datum', top, next)[0],
      crosses: cross.filter((line) => line.top > top && line.top < top + 8).map((line) => line.x),
    };
  });
}

/** Places of a rail in millimetres from the datum, worked out from its texts alone. */
function places(rail) {
  const unit = { mm: 1, in: 25.4 }[rail.unit];
  const offset = rail.kind === 'knives' ? Number(rail.tip_offset ?? 0) : 0;
  // A parked spare is set by its middle.
  const at = (holder) => Number(holder.new) - (holder.parked ? offset : 0);
  const off = rail.moves.filter((move) => move.direction === 'off' && move.from !== null);
  const marks = [...rail.holders.map(at), ...off.map((move) => Number(move.from))];
  return {
    marks: marks.map((place) => place * unit).sort((one, two) => one - two),
    ends: [rail.left_end, rail.right_end].map((end) => Number(end) * unit),
  };
}

/** Every mark of a rail against the packet, each to 0.2 mm, across joins too. */
function compare(rail, found, name) {
  const wanted = places(rail);
  // From the segment with the datum outwards: crosses carry the datum on.
  const first = found.findIndex((segment) => segment.datum !== undefined);
  assert.ok(first >= 0, `${name}: the datum is drawn`);
  const zero = [];
  zero[first] = found[first].datum;
  for (let index = first + 1; index < found.length; index++) {
    const cross = found[index - 1].crosses.at(-1) - zero[index - 1];
    zero[index] = found[index].crosses[0] - cross;
  }
  for (let index = first - 1; index >= 0; index--) {
    const cross = found[index + 1].crosses[0] - zero[index + 1];
    zero[index] = found[index].crosses.at(-1) - cross;
  }
  const drawn = found.map((segment, index) => segment.marks.map((x) => x - zero[index]));
  const ends = found.flatMap((segment, index) => segment.ends.map((x) => x - zero[index]));
  for (const mark of drawn.flat())
    assert.ok(wanted.marks.some((place) => about(place, mark, 0.2)), `${name}: no mark at ${mark}`);
  for (const place of wanted.marks) {
    const on = drawn.filter((marks) => marks.some((mark) => about(mark, place, 0.2)));
    assert.ok(on.length >= 1, `${name}: ${place} mm is marked; drawn: ${drawn.flat()}`);
    // A mark nearer to a cross than half of the overlap stands on both segments.
    const crosses = found.flatMap(({ crosses }, index) => crosses.map((x) => x - zero[index]));
    const shared = crosses.some((cross) => Math.abs(cross - place) < 9.9);
    assert.equal(on.length, shared ? 2 : 1, `${name}: ${place} mm stands on ${on.length} segments`);
  }
  for (const [index, end] of wanted.ends.entries())
    assert.ok(about(ends[index], end, 0.2), `${name}: the rail ends at ${end}, drawn ${ends}`);
  return { marks: wanted.marks.length, shared: drawn.flat().length - wanted.marks.length };
}

test('there are strips to measure, in millimetres and in inches', () => {
  assert.ok(measured.length >= 7, `${measured.map(({ page }) => page)}`);
  const units = measured.flatMap(({ packet }) => read(packet).rails.map((rail) => rail.unit));
  assert.deepEqual([...new Set(units)].sort(), ['in', 'mm']);
});

for (const format of ['A4', 'Letter'])
  test(`every mark printed on ${format} stands where the packet says, to 0.2 mm`, async () => {
    let marks = 0;
    for (const { page, packet } of measured) {
      const { rails } = read(packet);
      const pdf = await print(page, { format });
      const sheets = text(pdf).split('\f').slice(0, -1);
      const name = `${basename(page)} on ${format}`;
      assertInside(pdf, name);
      assertSizes(pdf, name);
      const found = sheets.map((_, index) => upright(pdf, index + 1));
      for (const lines of found) assert.ok(about(bars(lines), 100, 0.2), `${name}: ${bars(lines)}`);
      // Sheets of one rail begin with the one that has its left end.
      const strips = [];
      for (const segment of found.flatMap(segments))
        if (segment.ends.length > 0 && (strips.at(-1)?.done ?? true))
          strips.push({ segments: [segment], done: segment.ends.length === 2 });
        else {
          strips.at(-1).segments.push(segment);
          strips.at(-1).done ||= segment.ends.length > 0;
        }
      assert.equal(strips.length, rails.length, name);
      for (const [index, rail] of rails.entries())
        marks += compare(rail, strips[index].segments, `${name}, ${rail.id}`).marks;
    }
    assert.ok(marks > 60, `${marks} marks`);
  });

test('each sheet says what it is: job, rail, digest, segment, page, and to measure the bar', async () => {
  for (const name of of('strips')) {
    const job = basename(name, '.html');
    const pdf = await print(join(site, name), { format: 'Letter' });
    const sheets = text(pdf).split('\f').slice(0, -1);
    const tag = readFileSync(join(site, name), 'utf8').match(/<html lang="([^"]+)"/)[1];
    const says = (key, values) =>
      textOf(tag, 'strip', `strip-${key}`).replace(/\{ \$(\w+) \}/g, (_, part) => values[part]);
    const length = `100${tag === 'en' ? '.' : ','}0`;
    sheets.forEach((sheet, index) => {
      const flat = sheet.replace(/\s+/g, ' ');
      for (const words of [
        says('job', { job }),
        says('page', { number: index + 1, of: sheets.length }),
        says('measure', { length }).split('. ')[0],
        says('counts', {}).split('. ')[1].split(',')[0],
      ])
        assert.ok(flat.includes(words), `${name}, sheet ${index + 1}: ${words}`);
      const segment = `(${says('segment', {}).split(' ')[0]}|${says('segments', {}).split(' ')[0]})`;
      assert.match(flat, new RegExp(`${segment} \\d`), name);
      assert.match(flat, new RegExp(`${says('packet')} [0-9a-f]{16}`), name);
    });
  }
});

test('a print at 97 % does not pass the measure', async () => {
  const { page } = measured[0];
  const pdf = await print(page, { format: 'A4', scale: 0.97 });
  const length = bars(upright(pdf, 1).map((line) => ({ ...line, thick: line.thick / 0.97 })));
  assert.ok(about(length, 97, 0.2) && !about(length, 100, 0.2), `${length} mm`);
});

test('drawings are documents of their own: well-formed, named, nothing foreign', async () => {
  const drawings = files.filter((name) => name.endsWith('.svg'));
  assert.ok(drawings.length > 0, 'a drawing');
  const context = await browser.newContext();
  const page = await context.newPage();
  const outside = [];
  page.on('request', (request) => {
    if (!request.url().startsWith(pathToFileURL(site).href)) outside.push(request.url());
  });
  for (const name of drawings) {
    const content = readFileSync(join(site, name), 'utf8');
    assert.doesNotMatch(content, /<script|href|@import|url\((?!#)|style=/, name);
    assert.deepEqual(content.match(/https?:[^"]*/g), ['http://www.w3.org/2000/svg'], name);
    // A parser for XML refuses what is not well-formed.
    await page.goto(pathToFileURL(join(site, name)).href);
    const seen = await page.evaluate(() => ({
      root: document.documentElement.nodeName,
      broken: document.querySelector('parsererror') !== null,
      title: document.querySelector('svg > title')?.textContent ?? '',
      desc: document.querySelector('svg > desc')?.textContent ?? '',
      width: document.documentElement.getAttribute('width'),
      size: Number(getComputedStyle(document.querySelector('text')).fontSize.replace('px', '')),
    }));
    assert.equal(seen.root, 'svg', name);
    assert.ok(!seen.broken && seen.title.length > 10 && seen.desc.length > 60, name);
    assert.equal(seen.width, '190mm', name);
    assert.ok((seen.size / 10) * (72 / 25.4) >= 9, `${name}: 9 pt on paper`);
  }
  await context.close();
  assert.deepEqual(outside, []);
});

test('no two texts of a strip or a drawing touch at 360 px', async () => {
  const jobs = of('jobs').filter((name) => basename(name) !== 'index.html');
  for (const file of [...jobs, ...of('strips')].map((name) => join(site, name))) {
    const context = await browser.newContext({ viewport: { width: 360, height: 800 } });
    const page = await context.newPage();
    await page.goto(pathToFileURL(file).href);
    const touching = await page.evaluate(() =>
      [...document.querySelectorAll('.drawing, .strip-segment, .strip-bar')].flatMap((drawing) => {
        const boxes = [...drawing.querySelectorAll('text')].map((text) => {
          const box = text.getBoundingClientRect();
          // Letters fill about two thirds of the height of their line.
          const slack = box.height / 6;
          return { box, words: text.textContent, top: box.top + slack, low: box.bottom - slack };
        });
        return boxes.flatMap((one, index) =>
          boxes.slice(index + 1)
            .filter((two) => one.box.left < two.box.right && two.box.left < one.box.right
              && one.top < two.low && two.top < one.low)
            .map((two) => `${one.words} / ${two.words}`));
      }));
    assert.deepEqual(touching, [], file);
    await context.close();
  }
});
