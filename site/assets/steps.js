// The tablet's page: one step at a time, readings judged as they are typed, everything kept here.
//
// The page can be read without it and brings its words. Must never write markup, never change or remove
// what was typed, and never decide what goes on record: the desk judges again.
'use strict';
(() => {
const at = (id) => document.getElementById(id);
const all = (what, within = document) => [...within.querySelectorAll(what)];
const facts = at('main').dataset;
const screens = all('.screen:not(#list)');
const blanks = new Map(all('[data-blank]').map((blank) => [blank.dataset.blank, blank]));
const ids = new Set(all('.step').map((step) => step.dataset.step));
const stepOf = (part) => part.closest('.step').dataset.step;

/** A text of the page, with values put in. */
function say(key, values = {}) {
  const place = [...at('words').content.children].find((word) => word.dataset.word === key);
  return place?.textContent.replace(/\{(\w+)\}/g, (_, name) => values[name]);
}

/** What has not changed is left, so that nobody hears it twice. */
function put(place, text) {
  if (place.textContent !== text) place.textContent = text;
}

const make = (tag, facts) => Object.assign(document.createElement(tag), facts);
const button = (textContent, onclick) => make('button', { textContent, onclick });

// Numbers.

/** A decimal as a whole number of its thirtieth place: exact, never a binary fraction. */
function decimal(text) {
  const [, sign, whole, places = ''] = /^(-?)(0|[1-9][0-9]*)(?:\.([0-9]+))?$/.exec(text) ?? [];
  return !whole || text.length > 32 ? null : BigInt(sign + whole + places.padEnd(30, '0'));
}

/** Between the limits or on one of them; an empty limit is none. */
function between(value, low, high) {
  return (!low || decimal(low) <= decimal(value)) && (!high || decimal(value) <= decimal(high));
}

/** As the desk judges: by the guard band where there is one (ISO 14253-1), else by the limits. */
function judge(value, { dataset: { low, high, guardLow, guardHigh, outerLow, outerHigh } }) {
  if (!low && !high) return 'noted';
  const isGuarded = guardLow || guardHigh;
  if (isGuarded ? between(value, guardLow, guardHigh) : between(value, low, high)) return 'within';
  return isGuarded && between(value, outerLow, outerHigh) ? 'too-close' : 'outside';
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
  if (/^-?[1-9][0-9]{0,2}[.,][0-9]{3}$/.test(text) && !text.includes(facts.decimal))
    return { fault: say('ambiguous', { sign: facts.decimal }) };
  const value = text.replace(',', '.');
  return decimal(value) !== null ? { value } : { fault: say('no-number', { example: `56${facts.decimal}2` }) };
}

// The journal: what is typed, in its order.

const scope = `witnessmark/${facts.namespace}/${facts.job}/`;
const own = `${scope}${facts.packet}/`;
const tab = Math.random();
const journal = new Map();
/** The browser's store; where it may not be used, one that takes nothing. */
let shelf = {};
try {
  shelf = localStorage;
} catch {}
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

/** Writes what is not in the store yet; what it refuses stays here and is tried again. */
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

const stored = (start) => Object.keys(shelf).filter((key) => key.startsWith(start)).sort();

const isText = (...texts) => texts.every((text) => typeof text === 'string');
const isSign = (word) => word === 'performed' || word === 'verified';

/** Whether something has the form of what is typed here: stores and files may hold anything. */
function isTyped(item) {
  if (!item) return false;
  if (isSigned(item)) return isText(item.entry, item.signature);
  if (!isText(item.is, item.step, item.by, item.at, item.row ?? '')) return false;
  if (!ids.has(item.step) || !(Date.parse(item.at) > 0)) return false;
  if (item.is === 'reading') return blanks.has(item.blank) && isText(item.value) && decimal(item.value) !== null;
  if (item.is === 'tick') return Number.isInteger(item.check) && typeof item.on === 'boolean';
  return isSign(item.is === 'taken-back' ? item.what : item.is);
}

function take(key) {
  const item = parsed(shelf[key]);
  if (isTyped(item)) journal.set(key, item);
}

const isSigned = (item) => item.is === 'signed';

/** What counts, by its name: all readings of a blank, the last tick of a box, a signature that stands. */
function settled() {
  const counts = new Map();
  for (const item of items()) {
    const { is, step, row = '', blank } = item;
    if (is === 'reading') counts.set(blank, [...(counts.get(blank) ?? []), item]);
    else if (is === 'tick') counts.set(`${step} ${item.check}`, item.on);
    else if (is === 'taken-back') counts.delete(`${step} ${row} ${item.what}`);
    else counts.set(`${step} ${row} ${is}`, item);
  }
  return counts;
}

const latest = ({ dataset }, counts) => counts.get(dataset.blank)?.at(-1);
const ticked = (box, counts) => counts.get(`${stepOf(box)} ${box.dataset.check}`) ?? false;

function signOf(button, counts, what = button.dataset.sign) {
  return counts.get(`${stepOf(button)} ${button.dataset.row ?? ''} ${what}`);
}

function verdictOf(blank, counts) {
  const reading = latest(blank, counts);
  return reading && judge(reading.value, blank);
}

const shown = (item) => item.shown ?? item.value.replace('.', facts.decimal);

// Time: local, with its offset.

function local(date) {
  const east = -date.getTimezoneOffset();
  const iso = (minutes, time = 0) => new Date(time + minutes * 60000).toISOString();
  return `${iso(east, Number(date)).slice(0, 19)}${east < 0 ? '-' : '+'}${iso(Math.abs(east)).slice(11, 16)}`;
}

const brief = (digest) => String(digest).slice(0, 16);
const moment = (text) => text.slice(0, 16).replace('T', ' ');

/** What is wrong with the clock; nothing when it may be right. */
function clockFault() {
  const now = new Date();
  const fault = (key, then) => say(key, { now: moment(local(now)), then: moment(then) });
  if (now < new Date(facts.issued)) return fault('clock-early', facts.issued);
  const later = items().findLast((item) => Date.parse(item.at) - now > 1000);
  return later ? fault('clock-back', later.at) : '';
}

function type(what, { by }) {
  keep({ ...what, by, at: local(new Date()), doubt: clockFault() !== '' });
}

// People.

const picker = at('person');
const initials = at('initials');
const optionOf = (by) => [...picker.options].find((option) => option.value === by);
const nameOf = (by) => optionOf(by)?.dataset.name ?? by.replace('initials:', '');

/** Who has the tablet; nothing before somebody is picked. */
function who() {
  const by = picker.value;
  const typed = initials.value.trim();
  if (by === 'initials:') return /^\p{L}{1,6}$/u.test(typed) && { by: by + typed, name: typed };
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
  showSigning();
}

function ask() {
  put(at('ask'), say('who-first'));
  picker.focus();
}

// Typing.

/** Takes in what stands in a blank, when it is new, a number, and somebody is picked. */
function commit(blank) {
  if (!('dirty' in blank.dataset)) return;
  const person = who();
  const typed = blank.value.trim();
  const { value } = read(typed, blank);
  if (!value || !person) return;
  delete blank.dataset.dirty;
  const before = latest(blank, settled());
  if (before?.value === value && before.by === person.by) return;
  const step = stepOf(blank);
  type({ is: 'reading', step, blank: blank.dataset.blank, value, shown: typed }, person);
  // As on record: another reading takes the signatures of its row and step back.
  for (const { is, row, step: other } of settled().values())
    if (isSign(is) && other === step && (!row || row === blank.closest('.row')?.dataset.row)) type({ is: 'taken-back', step, row, what: is }, person);
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
  else ask();
  draw();
}

/** Gives the signature of a button or takes it back; a refusal is told beside it. */
function press(button) {
  const person = who();
  if (!person) return ask();
  const counts = settled();
  const given = signOf(button, counts);
  const fault = refusal(button, given, person, counts);
  put(button.closest('.sign').querySelector('.reason'), fault);
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
  all('[data-check]').forEach((box) => { box.checked = ticked(box, counts); });
  all('[data-sign]').forEach((button) => drawSign(button, counts));
  drawStates(counts);
  drawPeople();
  drawNotices();
}

function drawBlank(blank, counts = settled()) {
  const fill = blank.closest('.fill');
  const history = counts.get(blank.dataset.blank) ?? [];
  const now = history.at(-1);
  if (now && !('dirty' in blank.dataset) && document.activeElement !== blank) blank.value = shown(now);
  const typed = blank.value.trim();
  const { value, fault = '' } = typed ? read(typed, blank) : { fault: now && say('empty') };
  const verdict = value ? judge(value, blank) : '';
  const outside = verdict === 'outside' && all(`p[data-outside="${blank.dataset.outside}"]`, blank.closest('.step'))[0];
  const said = [value ? say(verdict) : fault, outside?.textContent];
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
  const stop = stopped(button, counts);
  button.setAttribute('aria-pressed', Boolean(given));
  button.disabled = stop && !given;
  put(place.querySelector('.given'), given ? say('given', { who: nameOf(given.by), time: moment(given.at) }) : '');
  if (button.dataset.sign === 'performed') put(place.querySelector('.stop'), stop);
}

/** Why a step or row cannot be done: a zero that nobody may accept is open or not within. */
function stopped(button, counts) {
  const place = button.dataset.row ? button.closest('.row') : button.closest('.step');
  for (const blank of all('[data-accept="never"]', place)) {
    const verdict = verdictOf(blank, counts);
    const what = blank.labels[0].textContent;
    if (!isGood(verdict)) return say(verdict ? 'zero-outside' : 'zero-open', { what });
  }
  return '';
}

/** How far a step is: the worst of its readings, else how much is filled. */
function stateOf(step, counts) {
  const verdicts = all('[data-blank]', step).map((blank) => verdictOf(blank, counts));
  const bad = ['outside', 'too-close'].find((verdict) => verdicts.includes(verdict));
  if (bad) return bad;
  const signs = all('[data-sign]', step).map((button) => signOf(button, counts));
  const done = [...verdicts, ...signs, ...all('[data-check]', step).map((box) => ticked(box, counts))];
  if (!done.some(Boolean)) return 'open';
  return done.every(Boolean) ? 'filled' : 'part';
}

function drawStates(counts) {
  const open = [];
  const asked = all('.step:not([data-stays])');
  all('[data-state]').forEach((place, index) => {
    const state = stateOf(asked[index], counts);
    place.dataset.is = state;
    put(place, say(`state-${state}`));
    if (state !== 'filled') open.push(asked[index].dataset.number);
  });
  const filled = asked.length - open.length;
  put(at('summary'), say('summary', { filled, steps: asked.length, open: open.join(', ') || '0' }));
}

/** A list that has not changed keeps its focus. */
function redraw(box, texts, part) {
  if (box.dataset.is === texts.join()) return;
  box.dataset.is = texts.join();
  box.replaceChildren(...texts.map(part));
}

/** Who has typed here already is one tap away. */
function drawPeople() {
  const typed = new Set(items().reverse().map((item) => item.by));
  const recent = [...typed].filter((by) => by && by !== who()?.by).slice(0, 3);
  redraw(at('recent'), recent, (by) => button(nameOf(by), () => pick(by)));
}

let sheet = '';

function drawNotices() {
  at('full').hidden = house();
  put(at('clock'), clockFault());
  put(at('sheet'), sheet && say('other-sheet', { digest: brief(sheet) }));
  // Other issues of this job that were filled in here.
  const digests = new Set(stored(scope).map((key) => key.slice(scope.length).split('/')[0]));
  redraw(at('others'), [...digests].filter((digest) => digest.length === 64 && digest !== facts.packet), other);
}

function other(digest) {
  const notice = make('p', { className: 'caution', textContent: say('other-issue', { digest: brief(digest) }) });
  const kept = () => stored(`${scope}${digest}/`).map((key) => parsed(shelf[key])).filter(Boolean);
  notice.append(button(say('save'), () => saveAs(digest, kept())), button(say('discard'), () => discard(digest)));
  return notice;
}

function discard(digest) {
  if (!confirm(say('discard-sure'))) return;
  stored(`${scope}${digest}/`).forEach((key) => shelf.removeItem(key));
  drawNotices();
}

// Files.

/** What the file knows, in its order; the rest is for the page alone. */
const FORM = 'filled job packet saved clock typed is step row blank value check on what by at signed entry signature';
const asForm = (value, indent) => JSON.stringify(value, FORM.split(' '), indent);

/** What was signed after another head of the record is signed anew. */
function parts(list) {
  const signed = list.filter(isSigned);
  return {
    typed: list.filter((item) => !isSigned(item)),
    signed: signed.filter(({ head }) => head === signed.at(-1).head).map(({ entry, signature }) => ({ entry, signature })),
  };
}

function saveAs(packet, list) {
  const clock = clockFault() || list.some((item) => item.doubt) ? 'doubtful' : 'ok';
  const file = { filled: 1, job: facts.job, packet, saved: local(new Date()), clock, ...parts(list) };
  const download = `${facts.job}-${brief(packet)}.json`;
  const href = URL.createObjectURL(new Blob([asForm(file, 1)]));
  make('a', { href, download }).click();
  put(at('filed'), say('saved', { file: download }));
}

async function save() {
  commitAll();
  await signing;
  saveAs(facts.packet, items());
  draw();
}

/** Takes in what a file has and this page has not; says what came of it. */
function load(file) {
  const { filled, packet, job, clock, typed, signed = [] } = file ?? {};
  if (filled !== 1 || ![typed, signed].every(Array.isArray)) return say('load-form');
  if (packet !== facts.packet || job !== facts.job) return say('load-issue', { digest: brief(packet) });
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

// Signing, where the browser can.

const signer = window.witnessmarkSign;

async function drawSigning() {
  const person = who();
  const cannot = await signer.available() || (person?.roles ? '' : 'sign-who');
  const key = cannot ? null : await signer.keyOf(person.by);
  at('signing').hidden = false;
  at('make-key').hidden = cannot || key;
  at('with-key').hidden = !key;
  put(at('signing-says'), cannot ? say(cannot) : say(key ? 'sign-line' : 'sign-key', { who: person.name, ...key }));
  if (key) put(at('key-line'), key.line(facts.namespace));
}

async function sign() {
  commitAll();
  const { by: principal, name, roles } = who();
  const { typed, signed } = parts(items());
  const entries = await signer.entries(facts, typed, { principal, name, roles }, await signer.signedOn(facts));
  await signer.sign(entries, facts, principal);
  // With what another window signed, or this one before it was closed.
  const made = await signer.signedOn(facts);
  const fresh = made.filter(({ entry }) => !signed.some((one) => one.entry === entry));
  fresh.forEach((one) => keep({ is: 'signed', ...one, head: facts.prev }));
  put(at('signing-says'), say('sign-done', { count: fresh.length }));
}

const tried = (doing) => async () => {
  try {
    await doing();
  } catch (error) {
    put(at('signing-says'), say(error.message) || say('sign-failed', { why: error.message }));
  }
};

/** What is being signed: a file that is saved waits for it. */
let signing;

const showSigning = () => signer && at('finish').matches('.now') && tried(drawSigning)();

// The way: the address says where.

/** Where the list leads back to. */
let place = 0;

function go() {
  const hash = location.hash.slice(1);
  const now = document.querySelector('.now');
  const wanted = hash && at(hash)?.closest('.screen');
  if (/^[0-9a-f]{64}$/.test(hash)) sheet = hash === facts.packet ? '' : hash;
  // The skip link leads nowhere else.
  if (now && hash && !wanted) return drawNotices();
  now?.classList.remove('now');
  const screen = wanted || screens[0];
  drawWay(screen);
  if (!now && !wanted) return;
  scrollTo(0, 0);
  screen.querySelector('h1, h2').focus({ preventScroll: true });
  showSigning();
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
  put(at('where'), screen.dataset.where);
}

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
on('change', '[data-blank]', leave);
on('change', '[data-check]', tick);
on('change', '#person, #initials', changePerson);
on('change', '#load', open);
on('click', '[data-sign]', press);
on('click', '.save', save);
on('click', '#make-key', tried(() => signer.make(who().by).then(drawSigning)));
on('click', '#remove-key', tried(() => confirm(say('remove-sure')) && signer.remove(who().by).then(drawSigning)));
on('click', '#sign', () => { signing = tried(sign)(); });
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
