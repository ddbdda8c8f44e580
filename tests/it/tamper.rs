//! Each way of tampering with a good record, what `audit` finds, and what `verify.py` says.
//!
//! The two are written apart, from FORMAT.md. A row that one of them cannot see says so with an empty
//! list; then nothing at all may be found. Keys of the people named are at hand where a row signs
//! again: that is what holders of keys can do.

mod flips;
mod good;
mod register;

use std::process::Command;

use good::{DOER, Exported, LEAD, NAMESPACE, QUALITY, key_of, signer};
use rayon::prelude::*;
use serde_json::{Value, json};

use crate::plant::root;

/// One way of tampering.
struct Case {
    what: &'static str,
    tamper: fn(&Exported),
    /// Findings of `audit`, `code@entry`; each must be there, and none when there is none.
    audit: &'static [&'static str],
    /// Beginnings of lines of `verify.py`, in the same way.
    script: &'static [&'static str],
}

/// Findings of both programs in a folder.
struct Found {
    audit: Vec<String>,
    script: Vec<String>,
}

fn judge(exported: &Exported) -> Found {
    let audit = Command::new(env!("CARGO_BIN_EXE_witnessmark"))
        .args(["audit", "--json"])
        .arg(exported.path())
        .env("LC_ALL", "C")
        .output()
        .unwrap();
    let told: Value = serde_json::from_slice(&audit.stdout)
        .unwrap_or_else(|_| panic!("{}", String::from_utf8_lossy(&audit.stderr)));
    let findings = told["records"][0]["findings"].as_array().unwrap().iter();
    let serious = findings.filter(|finding| finding["severity"] != "note");
    let codes = serious.map(|finding| {
        let code = finding["code"].as_str().unwrap();
        finding["entry"].as_u64().map_or(code.to_owned(), |entry| format!("{code}@{entry}"))
    });
    let audit_code = audit.status.code();
    let audit: Vec<String> = codes.collect();
    assert_eq!(audit_code, Some(i32::from(!audit.is_empty())));
    let output = Command::new("python3")
        .args(["-B", "src/export/verify.py"])
        .arg(exported.path())
        .current_dir(root())
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    let mut script: Vec<String> = text.lines().map(str::to_owned).collect();
    let last = script.pop().unwrap_or_default();
    assert!(last.contains(&format!("{} findings", script.len())), "{text}{:?}", output.stderr);
    assert_eq!(output.status.code(), Some(i32::from(!script.is_empty())));
    Found { audit, script }
}

impl Case {
    /// What is not as it should be. Whoever tampers writes new digests, except on the way.
    fn run(&self, on_the_way: bool) -> Option<String> {
        let exported = Exported::good();
        (self.tamper)(&exported);
        if !on_the_way {
            exported.sum();
        }
        let Found { audit, script } = judge(&exported);
        let has = |all: &[String], wanted: &str| all.iter().any(|one| one == wanted);
        let begins = |all: &[String], wanted: &str| all.iter().any(|one| one.starts_with(wanted));
        let holds = self.audit.iter().all(|wanted| has(&audit, wanted))
            && self.script.iter().all(|wanted| begins(&script, wanted))
            && self.audit.is_empty() == audit.is_empty()
            && self.script.is_empty() == script.is_empty();
        (!holds).then(|| {
            format!("{}\n  audit: {audit:?}\n  verify.py: {}\n", self.what, script.join("\n    "))
        })
    }
}

#[test]
fn a_good_record_has_no_findings() {
    let Found { audit, script } = judge(&Exported::good());
    assert_eq!((audit, script), (Vec::new(), Vec::new()));
}

#[test]
fn each_way_of_tampering_is_found() {
    let inside = [BYTES, ORDER, SIGNATURES, PEOPLE, MEANING, CLOSING, FILES].concat();
    let cases = [inside.as_slice(), ON_THE_WAY].concat();
    assert!(cases.len() >= 40, "{} cases", cases.len());
    let judged = cases.par_iter().enumerate();
    let wrong = judged.filter_map(|(index, case)| case.run(index >= inside.len()));
    let wrong: Vec<String> = wrong.collect();
    let blind = |of: fn(&Case) -> bool| cases.iter().filter(|case| of(case)).count();
    println!(
        "{} cases; audit sees nothing in {}, verify.py in {}",
        cases.len(),
        blind(|case| case.audit.is_empty()),
        blind(|case| case.script.is_empty())
    );
    assert!(wrong.is_empty(), "{}", wrong.concat());
}

/// The bytes of packet and entries.
const BYTES: &[&Case] = &[
    &Case {
        what: "a digit of a reading is changed",
        tamper: |e| e.edit("record/000005.json", "-84.0", "-84.1"),
        audit: &["signature-bad@5", "chain-broken@6"],
        script: &["000005: signature", "000006: prev"],
    },
    &Case {
        what: "a limit in the packet is changed",
        tamper: |e| e.edit("record/packet.json", "\"high\":\"28.5\"", "\"high\":\"29.5\""),
        audit: &["packet-differs@1", "packet-differs@13", "limit-differs@7", "verdict-wrong@7"],
        script: &["000001: packet", "000013: packet", "000007: high", "000007: verdict"],
    },
    &Case {
        what: "the packet in other bytes of the same meaning",
        tamper: |e| e.edit("record/packet.json", "{", "{ "),
        audit: &["packet-not-canonical"],
        script: &["folder: form"],
    },
    &Case {
        what: "an entry pretty-printed, and rightly signed",
        tamper: |e| e.last_as(|t| t.replace(",\"by\"", ", \"by\"")),
        audit: &["not-canonical@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "fields in another order, and rightly signed",
        tamper: |e| {
            e.last_as(|t| {
                let rest = t.strip_suffix(",\"v\":2}\n").or(t.strip_suffix(",\"v\":3}\n")).unwrap();
                let v = &t[rest.len() + 1..t.len() - 2];
                format!("{{{v},{}}}\n", &rest[1..])
            });
        },
        audit: &["not-canonical@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "a field twice, and rightly signed",
        tamper: |e| e.last_as(|t| t.replace("\"seq\":13", "\"seq\":12,\"seq\":13")),
        audit: &["duplicate-key@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "a fraction where a whole number belongs, and rightly signed",
        tamper: |e| e.last_as(|t| t.replace("\"seq\":13", "\"seq\":13.0")),
        audit: &["wrong-type@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "a number beyond 2^53, and rightly signed",
        tamper: |e| e.last_as(|t| t.replace("\"seq\":13", "\"seq\":9007199254740993")),
        audit: &["number-range@13"],
        script: &["000013: seq"],
    },
    &Case {
        what: "a field that the format does not have, and rightly signed",
        tamper: |e| e.last_as(|t| t.replace("\"step\"", "\"shift\":\"night\",\"step\"")),
        audit: &["unknown-field@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "a version that nobody knows, and rightly signed",
        tamper: |e| e.resealed(|entries| entries[12]["v"] = 99.into()),
        audit: &["version-unknown@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "a line feed more",
        tamper: |e| e.edit("record/000005.json", "}\n", "}\n\n"),
        audit: &["foreign-bytes@5", "signature-bad@5", "chain-broken@6"],
        script: &["000005: form", "000006: prev"],
    },
    &Case {
        what: "a carriage return",
        tamper: |e| e.edit("record/000005.json", "}\n", "}\r\n"),
        audit: &["foreign-bytes@5", "signature-bad@5", "chain-broken@6"],
        script: &["000005: form", "000006: prev"],
    },
    &Case {
        what: "a byte order mark",
        tamper: |e| e.edit("record/000005.json", "{\"at\"", "\u{feff}{\"at\""),
        audit: &["foreign-bytes@5", "signature-bad@5", "chain-broken@6"],
        script: &["000005: form", "000006: prev"],
    },
    &Case {
        what: "an entry emptied",
        tamper: |e| e.write("record/000005.json", ""),
        audit: &["foreign-bytes@5", "chain-broken@6", "release-incomplete@13"],
        script: &["000005: form", "000006: prev", "000013: release"],
    },
];

/// The order of entries and of times.
const ORDER: &[&Case] = &[
    &Case {
        what: "an entry removed",
        tamper: |e| drop(e.drop(5)),
        audit: &["number-gap@6", "chain-broken@6", "release-incomplete@13"],
        script: &["000006: number", "000006: prev", "000013: release"],
    },
    &Case {
        what: "an entry removed and the files numbered anew",
        tamper: |e| {
            e.drop(5);
            (6..=13).for_each(|number| e.put(number - 1, &e.drop(number)));
        },
        audit: &["number-differs@5", "chain-broken@5"],
        script: &["000005: seq", "000005: prev"],
    },
    &Case {
        what: "two entries swapped",
        tamper: |e| {
            let (five, six) = (e.drop(5), e.drop(6));
            e.put(5, &six);
            e.put(6, &five);
        },
        audit: &["number-differs@5", "chain-broken@5", "chain-broken@7", "time-backwards@6"],
        script: &["000005: seq", "000005: prev", "000007: prev", "000006: time"],
    },
    &Case {
        what: "an old entry copied to the end",
        tamper: |e| {
            let old = e.drop(2);
            e.put(2, &old);
            e.put(14, &old);
        },
        audit: &["number-differs@14", "chain-broken@14", "fork@14", "after-release@14"],
        script: &["000014: seq", "000014: prev", "000014: time", "000014: kind"],
    },
    &Case {
        what: "two copies that went on apart, merged",
        tamper: |e| {
            let entries = e.entries();
            let mut other = entries[..5].to_vec();
            other[4]["seq"] = 6.into();
            let keep: Vec<_> = (1..=5).map(|number| e.drop(number)).collect();
            (6..=13).for_each(|number| drop(e.drop(number)));
            e.seal(other);
            let sixth = e.drop(5);
            keep.iter().enumerate().for_each(|(index, entry)| e.put(index + 1, entry));
            e.put(6, &sixth);
        },
        audit: &["chain-broken@6", "fork@6", "reading-twice@6"],
        script: &["000006: prev", "000006: corrects"],
    },
    &Case {
        what: "the tail cut off: a head kept elsewhere shows it",
        tamper: |e| (10..=13).for_each(|number| drop(e.drop(number))),
        audit: &[],
        script: &[],
    },
    &Case {
        what: "a time before that of the entry before",
        tamper: |e| e.resealed(|entries| entries[4]["at"] = "2026-03-02T22:12:59+01:00".into()),
        audit: &["time-backwards@5"],
        script: &["000005: time"],
    },
    &Case {
        what: "a time before the packet was issued",
        tamper: |e| e.resealed(|entries| entries[0]["at"] = "2026-03-01T14:09:59+01:00".into()),
        audit: &["before-packet@1"],
        script: &["000001: time"],
    },
    &Case {
        what: "a time in the future",
        tamper: |e| e.resealed(|entries| entries[12]["at"] = "2098-03-02T22:22:00+01:00".into()),
        audit: &["time-future@13"],
        script: &["000013: time"],
    },
    &Case {
        what: "a time without offset",
        tamper: |e| e.last_as(|t| t.replace("+01:00", "")),
        audit: &["time-form@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "an offset that is not known",
        tamper: |e| e.last_as(|t| t.replace("22:22:00+01:00", "21:22:00-00:00")),
        audit: &["time-form@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "an entry after the release",
        tamper: |e| {
            e.renumbered(|entries| {
                let mut last = entries[4].clone();
                last["at"] = "2026-03-02T22:30:00+01:00".into();
                (last["corrects"], last["note"]) = (5.into(), "read again".into());
                entries.push(last);
            });
        },
        audit: &["after-release@14"],
        script: &["000014: kind"],
    },
    &Case {
        what: "the lockout signed after the work: verify.py does not know its order",
        tamper: |e| {
            e.renumbered(|entries| {
                let isolate = entries.remove(1);
                entries.insert(4, isolate);
                let times: Vec<_> =
                    (10..23).map(|m| format!("2026-03-02T22:{m}:00+01:00")).collect();
                entries.iter_mut().zip(times).for_each(|(e, at)| e["at"] = at.into());
            });
        },
        audit: &["step-order@2", "step-order@4"],
        script: &[],
    },
];

/// Signatures and keys.
const SIGNATURES: &[&Case] = &[
    &Case {
        what: "the whole record written anew with a key that nobody listed",
        tamper: |e| e.seal_by(e.entries(), |_| key_of("nobody")),
        audit: &["signer-unlisted@1", "signer-unlisted@13"],
        script: &["000001: signature", "000013: signature"],
    },
    &Case {
        what: "the whole record written anew by the holders of all keys: a head kept elsewhere shows it",
        tamper: |e| e.resealed(|entries| entries[4]["reading"]["value"] = "-83.9".into()),
        audit: &[],
        script: &[],
    },
    &Case {
        what: "an entry signed with the key of a colleague",
        tamper: |e| {
            let json = e.text("record/000013.json");
            let signature = key_of(DOER).sign(NAMESPACE, json.as_bytes()).unwrap();
            e.write("record/000013.json.sig", signature);
        },
        audit: &["signer-differs@13"],
        script: &["000013: signature"],
    },
    &Case {
        what: "a signature that was made for something else",
        tamper: |e| {
            let json = e.text("record/000013.json");
            let signature = key_of(LEAD).sign("git", json.as_bytes()).unwrap();
            e.write("record/000013.json.sig", signature);
        },
        audit: &["signature-namespace@13"],
        script: &["000013: signature"],
    },
    &Case {
        what: "the signature of another entry",
        tamper: |e| e.write("record/000005.json.sig", e.read("record/000006.json.sig")),
        audit: &["signature-bad@5", "chain-broken@6"],
        script: &["000005: signature", "000006: prev"],
    },
    &Case {
        what: "a signature removed",
        tamper: |e| e.remove("record/000013.json.sig"),
        audit: &["signature-missing@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "a signature cut",
        tamper: |e| e.signature(13, |s| s[..120].to_owned()),
        audit: &["signature-form@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "a second signature behind the first, which ssh-keygen takes",
        tamper: |e| e.signature(13, |s| format!("{s}{s}")),
        audit: &["signature-form@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "text behind a signature, which ssh-keygen takes",
        tamper: |e| e.signature(13, |s| format!("{s}more\n")),
        audit: &["signature-form@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "a signature without its last line feed, which ssh-keygen takes",
        tamper: |e| e.signature(13, |s| s.trim_end().to_owned()),
        audit: &["signature-form@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "a signature in lines of 76, which ssh-keygen takes",
        tamper: |e| {
            e.signature(13, |s| {
                let lines: Vec<&str> = s.lines().collect();
                let text = lines[1..lines.len() - 1].concat();
                let lines76 = text.as_bytes().chunks(76).map(|c| String::from_utf8_lossy(c));
                let body = lines76.collect::<Vec<_>>().join("\n");
                format!("{}\n{body}\n{}\n", lines[0], lines[lines.len() - 1])
            });
        },
        audit: &["signature-form@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "carriage returns in a signature",
        tamper: |e| e.signature(13, |s| s.replace('\n', "\r\n")),
        audit: &["signature-form@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "version 0 of the signature, which ssh-keygen takes",
        tamper: |e| e.signature(13, |s| s.replace("U1NIU0lHAAAAAQ", "U1NIU0lHAAAAAA")),
        audit: &["signature-form@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "the scalar of a signature, made greater by the order of the group, which some ssh-keygen takes",
        tamper: |e| e.signature(13, greater),
        audit: &["signature-bad@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "a key that ended before",
        tamper: |e| {
            e.write("allowed_signers", ending(&e.text("allowed_signers"), "20260302212159Z"))
        },
        audit: &["key-expired@13"],
        script: &["000013: signature"],
    },
    &Case {
        what: "a key in its last second",
        tamper: |e| {
            e.write("allowed_signers", ending(&e.text("allowed_signers"), "20260302212200Z"))
        },
        audit: &[],
        script: &[],
    },
    &Case {
        what: "a key that began later",
        tamper: |e| {
            let text = e.text("allowed_signers");
            let lead = text.lines().nth(1).unwrap();
            e.write(
                "allowed_signers",
                text.replace(lead, &lead.replace("20260101Z", "20260302211801Z")),
            );
        },
        audit: &["key-not-yet-valid@9"],
        script: &["000009: signature"],
    },
    &Case {
        what: "a key revoked from a time between its entries",
        tamper: |e| revoke(e, LEAD, "2026-03-02T22:20:00+01:00"),
        audit: &["key-revoked@13"],
        script: &["000013: revoked"],
    },
    &Case {
        what: "a key revoked after its last entry",
        tamper: |e| revoke(e, LEAD, "2026-03-02T22:22:01+01:00"),
        audit: &[],
        script: &[],
    },
    &Case {
        what: "a key listed for two people",
        tamper: |e| {
            let text = e.text("allowed_signers");
            e.write("allowed_signers", text + &signer("z.other@plant.example", &key_of(DOER)));
        },
        audit: &["key-shared", "signer-unlisted@1"],
        script: &["allowed_signers: key", "000001: signature"],
    },
    &Case {
        what: "a pattern in the place of a name, which ssh-keygen takes",
        tamper: |e| e.edit("allowed_signers", LEAD, "*@plant.example"),
        audit: &["signers-principal", "signer-unlisted@9"],
        script: &["allowed_signers: line", "000009: signature"],
    },
    &Case {
        what: "an end in local time",
        tamper: |e| e.edit("allowed_signers", "21000101Z", "21000101"),
        audit: &["signers-time", "signer-unlisted@1"],
        script: &["allowed_signers: line", "000001: signature"],
    },
    &Case {
        what: "a key for which one signature fits every message, which ssh-keygen takes",
        tamper: weak,
        audit: &["signers-key", "key-weak@13"],
        script: &["allowed_signers: key", "000013: signature"],
    },
];

/// The lead's line with another end.
fn ending(signers: &str, time: &str) -> String {
    let lead = signers.lines().nth(1).unwrap();
    signers.replace(lead, &lead.replace("21000101Z", time))
}

fn revoke(e: &Exported, by: &str, from: &str) {
    let mut people = e.json("people.json");
    let key = key_of(by).public().fingerprint();
    people["revoked"] = json!([{ "from": from, "key": key, "why": "lost" }]);
    e.write_json("people.json", &people);
}

/// A signature file with other bytes of its blob, from a byte before its end on.
fn reblobbed(signature: &str, before_end: usize, bytes: impl Fn(&mut [u8])) -> String {
    let lines: Vec<&str> = signature.lines().collect();
    let mut blob = unbase64(&lines[1..lines.len() - 1].concat());
    let at = blob.len() - before_end;
    bytes(&mut blob[at..]);
    let text = base64(&blob);
    let body = text.as_bytes().chunks(70).map(|c| String::from_utf8_lossy(c).into_owned());
    format!("{}\n{}\n{}\n", lines[0], body.collect::<Vec<_>>().join("\n"), lines[lines.len() - 1])
}

/// S + L in the place of S: the same equation, another text (RFC 8032 §5.1.7).
fn greater(signature: String) -> String {
    // 2^252 + 27742317777372353535851937790883648493, least byte first.
    const ORDER: [u8; 32] = [
        0xed, 0xd3, 0xf5, 0x5c, 0x1a, 0x63, 0x12, 0x58, 0xd6, 0x9c, 0xf7, 0xa2, 0xde, 0xf9, 0xde,
        0x14, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0x10,
    ];
    reblobbed(&signature, 32, |scalar| {
        let mut carry = 0;
        for (byte, order) in scalar.iter_mut().zip(ORDER) {
            let sum = u16::from(*byte) + u16::from(order) + carry;
            (*byte, carry) = (sum.to_le_bytes()[0], sum >> 8);
        }
    })
}

/// The lead gets the identity point for a key; the signature is that point and the number 0.
fn weak(e: &Exported) {
    let mut identity = [0; 32];
    identity[0] = 1;
    let list = e.text("allowed_signers");
    let line = list.lines().nth(1).unwrap();
    let text = line.rsplit(' ').next().unwrap();
    let mut blob = unbase64(text);
    let at = blob.len() - 32;
    blob[at..].copy_from_slice(&identity);
    e.write("allowed_signers", list.replace(text, &base64(&blob)));
    e.signature(13, |signature| {
        let signed = reblobbed(&signature, 64, |both| {
            both.fill(0);
            both[0] = 1;
        });
        // magic, version, and the key's own length, kind and length come before its 32 bytes.
        let from = 6 + 4 + 4 + 4 + 11 + 4;
        let length = unbase64(
            &signed.lines().skip(1).take_while(|l| !l.starts_with('-')).collect::<String>(),
        )
        .len();
        reblobbed(&signed, length - from, |rest| rest[..32].copy_from_slice(&identity))
    });
}

fn base64(bytes: &[u8]) -> String {
    use base64ct::Encoding;
    base64ct::Base64::encode_string(bytes)
}

fn unbase64(text: &str) -> Vec<u8> {
    use base64ct::Encoding;
    base64ct::Base64::decode_vec(text).unwrap()
}

/// People, roles, the second person.
const PEOPLE: &[&Case] = &[
    &Case {
        what: "who did it checks it",
        tamper: |e| {
            e.resealed(|entries| {
                (entries[8]["by"], entries[8]["name"]) = (DOER.into(), "Ada Doer".into());
            });
            let role = json!({ "from": "2025-01-01", "role": "lead" });
            let mut people = e.json("people.json");
            people["people"][DOER]["roles"].as_array_mut().unwrap().push(role);
            e.write_json("people.json", &people);
        },
        audit: &["same-person@9"],
        script: &["000009: by"],
    },
    &Case {
        what: "who did it checks it with a second key",
        tamper: |e| {
            let second = || key_of("a second key");
            e.write("allowed_signers", e.text("allowed_signers") + &signer(DOER, &second()));
            let mut entries = e.entries();
            (entries[8]["by"], entries[8]["name"]) = (DOER.into(), "Ada Doer".into());
            e.seal(entries);
            let json = e.text("record/000009.json");
            e.write("record/000009.json.sig", second().sign(NAMESPACE, json.as_bytes()).unwrap());
        },
        audit: &["same-person@9"],
        script: &["000009: by"],
    },
    &Case {
        what: "a role that the person does not hold",
        tamper: |e| e.resealed(|entries| entries[0]["role"] = "lead".into()),
        audit: &["role-not-held@1", "role-not-asked@1", "release-incomplete@13"],
        script: &["000001: held", "000013: release"],
    },
    &Case {
        what: "a role that ended the day before",
        tamper: |e| {
            let mut people = e.json("people.json");
            people["people"][DOER]["roles"][0]["until"] = "2026-03-01".into();
            e.write_json("people.json", &people);
        },
        audit: &["role-not-held@1", "role-not-held@12"],
        script: &["000001: held", "000012: held"],
    },
    &Case {
        what: "people given other roles by whoever hands the folder over: ask the plant for the digest",
        tamper: |e| {
            e.edit(
                "people.json",
                "\"role\":\"lead\"",
                "\"role\":\"lead\",\"until\":\"2099-01-01\"",
            );
        },
        audit: &[],
        script: &[],
    },
    &Case {
        what: "somebody whom nobody knows",
        tamper: |e| {
            let mut people = e.json("people.json");
            people["people"].as_object_mut().unwrap().remove(QUALITY);
            e.write_json("people.json", &people);
        },
        audit: &["person-unknown@10"],
        script: &["000010: form"],
    },
    &Case {
        what: "a letter that looks alike in a name",
        tamper: |e| e.last_as(|t| t.replace("Bo Checker", "Bo Сhecker")),
        audit: &["name-differs@13"],
        script: &["000013: name"],
    },
    &Case {
        what: "a letter that looks alike in an identifier",
        tamper: |e| e.last_as(|t| t.replace("b.checker@", "b.сhecker@")),
        audit: &["identifier-form@13", "signer-differs@13"],
        script: &["000013: signature"],
    },
    &Case {
        what: "a name with its accents as letters of their own",
        tamper: |e| {
            e.edit("people.json", "Bo Checker", "Bo Ch\u{e9}cker");
            e.last_as(|t| t.replace("Bo Checker", "Bo Che\u{301}cker"));
        },
        audit: &["name-differs@13"],
        script: &["000013: name"],
    },
    &Case {
        what: "a remark that turns the direction of what follows: verify.py looks at no remark",
        tamper: |e| e.resealed(|entries| entries[9]["note"] = "holds\u{202e}dloh".into()),
        audit: &["text-form@10"],
        script: &[],
    },
    &Case {
        what: "another sentence than that of the kind: verify.py compares none",
        tamper: |e| e.resealed(|entries| entries[0]["meaning"] = "I was there.".into()),
        audit: &["meaning-differs@1"],
        script: &[],
    },
];

/// What was signed for: readings, steps, release.
const MEANING: &[&Case] = &[
    &Case {
        what: "an entry of another job",
        tamper: |e| e.resealed(|entries| entries[4]["job"] = "J-2042".into()),
        audit: &["job-differs@5"],
        script: &["000005: job"],
    },
    &Case {
        what: "an entry of another machine",
        tamper: |e| e.resealed(|entries| entries[4]["machine"] = "pouch-7".into()),
        audit: &["machine-differs@5"],
        script: &["000005: machine"],
    },
    &Case {
        what: "an entry for another revision of the packet",
        tamper: |e| e.resealed(|entries| entries[4]["packet"] = "ab".repeat(32).into()),
        audit: &["packet-differs@5"],
        script: &["000005: packet"],
    },
    &Case {
        what: "the record of another plant",
        tamper: |e| e.repacketed("plant.example", "works.example"),
        audit: &["signature-namespace@1"],
        script: &["000001: signature"],
    },
    &Case {
        what: "within, where the value lies outside",
        tamper: |e| e.resealed(|entries| entries[6]["reading"]["verdict"] = "within".into()),
        audit: &["verdict-wrong@7"],
        script: &["000007: verdict"],
    },
    &Case {
        what: "a wider limit in the entry",
        tamper: |e| e.resealed(|entries| entries[6]["reading"]["high"] = "29".into()),
        audit: &["limit-differs@7"],
        script: &["000007: high"],
    },
    &Case {
        what: "another unit with the same number",
        tamper: |e| e.resealed(|entries| entries[6]["reading"]["unit"] = "in".into()),
        audit: &["unit-differs@7"],
        script: &["000007: unit"],
    },
    &Case {
        what: "a value with an exponent",
        tamper: |e| e.resealed(|entries| entries[6]["reading"]["value"] = "2.875e1".into()),
        audit: &["decimal-form@7"],
        script: &["000007: form"],
    },
    &Case {
        what: "a value with a comma",
        tamper: |e| e.resealed(|entries| entries[6]["reading"]["value"] = "28,75".into()),
        audit: &["decimal-form@7"],
        script: &["000007: form"],
    },
    &Case {
        what: "a value of 31 digits",
        tamper: |e| e.resealed(|entries| entries[6]["reading"]["value"] = "9".repeat(31).into()),
        audit: &["decimal-form@7"],
        script: &["000007: form"],
    },
    &Case {
        what: "an instrument that the packet does not name",
        tamper: |e| e.resealed(|entries| entries[6]["reading"]["instrument"] = "tape".into()),
        audit: &["instrument-differs@7"],
        script: &["000007: instrument"],
    },
    &Case {
        what: "an instrument out of calibration",
        tamper: |e| {
            let packet = e.text("record/packet.json").replace("2027-03-31", "2026-03-01");
            e.write("record/packet.json", packet);
            e.repacketed("plant", "plant");
        },
        audit: &["calibration-over@5", "calibration-over@7"],
        script: &["000005: calibrated", "000007: calibrated"],
    },
    &Case {
        what: "a correction that names no reading of the blank",
        tamper: |e| {
            e.resealed(|entries| {
                (entries[6]["corrects"], entries[6]["note"]) = (6.into(), "misread".into());
            });
        },
        audit: &["correction-target@7"],
        script: &["000007: corrects"],
    },
    &Case {
        what: "a correction without its reason",
        tamper: |e| {
            e.renumbered(|entries| {
                let mut again = entries[4].clone();
                again["corrects"] = 5.into();
                entries.insert(5, again);
                entries[10]["accepts"] = 8.into();
            });
        },
        audit: &["missing-field@6"],
        script: &["000006: form"],
    },
    &Case {
        what: "a second reading that does not say that it corrects the first",
        tamper: |e| {
            e.renumbered(|entries| {
                entries.insert(5, entries[4].clone());
                entries[10]["accepts"] = 8.into();
            });
        },
        audit: &["reading-twice@6"],
        script: &["000006: corrects"],
    },
    &Case {
        what: "an acceptance of a reading that is within",
        tamper: |e| e.resealed(|entries| entries[9]["accepts"] = 6.into()),
        audit: &["acceptance-target@10", "release-deviation@13"],
        script: &["000013: release"],
    },
    &Case {
        what: "an acceptance of no reading",
        tamper: |e| e.resealed(|entries| entries[9]["accepts"] = 99.into()),
        audit: &["acceptance-target@10", "release-deviation@13"],
        script: &["000010: accepts", "000013: release"],
    },
    &Case {
        what: "an acceptance by a role that may not",
        tamper: |e| {
            e.resealed(|entries| {
                let lead = entries[8].clone();
                for field in ["by", "name", "role"] {
                    entries[9][field] = lead[field].clone();
                }
            });
        },
        audit: &["role-not-asked@10"],
        script: &["000010: role"],
    },
    &Case {
        what: "an outside reading that nobody accepts",
        tamper: |e| e.renumbered(|entries| drop(entries.remove(9))),
        audit: &["release-deviation@12"],
        script: &["000012: release"],
    },
    &Case {
        what: "a release without a second person",
        tamper: |e| e.renumbered(|entries| drop(entries.remove(8))),
        audit: &["release-incomplete@12"],
        script: &["000012: release"],
    },
    &Case {
        what: "a release without a reading",
        tamper: |e| {
            e.renumbered(|entries| {
                entries.remove(4);
                entries[8]["accepts"] = 6.into();
            });
        },
        audit: &["before-readings@7", "release-incomplete@12"],
        script: &["000012: release"],
    },
    &Case {
        what: "the isolation never signed",
        tamper: |e| {
            e.renumbered(|entries| {
                entries.remove(1);
                entries[8]["accepts"] = 6.into();
            });
        },
        audit: &["step-order@2", "release-incomplete@12"],
        script: &["000012: release"],
    },
    &Case {
        what: "a step signed twice: verify.py counts it once",
        tamper: |e| {
            e.renumbered(|entries| {
                entries.insert(1, entries[0].clone());
                entries[10]["accepts"] = 8.into();
            });
        },
        audit: &["signed-twice@2"],
        script: &[],
    },
    &Case {
        what: "a step that the packet does not have",
        tamper: |e| e.resealed(|entries| entries[11]["step"] = "production.handover".into()),
        audit: &["step-unknown@12", "release-incomplete@13"],
        script: &["000012: form", "000013: release"],
    },
];

/// Another statement in the place of one that is there.
fn instead(entry: &Value, kind: &str, meaning: &str, more: Value) -> Value {
    let mut other = entry.clone();
    (other["kind"], other["meaning"], other["note"]) = (kind.into(), meaning.into(), "why".into());
    let fields = more.as_object().unwrap().clone();
    other.as_object_mut().unwrap().extend(fields);
    other
}

/// Takes an entry back, in the last step before the release.
fn take_back(entries: &mut Vec<Value>, number: u64) {
    let meaning = "I take this signature back for the reason given.";
    let last = entries.len() - 1;
    let more = json!({ "withdraws": number });
    let other = instead(&entries[last - 1], "withdrawn", meaning, more);
    entries.insert(last, other);
}

/// Takes a reading of the knives back before the release.
fn take_back_reading(entries: &mut Vec<Value>, number: u64) {
    let step = entries[4]["step"].clone();
    take_back(entries, number);
    let last = entries.len() - 2;
    entries[last]["step"] = step;
}

fn raise(entries: &mut Vec<Value>, more: Value) {
    let meaning = "I report that this is not as it should be.";
    let other = instead(&entries[7], "deviation-raised", meaning, more);
    entries.insert(8, other);
}

fn abandon(entries: &mut [Value]) {
    let meaning = "I stop this job for good, and do not hand the machine over.";
    entries[12] = instead(&entries[12], "abandoned", meaning, json!({}));
}

/// What takes back, reports and closes.
const CLOSING: &[&Case] = &[
    &Case {
        what: "a release after a step was taken back",
        tamper: |e| e.renumbered(|entries| take_back(entries, 12)),
        audit: &["release-incomplete@14"],
        script: &["000014: release"],
    },
    &Case {
        what: "a signature taken back that is not there: verify.py takes nothing back",
        tamper: |e| e.renumbered(|entries| take_back(entries, 99)),
        audit: &["withdraw-target@13"],
        script: &[],
    },
    &Case {
        what: "a release after a reading was taken back",
        tamper: |e| e.renumbered(|entries| take_back_reading(entries, 5)),
        audit: &["release-incomplete@14"],
        script: &["000014: release"],
    },
    &Case {
        what: "a reading taken back that was corrected: verify.py takes nothing back",
        tamper: |e| {
            e.renumbered(|entries| {
                let mut again = entries[6].clone();
                (again["corrects"], again["note"]) = (7.into(), "misread".into());
                entries.insert(7, again);
                entries[10]["accepts"] = 8.into();
                take_back_reading(entries, 7);
            });
        },
        audit: &["withdraw-target@14"],
        script: &[],
    },
    &Case {
        what: "a reading taken back by somebody who may not: verify.py asks nobody",
        tamper: |e| {
            e.renumbered(|entries| {
                take_back_reading(entries, 5);
                let quality = entries[9].clone();
                for field in ["by", "name", "role"] {
                    entries[12][field] = quality[field].clone();
                }
            });
        },
        audit: &["withdraw-person@13"],
        script: &["000014: release"],
    },
    &Case {
        what: "a release with a report that nobody answered",
        tamper: |e| e.renumbered(|entries| raise(entries, json!({}))),
        audit: &["release-deviation@14"],
        script: &["000014: release"],
    },
    &Case {
        what: "a report about a reading that is accepted",
        tamper: |e| e.renumbered(|entries| raise(entries, json!({ "concerns": 7 }))),
        audit: &[],
        script: &[],
    },
    &Case {
        what: "an entry after the end of a job that was given up",
        tamper: |e| {
            e.renumbered(|entries| {
                let release = entries[12].clone();
                abandon(entries);
                entries.push(release);
            });
        },
        audit: &["after-abandoned@14"],
        script: &["000014: kind"],
    },
    &Case {
        what: "a kind that nobody knows",
        tamper: |e| e.resealed(|entries| entries[11]["kind"] = "approved".into()),
        audit: &["wrong-type@12"],
        script: &["000013: release"],
    },
    &Case {
        what: "a packet that is a draft",
        tamper: |e| {
            e.repacketed("\"energy\":[]", "\"drafts\":[\"recipes/mint.yaml\"],\"energy\":[]")
        },
        audit: &["draft-packet"],
        script: &["000001: kind"],
    },
];

/// Files and folders.
const FILES: &[&Case] = &[
    &Case {
        what: "a link in the place of an entry",
        tamper: |e| {
            e.write("elsewhere", e.read("record/000013.json"));
            e.remove("record/000013.json");
            std::os::unix::fs::symlink("../elsewhere", e.file("record/000013.json")).unwrap();
        },
        audit: &["stray-file", "entry-unfinished"],
        script: &["000013: form"],
    },
    &Case {
        what: "a folder in the place of an entry",
        tamper: |e| {
            e.remove("record/000013.json");
            std::fs::create_dir(e.file("record/000013.json")).unwrap();
        },
        audit: &["stray-file", "entry-unfinished"],
        script: &["000013: form"],
    },
    &Case {
        what: "a file that does not belong to a record: verify.py looks at none",
        tamper: |e| e.write("record/notes.txt", "all fine\n"),
        audit: &["stray-file"],
        script: &[],
    },
    &Case {
        what: "no people: verify.py then checks none, and says so",
        tamper: |e| e.remove("people.json"),
        audit: &["people-unreadable", "person-unknown@1"],
        script: &[],
    },
];

/// What happens to a copy on its way: the digests stay as they were.
const ON_THE_WAY: &[&Case] = &[
    &Case {
        what: "10 GB of zeros in the place of an entry",
        tamper: |e| {
            let file = std::fs::OpenOptions::new().write(true).open(e.file("record/000013.json"));
            file.unwrap().set_len(10 << 30).unwrap();
        },
        audit: &["entry-too-long@13"],
        script: &["000013: form"],
    },
    &Case {
        what: "a page that shows another value: sha256sum -c says so",
        tamper: |e| e.write("record.html", "<!DOCTYPE html>\n<p>28.5 mm"),
        audit: &["file-changed"],
        script: &[],
    },
    &Case {
        what: "a file that is no more there: sha256sum -c says so",
        tamper: |e| e.remove("record.html"),
        audit: &["file-missing"],
        script: &[],
    },
    &Case {
        what: "a file that nobody wrote down",
        tamper: |e| e.write("letter.txt", "all fine\n"),
        audit: &["stray-file"],
        script: &[],
    },
    &Case {
        what: "a line in the digests that leads out of the folder",
        tamper: |e| {
            let line = format!("{}  ../plant.yaml\n", "0".repeat(64));
            e.write("SHA256SUMS", e.text("SHA256SUMS") + &line);
        },
        audit: &["sums-form"],
        script: &[],
    },
];
