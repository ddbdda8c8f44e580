//! Each way of tampering with a good record, and the finding it must give.
//!
//! `resealed` stands for what holders of keys can do: every entry is chained and signed again, so
//! only the rules are left to object.

mod entries;

use proptest::prelude::*;

use super::{AuditFinding, Report, Severity, Subject, audit_all, audit_record, report};
use crate::canonical;
use crate::language::Language;
use crate::record::compose::{Request, chained, compose, seal_all};
use crate::record::entry::{Entry, Kind, NO_PREVIOUS, Verdict};
use crate::record::fixture::{self, Crew, DOMAIN, SIGNERS};
use crate::record::signature::SigningKey;
use crate::record::state::State;
use crate::record::store::{RawEntry, RawRecord};
use crate::record::time;
use crate::record::trust::TrustList;

/// Audits with the fixture's people, list and packet, two days after the job.
fn audit_with(raw: &RawRecord, signers: &str, job: &str) -> Report {
    let (trust, _) = TrustList::parse(signers.as_bytes());
    let (people, digest) = (fixture::people(), fixture::digest());
    audit_record(&Subject {
        job,
        raw,
        trust: &trust,
        people: &people,
        domain: DOMAIN,
        now: Some(time::parse("2026-11-28T12:00:00+01:00").unwrap()),
        current_packet: Some(&digest),
    })
}

fn audit(raw: &RawRecord) -> Report {
    audit_with(raw, SIGNERS, "J-2041")
}

/// Findings as `code@entry`, errors and warnings only.
fn told(report: &Report) -> Vec<String> {
    let serious = report.findings.iter().filter(|f| f.severity != Severity::Note);
    serious
        .map(|AuditFinding { code, entry, .. }| match entry {
            Some(number) => format!("{code}@{number}"),
            None => (*code).to_owned(),
        })
        .collect()
}

/// Tampers with the bytes and wants exactly these findings.
#[track_caller]
fn check(tamper: impl FnOnce(&mut RawRecord), expected: &[&str]) {
    let mut raw = fixture::raw();
    tamper(&mut raw);
    let report = audit(&raw);
    assert_eq!(told(&report), expected, "{}", report::render(&report, Language::English));
    assert!(report.findings.iter().all(|f| !f.words.to_string().is_empty()));
}

/// Changes the entries, chains and signs them all again, and wants exactly these findings.
#[track_caller]
fn check_resealed(change: impl FnOnce(&mut Vec<Entry>), expected: &[&str]) {
    let raw = resealed(change);
    let report = audit(&raw);
    assert_eq!(told(&report), expected, "{}", report::render(&report, Language::English));
}

fn resealed(change: impl FnOnce(&mut Vec<Entry>)) -> RawRecord {
    let mut entries = entries();
    change(&mut entries);
    fixture::raw_of(fixture::seal(entries))
}

fn entries() -> Vec<Entry> {
    fixture::past(u64::MAX).into_iter().map(|past| past.entry).collect()
}

/// Takes entries out or puts them in, and numbers the rest anew.
fn renumber(entries: &mut [Entry]) {
    for (index, entry) in entries.iter_mut().enumerate() {
        entry.seq = index as u64 + 1;
    }
}

/// Puts other bytes in the place of the last entry, rightly signed by who it was signed by.
fn last_as(text: impl FnOnce(String) -> String) -> RawRecord {
    let mut raw = fixture::raw();
    let last = raw.entries.last_mut().unwrap();
    last.json = text(String::from_utf8(last.json.clone()).unwrap()).into_bytes();
    let signature = fixture::key_of("b.checker").sign("signoff@plant.example", &last.json);
    last.signature = Some(signature.unwrap().into_bytes());
    raw
}

#[track_caller]
fn check_last(text: impl FnOnce(String) -> String, expected: &[&str]) {
    let report = audit(&last_as(text));
    assert_eq!(told(&report), expected, "{}", report::render(&report, Language::English));
}

fn text(raw: &mut RawRecord, number: usize, old: &str, new: &str) {
    let json = String::from_utf8(raw.entries[number - 1].json.clone()).unwrap();
    assert!(json.contains(old), "{old} is not in {json}");
    raw.entries[number - 1].json = json.replacen(old, new, 1).into_bytes();
}

fn signature(raw: &mut RawRecord, number: usize, change: impl FnOnce(String) -> String) {
    let file = raw.entries[number - 1].signature.take().unwrap();
    let file = change(String::from_utf8(file).unwrap());
    raw.entries[number - 1].signature = Some(file.into_bytes());
}

fn rename(raw: &mut RawRecord) {
    for (index, entry) in raw.entries.iter_mut().enumerate() {
        entry.name = format!("{:06}", index + 1);
    }
}

#[test]
fn a_good_record_has_no_findings() {
    check(|_| (), &[]);
    let report = audit(&fixture::raw());
    assert_eq!(report.state, Some(State::ReleasedWithDeviation));
    assert!(report.findings.is_empty() && report.missing.is_empty() && report.is_clean());
    assert!(report.entries.iter().all(|entry| entry.sound && entry.signer_ok));
    assert_eq!(report.packet, Some(fixture::digest()));
}

// Rows.

/// Changes the entries of a job whose second step is signed source by source, signs them again, and
/// wants exactly these findings; gives what is missing of that step.
#[track_caller]
fn check_rows(change: impl FnOnce(&mut Vec<Entry>), expected: &[&str]) -> Vec<String> {
    let mut packet = fixture::by_row();
    packet.steps[0] = fixture::packet().steps[0].clone();
    let bytes = canonical::line(&packet).unwrap();
    let (digest, people) = (canonical::sha256_hex(&bytes), fixture::people());
    let desk = fixture::desk(&packet, &digest, &people, &[], Crew::Doer);
    let steps = ["1", "2"].map(str::to_owned).to_vec();
    let request = Request { performed: steps, ..Request::default() };
    let mut entries = compose(&desk, &request).unwrap();
    change(&mut entries);
    renumber(&mut entries);
    let raw = RawRecord { packet: Some(bytes), ..fixture::raw_of(fixture::seal(entries)) };
    let mut report = audit(&raw);
    report.findings.retain(|finding| finding.code != "packet-superseded");
    assert_eq!(told(&report), expected, "{}", report::render(&report, Language::English));
    let words = report.missing.iter().map(|missing| missing.words().to_string());
    words.filter(|words| words.starts_with("lockout.isolate")).collect()
}

#[test]
fn a_missing_doubled_or_foreign_source_is_found() {
    let none: [&str; 0] = [];
    assert_eq!(check_rows(|_| (), &[]), none);
    let missing = check_rows(|entries| drop(entries.remove(1)), &[]);
    assert_eq!(missing, ["lockout.isolate/mains is not signed as performed (technician)"]);
    let twice = |entries: &mut Vec<Entry>| entries.push(entries[1].clone());
    assert_eq!(check_rows(twice, &["signed-twice@4"]), none);
    let foreign = |entries: &mut Vec<Entry>| entries[2].row = Some("steam".to_owned());
    let missing = check_rows(foreign, &["row-unknown@3"]);
    assert_eq!(missing, ["lockout.isolate/air is not signed as performed (technician)"]);
    let whole = |entries: &mut Vec<Entry>| entries[2].row = None;
    assert_eq!(check_rows(whole, &["row-missing@3"]), missing);
    let reading = |entries: &mut Vec<Entry>| entries[0].row = Some("mains".to_owned());
    check_rows(reading, &["row-unknown@1", "step-order@2", "step-order@3"]);
}

// Bytes.

#[test]
fn a_changed_digit_is_found_in_entry_and_chain() {
    check(|raw| text(raw, 5, "-84.0", "-84.1"), &["signature-bad@5", "chain-broken@6"]);
}

#[test]
fn foreign_bytes_are_found() {
    let bytes = ["foreign-bytes@5", "signature-bad@5", "chain-broken@6"];
    check(|raw| text(raw, 5, "}\n", "}\r\n"), &bytes);
    check(|raw| text(raw, 5, "}\n", "}\n\n"), &bytes);
    check(|raw| text(raw, 5, "}\n", "}"), &bytes);
    let nothing = bytes;
    let lost = ["before-readings@8", "before-readings@9", "release-incomplete@13"];
    let zeros = |raw: &mut RawRecord| raw.entries[4].json = vec![0; 70_000];
    check(zeros, &[&["entry-too-long@5"], &nothing[1..], &lost[..]].concat());
    let nothing = [&nothing[..], &lost[..]].concat();
    check(|raw| raw.entries[4].json.clear(), &nothing);
    check(|raw| text(raw, 5, "{\"at\"", "\u{feff}{\"at\""), &nothing);
}

#[test]
fn other_forms_of_the_same_meaning_are_found_though_well_signed() {
    check_last(|t| t.replace(",\"by\"", ", \"by\""), &["not-canonical@13"]);
    check_last(|t| t.replace("\"seq\":13", "\"seq\":13,\"seq\":13"), &["duplicate-key@13"]);
    check_last(|t| t.replace("\"seq\":13", "\"seq\":13.0"), &["wrong-type@13"]);
    check_last(|t| t.replace("\"v\":3", "\"u\":2,\"v\":3"), &["unknown-field@13"]);
    check_last(
        |t| t.replace("\"seq\":13", "\"seq\":9007199254740993"),
        &["number-range@13", "number-differs@13"],
    );
    check_last(|t| t.replace("+01:00", ""), &["time-form@13"]);
    check_last(|t| t.replace("2026-11-26T", "2026-11-26 "), &["time-form@13"]);
}

#[test]
fn look_alike_letters_are_found_and_shown_by_number() {
    check_last(
        |t| t.replace("\"name\":\"Bo Checker\"", "\"name\":\"Bo Сhecker\""),
        &["name-differs@13"],
    );
    check_last(
        |t| t.replace("b.checker@", "b.сhecker@"),
        &["identifier-form@13", "signer-differs@13", "person-unknown@13"],
    );
    let report = audit(&last_as(|t| t.replace("Bo Checker", "Bo Сhecker")));
    assert_eq!(report.findings[0].found.to_string(), "Bo <U+0421>hecker");
    check_last(
        |t| t.replace("\"name\":\"Bo Checker\"", "\"name\":\"Bo\u{202e} Checker\""),
        &["text-form@13", "name-differs@13"],
    );
}

// Order.

#[test]
fn a_removed_entry_is_found() {
    let lost = ["before-readings@8", "before-readings@9", "release-incomplete@13"];
    check(
        |raw| drop(raw.entries.remove(4)),
        &[&["number-gap@6", "chain-broken@6"], &lost[..]].concat(),
    );
}

#[test]
fn a_removed_entry_is_found_when_the_files_are_numbered_anew() {
    let mut raw = fixture::raw();
    raw.entries.remove(4);
    rename(&mut raw);
    let told = told(&audit(&raw));
    assert_eq!(told[..2], ["number-differs@5", "chain-broken@5"]);
    assert_eq!(told.iter().filter(|t| t.starts_with("number-differs")).count(), 8);
}

#[test]
fn swapped_entries_are_found() {
    let mut raw = fixture::raw();
    raw.entries.swap(4, 5);
    rename(&mut raw);
    assert_eq!(
        told(&audit(&raw)),
        [
            "number-differs@5",
            "chain-broken@5",
            "number-differs@6",
            "chain-broken@6",
            "time-backwards@6",
            "chain-broken@7",
        ]
    );
}

#[test]
fn a_copied_entry_is_found() {
    let mut raw = fixture::raw();
    raw.entries.push(RawEntry { name: "000014".to_owned(), ..raw.entries[1].clone() });
    assert_eq!(
        told(&audit(&raw)),
        [
            "number-differs@14",
            "chain-broken@14",
            "fork@14",
            "time-backwards@14",
            "after-release@14",
            "signed-twice@14",
        ]
    );
}

#[test]
fn merged_copies_are_found_as_a_fork() {
    let mut raw = fixture::raw();
    raw.entries.truncate(5);
    let mut entry = entries().remove(4);
    entry.seq = 6;
    entry.prev = canonical_prev(&raw, 4);
    let key = fixture::key_of(&entry.by);
    let signed = seal_all(vec![entry.clone()], &entry.prev, &key, DOMAIN).unwrap().remove(0);
    let (json, signature) = (signed.json, Some(signed.signature));
    raw.entries.push(RawEntry { name: "000006".to_owned(), json, signature });
    assert_eq!(told(&audit(&raw)), ["chain-broken@6", "fork@6", "reading-twice@6"]);
}

fn canonical_prev(raw: &RawRecord, number: usize) -> String {
    let entry = &raw.entries[number - 1];
    chained(&entry.json, entry.signature.as_ref().unwrap())
}

#[test]
fn a_cut_tail_leaves_an_unreleased_job() {
    let mut raw = fixture::raw();
    raw.entries.truncate(9);
    let report = audit(&raw);
    assert_eq!((report.state, told(&report).len()), (Some(State::Open), 0));
    assert_eq!(report.findings[0].code, "not-released");
    assert!(report.missing.len() > 2, "{:?}", report.missing);
}

// Signatures.

#[test]
fn a_signature_is_there_and_in_its_one_form() {
    let form = ["signature-form@5", "chain-broken@6"];
    check(|raw| raw.entries[4].signature = None, &["signature-missing@5", "chain-broken@6"]);
    check(|raw| signature(raw, 5, |s| s[..120].to_owned()), &form);
    check(|raw| signature(raw, 5, |s| format!("{s}{s}")), &form);
    check(|raw| signature(raw, 5, |s| format!("{s}more\n")), &form);
    check(|raw| signature(raw, 5, |s| s.replace('\n', "\r\n")), &form);
    check(|raw| signature(raw, 5, |s| s.replace("U1NIU0lHAAAAAQ", "U1NIU0lHAAAAAA")), &form);
}

#[test]
fn a_moved_signature_is_found() {
    check(
        |raw| raw.entries[4].signature = raw.entries[5].signature.clone(),
        &["signature-bad@5", "chain-broken@6"],
    );
}

/// Signs the last entry's bytes with a key, for a purpose.
fn last_signed(key: &SigningKey, namespace: &str) -> RawRecord {
    let mut raw = fixture::raw();
    let last = raw.entries.last_mut().unwrap();
    last.signature = Some(key.sign(namespace, &last.json).unwrap().into_bytes());
    raw
}

#[test]
fn keys_are_of_the_person_and_signatures_for_the_purpose() {
    let told =
        |key: &str, namespace: &str| told(&audit(&last_signed(&fixture::key_of(key), namespace)));
    assert_eq!(told("b.checker", "signoff@plant.example"), [""; 0]);
    assert_eq!(told("a.doer", "signoff@plant.example"), ["signer-differs@13"]);
    assert_eq!(told("nobody", "signoff@plant.example"), ["signer-unlisted@13"]);
    assert_eq!(told("b.checker", "signoff@other.example"), ["signature-namespace@13"]);
    assert_eq!(told("b.checker", "git"), ["signature-namespace@13"]);
}

#[test]
fn a_record_rewritten_by_an_unlisted_key_is_found_everywhere() {
    let mut raw = fixture::raw();
    let (key, mut prev) = (SigningKey::from_secret(&[9; 32]), NO_PREVIOUS.to_owned());
    for (raw, entry) in raw.entries.iter_mut().zip(entries()) {
        let signed = seal_all(vec![entry], &prev, &key, DOMAIN).unwrap().remove(0);
        prev = chained(&signed.json, &signed.signature);
        (raw.json, raw.signature) = (signed.json, Some(signed.signature));
    }
    let report = audit(&raw);
    let mut expected: Vec<_> = (1..=13).map(|n| format!("signer-unlisted@{n}")).collect();
    expected.insert(9, "same-person@9".to_owned());
    assert_eq!(told(&report), expected);
    assert_eq!(report.state, Some(State::Open));
}

#[test]
fn keys_count_from_their_first_to_their_last_second() {
    let told = |old: &str, new: &str| {
        let signers = SIGNERS.replace(old, new);
        told(&audit_with(&fixture::raw(), &signers, "J-2041"))
    };
    // The lead signs at 22:18 and 22:22, +01:00.
    let line = "b.checker@plant.example namespaces=\"signoff@plant.example\",";
    let after = |time: &str| format!("{line}valid-after=\"{time}\"");
    let old = after("20260101Z");
    assert_eq!(told(&old, &after("20261126211800Z")), [""; 0]);
    assert_eq!(told(&old, &after("20261126211801Z")), ["key-not-yet-valid@9"]);
    let old = format!("{old},valid-before=\"20270101Z\"");
    let before = |time: &str| format!("{},valid-before=\"{time}\"", after("20260101Z"));
    assert_eq!(told(&old, &before("20261126212200Z")), [""; 0]);
    assert_eq!(told(&old, &before("20261126212159Z")), ["key-expired@13"]);
    assert_eq!(
        told(line, "b.checker@plant.example namespaces=\"git\","),
        ["key-namespace@9", "key-namespace@13"]
    );
}

#[test]
fn a_key_listed_for_two_people_counts_for_neither() {
    let doer = SIGNERS.lines().nth(1).unwrap();
    let signers = format!("{SIGNERS}{}\n", doer.replace("a.doer", "z.other"));
    let told = told(&audit_with(&fixture::raw(), &signers, "J-2041"));
    assert_eq!(told.iter().filter(|t| t.starts_with("signer-unlisted")).count(), 10);
}

// Rules that signatures cannot break.

#[test]
fn a_changed_packet_is_found() {
    let mut raw = fixture::raw();
    let packet = String::from_utf8(raw.packet.take().unwrap()).unwrap();
    raw.packet = Some(packet.replacen("\"high\":\"28.5\"", "\"high\":\"29.5\"", 1).into_bytes());
    let report = audit(&raw);
    // A revised recipe is no fault of a record; a packet that nobody signed is.
    assert_eq!(
        (report.findings[0].code, report.findings[0].severity),
        ("packet-superseded", Severity::Note)
    );
    let told = told(&report);
    assert_eq!(told.iter().filter(|t| t.starts_with("packet-differs")).count(), 13);
    let shown = report::render(&report, Language::English);
    assert!(shown.contains("error[packet-differs]: entries 1 to 13: "), "{shown}");
    assert!(told.contains(&"limit-differs@7".to_owned()));
    assert!(told.contains(&"verdict-wrong@7".to_owned()));
}

#[test]
fn a_packet_is_there_and_in_its_one_form() {
    let told = |change: fn(String) -> String| {
        let mut raw = fixture::raw();
        let packet = String::from_utf8(raw.packet.take().unwrap()).unwrap();
        raw.packet = Some(change(packet).into_bytes());
        told(&audit(&raw)).first().cloned()
    };
    let some = |code: &str| Some(code.to_owned());
    assert_eq!(told(|p| format!("{p}\n")), some("packet-not-canonical"));
    assert_eq!(told(|p| p.replace("\"values\":{}", "\"values\":{\"a\":\"b\",\"a\":\"c\"}")), {
        some("packet-not-canonical")
    });
    assert_eq!(told(|p| p.replace("\"kit\"", "\"kits\"")), some("packet-unreadable"));
    assert_eq!(told(|_| String::new()), some("packet-unreadable"));
    assert_eq!(told(|p| p.replace("J-2041", "J-2042")), some("job-differs"));
    assert_eq!(told(|p| p.replace("plant.example", "works.example")), some("plant-differs"));
    assert_eq!(told(|p| p.replace("14:10:00+", "14:10+")), some("time-form"));
    assert_eq!(told(|p| p.replace("position-2", "position-3")), some("name-twice"));
    assert_eq!(told(|p| p.replace("guides.keep", "knives.set")), some("name-twice"));
    let mut raw = fixture::raw();
    raw.packet = None;
    let report = audit(&raw);
    assert_eq!((report.state, report.packet.clone()), (None, None));
    assert_eq!(self::told(&report), ["packet-missing"]);
}

#[test]
fn an_entry_of_another_job_machine_or_packet_is_found() {
    check_resealed(|e| e[4].job = "J-1".to_owned(), &["job-differs@5"]);
    check_resealed(|e| e[4].machine = "pouch-7".to_owned(), &["machine-differs@5"]);
    check_resealed(|e| e[4].packet = "ab".repeat(32), &["packet-differs@5"]);
    let report = audit_with(&fixture::raw(), SIGNERS, "J-1");
    assert_eq!(told(&report), ["job-differs"]);
}

#[test]
fn times_run_forward_within_the_life_of_the_packet() {
    check_resealed(|e| e[4].at = "2026-11-26T22:12:59+01:00".to_owned(), &["time-backwards@5"]);
    check_resealed(|e| e[0].at = "2026-11-25T14:09:59+01:00".to_owned(), &["before-packet@1"]);
    check_resealed(|e| e[12].at = "2026-11-28T12:00:01+01:00".to_owned(), &["time-future@13"]);
    check_resealed(|e| e[12].at = "2026-11-28T11:00:00Z".to_owned(), &[]);
}

/// Notes on times, as `code@entry`.
#[track_caller]
fn check_notes(change: fn(&mut Vec<Entry>), expected: &[&str]) {
    let report = audit(&resealed(change));
    let is_of_time = |f: &&AuditFinding| f.severity == Severity::Note && f.code != "not-released";
    let notes = report.findings.iter().filter(is_of_time);
    let told = |note: &AuditFinding| format!("{}@{}", note.code, note.entry.unwrap_or_default());
    assert_eq!(notes.map(told).collect::<Vec<_>>(), expected);
}

#[test]
fn what_times_tell_is_noted() {
    check_notes(|_| (), &[]);
    check_notes(|e| e[12].at = "2026-11-28T11:00:00Z".to_owned(), &["gap@13"]);
    // The doer's clock is ahead of the checker's.
    check_notes(|e| e[7].at = "2026-11-26T23:59:00+01:00".to_owned(), &["clock-ahead@8"]);
}

#[test]
fn two_people_do_and_check() {
    check_resealed(
        |e| (e[8].by, e[8].name) = (e[7].by.clone(), e[7].name.clone()),
        &["role-not-held@9", "same-person@9"],
    );
}

#[test]
fn one_key_for_two_people_breaks_the_two_person_rule() {
    // The doer's key is listed for the lead only, who signs for both.
    let signers = SIGNERS.replace("a.doer", "x.gone").replace("b.checker", "y.gone");
    let both = "b.checker@plant.example";
    let signers = signers.replace("x.gone@plant.example", both);
    let mut raw = fixture::raw();
    let key = fixture::key_of("a.doer");
    let verified = &mut raw.entries[8];
    let signature = key.sign("signoff@plant.example", &verified.json).unwrap();
    verified.signature = Some(signature.into_bytes());
    let told = told(&audit_with(&raw, &signers, "J-2041"));
    assert!(told.contains(&"same-person@9".to_owned()), "{told:?}");
}

#[test]
fn roles_are_held_and_asked_for() {
    check_resealed(
        |e| e[0].role = "lead".to_owned(),
        &[
            "role-not-held@1",
            "role-not-asked@1",
            "step-order@2",
            "step-order@3",
            "step-order@4",
            "step-order@5",
            "step-order@6",
            "step-order@7",
            "step-order@8",
            "step-order@11",
            "step-order@12",
            "release-incomplete@13",
        ],
    );
    check_resealed(
        |e| {
            let doer = (e[0].by.clone(), e[0].name.clone(), e[0].role.clone());
            (e[9].by, e[9].name, e[9].role) = doer;
        },
        &["role-not-asked@10"],
    );
}

#[test]
fn readings_are_judged_by_the_packet() {
    let taken = |e: &mut Vec<Entry>, change: fn(&mut crate::record::entry::Taken)| {
        change(e[6].reading.as_mut().unwrap());
    };
    check_resealed(|e| taken(e, |t| t.unit = "in".to_owned()), &["unit-differs@7"]);
    check_resealed(|e| taken(e, |t| t.high = Some("29".to_owned())), &["limit-differs@7"]);
    check_resealed(|e| taken(e, |t| t.high = None), &["limit-differs@7"]);
    check_resealed(
        |e| taken(e, |t| t.verdict = Verdict::Within),
        &["verdict-wrong@7", "acceptance-target@10"],
    );
    check_resealed(
        |e| taken(e, |t| t.instrument = Some("tape".to_owned())),
        &["instrument-differs@7"],
    );
    check_resealed(|e| taken(e, |t| t.value = "2.875e1".to_owned()), &["decimal-form@7"]);
    check_resealed(|e| taken(e, |t| t.value = "28,75".to_owned()), &["decimal-form@7"]);
}

#[test]
fn an_instrument_out_of_calibration_is_found() {
    let late = |e: &mut Vec<Entry>| {
        let day = "2027-04-01T08:00:00+01:00";
        e.iter_mut().skip(4).for_each(|entry| entry.at = day.to_owned());
    };
    let raw = resealed(late);
    let (trust, _) = TrustList::parse(SIGNERS.replace("20270101Z", "20280101Z").as_bytes());
    let people = fixture::people();
    let report = audit_record(&Subject {
        job: "J-2041",
        raw: &raw,
        trust: &trust,
        people: &people,
        domain: DOMAIN,
        now: None,
        current_packet: None,
    });
    assert_eq!(told(&report), ["calibration-over@5", "calibration-over@6", "calibration-over@7"]);
}

#[test]
fn a_release_without_everything_is_found() {
    let without = |index: usize| {
        move |e: &mut Vec<Entry>| {
            e.remove(index);
            renumber(e);
            e.iter_mut().filter(|e| e.kind == Kind::DeviationAccepted).for_each(|e| {
                e.accepts = Some(if index < 6 { 6 } else { 7 });
            });
        }
    };
    check_resealed(without(9), &["release-deviation@12"]);
    check_resealed(without(8), &["step-order@10", "release-incomplete@12"]);
    check_resealed(without(11), &["release-incomplete@12"]);
    check_resealed(
        without(4),
        &["before-readings@7", "before-readings@8", "release-incomplete@12"],
    );
}

#[test]
fn isolation_after_or_without_the_work_is_found() {
    let report = audit(&resealed(|e| {
        e.remove(1);
        renumber(e);
        e[8].accepts = Some(6);
    }));
    let told = told(&report);
    assert!(told.contains(&"step-order@4".to_owned()), "{told:?}");
    assert!(told.contains(&"release-incomplete@12".to_owned()), "{told:?}");
    check_resealed(
        |e| {
            // Proved and worked first, isolated afterwards.
            let isolate = e.remove(1);
            e.insert(4, isolate);
            renumber(e);
            let times = entries();
            e.iter_mut().zip(times).for_each(|(e, t)| e.at = t.at);
        },
        &["step-order@2", "step-order@3", "step-order@4"],
    );
}

#[test]
fn steps_are_signed_once_and_as_asked() {
    check_resealed(
        |e| {
            let again = e[0].clone();
            e.insert(1, again);
            renumber(e);
            e[10].accepts = Some(8);
        },
        &["signed-twice@2"],
    );
    check_resealed(|e| e[12].step = "knives.set".to_owned(), &["signature-not-asked@13"]);
    check_resealed(|e| e[12].step = "knives.sett".to_owned(), &["step-unknown@13"]);
    check_resealed(|e| e[12].step = "guides.keep".to_owned(), &["step-stays@13"]);
}

#[test]
fn corrections_name_the_reading_that_counts() {
    let corrected = |corrects: u64| {
        move |e: &mut Vec<Entry>| {
            let mut again = e[4].clone();
            (again.corrects, again.note) = (Some(corrects), Some("misread".to_owned()));
            e.insert(7, again);
            renumber(e);
            let times = entries();
            e[7].at.clone_from(&times[6].at);
        }
    };
    check_resealed(corrected(5), &[]);
    check_resealed(corrected(6), &["correction-target@8"]);
    check_resealed(corrected(99), &["correction-target@8"]);
    check_resealed(
        |e| {
            corrected(5)(e);
            e[7].note = None;
        },
        &["missing-field@8"],
    );
    check_resealed(
        |e| {
            corrected(5)(e);
            e[7].corrects = None;
        },
        &["reading-twice@8"],
    );
    check_resealed(|e| e[9].accepts = Some(6), &["acceptance-target@10", "release-deviation@13"]);
    check_resealed(|e| e[9].accepts = Some(99), &["acceptance-target@10", "release-deviation@13"]);
}

#[test]
fn stray_files_are_named() {
    let told_of = |stray: &str| {
        let mut raw = fixture::raw();
        raw.strays.push(stray.to_owned());
        audit(&raw).findings.into_iter().map(|f| (f.code, f.severity)).collect::<Vec<_>>()
    };
    assert_eq!(told_of("notes.txt (a file)"), [("stray-file", Severity::Warning)]);
    let orphan = "000014.json.sig (a signature without its entry)";
    assert_eq!(told_of(orphan), [("entry-missing", Severity::Error)]);
    let aside = "000014.json.sig.aside-1 (left by an interrupted write)";
    assert_eq!(told_of(aside), [("left-over", Severity::Note)]);
}

/// What nobody can find in the folder alone: the holders of all keys rewrite everything.
#[test]
fn a_rewrite_by_the_holders_of_all_keys_is_not_found_here() {
    check_resealed(|e| e[4].reading.as_mut().unwrap().value = "-83.9".to_owned(), &[]);
}

/// One flipped bit in each byte of each file, each found as an error.
#[test]
fn each_flipped_byte_is_found() {
    let good = fixture::raw();
    let (trust, _) = TrustList::parse(SIGNERS.as_bytes());
    let people = fixture::people();
    let found = |raw: &RawRecord| {
        let now = None;
        let subject = Subject {
            job: "J-2041",
            raw,
            trust: &trust,
            people: &people,
            domain: DOMAIN,
            now,
            current_packet: None,
        };
        audit_record(&subject).worst() == Some(Severity::Error)
    };
    // The first entry and the packet are enough: every file goes the same way.
    let first = RawRecord { entries: good.entries[..1].to_vec(), ..good };
    assert!(!found(&first));
    let flip = |bytes: &mut [u8], at: usize| bytes[at] ^= 1 << (at % 8);
    let lengths = [
        first.packet.as_ref().unwrap().len(),
        first.entries[0].json.len(),
        first.entries[0].signature.as_ref().unwrap().len(),
    ];
    for (file, length) in lengths.into_iter().enumerate() {
        for at in 0..length {
            let mut raw = first.clone();
            match file {
                0 => flip(raw.packet.as_mut().unwrap(), at),
                1 => flip(&mut raw.entries[0].json, at),
                _ => flip(raw.entries[0].signature.as_mut().unwrap(), at),
            }
            assert!(found(&raw), "file {file}, byte {at}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// Whatever the bytes are, an audit ends with a report that names something.
    #[test]
    fn any_bytes_give_a_report(
        file in 0..3_usize,
        from in 0..400_usize,
        length in 0..400_usize,
        bytes in prop::collection::vec(any::<u8>(), 0..40),
    ) {
        let mut raw = fixture::raw_of(fixture::signed().into_iter().take(1).collect());
        let target = match file {
            0 => raw.packet.as_mut().unwrap(),
            1 => &mut raw.entries[0].json,
            _ => raw.entries[0].signature.as_mut().unwrap(),
        };
        let before = target.clone();
        let from = from.min(target.len());
        let to = (from + length).min(target.len());
        target.splice(from..to, bytes);
        let changed = *target != before;
        let report = audit(&raw);
        prop_assert_eq!(report.worst() == Some(Severity::Error), changed);
        prop_assert!(report::lines(&report, Language::English).len() >= 2);
    }
}

#[test]
fn many_records_give_the_same_reports_in_the_same_order() {
    let (trust, _) = TrustList::parse(SIGNERS.as_bytes());
    let people = fixture::people();
    let mut raws = vec![fixture::raw(); 24];
    for (index, raw) in raws.iter_mut().enumerate() {
        raw.entries.truncate(index % 14);
    }
    let subjects: Vec<_> = (raws.iter())
        .map(|raw| Subject {
            job: "J-2041",
            raw,
            trust: &trust,
            people: &people,
            domain: DOMAIN,
            now: None,
            current_packet: None,
        })
        .collect();
    let one_by_one: Vec<_> = subjects.iter().map(audit_record).collect();
    assert_eq!(audit_all(&subjects), one_by_one);
}

#[test]
fn a_report_reads_as_lines_and_as_json() {
    let mut raw = fixture::raw();
    text(&mut raw, 5, "-84.0", "-84.1");
    let report = audit(&raw);
    let shown = report::render(&report, Language::English);
    let digest = fixture::digest();
    assert!(shown.starts_with("J-2041: "), "{shown}");
    assert!(shown.contains(&format!("13 entries, packet {digest}\n")), "{shown}");
    let line = "error[signature-bad]: entry 5: its signature does not fit the signed bytes\n";
    assert!(shown.contains(line), "{shown}");
    let (_, head) = raw.next();
    let tail = format!("J-2041: 2 errors, 0 warnings; keep elsewhere: head {head} of 13 entries\n");
    assert!(shown.ends_with(&tail), "{shown}");
    assert_eq!(
        report::entry_line(&audit(&fixture::raw()).entries[6], Language::English),
        "ok       7  2026-11-26T22:16:00+01:00  Ada Doer (technician)  knives.set/position-3 = 28.75 mm (outside), limits 27.5 to 28.5 mm"
    );
    let json = canonical::line(&report.told(Language::English)).unwrap();
    let value: serde_json::Value = serde_json::from_slice(&json).unwrap();
    assert_eq!(value["findings"][0]["code"], "signature-bad");
    assert_eq!(value["findings"][0]["severity"], "error");
    assert_eq!(value["entries"][6]["says"]["reading"]["verdict"], "outside");
}

#[test]
fn a_reading_too_close_to_tell_shows_where_it_would_be_sure() {
    let report = audit(&fixture::guarded());
    assert_eq!(told(&report), Vec::<String>::new());
    assert_eq!(
        report::entry_line(&report.entries[6], Language::English),
        "ok       7  2026-11-26T22:16:00+01:00  Ada Doer (technician)  knives.set/position-3 = \
         28.75 mm (too close to tell), limits 27.5 to 28.5 mm, surely within from 27.8 to 28.2 mm"
    );
    let line = report::entry_line(&report.entries[5], Language::English);
    assert!(line.ends_with("knives.set/position-2 = -28.5 mm (within)"), "{line}");
}

#[test]
fn what_is_missing_is_counted_beyond_the_first_three() {
    let words = |most: usize| {
        let mut raw = fixture::raw();
        raw.entries.truncate(most);
        let findings = audit(&raw).findings;
        findings
            .into_iter()
            .find(|f| f.code == "not-released")
            .map(|finding| finding.words.to_string())
    };
    let some = |text: &str| Some(text.to_owned());
    assert_eq!(
        words(4),
        some(
            "the job is not released; 8 things missing: no reading for knives.set/position-1; no \
             reading for knives.set/position-2; no reading for knives.set/position-3; and 5 more"
        )
    );
    assert_eq!(
        words(12),
        some(
            "the job is not released; 1 thing missing: production.hand-over is not signed as released (lead)"
        )
    );
    assert_eq!(words(13), None);
}
