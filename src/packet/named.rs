//! What text may name between double braces: every value of a packet, by the writer's name for it.

use std::collections::BTreeMap;

use super::model::{
    Contractor, Figure, GroupLockout, JobFacts, MachineFacts, Member, RailLayout, RecipeFacts,
    Setting,
};
use super::rows::{limits_of, with_side};
use crate::language::Language;

/// Everything that has a name.
pub(super) struct Sources<'a> {
    /// The job.
    pub job: &'a JobFacts,
    /// The machine.
    pub machine: &'a MachineFacts,
    /// Recipe on the machine now.
    pub from: &'a RecipeFacts,
    /// Recipe wanted.
    pub to: &'a RecipeFacts,
    /// Language of the program's words.
    pub language: Language,
    /// Computed settings.
    pub settings: &'a [Setting],
    /// Figures of the web and of the label.
    pub figures: &'a [&'a [Figure]],
    /// Computed rails.
    pub rails: &'a [RailLayout],
    /// Inputs, `machine.<fact>` and `<rail>.<fact>`, as people write them.
    pub written: &'a BTreeMap<String, String>,
}

/// People under one lockout, by what they are there for.
fn people(language: Language, group: &GroupLockout) -> Vec<(&'static str, String)> {
    let change = group.shift_change.as_ref();
    let nobody = language.word("lines-nobody");
    let name = |member: Option<&Member>| member.map_or(nobody, |member| &member.name).to_owned();
    let names = |crew: &[Member]| -> String {
        crew.iter().map(|member| member.name.as_str()).collect::<Vec<_>>().join(", ")
    };
    let firm = |firm: &Contractor| format!("{} ({})", firm.firm, firm.contact);
    let firms: Vec<String> = group.contractors.iter().map(firm).collect();
    vec![
        ("lockout.primary", name(group.primary.as_ref())),
        ("lockout.coordinator", name(group.coordinator.as_ref())),
        ("lockout.crew", names(&group.crew)),
        ("lockout.next_primary", name(change.and_then(|change| change.primary.as_ref()))),
        ("lockout.next_crew", names(change.map_or(&[], |change| &change.crew))),
        ("lockout.contractors", firms.join("; ")),
    ]
}

/// Values by name: `strip`, `strip.limits`, `strip.was`, `machine.name`, `knife_rail.moves` ...
pub(super) fn values(sources: &Sources) -> BTreeMap<String, String> {
    let language = sources.language;
    let mut values = sources.written.clone();
    let mut put = |name: String, value: String| {
        values.insert(name, value);
    };
    let fixed = [
        ("job.id", &sources.job.id),
        ("job.order", &sources.job.order),
        ("job.date", &sources.job.date),
        ("job.pieces", &sources.job.pieces),
        ("machine.id", &sources.machine.id),
        ("machine.name", &sources.machine.name),
        ("machine.kind", &sources.machine.kind),
        ("machine.location", &sources.machine.location),
        ("machine.datum", &sources.machine.datum),
        ("from.name", &sources.from.name),
        ("from.revision", &sources.from.revision),
        ("to.name", &sources.to.name),
        ("to.revision", &sources.to.revision),
    ];
    for (name, value) in fixed {
        put(name.to_owned(), value.clone());
    }
    if let Some(inching) = &sources.machine.inching {
        put("inching.control".to_owned(), inching.control.clone());
        put("inching.most".to_owned(), inching.most.clone());
    }
    for (name, value) in sources.job.lockout.iter().flat_map(|group| people(language, group)) {
        put(name.to_owned(), value);
    }
    for setting in sources.settings {
        put(setting.id.clone(), language.decimals(&setting.set_to()));
        put(format!("{}.limits", setting.id), limits_of(language, setting));
        let was = setting.was.as_deref().map_or_else(
            || language.word("lines-not-set-before").to_owned(),
            |was| language.decimals(&setting.with_unit(was)),
        );
        put(format!("{}.was", setting.id), was);
    }
    for figure in sources.figures.iter().copied().flatten() {
        put(figure.id.clone(), language.decimals(&figure.value));
    }
    for rail in sources.rails {
        put(format!("{}.name", rail.id), rail.name.clone());
        put(format!("{}.lanes", rail.id), rail.lanes.len().to_string());
        put(format!("{}.moves", rail.id), rail.moves.len().to_string());
        if let Some(web) = &rail.web {
            let edge = |edge: &String| with_side(language, edge, &rail.unit).into();
            let parts = [("low", edge(&web.left)), ("high", edge(&web.right))];
            put(format!("{}.web", rail.id), language.text("rows-between", &parts));
        }
        let tolerance = language.decimals(&format!("±{} {}", rail.tolerance, rail.unit));
        put(format!("{}.tolerance", rail.id), tolerance);
    }
    values
}
