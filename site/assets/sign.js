// Signs what was typed on this tablet, with a key that cannot leave the browser.
//
// Bytes as in src/record/FORMAT.md; the rules of a record are asked when it is taken in. Must never
// sign what another person typed. Errors are words; the page has the sentences.
(() => {
  'use strict';

  const MEANINGS = {
    reading: 'I read this value at the machine.',
    performed: 'I did this step as it is written.',
    verified: 'I saw that another person did this step, and that it is right.',
  };
  const ED25519 = 'Ed25519';

  // Bytes.

  const bytes = (text) => new TextEncoder().encode(text);
  const join = (...parts) => new Uint8Array(parts.flatMap((part) => [...part]));
  const number = (n) => [n >>> 24, n >>> 16, n >>> 8, n];
  /** A length and the bytes, as SSH writes a string. */
  const field = (part) => join(number(part.length), part);
  const named = (text) => field(bytes(text));
  const base64 = (part) => btoa(String.fromCharCode(...part));
  const hash = async (name, part) => new Uint8Array(await crypto.subtle.digest(name, part));

  /** RFC 8785 for texts, whole numbers and objects of them. */
  function canonical(value) {
    if (typeof value !== 'object') return JSON.stringify(value);
    const keys = Object.keys(value).filter((key) => value[key] !== undefined).sort();
    return `{${keys.map((key) => `"${key}":${canonical(value[key])}`)}}`;
  }

  // Time.

  /** As entries carry it: local, whole seconds, with the offset. */
  function written(time) {
    const east = time.getTimezoneOffset() * -6e4;
    const iso = (ms) => new Date(ms).toISOString();
    return iso(+time + east).slice(0, 19) + (east < 0 ? '-' : '+') + iso(Math.abs(east)).slice(11, 16);
  }

  /** As a list of signers carries it. */
  const stamp = (time) => `${time.toISOString().slice(0, 19).replace(/[-T:]/g, '')}Z`;

  // What is kept in this browser: the keys, and what was signed on each page.

  function opened() {
    return new Promise((resolve, reject) => {
      const request = indexedDB.open('witnessmark-sign', 1);
      request.onupgradeneeded = () => {
        request.result.createObjectStore('keys', { keyPath: 'principal' });
        request.result.createObjectStore('signed', { keyPath: ['page', 'seq'] });
      };
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(new Error('no-store'));
    });
  }

  /** Works in one transaction; gives the result once it is durable. `taken`: what adding twice is called. */
  async function kept(name, work, taken) {
    const base = await opened();
    try {
      return await new Promise((resolve, reject) => {
        const transaction = base.transaction(name, 'readwrite', { durability: 'strict' });
        const request = work(transaction.objectStore(name));
        transaction.oncomplete = () => resolve(request.result);
        const word = () => (transaction.error?.name === 'ConstraintError' ? taken : 'no-store');
        transaction.onabort = () => reject(new Error(word()));
      });
    } finally {
      base.close();
    }
  }

  const found = (principal) => kept('keys', (store) => store.get(principal));

  // Keys.

  const newPair = () => crypto.subtle.generateKey(ED25519, false, ['sign', 'verify']);

  async function available() {
    if (!window.crypto?.subtle) return 'no-crypto';
    const pair = await newPair().catch(() => null);
    if (!pair) return 'no-ed25519';
    try {
      // Some browsers open a store in a private window and then keep no key in it.
      await kept('keys', (store) => {
        store.put({ principal: '', pair });
        return store.delete('');
      });
      return '';
    } catch {
      return 'no-store';
    }
  }

  async function blobOf(pair) {
    const raw = new Uint8Array(await crypto.subtle.exportKey('raw', pair.publicKey));
    return join(named('ssh-ed25519'), field(raw));
  }

  /** What may be shown of a key. */
  async function shown({ principal, made, pair }) {
    const blob = await blobOf(pair);
    const fingerprint = `SHA256:${base64(await hash('SHA-256', blob)).replace(/=+$/, '')}`;
    const until = new Date(made);
    until.setUTCFullYear(until.getUTCFullYear() + 1);
    const line = (namespace) =>
      `${principal} namespaces="${namespace}",valid-after="${stamp(new Date(made))}",` +
      `valid-before="${stamp(until)}" ssh-ed25519 ${base64(blob)} tablet ${made.slice(0, 10)}`;
    return { principal, made, fingerprint, line };
  }

  async function keyOf(principal) {
    const key = await found(principal);
    return key ? shown(key) : null;
  }

  async function make(principal) {
    const key = { principal, made: new Date().toISOString(), pair: await newPair() };
    // Fails when there is one, also when another window made it a moment ago.
    await kept('keys', (store) => store.add(key), 'there-is-one');
    // A browser may throw away what nobody asked it to keep.
    navigator.storage?.persist?.().catch(() => false);
    return shown(key);
  }

  const remove = (principal) => kept('keys', (store) => store.delete(principal));

  // From what was typed to entries.

  const isDecimal = (text) => /^-?(0|[1-9]\d*)(\.\d+)?$/.test(text) && text.replace('-', '').length < 32;

  /** Whether a decimal is at most another, exactly. */
  function upTo(one, other) {
    const places = (text) => (text.split('.')[1] ?? '').length;
    const most = Math.max(places(one), places(other));
    const whole = (text) => BigInt(text.replace('.', '') + '0'.repeat(most - places(text)));
    return whole(one) <= whole(other);
  }

  const inside = (value, low, high) => (!low || upTo(low, value)) && (!high || upTo(value, high));

  /** With a guard band (ISO 14253-1) a value is inside or outside only where it surely is. */
  function verdict(value, { low, high, guardLow, guardHigh, outerLow, outerHigh }) {
    if (!guardLow && !guardHigh) return inside(value, low, high) ? 'within' : 'outside';
    if (inside(value, guardLow, guardHigh)) return 'within';
    return inside(value, outerLow, outerHigh) ? 'too-close' : 'outside';
  }

  /** The steps of the page in its order, with their blanks and the signatures they ask for. */
  function stepsOf() {
    const all = (part, name) => [...part.querySelectorAll(`[data-${name}]`)];
    const row = (part) => part.closest('[data-row]')?.dataset.row;
    return all(document, 'step').map((part) => ({
      step: part.dataset.step,
      blanks: all(part, 'blank').map((input) => ({ ...input.dataset, row: row(input) })),
      signs: all(part, 'sign').map((button) => button.dataset),
    }));
  }

  /** What stands in the end: of a blank or a signature the last that was typed, whoever typed it. */
  function standing(typed) {
    const last = new Map();
    for (const item of typed) {
      const what = item.what ?? item.is;
      const key = `${what} ${what === 'reading' ? item.blank : `${item.step} ${item.row ?? ''}`}`;
      last.delete(key);
      if (item.is in MEANINGS) last.set(key, item);
    }
    return [...last.values()];
  }

  /** The first of the roles asked for that the person holds. */
  function roleOf({ role, roles = role }, signs) {
    const held = `${roles}`.split(/[ ,]/);
    const asked = signs.map((sign) => sign.role);
    return asked.find((one) => held.includes(one)) ?? asked[0] ?? held[0];
  }

  /** Signatures asked for in the row of a blank; those of the step when no row is signed by itself. */
  function signsFor(step, blank) {
    const own = step.signs.filter((sign) => sign.row && sign.row === blank.row);
    return own.length ? own : step.signs;
  }

  const isRow = (one, other) => (one.row ?? '') === (other.row ?? '');

  /** Whether it was signed on this page before; corrections are made at the desk, with the reason. */
  const isSigned = (before, { is, step, blank, row }) => before.some((entry) => entry.kind === is
    && (is === 'reading' ? entry.reading.blank === blank : entry.step === step && isRow(entry, { row })));

  /**
   * What a person has to sign next, in the order of the packet: of a step its readings, that it was
   * done, that it was checked. `prev` is what the first follows; `sign` puts in digests and time.
   */
  function entries(page, typed, person, signed = []) {
    const before = signed.map((pair) => JSON.parse(pair.entry));
    const own = standing(typed)
      .filter((item) => item.by === person.principal && !isSigned(before, item));
    const next = [];
    const add = (step, kind, signs, more) => next.push({
      by: person.principal, job: page.job, kind, machine: page.machine, meaning: MEANINGS[kind],
      name: person.name, packet: page.packet, prev: signed.at(-1) ?? page.prev,
      role: roleOf(person, signs), seq: Number(page.seq) + signed.length + next.length + 1,
      step: step.step, v: 3, ...more,
    });
    for (const step of page.steps ?? stepsOf()) {
      for (const blank of step.blanks) {
        const item = own.find((one) => one.is === 'reading' && one.blank === blank.blank);
        // What is no plain decimal, a fraction for one, is read at the desk.
        if (!item || !isDecimal(item.value)) continue;
        const { value } = item;
        const reading = { blank: blank.blank, value, unit: blank.unit ?? '', verdict: verdict(value, blank) };
        for (const name of ['low', 'high', 'instrument']) if (blank[name]) reading[name] = blank[name];
        add(step, 'reading', signsFor(step, blank), { reading });
      }
      for (const kind of ['performed', 'verified']) {
        for (const { row } of own.filter((one) => one.is === kind && one.step === step.step)) {
          const asked = step.signs.filter((sign) => sign.sign === kind && isRow(sign, { row }));
          // Who has no personal lock checks from outside the guard, as the button says.
          const crew = asked.find((sign) => sign.crew)?.crew.split(' ');
          const outside = (crew && !crew.includes(person.principal)) || undefined;
          add(step, kind, asked, { outside, row: row || undefined });
        }
      }
    }
    return next;
  }

  // Signatures.

  async function chained({ entry, signature }) {
    const digest = await hash('SHA-256', bytes(entry + signature));
    return [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  }

  /** A signature file as `ssh-keygen -Y sign` writes it. */
  async function signature(pair, namespace, text) {
    const purpose = join(named(namespace), named(''), named('sha512'));
    const magic = bytes('SSHSIG');
    const data = join(magic, purpose, field(await hash('SHA-512', bytes(text))));
    const made = new Uint8Array(await crypto.subtle.sign(ED25519, pair.privateKey, data));
    const own = field(join(named('ssh-ed25519'), field(made)));
    const blob = join(magic, number(1), field(await blobOf(pair)), purpose, own);
    const lines = base64(blob).match(/.{1,70}/g).join('\n');
    return `-----BEGIN SSH SIGNATURE-----\n${lines}\n-----END SSH SIGNATURE-----\n`;
  }

  const nameOf = (page) => `${page.packet} ${page.seq} ${page.prev}`;
  const allOf = (page) => IDBKeyRange.bound([nameOf(page), 0], [nameOf(page), Infinity]);

  /** What was signed on a page in this browser, in whichever window. */
  async function signedOn(page) {
    const all = await kept('signed', (store) => store.getAll(allOf(page)));
    return all.map(({ entry, signature }) => ({ entry, signature }));
  }

  const forget = (page) => kept('signed', (store) => store.delete(allOf(page)));

  async function sign(list, page, principal) {
    const key = await found(principal);
    if (!key) throw new Error('no-key');
    if (list.some((entry) => entry.by !== principal)) throw new Error('no-person');
    if (!list.length) return [];
    const at = written(new Date());
    const signed = [];
    let { prev } = list[0];
    if (prev.entry) prev = await chained(prev);
    for (const unsigned of list) {
      const entry = `${canonical({ ...unsigned, at, prev })}\n`;
      const pair = { entry, signature: await signature(key.pair, page.namespace, entry) };
      prev = await chained(pair);
      signed.push(pair);
    }
    // Fails when another window signed an entry of this number: the chain would fork.
    await kept('signed', (store) => signed.map((pair, index) => (
      store.add({ page: nameOf(page), seq: list[index].seq, ...pair }))).pop(), 'signed-elsewhere');
    return signed;
  }

  window.witnessmarkSign = { available, keyOf, make, remove, entries, sign, signedOn, forget };
})();
