//! Whether what a packet is made from may be worked by: each recipe and procedure, in exactly these
//! bytes, approved by somebody who held the role for it on the day of the approval.

use std::collections::BTreeSet;

use super::model::{Approval, SHIFT_CHANGE};
use super::prepare::Prepared;
use crate::finding::{Findings, Place};
use crate::language::Language;
use crate::plant::load::{Loaded, Plant};
use crate::plant::shape::RecipeFile;
use crate::procedure::Procedure;
use crate::record::people::People;
use crate::record::trust::TrustList;
use crate::register::draft::{Item, item_of, items, items_of};
use crate::register::{self, FOLDER, House, Judged, Subject};

/// Who approves and inspects in a plant.
pub fn house<'p>(plant: &'p Plant, people: &'p People) -> House<'p> {
    let body = &plant.facts.body;
    House {
        people,
        procedures: body.approvals.procedures.as_deref(),
        recipes: body.approvals.recipes.as_deref(),
        authorised: &body.authorised,
    }
}

/// The plant's register, judged; what does not count is said.
pub(super) fn register(findings: &mut Findings, plant: &Plant, people: &People) -> Judged {
    // What is wrong with keys is said by those who ask for keys.
    let trust = super::trust(&mut Findings::default(), plant);
    let (house, domain) = (house(plant, people), &plant.facts.body.domain);
    let judged = register::judge(&plant.register, &trust, &house, domain);
    for found in &judged.found {
        let file = format!("{FOLDER}/{:06}.json", found.entry);
        findings.register_entry(&Place::file(&file.into()), &found.refusal.words);
    }
    if plant.allowed_signers.is_some() {
        for (key, role) in [("procedures", house.procedures), ("recipes", house.recipes)] {
            let is_known = |role: &&str| plant.facts.body.roles.names().any(|own| own == *role);
            let role = role.filter(is_known);
            if let Some(role) = role.filter(|role| !can_sign(&trust, people, role, domain)) {
                let at = plant.facts.place.at("approvals").at(key);
                findings.nobody_can_approve(&at, role, &register::namespace(domain));
            }
        }
    }
    judged
}

/// Whether somebody with the role has a key that is listed for the register.
fn can_sign(trust: &TrustList, people: &People, role: &str, domain: &str) -> bool {
    let namespace = register::namespace(domain);
    trust.keys().iter().filter(|key| key.namespaces.contains(&namespace)).any(|key| {
        let person = people.get(&key.principal);
        person.is_some_and(|person| person.roles.iter().any(|term| term.role == role))
    })
}

/// Every text that packets of this plant can be made from and that needs an approval.
pub fn texts_to_approve(prepared: &Prepared) -> Vec<Item> {
    let plant = prepared.plant;
    let house = house(plant, &prepared.people);
    let machines = plant.machines.values();
    let own = machines.flat_map(|machine| plant.procedures_of(&machine.body));
    let mut used: BTreeSet<&str> = own.map(|procedure| procedure.front.id.as_str()).collect();
    let lockouts = plant.jobs.values().filter_map(|job| job.body.lockout.as_ref());
    if lockouts.into_iter().any(|lockout| lockout.shift_change.is_some()) {
        used.insert(SHIFT_CHANGE);
    }
    let is_used = |subject: &Subject| match subject {
        Subject::Procedure(id) | Subject::Translation(id, _) => used.contains(id.as_str()),
        Subject::Recipe(_) => true,
    };
    let mut items = items(plant);
    items.retain(|item| is_used(&item.subject) && house.approver(&item.subject).is_some());
    items
}

/// The approvals of what a packet is made from, and files that lack one.
pub(super) fn approvals(
    main: &Prepared,
    recipes: [&Loaded<RecipeFile>; 2],
    procedures: &[&Procedure],
    language: Language,
) -> (Vec<Approval>, Vec<String>) {
    let house = house(main.plant, &main.people);
    let recipes = recipes.into_iter().map(item_of);
    let items = recipes.chain(procedures.iter().flat_map(|one| items_of(one)));
    let mut needed: Vec<Item> =
        items.filter(|item| house.approver(&item.subject).is_some()).collect();
    needed.sort_by(|one, two| one.subject.cmp(&two.subject));
    needed.dedup();
    let (mut approved, mut lacking) = (Vec::new(), Vec::new());
    for item in needed {
        match main.register.register.approval(&item.subject, &item.sha256) {
            Some(held) => approved.push(Approval {
                subject: held.entry.subject.clone(),
                revision: held.entry.revision.clone(),
                sha256: held.entry.sha256.clone(),
                entry: held.entry.seq,
                digest: held.digest.clone(),
                by: held.entry.name.clone(),
                at: held.entry.at.clone(),
            }),
            // Who wrote `draft: true` is named by that already.
            None if item.draft => {}
            None => {
                let file = [("file", item.file.into())];
                lacking.push(language.text("register-not-approved", &file));
            }
        }
    }
    (approved, lacking)
}
