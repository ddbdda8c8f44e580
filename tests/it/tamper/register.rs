//! The register signed by those who hold the keys, against its own rules: `audit` names it.
//!
//! `verify.py` reads records and no register.

use witnessmark::register::draft::seal;
use witnessmark::register::entry::{Entry, Included, Kind, VERSION};

use super::good::key_of;
use crate::plant::Plant;

const TECHNICIAN: &str = "t.one@plant.example";
const LEAD: &str = "l.two@plant.example";

fn included(id: &str, name: &str) -> Included {
    Included { id: id.to_owned(), name: name.to_owned() }
}

/// An inspection of the lockout by one who may lock out, of another who may.
fn inspection() -> Entry {
    Entry {
        at: "2026-03-02T08:00:00+01:00".to_owned(),
        by: TECHNICIAN.to_owned(),
        date: Some("2026-02-27".to_owned()),
        found: Some("In order.".to_owned()),
        kind: Kind::Inspected,
        machine: Some("line-1".to_owned()),
        meaning: Kind::Inspected.meaning().to_owned(),
        name: "Technician One".to_owned(),
        people: vec![included(LEAD, "Lead Two")],
        prev: "0".repeat(64),
        revision: "2".to_owned(),
        role: "technician".to_owned(),
        seq: 1,
        sha256: "ab".repeat(32),
        subject: "procedure:lockout".to_owned(),
        v: VERSION,
        ..Entry::default()
    }
}

/// What `audit` finds in a register of this one entry, signed by the person it names.
fn found(entry: Entry) -> Vec<String> {
    let plant = Plant::small();
    let signer = |by: &str| {
        let (key, times) =
            (key_of(by).public().to_openssh().unwrap(), "20260101Z\",valid-before=\"21000101Z");
        format!("{by} namespaces=\"register@plant.example\",valid-after=\"{times}\" {key}\n")
    };
    plant.write("allowed_signers", signer(TECHNICIAN));
    let key = key_of(&entry.by);
    let sealed = seal(entry, &key, "plant.example").unwrap();
    plant.write("register/000001.json", sealed.json);
    plant.write("register/000001.json.sig", sealed.signature);
    let told = plant.run(&["audit", "PLANT", "--json"]).json();
    let findings = told["register"]["findings"].as_array().unwrap().iter();
    let serious = findings.filter(|finding| finding["severity"] != "note");
    serious.map(|finding| finding["code"].as_str().unwrap().to_owned()).collect()
}

/// 29 CFR 1910.147(c)(6)(i): the inspector is somebody other than those who use the procedure.
#[test]
fn an_inspector_among_the_inspected_is_found() {
    assert_eq!(found(inspection()), [""; 0]);
    let own = included(TECHNICIAN, "Technician One");
    let among = Entry { people: vec![included(LEAD, "Lead Two"), own], ..inspection() };
    assert_eq!(found(among), ["inspects-self"]);
    let role = Entry { role: "lead".to_owned(), ..inspection() };
    assert_eq!(found(role), ["role-not-held", "inspector-role"]);
    let ahead = Entry { date: Some("2026-03-03".to_owned()), ..inspection() };
    assert_eq!(found(ahead), ["date-ahead"]);
    let stranger =
        Entry { people: vec![included("n.obody@plant.example", "No Body")], ..inspection() };
    assert_eq!(found(stranger), ["person-unknown"]);
}
