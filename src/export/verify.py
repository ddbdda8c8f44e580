#!/usr/bin/env python3
"""Checks the record of a changeover without the program that wrote it: python3 verify.py [FOLDER]

FOLDER is an exported folder, or a record's own folder with `allowed_signers` in it; without one, the
folder this file lies in. Needs Python 3.9 and ssh-keygen. Prints one line a finding, and ends with 1
when there is one. Checks bytes, numbers, chain, packet, signatures, times, limits, people, roles, the
second person, release, and the proofs of a log. Does not check: order of the lockout, who is inside,
the sentences of the kinds, hidden characters in remarks.
"""
import base64, datetime, decimal, hashlib, json, os, re, stat, subprocess, sys, tempfile

DECIMAL = r"-?(?!(?:\.?[0-9]){31})(?:0|[1-9][0-9]*)(?:\.[0-9]+)?"
TIME = r"\d{4}-\d\d-\d\dT[0-2]\d:[0-5]\d:[0-5]\d(?:Z|(?!-00:00)[+-][0-2]\d:[0-5]\d)"
FIELDS = set("accepts at by corrects job kind machine meaning name note packet prev reading role row seq "
             "step v blank high instrument low unit value verdict".split())
OPTION = r'(?:namespaces="[\w.@+,-]+"|valid-(?:after|before)="\d{8}(?:\d{4}(?:\d\d)?)?Z")'
SIGNER = rf"([\w.@+-]+) ({OPTION},{OPTION},{OPTION}) ssh-ed25519 ([A-Za-z0-9+/=]+)(?: .*)?"
ORDER = 2**252 + 27742317777372353535851937790883648493
SMALL = {0, 1, 2**255 - 20, *(int.from_bytes(bytes.fromhex(y), "little") for y in (  # order 1 to 8
    "c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a",
    "26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05"))}

def need(holds, otherwise):
    if not holds:
        raise ValueError(otherwise)

def read(path, most=65535):
    is_file = stat.S_ISREG(os.lstat(path).st_mode)
    need(is_file and os.path.getsize(path) <= most, f"no plain file of at most {most} bytes")
    with open(path, "rb") as file:
        return file.read()

def members(pairs):  # each name once, in the order of their UTF-16 code units
    need(len(dict(pairs)) == len(pairs), "a name stands twice")
    return dict(sorted(pairs, key=lambda pair: pair[0].encode("utf-16-be")))

def parse(data):  # RFC 8785 and one line feed, whole numbers only: made again and compared
    value = json.loads(data.decode(), object_pairs_hook=members, parse_float=int, parse_constant=int)
    again = json.dumps(value, ensure_ascii=False, separators=(",", ":")) + "\n"
    need(again.encode() == data, "not canonical JSON and one line feed")
    return value

def moment(text):
    need(re.fullmatch(TIME, text, re.ASCII), f"no time with offset: {text}")
    return datetime.datetime.fromisoformat(text.replace("Z", "+00:00"))

def is_weak(key):  # one signature fits every message
    return int.from_bytes(base64.b64decode(key)[-32:], "little") % 2**255 % (2**255 - 19) in SMALL

def armour(data):  # the file as it would be written again from what it holds
    blob = base64.b64decode("".join(data.decode("ascii").split("\n")[1:-2]))
    need(blob.startswith(b"SSHSIG\0\0\0\1"), "not SSHSIG version 1")
    need(int.from_bytes(blob[-32:], "little") < ORDER, "a number too great (RFC 8032 §5.1.7)")
    lines = re.findall(".{1,70}", base64.b64encode(blob).decode())
    text = ["-----BEGIN SSH SIGNATURE-----", *lines, "-----END SSH SIGNATURE-----", ""]
    return "\n".join(text).encode()

def judge(blank, value):  # a value on a limit is within
    of = blank.get("guard") or {**blank, "outer_low": blank["low"], "outer_high": blank["high"]}
    limits = (of[name] or value for name in ("low", "high", "outer_low", "outer_high"))
    number, low, high, outer_low, outer_high = map(decimal.Decimal, (value, *limits))
    outside = "too-close" if outer_low <= number <= outer_high else "outside"
    return "within" if low <= number <= high else outside

def blanks(step, row):  # of a step, or of one row of it
    rows = step["table"]["rows"] if row else []
    every = [blank["id"] for blank in step["readings"]]
    return [blank for own in rows if own.get("id") == row for blank in own["readings"]] if row else every

class Record:
    def __init__(self, folder):
        self.found, self.own = 0, os.path.join(folder, "record")
        self.own = self.own if os.path.isdir(self.own) else folder
        self.where, data = "packet", read(os.path.join(self.own, "packet.json"), 1 << 24)
        self.packet, self.digest = parse(data), hashlib.sha256(data).hexdigest()
        self.steps = {step["id"]: step for step in self.packet["steps"] if not step["stays"]}
        self.number, self.prev, self.last = 0, "0" * 64, moment(self.packet["job"]["issued"])
        self.latest, self.accepted, self.signed, self.leaves, self.closed = {}, set(), [], {}, False
        people = os.path.join(folder, "people.json")
        self.people = parse(read(people, 1 << 24)) if os.path.lexists(people) else None
        self.good = tempfile.NamedTemporaryFile()
        self.signers(read(os.path.join(folder, "allowed_signers"), 1 << 24).decode())

    def find(self, what, expected, found):
        self.found += 1
        print(f"{self.where}: {what}: expected {expected}, found {json.dumps(found)}")

    def same(self, given, **expected):
        for name in filter(lambda name: given.get(name) != expected[name], expected):
            self.find(name, expected[name], given.get(name))

    def signers(self, text):  # a line that leaves something open counts for nobody
        owners, self.where = {}, "allowed_signers"
        for line in filter(None, text.split("\n")):
            match = re.fullmatch(SIGNER, line, re.ASCII)
            if match and len(set(re.findall('[a-z-]+="', match[2]))) == 3:
                owners.setdefault(match[3], []).append((match[1], line))
            elif not line.startswith("#"):
                self.find("line", "a name, three options with times in UTC, an Ed25519 key", line)
        for key, own in owners.items():
            if is_weak(key) or len({name for name, _ in own}) > 1:
                self.find("key", "a sound key of one person", [name for name, _ in own])
            else:
                self.good.write("".join(line + "\n" for _, line in own).encode())
        self.good.flush()

    def take(self, name):
        self.where, path, data, file = name[:6], os.path.join(self.own, name), b"", b""
        try:
            self.same({"number": int(self.where)}, number=self.number + 1)
            self.number, data = int(self.where), read(path)
            file = read(path + ".sig")
            need(armour(file) == file, "signature not as ssh-keygen writes it")
            entry = parse(data)
            need(set(entry) | set(entry.get("reading", {})) <= FIELDS, "a field that does not belong")
            need(type(entry["seq"]) is int and entry["v"] in (1, 2), "another version or number")
            self.same(entry, seq=self.number, prev=self.prev, packet=self.digest,
                      job=self.packet["job"]["id"], machine=self.packet["machine"]["id"])
            self.signer(entry, data, path + ".sig", moment(entry["at"]))
            self.rules(entry, entry["kind"], self.steps[entry["step"]], entry.get("row"))
        except Exception as error:  # whatever the bytes are, the next entry is looked at
            self.find("form", "what FORMAT.md says", repr(error))
        self.prev, self.leaves[self.where] = hashlib.sha256(data + file).hexdigest(), data + file

    def signer(self, entry, data, path, at):
        now, by = datetime.datetime.now(datetime.timezone.utc), entry["by"]
        if not self.last <= at <= now:
            self.find("time", f"{self.last.isoformat()} to {now.isoformat()}", entry["at"])
        time = at.astimezone(datetime.timezone.utc).strftime("%Y%m%d%H%M%SZ")
        self.last, space = max(self.last, at), "signoff@" + self.packet["plant"]["domain"]
        ask = ["ssh-keygen", "-Y", "verify", "-f", self.good.name, "-n", space, "-I", by, "-s", path]
        said = subprocess.run([*ask, f"-Overify-time={time}"], input=data, capture_output=True)
        if said.returncode:
            self.find("signature", f"one by {by} for {space} at {time}", said.stderr.decode())
        if self.people:
            own, day = self.people["people"][by], entry["at"][:10]
            terms = [one for one in own["roles"] if one["from"] <= day <= one.get("until", "9999")]
            held = entry["role"] in [one["role"] for one in terms]
            lost = [one["from"] for one in self.people["revoked"] if one["key"].encode() in said.stdout]
            self.same({"name": entry["name"], "role held": held}, name=own["name"], **{"role held": True})
            self.same({"revoked": any(moment(one) <= at for one in lost)}, revoked=False)

    def rules(self, entry, kind, step, row):
        self.same({"after the release": self.closed}, **{"after the release": False})
        if kind == "reading":
            return self.reading(step, entry, entry["reading"])
        if kind == "deviation-accepted":
            latest = [self.latest.get(blank["id"], (0, ""))[0] for blank in step["readings"]]
            given = {"role": entry["role"], "reading": entry["accepts"] in latest, "note": entry["note"] != ""}
            self.same(given, role=self.packet["accepts_deviation"], reading=True, note=True)
            return self.accepted.add(entry["accepts"])
        did = [one["by"] for one in self.signed if one["step"] == step["id"] and one["kind"] == "performed"
               and row in (None, one.get("row"))]
        lacks = [blank for blank in blanks(step, row) if blank not in self.latest]
        if lacks or kind == "verified" and (entry["by"] in did or not did):
            self.find("order", "all readings first, and another person than who did it", [lacks, did])
        self.signed.append(entry)
        self.closed = kind == "released"
        if self.closed and list(self.missing()):
            self.find("release", "nothing missing", list(self.missing()))

    def reading(self, step, entry, taken):
        blank = {one["id"]: one for one in step["readings"]}[taken["blank"]]
        need(re.fullmatch(DECIMAL, taken["value"], re.ASCII), "no plain decimal")
        need("note" in entry or "corrects" not in entry, "a correction without its reason")
        tool, before = blank["instrument"] or {}, self.latest.get(blank["id"], [None])[0]
        self.same({**taken, "corrects": entry.get("corrects")}, unit=blank["unit"], low=blank["low"],
                  high=blank["high"], verdict=judge(blank, taken["value"]), corrects=before)
        self.same({"instrument": taken.get("instrument", tool.get("id"))}, instrument=tool.get("id"))
        if entry["at"][:10] > (tool.get("calibration_due") or "9999"):
            self.find("calibration", "one up to " + tool["calibration_due"], entry["at"])
        self.latest[blank["id"]] = entry["seq"], taken["verdict"]
        self.signed = [one for one in self.signed if one["step"] != step["id"]
                       or blank["id"] not in blanks(step, one.get("row"))]  # to be signed again

    def missing(self):
        for step in self.steps.values():
            for blank in step["readings"]:
                seq, verdict = self.latest.get(blank["id"], (0, "not read"))
                if verdict != "within" and seq not in self.accepted:
                    yield f"{blank['id']} {verdict}"
            for sign in step["signs"]:
                asked = step["id"], sign["meaning"], sign["role"], sign.get("row")
                if not any((one["step"], one["kind"], one["role"], one.get("row")) == asked
                           and sign.get("by") in (None, one["by"]) for one in self.signed):
                    yield " ".join(filter(None, asked))

    def log(self, folder):  # RFC 9162 §2.1.3.2: each entry lies in the tree that the checkpoint names
        self.where, proofs = "log", parse(read(os.path.join(folder, "log.json"), 1 << 28))
        _, size, root = read(os.path.join(folder, "checkpoint")).decode().split("\n")[:3]
        for name, leaf in self.leaves.items():
            hashed, own = hashlib.sha256(b"\0" + leaf).digest(), proofs["entries"][name]
            at, last = own["index"], int(size) - 1
            for other in map(bytes.fromhex, own["proof"]):
                is_right = at % 2 == 1 or at == last
                hashed = hashlib.sha256(b"\1" + (other + hashed if is_right else hashed + other)).digest()
                while is_right and at and at % 2 == 0:
                    at, last = at // 2, last // 2
                at, last = at // 2, last // 2
            self.same({name: [base64.b64encode(hashed).decode(), last]}, **{name: [root, 0]})

def main(folder):
    try:
        record = Record(folder)
    except Exception as error:
        return print(f"packet: form: expected what FORMAT.md says, found {error!r}\n1 findings") or 1
    for name in sorted(os.listdir(record.own)):
        if re.fullmatch(r"\d{6}\.json", name):
            record.take(name)
        elif not re.fullmatch(r"\d{6}\.json\.sig|packet\.json|\.lock|allowed_signers|verify\.py", name):
            record.same({"file": name}, file="none")
    if os.path.lexists(os.path.join(folder, "log.json")):
        record.log(folder)
    lacks = len(list(record.missing()))
    print(f"{record.packet['job']['id']}: {len(record.leaves)} entries, {lacks} things missing, "
          f"{record.found} findings, people {'checked' if record.people else 'not checked'}, head {record.prev}")
    return record.found > 0

sys.exit(main(sys.argv[1] if len(sys.argv) > 1 else os.path.dirname(os.path.abspath(__file__))))
