// The tablet's page: one step at a time, readings judged as they are typed, everything kept here.
//
// All can be read without this script, and its words stand in the page. Must never write markup, never
// change or remove what was typed, and never decide what goes on record: the desk judges again.
'use strict';
(() => {
const at = (id) => document.getElementById(id);
const all = (what, within = document) => [...within.querySelectorAll(what)];
const facts = at('main').dataset;
const steps = all('.step');
const screens = all('.screen:not(#list)');
const blanks = new Map(all('[data-blank]').map((blank) => [blank.dataset.blank, blank]));
const stepOf = (part) => part.closest('.step').dataset.step;

/** A text of the page, with values put in. */
function say(key, values = {}) {
  const text = at('words').content.querySelector(`[data-word="${key}"]`).textContent;
  return text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
}

/** What has not changed is left, so that nobody hears it twice. */
function put(place, text) {
  if (place.textContent !== text) place.textContent = text;
}

/** A new element; text is only ever text. */
const make = (tag, facts) => Object.assign(document.createElement(tag), facts);
const button = (textContent, onclick) => make('button', { textContent, onclick });

// Numbers: whole numbers of the last place, never binary fractions.

function decimal(text) {
  const [, sign, whole, places = ''] = /^(-?)(0|[1-9][0-9]*)(?:\.([0-9]+))?$/.exec(text) ?? [];
  if (!whole || text.length > 32) return null;
  return { units: BigInt(sign + whole + places), places: places.length };
}

function atMost(one, two) {
  const scaled = (number, other) => number.units * 10n ** BigInt(Math.max(other.places - number.places, 0));
  return scaled(one, two) <= scaled(two, one);
}

/** Between the limits or on one of them; an empty limit is none. */
function between(value, low, high) {
  const number = decimal(value);
  return (!low || atMost(decimal(low), number)) && (!high || atMost(number, decimal(high)));
}

/** As the desk judges: by the guard band where there is one (ISO 14253-1), else by the limits. */
function judge(value, { dataset }) {
  const { low, high, guardLow, guardHigh, outerLow, outerHigh } = dataset;
  if (!(guardLow || guardHigh || outerLow || outerHigh)) {
    if (!low && !high) return 'noted';
    return between(value, low, high) ? 'within' : 'outside';
  }
  if (between(value, guardLow, guardHigh)) return 'within';
  return between(value, outerLow, outerHigh) ? 'too-close' : 'outside';
}

const isGood = (verdict) => verdict === 'within' || verdict === 'noted';

/** `2 7/32` as `2.21875`, which is exact: the divisor is a power of two. */
function fraction(text) {
  const form = /^(-?)(?:([0-9]{1,9}) )?([0-9]{1,3})\/(2|4|8|16|32|64|128)$/;
  const [, sign, whole, over, under] = form.exec(text) ?? [];
  if (!under || (whole && Number(over) >= Number(under))) return undefined;
  const places = Math.log2(under);
  const parts = BigInt(whole ?? 0) * BigInt(under) + BigInt(over);
  const digits = `${parts * 5n ** BigInt(places)}`.padStart(places + 1, '0');
  const shown = `${digits.slice(0, -places)}.${digits.slice(-places)}`.replace(/\.?0+$/, '');
  return parts ? sign + shown : '0';
}

/** What was typed, as a decimal; or why it is none. */
function read(typed, { dataset: { unit, marks } }) {
  let text = typed.trim().replace(/\u00a0/g, ' ').replace(/^[\u2212\u2013]/, '-');
  if (unit && text.endsWith(unit)) text = text.slice(0, -unit.length).trim();
  if (marks && text.includes('/')) {
    const value = fraction(text);
    return value ? { value } : { fault: say('no-fraction', { example: `2 1/${marks}` }) };
  }
  // 1,234 may be a little more than one or more than a thousand: nobody may guess.
  const other = facts.decimal === ',' ? '.' : ',';
  if (new RegExp(`^-?[1-9][0-9]{0,2}[${other}][0-9]{3}$`).test(text))
    return { fault: say('ambiguous', { sign: facts.decimal }) };
  const value = text.replace(',', '.');
  return decimal(value) ? { value } : { fault: say('no-number', { example: `56${facts.decimal}2` }) };
}

// The journal: what is typed, in its order.

const scope = `witnessmark/${facts.namespace}/${facts.job}/`;
const own = `${scope}${facts.packet}/`;
const tab = Math.random();
const journal = new Map();
/** The browser's store; where it may not be used, one that takes nothing. */
const shelf = (() => {
  try {
    return localStorage;
  } catch {
    return {};
  }
})();
/** Keys of what the store has refused. */
const homeless = new Set();

const keys = () => [...journal.keys()].sort();
const items = () => keys().map((key) => journal.get(key));

/** Adds something at a time; the order never runs backwards, even when a clock does. */
function keep(item, time = Date.now(), after = keys().at(-1)?.slice(own.length, own.length + 15) ?? 0) {
  const order = `${Math.max(time, after, 0)}`.padStart(15, '0');
  const key = `${own}${order}/${`${journal.size}`.padStart(6, '0')}/${tab}`;
  journal.set(key, item);
  homeless.add(key);
  house();
}

/** Writes what is not in the store yet. What it refuses stays here; the next thing typed tries again. */
function house() {
  try {
    for (const key of homeless) {
      shelf.setItem(key, JSON.stringify(journal.get(key)));
      homeless.delete(key);
    }
    // Told before the first reading, not after.
    shelf.setItem(`${scope}try`, '');
    return true;
  } catch {
    return false;
  }
}

function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** What stands in the store under keys that begin like this. */
const stored = (start) => Object.keys(shelf).filter((key) => key.startsWith(start)).sort();

const isText = (...texts) => texts.every((text) => typeof text === 'string');
const isSign = (word) => word === 'performed' || word === 'verified';

/** Whether something has the form of what is typed here: stores and files may hold anything. */
function isTyped(item) {
  if (!item) return false;
  if (isSigned(item)) return isText(item.entry, item.signature);
  if (!isText(item.is, item.step, item.by, item.at, item.row ?? '')) return false;
  if (!steps.some((step) => step.dataset.step === item.step) || !(Date.parse(item.at) > 0)) return false;
  if (item.is === 'reading') return blanks.has(item.blank) && isText(item.value) && decimal(item.value);
  if (item.is === 'tick') return Number.isInteger(item.check) && typeof item.on === 'boolean';
  return isSign(item.is === 'taken-back' ? item.what : item.is);
}

function take(key) {
  const item = parsed(shelf[key]);
  if (isTyped(item)) journal.set(key, item);
}

const nameOfSign = (step, row = '', what) => `${step} ${row} ${what}`;
const isSigned = (item) => item.is === 'signed';

/** What counts: readings of each blank, the last last; ticks; signatures that stand. */
function settled() {
  const counts = { readings: new Map(), verdicts: new Map(), ticks: new Map(), signs: new Map() };
  for (const item of items()) {
    const { is, step, row, blank } = item;
    if (is === 'reading') {
      counts.readings.set(blank, [...(counts.readings.get(blank) ?? []), item]);
      counts.verdicts.set(blank, judge(item.value, blanks.get(blank)));
    } else if (is === 'tick') counts.ticks.set(`${step}/${item.check}`, item.on);
    else if (is === 'taken-back') counts.signs.delete(nameOfSign(step, row, item.what));
    else if (isSign(is)) counts.signs.set(nameOfSign(step, row, is), item);
  }
  return counts;
}

const signOf = (button, counts, what = button.dataset.sign) =>
  counts.signs.get(nameOfSign(stepOf(button), button.dataset.row, what));
const shown = (item) => item.shown ?? item.value.replace('.', facts.decimal);

// Time: local, with its offset, and doubted where it cannot be true.

function local(date) {
  const east = -date.getTimezoneOffset();
  const iso = (minutes, time = 0) => new Date(time + minutes * 60000).toISOString();
  return `${iso(east, Number(date)).slice(0, 19)}${east < 0 ? '-' : '+'}${iso(Math.abs(east)).slice(11, 16)}`;
}

const moment = (text) => text.slice(0, 16).replace('T', ' ');

/** What is wrong with the clock; nothing when it may be right. */
function clockFault() {
  const now = new Date();
  const fault = (key, then) => say(key, { now: moment(local(now)), then: moment(then) });
  if (now < new Date(facts.issued)) return fault('clock-early', facts.issued);
  const later = items().findLast((item) => Date.parse(item.at) - now > 1000);
  return later ? fault('clock-back', later.at) : '';
}

/** Adds what a person typed just now. */
function type(what, { by }) {
  keep({ ...what, by, at: local(new Date()), doubt: Boolean(clockFault()) });
}

// People.

const picker = at('person');
const initials = at('initials');
const optionOf = (by) => [...picker.options].find((option) => option.value === by);
const nameOf = (by) => optionOf(by)?.dataset.name ?? by.replace('initials:', '');

/** Who has the tablet; nobody before somebody is picked. */
function who() {
  const by = picker.value;
  const typed = initials.value.trim();
  if (by === 'initials:') return /^\p{L}{1,6}$/u.test(typed) ? { by: by + typed, name: typed } : null;
  return by && { by, name: nameOf(by), roles: optionOf(by).dataset.roles.split(' ') };
}

function pick(by) {
  picker.value = optionOf(by) ? by : 'initials:';
  initials.value = nameOf(by);
  changePerson();
}

/** What was typed before somebody was picked is taken in now. */
function changePerson() {
  at('initials-line').hidden = picker.value !== 'initials:';
  all('.reason').forEach((place) => put(place, ''));
  commitAll();
  draw();
}

// Typing.

/** Takes in what stands in a blank, when it is new, a number, and somebody is picked. */
function commit(blank) {
  const person = who();
  const before = settled().readings.get(blank.dataset.blank)?.at(-1);
  const typed = blank.value.trim();
  const { value } = read(typed, blank);
  if (!('dirty' in blank.dataset) || !value || !person) return;
  delete blank.dataset.dirty;
  if (before?.value === value && before.by === person.by) return;
  const step = stepOf(blank);
  type({ is: 'reading', step, blank: blank.dataset.blank, value, shown: typed }, person);
  // As on record: another reading takes the signatures of its row, and of the step as a whole, back.
  for (const { is, row, step: other } of settled().signs.values())
    if (other === step && (!row || row === blank.closest('.row')?.dataset.row)) type({ is: 'taken-back', step, row, what: is }, person);
}

const commitAll = () => blanks.forEach(commit);

/** A reading is not rubbed out: an emptied blank shows again what counts. */
function leave(blank) {
  if (!blank.value.trim()) delete blank.dataset.dirty;
  commit(blank);
  draw();
}

function tick(box) {
  const person = who();
  if (person) type({ is: 'tick', step: stepOf(box), check: Number(box.dataset.check), on: box.checked }, person);
  else picker.focus();
  draw();
}

/** Gives the signature that a button stands for, or takes it back; a refusal is told beside it. */
function press(button) {
  const person = who();
  const counts = settled();
  const given = signOf(button, counts);
  const fault = person ? refusal(button, given, person, counts) : say('who-first');
  put(button.closest('.sign').querySelector('.reason'), fault);
  if (!person) picker.focus();
  if (fault) return;
  const { sign, row } = button.dataset;
  type({ is: given ? 'taken-back' : sign, step: stepOf(button), row, what: given && sign }, person);
  draw();
}

function refusal(button, given, person, counts) {
  const { sign, role, by } = button.dataset;
  if (given) return given.by === person.by ? '' : say('not-yours', { who: nameOf(given.by) });
  if (by && by !== person.by) return say('wrong-person', { who: nameOf(by) });
  if (person.roles && !person.roles.includes(role)) return say('wrong-role', { role, who: person.name });
  const other = signOf(button, counts, sign === 'verified' ? 'performed' : 'verified');
  return other?.by === person.by ? say('same-person') : '';
}

// Showing.

function draw() {
  const counts = settled();
  blanks.forEach((blank) => drawBlank(blank, counts));
  for (const box of all('[data-check]')) box.checked = counts.ticks.get(`${stepOf(box)}/${box.dataset.check}`) ?? false;
  all('[data-sign]').forEach((button) => drawSign(button, counts));
  drawStates(counts);
  drawPeople();
  drawNotices();
}

function drawBlank(blank, counts = settled()) {
  const fill = blank.closest('.fill');
  const history = counts.readings.get(blank.dataset.blank) ?? [];
  const now = history.at(-1);
  if (now && !('dirty' in blank.dataset) && document.activeElement !== blank) blank.value = shown(now);
  const typed = blank.value.trim();
  const { value, fault = '' } = typed ? read(typed, blank) : { fault: now && say('empty') };
  const verdict = value ? judge(value, blank) : '';
  const said = [verdict ? say(verdict) : fault];
  if (verdict === 'outside') {
    const place = `p[data-outside="${blank.dataset.outside}"]`;
    said.push(blank.closest('.step').querySelector(place)?.textContent);
  }
  if (value && 'dirty' in blank.dataset && !who()) said.push(say('who-first'));
  fill.dataset.verdict = verdict;
  put(fill.querySelector('.verdict'), said.filter(Boolean).join(' '));
  const others = history.filter((item) => item.value !== now.value);
  const list = others.map((item) => `${shown(item)} (${nameOf(item.by)}, ${moment(item.at)})`).join('; ');
  put(fill.querySelector('.also'), list && say('also', { list }));
}

function drawSign(button, counts) {
  const place = button.closest('.sign');
  const given = signOf(button, counts);
  const stop = given ? '' : stopped(button, counts);
  place.classList.toggle('has', Boolean(given));
  button.setAttribute('aria-pressed', Boolean(given));
  button.disabled = Boolean(stop);
  put(place.querySelector('.given'), given ? say('given', { who: nameOf(given.by), time: moment(given.at) }) : '');
  if (button.dataset.sign === 'performed') put(place.querySelector('.stop'), stop);
}

/** Why a step or row cannot be done: a zero that nobody may accept is open or not within. */
function stopped(button, counts) {
  const place = button.dataset.row ? button.closest('.row') : button.closest('.step');
  for (const blank of all('[data-accept="never"]', place)) {
    const verdict = counts.verdicts.get(blank.dataset.blank);
    const what = blank.labels[0].textContent;
    if (!isGood(verdict)) return say(verdict ? 'zero-outside' : 'zero-open', { what });
  }
  return '';
}

/** How far a step is: the worst of its readings, else how much is filled. */
function stateOf(step, counts) {
  const verdicts = all('[data-blank]', step).map((blank) => counts.verdicts.get(blank.dataset.blank));
  const bad = ['outside', 'too-close'].find((verdict) => verdicts.includes(verdict));
  if (bad) return bad;
  const signs = all('[data-sign]', step).map((button) => signOf(button, counts));
  const done = [...verdicts, ...signs, ...all('[data-check]', step).map((box) => box.checked)];
  if (!done.some(Boolean)) return 'open';
  return done.every(Boolean) ? 'filled' : 'part';
}

function drawStates(counts) {
  const open = [];
  const asked = steps.filter((step) => !('stays' in step.dataset));
  for (const step of asked) {
    const state = stateOf(step, counts);
    const place = document.querySelector(`[data-state="${step.id}"]`);
    place.dataset.is = state;
    put(place, say(`state-${state}`));
    if (state !== 'filled') open.push(step.dataset.number);
  }
  const filled = asked.length - open.length;
  put(at('summary'), say('summary', { filled, steps: asked.length, open: open.join(', ') || '0' }));
}

/** Who has typed here already is one tap away. */
function drawPeople() {
  const typed = new Set(items().reverse().map((item) => item.by).filter((by) => by && by !== who()?.by));
  const recent = [...typed].slice(0, 3);
  if (at('recent').dataset.is === recent.join()) return;
  at('recent').dataset.is = recent.join();
  at('recent').replaceChildren(...recent.map((by) => button(nameOf(by), () => pick(by))));
}

let sheet = '';

function drawNotices() {
  const told = [];
  const tell = (text, ...buttons) => {
    const notice = make('p', { className: 'caution' });
    notice.append(text, ' ', ...buttons);
    told.push(notice);
  };
  if (!house()) tell(say('full'), button(say('save'), save));
  const clock = clockFault() || (items().some((item) => item.doubt) && say('clock-kept'));
  if (clock) tell(clock);
  if (sheet) tell(say('other-sheet', { digest: sheet.slice(0, 16) }));
  for (const digest of others())
    tell(say('other-issue', { digest: digest.slice(0, 16) }),
      button(say('save'), () => saveAs(digest, stored(`${scope}${digest}/`).map((key) => parsed(shelf[key])).filter(Boolean))),
      button(say('discard'), () => discard(digest)));
  const box = at('notices');
  const text = told.map((notice) => notice.textContent).join();
  if (box.dataset.told === text) return;
  box.dataset.told = text;
  box.replaceChildren(...told);
}

/** Digests of other issues of this job that were filled in here. */
function others() {
  const digests = new Set(stored(scope).map((key) => key.slice(scope.length).split('/')[0]));
  return [...digests].filter((digest) => digest.length === 64 && digest !== facts.packet);
}

function discard(digest) {
  if (!confirm(say('discard-sure'))) return;
  stored(`${scope}${digest}/`).forEach((key) => shelf.removeItem(key));
  drawNotices();
}

// Files.

/** What the form of the file knows, in its order; the rest is for the page alone. */
const FORM = 'filled job packet saved clock typed is step row blank value check on what by at signed entry signature';
const asForm = (value, indent) => JSON.stringify(value, FORM.split(' '), indent);

const parts = (list) => ({
  typed: list.filter((item) => !isSigned(item)),
  signed: list.filter(isSigned).map(({ entry, signature }) => ({ entry, signature })),
});

function saveAs(packet, list) {
  const file = {
    filled: 1,
    job: facts.job,
    packet,
    saved: local(new Date()),
    clock: clockFault() || list.some((item) => item.doubt) ? 'doubtful' : 'ok',
    ...parts(list),
  };
  const download = `${facts.job}-${packet.slice(0, 16)}.json`;
  const blob = new Blob([asForm(file, 1)], { type: 'application/json' });
  make('a', { href: URL.createObjectURL(blob), download }).click();
  put(at('filed'), say('saved', { file: download }));
}

function save() {
  commitAll();
  saveAs(facts.packet, items());
  draw();
}

/** Takes in what a file has and this page has not; says what came of it. */
function load(file) {
  const { filled, packet, job, clock, typed, signed = [] } = file ?? {};
  if (filled !== 1 || !Array.isArray(typed) || !Array.isArray(signed)) return say('load-form');
  if (packet !== facts.packet || job !== facts.job) return say('load-issue', { digest: String(packet).slice(0, 16) });
  const found = [...typed, ...signed.map((one) => ({ is: 'signed', ...one }))];
  if (!found.every(isTyped)) return say('load-form');
  const here = new Set(items().map((item) => asForm(item)));
  const fresh = found.filter((item) => !here.has(asForm(item)));
  let time = 0;
  for (const item of fresh) {
    // At its own time, so that the later of two counts wherever it was typed.
    time = Math.max(time, item.at ? Date.parse(item.at) : Date.now());
    keep(clock === 'ok' ? item : { ...item, doubt: true }, time, 0);
  }
  return say('loaded', { count: fresh.length });
}

async function open() {
  put(at('filed'), load(parsed(await at('load').files[0].text())));
  at('load').value = '';
  draw();
}

// Signing, where the page brings the means and the browser can.

const signer = window.witnessmarkSign;

async function drawSigning() {
  if (!signer) return;
  const person = who();
  const cannot = await signer.available() || (person?.roles ? '' : 'sign-who');
  const key = cannot ? null : await signer.keyOf(person.by);
  at('signing').hidden = false;
  at('make-key').hidden = cannot || key;
  at('sign').hidden = at('key-line').hidden = !key;
  put(at('signing-says'), cannot ? say(cannot) : say(key ? 'sign-line' : 'sign-key', { who: person.name, ...key }));
  if (key) put(at('key-line'), key.line(facts.namespace));
}

async function sign() {
  commitAll();
  const { by, name, roles } = who();
  const person = { principal: by, name, role: roles[0], roles };
  const { typed, signed } = parts(items());
  const entries = await signer.entries(facts, typed, person, signed);
  const made = entries.length ? await signer.sign(entries, facts, by) : [];
  made.forEach(({ entry, signature }) => keep({ is: 'signed', entry, signature }));
  put(at('signing-says'), say('sign-done', { count: made.length }));
}

/** Runs one of the signer's answers, and tells what went wrong. */
const tried = (doing) => async () => {
  try {
    await doing();
  } catch (error) {
    put(at('signing-says'), say('sign-failed', { why: error.message }));
  }
};

// The way through the steps: the address says where.

/** Where the list was opened, to come back to. */
let place = 0;

function go() {
  const hash = location.hash.slice(1);
  if (/^[0-9a-f]{64}$/.test(hash)) sheet = hash === facts.packet ? '' : hash;
  const wanted = at(hash)?.closest('.screen');
  const now = document.querySelector('.now');
  // Other places of the page, as the skip link's, lead nowhere else.
  if (now && !wanted) return drawNotices();
  now?.classList.remove('now');
  drawWay(wanted ?? screens[0]);
  if (!wanted) return;
  scrollTo(0, 0);
  wanted.querySelector('h1, h2').focus({ preventScroll: true });
  if (wanted.id === 'finish') tried(drawSigning)();
}

function drawWay(screen) {
  const isList = screen.id === 'list';
  screen.classList.add('now');
  if (!isList) place = screens.indexOf(screen);
  for (const [id, by] of [['back', -1], ['next', 1]]) {
    const to = screens[isList ? place : place + by];
    at(id).hidden = !to;
    if (to) at(id).href = `#${to.id}`;
  }
  const { number } = screen.dataset;
  put(at('where'), number ? say('where', { n: number, count: steps.length }) : say(`where-${screen.id}`));
}

/** Does something when it happens to a part of the page. */
function on(event, parts, does) {
  document.addEventListener(event, (happened) => {
    const part = happened.target.closest?.(parts);
    if (part) does(part, happened);
  });
}

on('input', '[data-blank]', (blank) => {
  blank.dataset.dirty = '';
  drawBlank(blank);
});
on('focusout', '[data-blank]', leave);
on('keydown', '[data-blank]', (blank, { key }) => key === 'Enter' && leave(blank));
on('change', '[data-check]', tick);
on('change', '#person, #initials', changePerson);
on('change', '#load', open);
on('click', '[data-sign]', press);
on('click', '#save', save);
on('click', '#make-key', tried(() => signer.make(who().by).then(drawSigning)));
on('click', '#sign', tried(sign));
addEventListener('hashchange', go);
addEventListener('storage', ({ key }) => {
  if (key?.startsWith(own)) take(key);
  draw();
});
// A tablet that is put down may never come back to this page.
addEventListener('pagehide', commitAll);
document.addEventListener('visibilitychange', commitAll);
addEventListener('beforeunload', (event) => homeless.size && event.preventDefault());

stored(own).forEach(take);
all('[disabled]').forEach((part) => { part.disabled = false; });
document.body.classList.add('filling');
go();
draw();
})();
