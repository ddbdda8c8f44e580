//! What came with version 3 of the format, asked before signing: deviations that are raised, signatures
//! taken back, records closed without a release, personal locks by the record.

use crate::language::Language;
use crate::packet::Packet;
use crate::packet::model::{NOBODY, Sign, Table};
use crate::record::compose::{Acceptance, Close, Past, Raise, Request, TakeBack, Value, compose};
use crate::record::entry::Kind;
use crate::record::fixture::{self, Crew, VERIFY_READING};
use crate::record::state::{State, standing};

/// A record that requests are added to, one after the other.
struct Book {
    packet: Packet,
    past: Vec<Past>,
}

impl Book {
    /// The first entries of the good record.
    fn after(entries: u64) -> Book {
        Book { packet: fixture::packet(), past: fixture::past(entries) }
    }

    fn of(packet: Packet) -> Book {
        Book { packet, past: Vec::new() }
    }

    /// Asks for something and wants exactly these rules against it, each with words and a way out; what
    /// nothing speaks against goes on record.
    #[track_caller]
    fn check(&mut self, who: Crew, request: &Request, expected: &[&str]) -> &mut Book {
        let (digest, people) = (fixture::digest(), fixture::people());
        let desk = fixture::desk(&self.packet, &digest, &people, &self.past, who);
        let codes: Vec<&str> = match compose(&desk, request) {
            Ok(entries) => {
                let key = who.key().to_owned();
                let own = entries.into_iter().map(|entry| Past { entry, key: key.clone() });
                self.past.extend(own);
                Vec::new()
            }
            Err(refusals) => {
                for language in Language::ALL {
                    let told = refusals.iter().map(|refusal| refusal.told(language));
                    let mut told = told.map(|told| [told.words, told.way_out]);
                    assert!(told.all(|texts| texts.iter().all(|text| !text.is_empty())));
                }
                refusals.into_iter().map(|refusal| refusal.code).collect()
            }
        };
        assert_eq!(codes, expected);
        self
    }

    #[track_caller]
    fn signs(&mut self, who: Crew, request: &Request) -> &mut Book {
        self.check(who, request, &[])
    }

    #[track_caller]
    fn stands(&self, state: State, missing: &[&str]) {
        let found = standing(&self.packet, self.past.iter().map(|past| &past.entry));
        let words: Vec<String> = found.missing.iter().map(|one| one.words().to_string()).collect();
        assert_eq!(
            (found.state, words),
            (state, missing.iter().map(ToString::to_string).collect())
        );
    }
}

fn value(blank: &str, text: &str) -> Value {
    Value { blank: blank.to_owned(), text: text.to_owned(), ..Value::default() }
}

fn reading(blank: &str, text: &str) -> Request {
    Request { readings: vec![value(blank, text)], ..Request::default() }
}

fn performed(step: &str) -> Request {
    Request { performed: vec![step.to_owned()], ..Request::default() }
}

fn verified(step: &str) -> Request {
    Request { verified: vec![step.to_owned()], ..Request::default() }
}

fn raise(what: &str) -> Request {
    let raise = Raise { what: what.to_owned(), reason: "the clamp is worn".to_owned() };
    Request { raise: vec![raise], ..Request::default() }
}

fn accept(seq: u64) -> Request {
    let accept = Acceptance { seq, reason: "holds by test strip".to_owned() };
    Request { accept: vec![accept], ..Request::default() }
}

fn back(seq: u64) -> Request {
    let back = TakeBack { seq, reason: "signed in the wrong row".to_owned() };
    Request { take_back: vec![back], ..Request::default() }
}

fn release() -> Request {
    Request { release: true, ..Request::default() }
}

fn close(becomes: Option<&str>, locks: Option<&str>) -> Request {
    let own = |text: &str| text.to_owned();
    let close = Close { becomes: becomes.map(own), reason: own("no film"), locks: locks.map(own) };
    Request { close: Some(close), ..Request::default() }
}

fn abandon() -> Request {
    close(None, Some("Ada's lock stays on the mains, key with the lead."))
}

// Deviations that are raised.

#[test]
fn a_raised_deviation_stops_the_release_until_it_is_accepted() {
    let open = "entry 13 (release.unlock) raises a deviation, and nobody has accepted it";
    let mut book = Book::after(12);
    book.signs(Crew::Doer, &raise("release.unlock"))
        .check(Crew::Lead, &release(), &["release-deviation"])
        .check(Crew::Doer, &accept(13), &["role-not-held"]);
    let unsigned = "production.hand-over is not signed as released (lead)";
    book.stands(State::Verified, &[open, unsigned]);
    book.signs(Crew::Quality, &accept(13)).signs(Crew::Lead, &release());
    book.stands(State::ReleasedWithDeviation, &[]);
}

#[test]
fn a_deviation_is_raised_about_a_step_or_a_reading_outside_its_limits() {
    let mut book = Book::after(7);
    book.check(Crew::Doer, &raise("knives.sett"), &["step-unknown"])
        .check(Crew::Doer, &raise("knives.set/position-1"), &["raise-target"])
        .check(Crew::Former, &raise("knives.set"), &["role-not-held"])
        .signs(Crew::Quality, &raise("4"))
        .signs(Crew::Doer, &raise("guides.keep"))
        .signs(Crew::Doer, &raise("knives.set/position-3"));
    let concerns: Vec<_> = book.past[7..].iter().map(|past| past.entry.concerns).collect();
    assert_eq!(concerns, [None, None, Some(7)]);
    Book::after(4).check(Crew::Doer, &raise("knives.set/position-3"), &["raise-target"]);
    let no_reason = Raise { what: "4".to_owned(), reason: String::new() };
    let no_reason = Request { raise: vec![no_reason], ..Request::default() };
    book.check(Crew::Doer, &no_reason, &["text-form"]);
}

#[test]
fn what_is_raised_about_a_reading_is_settled_with_it() {
    // Accepted already, and raised again: open until somebody accepts it again.
    let mut book = Book::after(12);
    book.signs(Crew::Doer, &raise("knives.set/position-3"))
        .check(Crew::Lead, &release(), &["release-deviation"])
        .check(Crew::Quality, &accept(7), &["accepted-twice"])
        .signs(Crew::Quality, &accept(13))
        .signs(Crew::Lead, &release());
    // Raised first: accepting either accepts the reading.
    for target in [7, 10] {
        let mut book = Book::after(9);
        book.signs(Crew::Doer, &raise("knives.set/position-3"))
            .signs(Crew::Quality, &accept(target));
        let waits = |past: &Book| {
            let found = standing(&past.packet, past.past.iter().map(|past| &past.entry));
            found.missing.iter().any(|one| one.words().to_string().contains("accepted"))
        };
        assert!(!waits(&book), "{target}");
    }
    // A corrected reading takes it along.
    let mut book = Book::after(9);
    let again = Value {
        corrects: Some(7),
        note: Some("set again".to_owned()),
        ..value("knives.set/position-3", "28.0")
    };
    book.signs(Crew::Doer, &raise("knives.set/position-3"))
        .signs(Crew::Doer, &Request { readings: vec![again], ..Request::default() })
        .signs(Crew::Doer, &performed("knives.set"))
        .signs(Crew::Lead, &verified("knives.set"))
        .signs(Crew::Doer, &performed("release.unlock"))
        .signs(Crew::Doer, &performed("production.hand-over"))
        .signs(Crew::Lead, &release());
    book.stands(State::Released, &[]);
}

#[test]
fn another_role_or_nobody_accepts_where_the_plant_says_so() {
    let mut book = Book::after(9);
    book.packet.accepted_by.insert("knives".to_owned(), "lead".to_owned());
    book.check(Crew::Quality, &accept(7), &["role-not-held"]).signs(Crew::Lead, &accept(7));
    let mut book = Book::after(12);
    book.packet.accepted_by.insert("release".to_owned(), NOBODY.to_owned());
    book.signs(Crew::Doer, &raise("release.unlock"))
        .check(Crew::Quality, &accept(13), &["never-accepted"])
        .check(Crew::Lead, &release(), &["release-deviation"]);
    let unsigned = "production.hand-over is not signed as released (lead)";
    let open = "entry 13 (release.unlock) raises a deviation, and nobody may accept one there";
    book.stands(State::Verified, &[open, unsigned]);
    // Put right, and taken back by who raised it.
    book.check(Crew::Lead, &back(13), &["withdraw-person"])
        .signs(Crew::Doer, &back(13))
        .signs(Crew::Lead, &release());
}

#[test]
fn a_zero_that_is_raised_is_still_accepted_by_nobody() {
    let mut book = Book::after(2);
    book.signs(Crew::Doer, &reading(VERIFY_READING, "12"))
        .signs(Crew::Doer, &raise(VERIFY_READING))
        .check(Crew::Quality, &accept(4), &["never-accepted"])
        .check(Crew::Doer, &performed("lockout.prove"), &["zero-not-proved"]);
}

// Signatures that are taken back.

#[test]
fn a_signature_is_taken_back_by_its_owner_or_the_lead_and_stays_to_be_seen() {
    let mut book = Book::after(9);
    book.check(Crew::Quality, &back(8), &["role-not-held"])
        .check(Crew::Doer, &back(99), &["withdraw-target"])
        .signs(Crew::Lead, &back(9))
        .check(Crew::Lead, &back(9), &["withdraw-target"])
        .signs(Crew::Lead, &verified("knives.set"))
        .signs(Crew::Lead, &back(8));
    let kinds: Vec<Kind> = book.past[8..].iter().map(|past| past.entry.kind).collect();
    assert_eq!(kinds, [Kind::Verified, Kind::Withdrawn, Kind::Verified, Kind::Withdrawn]);
    // A check of what was taken back is none.
    let found = standing(&book.packet, book.past.iter().map(|past| &past.entry));
    assert_eq!(found.state, State::Open);
    let words: Vec<String> = found.missing.iter().map(|one| one.words().to_string()).collect();
    for lack in ["performed (technician)", "verified (lead)"] {
        let lack = format!("knives.set is not signed as {lack}");
        assert!(words.contains(&lack), "{lack}: {words:?}");
    }
    book.signs(Crew::Doer, &performed("knives.set")).signs(Crew::Lead, &verified("knives.set"));
}

#[test]
fn a_wrong_reading_is_taken_back_and_its_blank_is_open_again() {
    const BLANK: &str = "knives.set/position-3";
    let mut book = Book::after(9);
    book.check(Crew::Quality, &back(7), &["role-not-held"])
        .signs(Crew::Doer, &back(7))
        .check(Crew::Doer, &back(7), &["withdraw-target"])
        .check(Crew::Quality, &accept(7), &["acceptance-target"])
        .check(Crew::Doer, &performed("knives.set"), &["before-readings"]);
    let found = standing(&book.packet, book.past.iter().map(|past| &past.entry));
    let words: Vec<String> = found.missing.iter().map(|one| one.words().to_string()).collect();
    assert_eq!(found.state, State::Open);
    for lack in ["performed (technician)", "verified (lead)"] {
        let lack = format!("knives.set is not signed as {lack}");
        assert!(words.contains(&lack), "{lack}: {words:?}");
    }
    assert!(words.contains(&format!("no reading for {BLANK}")), "{words:?}");
    // It is read as if for the first time, and signed for again.
    book.signs(Crew::Doer, &reading(BLANK, "28.0"))
        .check(Crew::Doer, &reading(BLANK, "28.0"), &["reading-twice"])
        .signs(Crew::Doer, &performed("knives.set"))
        .signs(Crew::Lead, &verified("knives.set"));
    // What was corrected counts no more; the correction does, and may be taken back.
    let mut book = Book::after(7);
    let note = Some("misread".to_owned());
    let right = Value { corrects: Some(7), note, ..value(BLANK, "28.0") };
    book.signs(Crew::Doer, &Request { readings: vec![right], ..Request::default() })
        .check(Crew::Doer, &back(7), &["withdraw-target"])
        .signs(Crew::Lead, &back(8))
        .check(Crew::Doer, &performed("knives.set"), &["before-readings"]);
}

#[test]
fn an_acceptance_is_taken_back_and_the_reading_waits_again() {
    let mut book = Book::after(12);
    book.signs(Crew::Quality, &back(10))
        .check(Crew::Lead, &release(), &["release-deviation"])
        .signs(Crew::Quality, &accept(7))
        .signs(Crew::Lead, &release())
        .check(Crew::Quality, &back(14), &["after-release"]);
}

#[test]
fn what_waits_for_a_signature_that_was_taken_back_waits_again() {
    let mut book = Book::after(4);
    book.signs(Crew::Doer, &back(2)).check(
        Crew::Doer,
        &reading("knives.set/position-1", "-84.0"),
        &["step-order"],
    );
}

// Records that are closed without a release.

#[test]
fn a_job_is_stopped_by_who_may_release_with_a_word_on_the_locks() {
    let mut book = Book::after(5);
    book.check(Crew::Doer, &abandon(), &["role-not-held"])
        .check(Crew::Lead, &close(None, None), &["locks-untold"])
        .signs(Crew::Lead, &abandon());
    let last = &book.past.last().unwrap().entry;
    assert_eq!((last.kind, last.step.as_str()), (Kind::Abandoned, "knives.set"));
    book.stands(State::Abandoned, &[]);
    book.check(Crew::Doer, &reading("knives.set/position-2", "-28.0"), &["after-abandoned"]).check(
        Crew::Lead,
        &abandon(),
        &["after-abandoned"],
    );
}

#[test]
fn before_anything_is_isolated_or_after_all_is_given_back_nothing_needs_to_be_said() {
    Book::after(1).signs(Crew::Lead, &close(None, None));
    Book::after(11).signs(Crew::Lead, &close(None, None));
    Book::after(13).check(Crew::Lead, &abandon(), &["after-release"]);
}

#[test]
fn a_packet_that_is_issued_anew_closes_the_record_of_the_old_one() {
    let (other, own) = ("0".repeat(64), fixture::digest());
    let mut book = Book::after(1);
    book.check(Crew::Lead, &close(Some(&own), None), &["same-packet"])
        .check(Crew::Doer, &close(Some(&other), None), &["role-not-held"])
        .signs(Crew::Lead, &close(Some(&other), None))
        .check(Crew::Doer, &performed("lockout.isolate"), &["after-superseded"]);
    book.stands(State::Superseded, &[]);
    let last = &book.past.last().unwrap().entry;
    assert_eq!((last.kind, last.becomes.as_ref()), (Kind::Superseded, Some(&other)));
}

// Personal locks.

/// A job of two people whose locks go on with the first step and come off with the one before the last.
fn crew() -> Packet {
    let mut packet = fixture::by_row();
    let member = |id: &str| crate::packet::model::Member {
        id: format!("{id}@plant.example"),
        name: id.to_owned(),
        role: "technician".to_owned(),
    };
    packet.job.lockout = Some(crate::packet::model::GroupLockout {
        crew: vec![member("a.doer"), member("e.both")],
        ..crate::packet::model::GroupLockout::default()
    });
    let on = packet.steps[0].clone();
    let off = packet.steps.iter_mut().find(|step| step.id == "release.unlock").unwrap();
    let table: Option<Table> = on.table.clone();
    let signs: Vec<Sign> = on.signs.clone();
    (off.table, off.signs) = (table, signs);
    packet
}

/// The crew's job up to the work inside.
fn locked_out() -> Book {
    let mut book = Book::of(crew());
    book.signs(Crew::Doer, &performed("1"))
        .signs(Crew::Both, &performed("1"))
        .signs(Crew::Doer, &performed("2"))
        .signs(Crew::Lead, &reading(VERIFY_READING, "0"))
        .signs(Crew::Lead, &performed("3"))
        .signs(Crew::Doer, &performed("3"))
        .signs(Crew::Quality, &verified("3"));
    book
}

#[test]
fn who_checks_inside_has_a_lock_on_or_signs_to_have_stayed_outside() {
    let mut book = locked_out();
    for (blank, text) in [("1", "-84.0"), ("2", "-28.0"), ("3", "28.0")] {
        book.signs(Crew::Doer, &reading(&format!("knives.set/position-{blank}"), text));
    }
    book.signs(Crew::Doer, &performed("4")).check(Crew::Lead, &verified("4"), &["checked-inside"]);
    let outside = Request { outside: true, ..verified("4") };
    let before = book.past.clone();
    book.signs(Crew::Lead, &outside);
    assert!(book.past.last().unwrap().entry.outside);
    // Who has a lock on says nothing of it, whatever was asked.
    book.past = before;
    book.signs(Crew::Both, &outside);
    assert!(!book.past.last().unwrap().entry.outside);
}

#[test]
fn who_took_the_lock_off_signs_nothing_inside_any_more() {
    let mut book = locked_out();
    book.signs(Crew::Doer, &reading("knives.set/position-1", "-84.0"))
        .signs(Crew::Doer, &back(1))
        .check(
            Crew::Doer,
            &reading("knives.set/position-2", "-28.0"),
            &["step-order", "no-personal-lock"],
        )
        .signs(Crew::Doer, &performed("1"))
        .signs(Crew::Doer, &reading("knives.set/position-2", "-28.0"));
}

#[test]
fn nobody_is_left_behind_under_a_lock() {
    let mut book = locked_out();
    book.check(Crew::Lead, &close(None, None), &["locks-still-on", "locks-untold"])
        .check(Crew::Lead, &abandon(), &["locks-still-on"])
        .signs(Crew::Doer, &back(1))
        .check(Crew::Lead, &abandon(), &["locks-still-on"])
        // The owner is away: who may stop the job answers for it, with the reason.
        .signs(Crew::Lead, &back(2))
        .signs(Crew::Lead, &abandon());
    book.stands(State::Abandoned, &[]);
}
