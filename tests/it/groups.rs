//! A crew that changes under the locks, and a firm from outside: the packets, and what may be signed.

use chrono::{DateTime, Duration, NaiveDate};
use witnessmark::canonical;
use witnessmark::finding::Findings;
use witnessmark::packet::model::{EnergyState, Meaning, Packet, Reading, Sign, Stage, Step};
use witnessmark::packet::{self};
use witnessmark::plant::load;
use witnessmark::record::compose::{self, Past, Request, Value};
use witnessmark::record::people::People;
use witnessmark::record::state::{State, standing};

use crate::demo_records::value;
use crate::lockout::packets;
use crate::plant::root;

const CREW: [&str; 2] = ["b.tanaka@saltmarsh.example", "r.osei@saltmarsh.example"];
const NEXT: [&str; 2] = ["k.lindqvist@saltmarsh.example", "d.moreau@saltmarsh.example"];

fn crew_job() -> Packet {
    packets().remove("SM-1046").unwrap()
}

/// Names of the rows of a step.
fn rows(step: &Step) -> Vec<&str> {
    step.rows().map(|row| row.id.as_str()).collect()
}

/// The steps whose rows are people, as their rows.
fn of_people(packet: &Packet) -> Vec<(usize, Vec<&str>)> {
    let personal = |step: &Step| step.signs.iter().any(|sign| sign.by.is_some());
    let steps = packet.steps.iter().enumerate().filter(|(_, step)| personal(step));
    steps.map(|(index, step)| (index, rows(step))).collect()
}

/// Source: 29 CFR 1910.147(f)(3)(ii)(A), (B), (D) and (f)(4).
#[test]
fn each_of_a_crew_has_a_lock_and_there_is_no_gap_at_the_change() {
    let packet = crew_job();
    let people: Vec<Vec<&str>> = of_people(&packet).into_iter().map(|(_, rows)| rows).collect();
    let both = vec![CREW[0], NEXT[0]];
    let (first, next) = (vec![CREW[0]], vec![NEXT[0]]);
    let expected = [
        first.clone(),
        CREW.to_vec(),
        first,
        // Arriving, handing over, leaving: in this order.
        NEXT.to_vec(),
        both,
        CREW.to_vec(),
        NEXT.to_vec(),
        next,
    ];
    assert_eq!(people, expected);
    let places: Vec<usize> = of_people(&packet).into_iter().map(|(index, _)| index).collect();
    let stage = |index: usize| packet.steps[index].stage;
    assert_eq!(stage(places[0] - 1), Stage::Lock);
    assert_eq!(stage(places[5] + 1), Stage::Verify, "zero is proved again after the change");
    assert_eq!(stage(places[6] - 1), Stage::ClearPeople);
    assert_eq!(stage(places[7] + 1), Stage::Unlock);
}

#[test]
fn a_job_without_a_group_has_none_of_its_steps() {
    for (job, packet) in packets() {
        let words: String = packet.steps.iter().map(|step| step.title.as_str()).collect();
        assert_eq!(of_people(&packet).is_empty(), job != "SM-1046", "{job}");
        assert_eq!(words.contains("contractors"), job == "SM-1047", "{job}");
    }
    let told = packets().remove("SM-1047").unwrap();
    let place = |found: &dyn Fn(&Step) -> bool| told.steps.iter().position(found).unwrap();
    let exchanged = place(&|step| step.title.contains("contractors"));
    assert!(exchanged < place(&|step| step.stage == Stage::Notify));
    assert!(told.steps[exchanged].values["lockout.contractors"].contains("Brinewell"));
}

/// Where a source is handled it is signed; electrical zero by the electrically qualified.
#[test]
fn every_source_is_signed_by_itself() {
    let by_row =
        [Stage::Isolate, Stage::Lock, Stage::Relieve, Stage::Verify, Stage::Unlock, Stage::Restart];
    for (job, packet) in packets() {
        let repeats = |step: &&Step| by_row.contains(&step.stage) && !step.sources.is_empty();
        for step in packet.steps.iter().filter(repeats) {
            let acted = packet.energy.iter().filter(|source| step.sources.contains(&source.id));
            for source in acted {
                let own = |sign: &&Sign| sign.row.as_ref() == Some(&source.id);
                let signs: Vec<&Sign> = step.signs.iter().filter(own).collect();
                let proves = step.stage == Stage::Verify;
                let electrical = proves && source.kind == "electrical";
                let role = if electrical { "electrician" } else { "technician" };
                let roles: Vec<_> = signs.iter().map(|sign| sign.role.as_str()).collect();
                let expected = if proves { vec![role, "lead"] } else { vec![role] };
                assert_eq!(roles, expected, "{job} {} {}", step.id, source.id);
                assert!(step.row_number(&source.id).is_some());
            }
        }
    }
}

/// A record that is signed step by step.
struct Book<'a> {
    packet: &'a Packet,
    digest: String,
    people: &'a People,
    past: Vec<Past>,
}

impl Book<'_> {
    /// Codes of the reasons against a request; none when it was signed.
    fn sign(&mut self, by: &str, request: &Request) -> Vec<&'static str> {
        let start = DateTime::parse_from_rfc3339("2026-11-26T12:30:00+01:00").unwrap();
        let desk = compose::Desk {
            packet: self.packet,
            digest: &self.digest,
            past: &self.past,
            people: self.people,
            by,
            key: by,
            at: start + Duration::seconds(self.past.len() as i64),
        };
        match compose::compose(&desk, request) {
            Ok(entries) => {
                let key = by.to_owned();
                let past = entries.into_iter().map(|entry| Past { entry, key: key.clone() });
                self.past.extend(past);
                Vec::new()
            }
            Err(refusals) => refusals.into_iter().map(|refusal| refusal.code).collect(),
        }
    }

    /// Who signs in a role: the crew does, somebody else checks.
    fn holder(&self, role: &str, crew: &[&str; 2]) -> String {
        let day: NaiveDate = self.packet.job.date.parse().unwrap();
        let holds = |id: &&str| self.people.get(id).unwrap().holds(role, day);
        let own = crew.iter().copied().find(holds).map(str::to_owned);
        let other = || self.people.iter().find(|person| person.holds(role, day)).unwrap();
        own.unwrap_or_else(|| other().id.clone())
    }

    /// Readings of a step that lie within, and everything that is asked for it.
    fn step(&mut self, step: &Step, crew: &[&str; 2]) {
        let blanks = step.readings.iter();
        let readings = blanks.map(|blank| Value {
            blank: blank.id.clone(),
            text: value(blank, 0),
            ..Value::default()
        });
        let mut request = Request { readings: readings.collect(), ..Request::default() };
        let name = vec![step.id.clone()];
        for sign in &step.signs {
            let by = sign.by.clone().unwrap_or_else(|| self.holder(&sign.role, crew));
            let index = self.packet.steps.iter().position(|own| own.id == step.id).unwrap();
            let has = |past: &Past| {
                let Past { entry, .. } = past;
                entry.step == self.packet.steps[index].id
                    && entry.row == sign.row
                    && entry.kind.gives() == Some(sign.meaning)
            };
            if self.past.iter().any(has) {
                continue;
            }
            match sign.meaning {
                Meaning::Performed => request.performed.clone_from(&name),
                Meaning::Verified => {
                    request.verified.clone_from(&name);
                    request.outside = true;
                }
                Meaning::Released => request.release = true,
            }
            let refused = self.sign(&by, &std::mem::take(&mut request));
            assert!(refused.is_empty(), "{by} {sign:?} {}: {refused:?}", step.id);
        }
    }
}

#[test]
fn only_who_has_a_lock_on_works_inside() {
    let reading = load::load(&root().join("demo-data")).unwrap();
    let plant = reading.plant.unwrap();
    let mut findings = Findings::default();
    let prepared = packet::prepare(&mut findings, &plant);
    let packet = packet::assemble(&mut findings, &prepared, "SM-1046").unwrap();
    let digest = canonical::sha256_hex(&canonical::line(&packet).unwrap());
    let (people, past) = (&prepared.people, Vec::new());
    let mut book = Book { packet: &packet, digest, people, past };
    let mut refused = 0;
    let mut waited = 0;
    let mut stopped = 0;
    let mut changed = false;
    for step in &packet.steps {
        let (crew, others) = if changed { (NEXT, CREW) } else { (CREW, NEXT) };
        if step.zone.is_some() && step.stays.is_none() {
            let request = Request { performed: vec![step.id.clone()], ..Request::default() };
            assert!(book.sign(others[0], &request).contains(&"no-personal-lock"), "{}", step.id);
            refused += 1;
        }
        // One lock that is not on holds up everything after it.
        if rows(step) == CREW && !changed && waited == 0 {
            let own = Request { performed: vec![step.id.clone()], ..Request::default() };
            assert!(book.sign(CREW[0], &own).is_empty());
            assert_eq!(book.sign(CREW[0], &own), ["signed-twice"]);
            let next = packet.steps.iter().find(|next| next.number == step.number + 1).unwrap();
            let next = Request { performed: vec![next.id.clone()], ..Request::default() };
            assert_eq!(book.sign(CREW[0], &next), ["step-order"]);
            waited += 1;
        }
        // Nobody hands over while somebody still works inside.
        if step.procedure == "shift-change" && step.stage == Stage::Work && step.table.is_none() {
            let next = packet.steps.iter().find(|next| next.number == step.number + 1).unwrap();
            let next = Request { performed: vec![next.id.clone()], ..Request::default() };
            assert_eq!(book.sign(NEXT[0], &next), ["step-order"]);
            stopped += 1;
        }
        if step.stays.is_none() {
            book.step(step, &crew);
        }
        changed |= step.procedure == "shift-change" && step.stage == Stage::Verify;
        // Zero is proved by the arriving crew.
        changed |= rows(step) == [CREW[0], NEXT[0]];
    }
    assert!(refused > 10 && waited == 1 && stopped == 1, "{refused} {waited} {stopped}");
    let found = standing(&packet, book.past.iter().map(|past| &past.entry));
    assert_eq!((found.state, found.missing), (State::Released, Vec::new()));
}

/// Source: 29 CFR 1910.147(f)(3)(ii)(D) and (f)(4).
#[test]
fn who_left_at_the_change_signs_nothing_inside_and_who_came_waits_for_its_end() {
    let reading = load::load(&root().join("demo-data")).unwrap();
    let plant = reading.plant.unwrap();
    let mut findings = Findings::default();
    let prepared = packet::prepare(&mut findings, &plant);
    let packet = packet::assemble(&mut findings, &prepared, "SM-1046").unwrap();
    let digest = canonical::sha256_hex(&canonical::line(&packet).unwrap());
    let mut book = Book { packet: &packet, digest, people: &prepared.people, past: Vec::new() };
    let steps: Vec<&Step> = packet.steps.iter().filter(|step| step.stays.is_none()).collect();
    let is_change = |step: &Step| step.procedure == "shift-change";
    let first = steps.iter().position(|step| is_change(step)).unwrap();
    let end = steps.iter().rposition(|step| is_change(step)).unwrap();
    let arriving = steps.iter().position(|step| is_change(step) && rows(step) == NEXT).unwrap();
    // The last work inside before the change was done, and nobody signed it.
    let is_inside = |step: &Step| step.zone.is_some() && step.needs == EnergyState::Isolated;
    let late = steps[..first].iter().rposition(|step| is_inside(step)).unwrap();
    let request = || {
        let value = |blank: &Reading| Value {
            blank: blank.id.clone(),
            text: value(blank, 0),
            ..Value::default()
        };
        let readings = steps[late].readings.iter().map(value).collect();
        Request { readings, performed: vec![steps[late].id.clone()], ..Request::default() }
    };
    for (index, step) in steps[..=end].iter().enumerate().filter(|(index, _)| *index != late) {
        let crew = if index > arriving + 1 { NEXT } else { CREW };
        book.step(step, &crew);
        let past = book.past.clone();
        let expected: Option<(&[&str], &[&str])> = match index {
            _ if index < first => None,
            _ if index < arriving => Some((&[], &["no-personal-lock"])),
            _ if index < end => Some((&[], &["step-order"])),
            _ => None,
        };
        let has_left = book
            .past
            .iter()
            .any(|past| past.entry.by == CREW[0] && is_change(step) && rows(step) == CREW);
        if let Some((_, arrives)) = expected {
            assert_eq!(book.sign(NEXT[0], &request()).first(), arrives.first(), "{}", step.id);
            book.past = past.clone();
        }
        if has_left {
            assert!(book.sign(CREW[0], &request()).contains(&"no-personal-lock"), "{}", step.id);
            book.past = past;
        }
    }
    assert!(book.sign(CREW[0], &request()).contains(&"no-personal-lock"));
    assert_eq!(book.sign(NEXT[0], &request()), [""; 0]);
    // Who only checks has no lock on, and signs to have stayed outside.
    if steps[late].signs.iter().any(|sign| sign.meaning == Meaning::Verified) {
        let check = Request { verified: vec![steps[late].id.clone()], ..Request::default() };
        let lead = book.holder("lead", &NEXT);
        assert_eq!(book.sign(&lead, &check), ["checked-inside"]);
        assert_eq!(book.sign(&lead, &Request { outside: true, ..check }), [""; 0]);
    }
}
