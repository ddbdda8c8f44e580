#!/usr/bin/env python3
"""Checks the record of a changeover without the program that wrote it: python3 verify.py [FOLDER]

FOLDER is an exported folder, or a record with `allowed_signers` in it; without one, that of this file.
Needs Python 3.9 and ssh-keygen. One line a finding; ends with 1 when there is one. Not checked: order of the
lockout, who is inside, sentences of kinds, remarks, files that do not belong, signatures of checkpoints.
"""
import base64, datetime, decimal, hashlib, json, pathlib, re, subprocess, sys, tempfile

DECIMAL = r"-?(?!(?:\.?[0-9]){31})(?:0|[1-9][0-9]*)(?:\.[0-9]+)?"
TIME = r"\d{4}-\d\d-\d\dT[0-2]\d:[0-5]\d:[0-5]\d(?:Z|(?!-00:00)[+-][0-2]\d:[0-5]\d)"
FIELDS = set("accepts at becomes by concerns corrects job kind locks machine meaning name note outside prev v "
             "packet reading role row seq step withdraws blank high instrument low unit value verdict".split())
OPTION = r'(?:namespaces="[\w.@+,-]+"|valid-(?:after|before)="\d{8}(?:\d{4}(?:\d\d)?)?Z")'
SIGNER = rf"([\w.@+-]+) ({OPTION},{OPTION},{OPTION}) ssh-ed25519 ([A-Za-z0-9+/=]+)(?: .*)?"
ORDER = 2**252 + 27742317777372353535851937790883648493  # RFC 8032 §5.1; then the points of order 1 to 8
SMALL = {0, 1, 2**255 - 20, *(int.from_bytes(bytes.fromhex(y), "little") for y in (
    "c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a",
    "26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05"))}

def need(holds, otherwise):
    if not holds:
        raise ValueError(otherwise)
def read(path, most=65535):
    need(path.is_file() and not path.is_symlink() and path.stat().st_size <= most, "no file, or too long")
    return path.read_bytes()
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
def armour(data):  # the file of a signature as it would be written again from what it holds
    blob = base64.b64decode("".join(data.decode("ascii").split("\n")[1:-2]))
    need(blob[:10] == b"SSHSIG\0\0\0\1" and int.from_bytes(blob[-32:], "little") < ORDER, "not SSHSIG 1")
    lines = re.findall(".{1,70}", base64.b64encode(blob).decode())
    return "\n".join(["-----BEGIN SSH SIGNATURE-----", *lines, "-----END SSH SIGNATURE-----", ""]).encode()
def judge(blank, value):  # a value on a limit is within
    of = blank.get("guard") or {**blank, "outer_low": blank["low"], "outer_high": blank["high"]}
    limits = (of[name] or value for name in ("low", "high", "outer_low", "outer_high"))
    value, low, high, least, most = map(decimal.Decimal, (value, *limits))
    return "within" if low <= value <= high else "too-close" if least <= value <= most else "outside"
def blanks(step, row):  # of a step, or of one row of it
    rows = step["table"]["rows"] if row else [{"readings": [blank["id"] for blank in step["readings"]]}]
    return [blank for own in rows if own.get("id") == row for blank in own["readings"]]

def climb(hashed, at, size, proof):  # from leaf `at` to the root of `size` leaves, RFC 6962 §2.1.1
    half = 1 << (size - 1).bit_length() >> 1
    if size <= 1 or not proof:
        return hashed if (at, size, proof) == (0, 1, []) else b""
    other, is_left = proof[-1], at < half
    own = climb(hashed, at if is_left else at - half, half if is_left else size - half, proof[:-1])
    return hashlib.sha256(b"\1" + (own + other if is_left else other + own)).digest()

class Record:
    def __init__(self, folder):
        own, people = folder / "record", folder / "people.json"
        self.own, self.where, self.found = own if own.is_dir() else folder, "packet", 0
        data = read(self.own / "packet.json", 1 << 24)
        self.packet, self.digest = parse(data), hashlib.sha256(data).hexdigest()
        self.steps = {step["id"]: step for step in self.packet["steps"] if step["stays"] is None}
        self.number, self.prev, self.last = 0, "0" * 64, moment(self.packet["job"]["issued"])
        self.latest, self.accepted, self.raised, self.signed, self.leaves, self.end = {}, {}, {}, [], {}, None
        self.people = parse(read(people, 1 << 24)) if people.exists() else None
        self.good = tempfile.NamedTemporaryFile(buffering=0)
        self.signers(read(folder / "allowed_signers", 1 << 24).decode())
    def find(self, what, expected, found):
        self.found += 1
        print(f"{self.where}: {what}: expected {expected}, found {json.dumps(found, default=str)}")
    def same(self, given, **expected):
        for name in (name for name in expected if given.get(name) != expected[name]):
            self.find(name, expected[name], given.get(name))
    def signers(self, text):  # a line that leaves something open counts for nobody
        owners, self.where = {}, "allowed_signers"
        for line in filter(None, text.split("\n")):
            match = re.fullmatch(SIGNER, line, re.ASCII)
            if match and len(set(re.findall('[a-z-]+="', match[2]))) == 3:
                owners.setdefault(match[3], []).append((match[1], line))
            elif not line.startswith("#"):
                self.find("line", "a name, three options with times in UTC, an Ed25519 key", line)
        for key, own in owners.items():  # for a point of small order one signature fits every message
            point = int.from_bytes(base64.b64decode(key)[-32:], "little") % 2**255 % (2**255 - 19)
            if point in SMALL or len({name for name, _ in own}) > 1:
                self.find("key", "a sound key of one person", [name for name, _ in own])
            else:
                self.good.write("".join(line + "\n" for _, line in own).encode())
    def take(self, name):
        self.where, path, data, file = name, self.own / f"{name}.json", b"", b""
        try:
            self.same({"number": int(name)}, number=self.number + 1)
            self.number, data = int(name), read(path)
            file = read(self.own / f"{name}.json.sig")
            need(armour(file) == file, "signature not as ssh-keygen writes it")
            entry = parse(data)
            fields = set(entry) | set(entry.get("reading", {}))
            need(fields <= FIELDS and entry["v"] in (1, 2, 3), "another field, or another version")
            self.same(entry, seq=self.number, prev=self.prev, packet=self.digest,
                      job=self.packet["job"]["id"], machine=self.packet["machine"]["id"])
            self.signer(entry, data, f"{path}.sig", moment(entry["at"]))
            self.rules(entry, entry["kind"], self.steps[entry["step"]], entry.get("row"))
        except Exception as error:  # whatever the bytes are, the next entry is looked at
            self.find("form", "what FORMAT.md says", repr(error))
        self.prev, self.leaves[name] = hashlib.sha256(data + file).hexdigest(), data + file
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
            held = {one["role"] for one in own["roles"] if one["from"] <= day <= one.get("until", "9999")}
            lost = [one["from"] for one in self.people["revoked"] if one["key"].encode() in said.stdout]
            given = {"held": entry["role"] in held, "revoked": any(moment(one) <= at for one in lost)}
            self.same({"name": entry["name"], **given}, name=own["name"], held=True, revoked=False)
    def rules(self, entry, kind, step, row):
        seq, target = entry["seq"], entry.get("accepts", entry.get("withdraws"))
        if self.end or self.packet.get("drafts"):
            self.find("kind", "nothing after the end, nor by a draft", kind)
        self.end = kind if kind in ("released", "abandoned", "superseded") else self.end
        if kind == "reading":
            self.reading(step, entry, entry["reading"], entry.get("corrects"))
        elif kind == "deviation-raised":
            self.raised[seq] = entry.get("concerns")
        elif kind == "deviation-accepted":
            role = self.packet.get("accepted_by", {}).get(step["procedure"], self.packet["accepts_deviation"])
            of = [*self.raised, *(self.latest.get(blank, [0])[0] for blank in blanks(step, None))]
            self.same({"role": entry["role"], "accepts": target in of}, role=role, accepts=entry["note"] > "")
            also = [one for one, about in self.raised.items() if about == target]
            self.accepted.update({one: seq for one in (target, self.raised.get(target), *also)})
        elif kind == "withdrawn":
            taken = {blank for blank, (seq, _) in self.latest.items() if seq == target}
            self.signed = [one for one in self.signed if one["seq"] != target and not
                           (one["step"] == step["id"] and taken & {*blanks(step, one.get("row"))})]
            self.latest = {blank: own for blank, own in self.latest.items() if blank not in taken}
            self.accepted = {one: by for one, by in self.accepted.items() if by != target}
            self.raised.pop(target, None)
        else:
            did = [one["by"] for one in self.signed if (one["step"], one["kind"]) == (step["id"], "performed")
                   and row in (None, one.get("row"))]
            if kind == "verified" and (entry["by"] in did or not did):
                self.find("by", "another person than who did it", [entry["by"], did])
            self.signed.append(entry)
            if kind == "released" and self.missing():
                self.find("release", "nothing missing", self.missing())
    def reading(self, step, entry, taken, before):
        blank = {one["id"]: one for one in step["readings"]}[taken["blank"]]
        need(re.fullmatch(DECIMAL, taken["value"], re.ASCII), "no plain decimal")
        need(before is None or entry["note"], "a correction without its reason")
        tool = blank["instrument"] or {"id": None, "calibration_due": ""}
        self.same({"calibrated": entry["at"][:10] <= (tool["calibration_due"] or "9999")}, calibrated=True)
        self.same({**taken, "instrument": taken.get("instrument", tool["id"]), "corrects": before},
                  unit=blank["unit"], low=blank["low"], high=blank["high"], instrument=tool["id"],
                  verdict=judge(blank, taken["value"]), corrects=self.latest.get(blank["id"], [None])[0])
        self.latest[blank["id"]] = entry["seq"], taken["verdict"]
        self.signed = [one for one in self.signed if one["step"] != step["id"]
                       or blank["id"] not in blanks(step, one.get("row"))]  # to be signed again
    def missing(self):
        steps, latest, fine = self.steps.values(), self.latest.items(), self.accepted
        good = [blank for blank, (seq, verdict) in latest if verdict == "within" or seq in fine]
        done = [[one["step"], one["kind"], one["role"], one.get("row"), by]
                for one in self.signed for by in (None, one["by"])]
        asked = [[step["id"], *(sign.get(name) for name in ("meaning", "role", "row", "by"))]
                 for step in steps for sign in step["signs"]]
        about = [None, *(seq for _, (seq, _) in latest)]
        return ([blank for step in steps for blank in blanks(step, None) if blank not in good]
                + [sign for sign in asked if sign not in done]
                + [seq for seq in self.raised if seq not in fine and self.raised[seq] in about])
    def log(self, folder):  # each entry lies in the tree that the checkpoint names
        self.where, proofs = "log", parse(read(folder / "log.json", 1 << 28))
        _, size, root = read(folder / "checkpoint").decode().split("\n")[:3]
        for name, own in proofs["entries"].items():
            hashed = hashlib.sha256(b"\0" + self.leaves[name]).digest()
            hashed = climb(hashed, own["index"], int(size), [bytes.fromhex(one) for one in own["proof"]])
            self.same({name: base64.b64encode(hashed).decode()}, **{name: root})
        return len(proofs["entries"])

def main(folder):
    try:
        record = Record(folder)
        for path in sorted(record.own.glob("[0-9]" * 6 + ".json")):
            record.take(path.stem)
        under = record.log(folder) if (folder / "log.json").exists() else 0
    except Exception as error:
        return print(f"folder: form: expected what FORMAT.md says, found {error!r}\n1 findings") or 1
    print(f"{record.packet['job']['id']}: {len(record.leaves)} entries, {record.end or 'not ended'}, "
          f"{len(record.missing())} things missing, {record.found} findings, people "
          f"{'checked' if record.people else 'not checked'}, {under} in the log, head {record.prev}")
    return record.found > 0

sys.exit(main(pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else __file__ + "/..").resolve()))
