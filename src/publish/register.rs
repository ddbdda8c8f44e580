//! Views of the register: what is approved, what was inspected, what is due.

use chrono::NaiveDate;

use super::lines;
use crate::audit::register::audit_register;
use crate::language::Language;
use crate::packet::{self, Due, Prepared};
use crate::page::site::{
    ApprovalLine, Fact, Frame, InspectionLine, Link, RegisterEntry, RegisterView, State, Tone,
};
use crate::page::{paths, words};
use crate::register::draft::{Item, items_of};
use crate::register::judge::JudgedEntry;
use crate::register::state::Held;
use crate::register::{self, Entry, Subject};

/// The register's page; none when the plant keeps none and needs none.
pub(super) fn view(frame: Frame, prepared: &Prepared, day: NaiveDate) -> Option<RegisterView> {
    let language = frame.language;
    let report = audit_register(prepared, None)?;
    let finding = |found| lines::register_finding(found, language);
    let texts = packet::texts_to_approve(prepared);
    let entries = prepared.register.entries.iter().rev();
    let mut texts: Vec<ApprovalLine> =
        texts.iter().map(|item| text(language, prepared, item)).collect();
    texts.sort_by_key(|line| line.state.tone == Tone::Good);
    Some(RegisterView {
        day: words::date(language, &day.to_string()),
        facts: facts(language, prepared),
        texts,
        inspections: inspections(language, prepared, day, |_| true),
        entries: entries.map(|own| entry(language, prepared, own)).collect(),
        findings: report.findings.iter().map(finding).collect(),
        namespace: register::namespace(&prepared.plant.facts.body.domain),
        frame,
    })
}

fn facts(language: Language, prepared: &Prepared) -> Vec<Fact> {
    let house = packet::house(prepared.plant, &prepared.people);
    let role = |key, role: Option<&str>| role.map(|role| Fact::new(language.word(key), role));
    let roles = [
        role("register-approves-procedures", house.procedures),
        role("register-approves-recipes", house.recipes),
    ];
    let count = prepared.register.entries.len().to_string();
    let head = Fact::new(language.word("register-keep-head"), &prepared.register.head);
    let entries = Fact::new(language.word("record-entries"), count);
    roles.into_iter().flatten().chain([entries, head]).collect()
}

/// A text and how it stands.
fn text(language: Language, prepared: &Prepared, item: &Item) -> ApprovalLine {
    let register = &prepared.register.register;
    let last = register.last_approval(&item.subject);
    let (key, tone, held) = match register.approval(&item.subject, &item.sha256) {
        Some(held) => ("register-approved", Tone::Good, Some(held)),
        None => ("register-never-approved", Tone::Care, last),
    };
    ApprovalLine {
        text: named(prepared, &item.subject),
        subject: item.subject.to_string(),
        revision: item.revision.clone(),
        digest: words::short_digest(&item.sha256),
        state: State { word: language.word(key).to_owned(), tone },
        who: held.map_or(String::new(), |held| who(language, prepared, held)),
    }
}

/// Who approved which revision when, and why that does not count any more.
fn who(language: Language, prepared: &Prepared, held: &Held) -> String {
    let own = &held.entry;
    let parts = [
        ("name", (&own.name).into()),
        ("at", words::moment(language, &own.at).into()),
        ("revision", (&own.revision).into()),
        ("entry", own.seq.to_string().into()),
    ];
    let text = language.text("register-by", &parts);
    let withdrawal = held.withdrawn.and_then(|seq| prepared.register.register.get(seq));
    match withdrawal.and_then(|own| own.entry.note.as_ref()) {
        Some(reason) => {
            let why = language.text("register-is-withdrawn", &[("reason", reason.into())]);
            format!("{text}; {why}")
        }
        None => text,
    }
}

/// A text by its name, with the page where it stands.
fn named(prepared: &Prepared, subject: &Subject) -> Link {
    match subject {
        Subject::Recipe(id) => {
            let recipe = prepared.plant.recipes.get(id).map(|recipe| &recipe.body);
            let machines = recipe.into_iter().flat_map(|recipe| &recipe.machines);
            let mut on = machines.filter(|id| prepared.machines.contains_key(*id));
            let page = on.next().map(|on| format!("{}#recipe-{id}", paths::machine(on)));
            Link::new(recipe.map_or(id, |recipe| &recipe.name), page.unwrap_or_default())
        }
        Subject::Procedure(id) => procedure(prepared, id),
        Subject::Translation(id, language) => {
            let link = procedure(prepared, id);
            Link { text: format!("{} ({})", link.text, language.tag()), ..link }
        }
    }
}

fn procedure(prepared: &Prepared, id: &str) -> Link {
    match prepared.plant.procedures.get(id) {
        Some(procedure) => Link::new(&procedure.front.title, paths::procedure(id)),
        None => Link::new(id, ""),
    }
}

/// What the register says of a procedure's texts, for its own page.
pub(super) fn approvals(language: Language, prepared: &Prepared, id: &str) -> Vec<Fact> {
    let plant = prepared.plant;
    let plants = [plant].into_iter().chain(plant.editions.values());
    let house = packet::house(plant, &prepared.people);
    let items = plants.filter_map(|own| own.procedures.get(id)).flat_map(items_of);
    let mut items: Vec<Item> =
        items.filter(|item| house.approver(&item.subject).is_some()).collect();
    items.sort_by(|one, two| one.subject.cmp(&two.subject));
    items.dedup();
    let fact = |item: &Item| {
        let line = text(language, prepared, item);
        let said = [line.state.word, line.who].into_iter().filter(|part| !part.is_empty());
        Fact::new(line.subject, said.collect::<Vec<_>>().join(": "))
    };
    items.iter().map(fact).collect()
}

/// Inspections of lockout procedures on machines, those that are wanted.
pub(super) fn inspections(
    language: Language,
    prepared: &Prepared,
    day: NaiveDate,
    wanted: impl Fn(&Due) -> bool,
) -> Vec<InspectionLine> {
    let mut all: Vec<Due> = packet::inspections(prepared).into_iter().filter(wanted).collect();
    all.sort_by_key(|due| due.due);
    all.iter().map(|due| inspection(language, due, day)).collect()
}

fn inspection(language: Language, due: &Due, day: NaiveDate) -> InspectionLine {
    let (procedure, machine) = (&due.procedure.front, &due.machine.file.body);
    let (key, tone) = match due.due {
        None => ("register-never", Tone::Care),
        Some(last) if last < day => ("register-is-overdue", Tone::Bad),
        Some(_) => ("register-is-inspected", Tone::Good),
    };
    let signed = due.signed.map(|held| &held.entry);
    let written = due.machine.inspection.as_ref();
    let last = match (signed, written) {
        (Some(own), _) => inspected(language, own),
        (None, Some(own)) => {
            let people = own.people.join(", ");
            let parts = [
                ("day", words::date(language, &own.date).into()),
                ("name", (&own.inspector).into()),
                ("people", people.into()),
            ];
            language.text("register-inspected-by-file", &parts)
        }
        (None, None) => String::new(),
    };
    let found = signed.map_or(String::new(), |own| findings(language, own).join(" "));
    let due = due.due.map(|day| words::date(language, &day.to_string()));
    InspectionLine {
        procedure: Link::new(&procedure.title, paths::procedure(&procedure.id)),
        machine: Link::new(&machine.name, paths::machine(&machine.id)),
        last,
        found,
        due: due.unwrap_or_default(),
        state: State { word: language.word(key).to_owned(), tone },
    }
}

/// Day, inspector, and the people whom it included.
fn inspected(language: Language, entry: &Entry) -> String {
    let people: Vec<&str> = entry.people.iter().map(|one| one.name.as_str()).collect();
    let day = entry.date.as_deref().unwrap_or_default();
    let parts = [
        ("day", words::date(language, day).into()),
        ("name", (&entry.name).into()),
        ("people", people.join(", ").into()),
        ("entry", entry.seq.to_string().into()),
    ];
    language.text("register-inspected-by", &parts)
}

/// What an inspection found, and what was corrected.
fn findings(language: Language, entry: &Entry) -> Vec<String> {
    let said = |key, text: &Option<String>| {
        text.as_ref().map(|text| language.text(key, &[("text", text.into())]))
    };
    let found = said("register-found", &entry.found);
    found.into_iter().chain(said("register-corrected", &entry.corrected)).collect()
}

fn entry(language: Language, prepared: &Prepared, own: &JudgedEntry) -> RegisterEntry {
    let (key, tone) = match own.sound {
        true => ("record-good", Tone::Good),
        false => ("record-see-findings", Tone::Bad),
    };
    let state = State { word: language.word(key).to_owned(), tone };
    let view = RegisterEntry {
        number: own.number,
        digest: own.digest.clone(),
        state,
        ..RegisterEntry::default()
    };
    let Some(entry) = &own.entry else {
        return RegisterEntry { kind: language.word("record-kind-unreadable").to_owned(), ..view };
    };
    let parts = [("subject", (&entry.subject).into()), ("revision", (&entry.revision).into())];
    RegisterEntry {
        at: entry.at.clone(),
        person: entry.name.clone(),
        principal: entry.by.clone(),
        role: entry.role.clone(),
        kind: entry.kind.words().shown(language),
        subject: language.text("register-subject", &parts),
        sentence: entry.kind.meaning().to_owned(),
        lines: details(language, prepared, entry),
        ..view
    }
}

/// What an entry says beside its sentence, one thing a line.
fn details(language: Language, prepared: &Prepared, entry: &Entry) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(seq) = entry.withdraws {
        lines.push(language.text("register-withdraws", &[("entry", seq.to_string().into())]));
    }
    if let Some(id) = &entry.machine {
        let machine = prepared.machines.get(id);
        let name = machine.map_or(id, |machine| &machine.file.body.name);
        lines.push(language.text("register-on-machine", &[("machine", name.into())]));
        lines.push(inspected(language, entry));
    }
    lines.extend(findings(language, entry));
    lines.extend(
        entry.note.as_ref().map(|note| format!("{} {note}", language.word("record-remark"))),
    );
    let withdrawn = prepared.register.register.get(entry.seq).and_then(|held| held.withdrawn);
    lines.extend(
        withdrawn.map(|seq| {
            language.text("register-withdrawn-by", &[("entry", seq.to_string().into())])
        }),
    );
    lines
}
