//! The register of the demo plant, made with demo keys that anybody can make: it proves nothing.
//!
//! Approves everything that packets of the demo are made from, in the bytes it has now: the texts of the
//! hand slitter a year ago, the rest this month. Holds two inspections, one of them more than a year old.

use std::collections::BTreeMap;

use chrono::{DateTime, Duration, FixedOffset};
use witnessmark::finding::Findings;
use witnessmark::packet::{self, Prepared};
use witnessmark::plant::load::Plant;
use witnessmark::record::people::Person;
use witnessmark::record::store::{RawEntry, RawRecord};
use witnessmark::record::{SigningKey, TrustList};
use witnessmark::register::draft::{Desk, Inspection, Item, items, seal};
use witnessmark::register::{self, Entry, judge};

/// Files made here, by path inside the plant.
type Files = BTreeMap<String, Vec<u8>>;

/// Makes the register, puts it into the plant, and gives its files.
///
/// `signers` is the list of allowed signers, `seed` the secret of a person's demo key.
pub fn make(plant: &mut Plant, signers: &[u8], seed: impl Fn(&str) -> [u8; 32]) -> Files {
    let mut writer = Writer {
        raw: RawRecord::default(),
        at: DateTime::parse_from_rfc3339("2025-10-27T09:00:00+01:00").unwrap(),
    };
    {
        let prepared = packet::prepare(&mut Findings::default(), plant);
        if prepared.plant.facts.body.approvals.procedures.is_none() {
            return Files::new();
        }
        let key = |by: &str| SigningKey::from_secret(&seed(by));
        // Texts of the hand slitter, by which a year of records was made.
        let (early, late): (Vec<Item>, _) = packet::texts_to_approve(&prepared)
            .into_iter()
            .partition(|item| item.subject.to_string().contains(":band-"));
        for item in early {
            writer.approve(&prepared, &key, &item);
        }
        writer.at = DateTime::parse_from_rfc3339("2026-01-05T09:00:00+01:00").unwrap();
        writer.inspect(&prepared, &key, "inching", "pouch-6", "2025-10-21");
        writer.at = DateTime::parse_from_rfc3339("2026-11-02T08:00:00+01:00").unwrap();
        for item in late {
            writer.approve(&prepared, &key, &item);
        }
        writer.at += Duration::days(8);
        writer.inspect(&prepared, &key, "lockout", "stick-5", "2026-11-10");
        let (trust, errors) = TrustList::parse(signers);
        assert!(errors.is_empty(), "{errors:?}");
        let house = packet::house(prepared.plant, &prepared.people);
        let judged = judge(&writer.raw, &trust, &house, &plant.facts.body.domain);
        assert_eq!(judged.found, [], "every entry counts");
    }
    let files = writer.raw.entries.iter().flat_map(|entry| {
        let name = format!("{}/{}.json", register::FOLDER, entry.name);
        let signature = (format!("{name}.sig"), entry.signature.clone().unwrap());
        [(name, entry.json.clone()), signature]
    });
    let files = files.collect();
    plant.register = writer.raw;
    files
}

struct Writer {
    raw: RawRecord,
    at: DateTime<FixedOffset>,
}

impl Writer {
    fn approve(&mut self, prepared: &Prepared, key: &dyn Fn(&str) -> SigningKey, item: &Item) {
        let house = packet::house(prepared.plant, &prepared.people);
        let role = house.approver(&item.subject).unwrap();
        let may = |person: &&Person| {
            person.holds(role, self.at.date_naive()) && person.name != item.author
        };
        let by = prepared.people.iter().find(may).unwrap().id.clone();
        self.add(prepared, key, &by, |desk| desk.approval(item, None));
    }

    fn inspect(
        &mut self,
        prepared: &Prepared,
        key: &dyn Fn(&str) -> SigningKey,
        procedure: &str,
        machine: &str,
        date: &str,
    ) {
        let subject = format!("procedure:{procedure}");
        let all = items(prepared.plant);
        let item = all.iter().find(|item| item.subject.to_string() == subject).unwrap();
        let inspection = Inspection {
            machine: machine.to_owned(),
            date: Some(date.to_owned()),
            people: ["b.tanaka", "r.osei"].map(|id| format!("{id}@saltmarsh.example")).to_vec(),
            found: "Locks, tags and proof of zero as written. One tag without a date.".to_owned(),
            corrected: Some("New tags at the machine; told both what belongs on a tag.".to_owned()),
        };
        self.add(prepared, key, "l.kealoha@saltmarsh.example", |desk| {
            desk.inspection(item, inspection.clone())
        });
    }

    fn add(
        &mut self,
        prepared: &Prepared,
        key: &dyn Fn(&str) -> SigningKey,
        by: &str,
        entry: impl Fn(&Desk) -> Entry,
    ) {
        let house = packet::house(prepared.plant, &prepared.people);
        let (seq, prev) = self.raw.next();
        let entry = entry(&Desk { house: &house, by, at: self.at, seq, prev: &prev });
        let sealed = seal(entry, &key(by), &prepared.plant.facts.body.domain).unwrap();
        self.raw.entries.push(RawEntry {
            name: format!("{seq:06}"),
            json: sealed.json,
            signature: Some(sealed.signature),
        });
        self.at += Duration::minutes(3);
    }
}
