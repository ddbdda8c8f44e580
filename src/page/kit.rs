//! A kit by the place where things lie: what the list of one job and that of a shift both show.
//!
//! Must never leave out a thing because nobody says where it lies.

use serde::Serialize;

use super::words;
use crate::language::Language;
use crate::packet::model::KitItem;
use crate::plan::kit::{Fetching, Kind, Shelf, Thing, Wanted, shelves};

/// A place to go to.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ShelfView {
    /// Its name, or in words that nobody says it.
    pub name: String,
    /// Whether nothing is fetched there: it is at the machine.
    pub is_here: bool,
    /// What lies there.
    pub groups: Vec<GroupView>,
}

/// Things of one kind at a place.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct GroupView {
    /// The kind.
    pub name: String,
    /// The things.
    pub things: Vec<ThingView>,
}

/// A thing to fetch.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ThingView {
    /// What, with how many at once where it is more than one.
    pub item: String,
    /// Its name alone.
    pub name: String,
    /// BCP 47 tag of its language; empty when it is the page's.
    pub lang: String,
    /// Whether people wear it.
    pub is_worn: bool,
    /// Who wants it.
    pub wanted: Vec<WantedView>,
}

/// A job that wants a thing.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct WantedView {
    /// The job.
    pub job: String,
    /// What else stands beside it; may be empty.
    pub detail: String,
    /// When it is needed.
    pub need: String,
}

/// What some jobs fetch, by place.
pub fn shelf_views(language: Language, jobs: &[Fetching]) -> Vec<ShelfView> {
    shelves(jobs).into_iter().map(|shelf| shelf_view(language, shelf)).collect()
}

fn shelf_view(language: Language, shelf: Shelf) -> ShelfView {
    let same = |one: &Thing, two: &Thing| one.kind == two.kind;
    let group = |things: &[Thing]| GroupView {
        name: kind_name(language, things),
        things: things.iter().map(|thing| thing_view(language, thing)).collect(),
    };
    let name = match (shelf.is_here, shelf.place.as_str()) {
        (true, _) => language.word("shelf-here"),
        (false, "") => language.word("shelf-unknown"),
        (false, place) => place,
    };
    ShelfView {
        name: name.to_owned(),
        is_here: shelf.is_here,
        groups: shelf.things.chunk_by(same).map(group).collect(),
    }
}

fn kind_name(language: Language, things: &[Thing]) -> String {
    let kind = things.first().and_then(|thing| thing.kind);
    let named = Kind::ALL.into_iter().find(|(own, _)| Some(*own) == kind);
    language.word(named.map_or("shelf-other", |(_, key)| key)).to_owned()
}

fn thing_view(language: Language, thing: &Thing) -> ThingView {
    // What says its number itself is not counted twice.
    let is_said = thing.wanted.iter().any(|wanted| !wanted.detail.is_empty());
    ThingView {
        item: counted(language, if is_said { 1 } else { thing.at_once }, &thing.item),
        name: thing.item.clone(),
        lang: words::lang(Some(thing.language), language),
        is_worn: thing.kind == Some(Kind::Worn),
        wanted: thing.wanted.iter().map(|wanted| wanted_view(language, wanted)).collect(),
    }
}

fn wanted_view(language: Language, wanted: &Wanted) -> WantedView {
    let step = [("step", wanted.step.unwrap_or_default().to_string().into())];
    let need = match wanted.step {
        _ if wanted.is_here => language.word("shelf-is-here").to_owned(),
        None => language.word("shelf-for-stop").to_owned(),
        Some(_) if wanted.is_before => language.text("shelf-before-stop", &step),
        Some(_) => language.text("shelf-for-step", &step),
    };
    WantedView { job: wanted.job.clone(), detail: wanted.detail.clone(), need }
}

/// A thing with how many, where it is more than one.
fn counted(language: Language, count: u32, item: &str) -> String {
    match count {
        0 | 1 => item.to_owned(),
        count => {
            let parts = [("count", count.to_string().into()), ("item", item.into())];
            language.text("shelf-counted", &parts)
        }
    }
}

/// A thing of a packet's kit on one line: how many of what.
pub(super) fn item_line(language: Language, item: &KitItem) -> String {
    let count = if item.detail.is_empty() { item.count } else { 1 };
    counted(language, count, &item.item)
}
