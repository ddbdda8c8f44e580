//! What came with version 3 of the format, in records that holders of keys have written themselves.

use super::{audit, check_resealed, entries, renumber, resealed, told};
use crate::audit::{Severity, Subject, audit_record};
use crate::canonical;
use crate::packet::Packet;
use crate::record::entry::{Entry, Kind, VERSION};
use crate::record::fixture::{self, DOMAIN, SIGNERS};
use crate::record::people::{People, Person, Term};
use crate::record::state::State;
use crate::record::store::RawRecord;
use crate::record::trust::TrustList;

/// An entry of a kind by who signed another, put in at a place.
fn put(
    entries: &mut Vec<Entry>,
    at: usize,
    like: usize,
    kind: Kind,
    change: impl FnOnce(&mut Entry),
) {
    let mut entry = entries[like].clone();
    entry.kind = kind;
    entry.meaning = kind.meaning().to_owned();
    entry.note = Some("because".to_owned());
    (entry.reading, entry.accepts, entry.corrects, entry.row) = (None, None, None, None);
    entry.at.clone_from(&entries[at.min(entries.len() - 1)].at);
    change(&mut entry);
    entries.insert(at, entry);
    renumber(entries);
}

const DOER: usize = 7;
const LEAD: usize = 8;
const QUALITY: usize = 9;

#[test]
fn a_release_over_a_raised_deviation_is_found() {
    let raised = |e: &mut Vec<Entry>| put(e, 12, DOER, Kind::DeviationRaised, |_| ());
    check_resealed(raised, &["release-deviation@14"]);
    let accepted = |e: &mut Vec<Entry>| {
        raised(e);
        put(e, 13, QUALITY, Kind::DeviationAccepted, |e| e.accepts = Some(13));
    };
    check_resealed(accepted, &[]);
    let by_the_lead = |e: &mut Vec<Entry>| {
        raised(e);
        put(e, 13, LEAD, Kind::DeviationAccepted, |e| e.accepts = Some(13));
    };
    check_resealed(by_the_lead, &["role-not-asked@14"]);
    assert_eq!(audit(&resealed(by_the_lead)).state, Some(State::Verified));
    let elsewhere = |e: &mut Vec<Entry>| {
        raised(e);
        put(e, 13, QUALITY, Kind::DeviationAccepted, |e| {
            (e.accepts, e.step) = (Some(13), "release.unlock".to_owned());
        });
    };
    check_resealed(elsewhere, &["acceptance-target@14"]);
}

#[test]
fn a_deviation_is_raised_by_the_right_person_about_the_right_thing() {
    let about = |concerns: u64| {
        move |e: &mut Vec<Entry>| {
            put(e, 8, DOER, Kind::DeviationRaised, |e| e.concerns = Some(concerns));
            e[10].accepts = Some(9);
        }
    };
    check_resealed(about(7), &[]);
    let wrong = ["raise-target@9", "acceptance-target@11", "release-deviation@14"];
    check_resealed(about(6), &wrong);
    let role = |e: &mut Vec<Entry>| {
        put(e, 12, DOER, Kind::DeviationRaised, |e| e.role = "cleaner".to_owned());
    };
    check_resealed(role, &["role-not-held@13", "role-not-asked@13", "release-deviation@14"]);
    let why = |e: &mut Vec<Entry>| put(e, 12, DOER, Kind::DeviationRaised, |e| e.note = None);
    check_resealed(why, &["missing-field@13", "release-deviation@14"]);
}

#[test]
fn a_signature_taken_back_wrongly_is_found_and_taken_back_rightly_is_missing() {
    let by = |like: usize, change: fn(&mut Entry)| {
        move |e: &mut Vec<Entry>| put(e, 12, like, Kind::Withdrawn, change)
    };
    check_resealed(by(DOER, |e| e.withdraws = Some(8)), &["release-incomplete@14"]);
    check_resealed(by(LEAD, |e| e.withdraws = Some(9)), &["release-incomplete@14"]);
    check_resealed(
        by(DOER, |e| e.withdraws = Some(9)),
        &["withdraw-person@13", "release-incomplete@14"],
    );
    // A reading is taken back too, and its blank is open again.
    check_resealed(by(DOER, |e| e.withdraws = Some(7)), &["release-incomplete@14"]);
    let elsewhere = ["withdraw-target@13", "release-incomplete@14"];
    check_resealed(by(DOER, |e| e.withdraws = Some(11)), &elsewhere);
    check_resealed(by(DOER, |e| e.withdraws = None), &["missing-field@13"]);
    let twice = |e: &mut Vec<Entry>| {
        put(e, 12, DOER, Kind::Withdrawn, |e| e.withdraws = Some(8));
        put(e, 13, DOER, Kind::Withdrawn, |e| e.withdraws = Some(8));
    };
    check_resealed(twice, &["withdraw-target@14", "release-incomplete@15"]);
}

/// The good record, stopped after its first entries.
#[track_caller]
fn check_closed(
    after: usize,
    kind: Kind,
    change: fn(&mut Entry),
    expected: &[&str],
) -> Option<State> {
    let raw = resealed(|e| {
        put(e, after, LEAD, kind, change);
        e.truncate(after + 1);
    });
    let report = audit(&raw);
    assert_eq!(told(&report), expected);
    report.state
}

#[test]
fn a_job_that_is_stopped_with_energy_isolated_and_no_word_of_it_is_found() {
    let words = |e: &mut Entry| e.locks = Some("all off".to_owned());
    let stopped = check_closed(5, Kind::Abandoned, words, &[]);
    assert_eq!(stopped, Some(State::Abandoned));
    let untold = check_closed(5, Kind::Abandoned, |_| (), &["locks-untold@6"]);
    assert_eq!(untold, Some(State::Open), "what is not sound does not close");
    check_closed(1, Kind::Abandoned, |_| (), &[]);
    let no_reason = |e: &mut Entry| e.note = None;
    check_closed(1, Kind::Abandoned, no_reason, &["missing-field@2"]);
    let by_the_doer = |e: &mut Entry| {
        let doer = entries().remove(DOER);
        (e.by, e.name, e.role) = (doer.by, doer.name, doer.role);
    };
    check_closed(1, Kind::Abandoned, by_the_doer, &["role-not-asked@2"]);
}

#[test]
fn nothing_comes_after_a_record_was_closed() {
    let stopped = |e: &mut Vec<Entry>| {
        put(e, 1, LEAD, Kind::Abandoned, |_| ());
        e.truncate(3);
    };
    check_resealed(stopped, &["after-abandoned@3"]);
    let anew = |e: &mut Vec<Entry>| {
        put(e, 1, LEAD, Kind::Superseded, |e| e.becomes = Some("0".repeat(64)));
        e.truncate(3);
    };
    check_resealed(anew, &["after-superseded@3"]);
}

#[test]
fn a_packet_issued_anew_is_another_packet() {
    let other = |e: &mut Entry| e.becomes = Some("0".repeat(64));
    assert_eq!(check_closed(1, Kind::Superseded, other, &[]), Some(State::Superseded));
    let own = |e: &mut Entry| e.becomes = Some(e.packet.clone());
    check_closed(1, Kind::Superseded, own, &["same-packet@2"]);
    check_closed(1, Kind::Superseded, |_| (), &["missing-field@2"]);
    let form = |e: &mut Entry| e.becomes = Some("0".repeat(63));
    check_closed(1, Kind::Superseded, form, &["digest-form@2"]);
}

#[test]
fn older_versions_are_read_as_before_and_nobody_steps_back_to_them() {
    let old = |v: u32| {
        move |e: &mut Vec<Entry>| {
            for entry in e.iter_mut() {
                entry.v = v;
                entry.meaning = entry.kind.meaning_in(v).to_owned();
            }
        }
    };
    check_resealed(old(1), &[]);
    check_resealed(old(2), &[]);
    check_resealed(|e| e[4].v = 2, &["version-back@5"]);
    check_resealed(
        |e| {
            old(2)(e);
            e[9].meaning = Kind::DeviationAccepted.meaning().to_owned();
        },
        &["meaning-differs@10"],
    );
    let late = |e: &mut Vec<Entry>| {
        old(2)(e);
        put(e, 12, DOER, Kind::DeviationRaised, |_| ());
    };
    check_resealed(late, &["kind-later@13", "release-deviation@14"]);
    assert!(entries().iter().all(|entry| entry.v == VERSION));
}

/// Audits the good record under a packet that was changed, signed for that packet.
fn under(change: impl FnOnce(&mut Packet)) -> RawRecord {
    let mut packet = fixture::packet();
    change(&mut packet);
    let bytes = canonical::line(&packet).unwrap();
    let digest = canonical::sha256_hex(&bytes);
    let raw = resealed(|e| e.iter_mut().for_each(|entry| entry.packet.clone_from(&digest)));
    RawRecord { packet: Some(bytes), ..raw }
}

#[test]
fn a_packet_that_was_still_a_draft_is_found() {
    let raw = under(|packet| packet.drafts = vec!["instructions/knives.md".to_owned()]);
    let report = audit(&raw);
    assert_eq!(told(&report), ["draft-packet"]);
    let draft = report.findings.iter().find(|finding| finding.code == "draft-packet").unwrap();
    assert_eq!((draft.severity, draft.entry), (Severity::Error, None));
    assert!(draft.words.to_string().contains("instructions/knives.md"));
}

#[test]
fn an_acceptance_by_another_role_than_the_packet_names_for_the_procedure_is_found() {
    let by = |role: &'static str| {
        let packet = move |packet: &mut Packet| {
            packet.accepted_by.insert("knives".to_owned(), role.to_owned());
        };
        told(&audit(&under(packet)))
    };
    assert_eq!(by("quality"), [""; 0]);
    assert_eq!(by("lead"), ["role-not-asked@10"]);
    assert_eq!(by("none"), ["never-accepted@10"]);
}

/// The role ends with a day; what was signed up to it stays good.
#[test]
fn who_has_left_signs_nothing_afterwards_and_what_was_signed_before_stays() {
    let raw = resealed(|e| {
        for entry in e.iter_mut().skip(11) {
            entry.at = "2026-11-27T08:00:00+01:00".to_owned();
        }
    });
    let leaves = |day: Option<&str>| {
        let people: People = fixture::people()
            .iter()
            .map(|person| {
                let until = |term: &Term| Term {
                    until: day.map(|day| day.parse().unwrap()).or(term.until),
                    ..term.clone()
                };
                let is_doer = person.id.starts_with("a.doer");
                let roles = person
                    .roles
                    .iter()
                    .map(|term| if is_doer { until(term) } else { term.clone() });
                Person { roles: roles.collect(), ..person.clone() }
            })
            .collect();
        let (trust, _) = TrustList::parse(SIGNERS.as_bytes());
        told(&audit_record(&Subject {
            job: "J-2041",
            raw: &raw,
            trust: &trust,
            people: &people,
            domain: DOMAIN,
            now: None,
            current_packet: None,
        }))
    };
    assert_eq!(leaves(None), [""; 0]);
    assert_eq!(leaves(Some("2026-11-27")), [""; 0]);
    assert_eq!(leaves(Some("2026-11-26")), ["role-not-held@12"]);
}
