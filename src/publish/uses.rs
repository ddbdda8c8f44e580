//! What is used where, as the site shows it: places become links, long lists are cut.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::finding::show::Texts;
use crate::language::Language;
use crate::packet::Packet;
use crate::page::paths;
use crate::page::site::{
    First, Frame, Link, UNUSED_SHOWN, USES_SHOWN, UnusedLine, UseSpot, UsedThing, UsesKind,
    UsesView,
};
use crate::plant::load::Plant;
use crate::uses::shown::{self, Lines};
use crate::uses::{self, Index, Kind, Thing, Use, Who};

/// The pages of where things are used; `open` are the jobs that are not closed.
pub(super) fn view(
    frame: Frame,
    plant: &Plant,
    packets: &BTreeMap<String, Arc<Packet>>,
    texts: &Texts,
    open: &BTreeSet<&str>,
) -> UsesView {
    let index = uses::index(plant, packets, open);
    let language = frame.language;
    let mut filler = Filler { language, lines: Lines::of(texts) };
    let kinds = Kind::ALL.into_iter().map(|kind| filler.kind(&index, kind));
    let kinds = kinds.filter(|kind| !kind.things.is_empty()).collect();
    let named = |kind: Kind, id: &str| format!("{} {id}", kind.one().shown(language));
    let own = index.unused().filter(|(.., home)| !home.is_shipped());
    let unused = own.enumerate().map(|(number, (kind, id, thing, home))| {
        // The place of what is cut away anyway is not looked for.
        let line = if number < UNUSED_SHOWN { filler.lines.line(&home.place) } else { 0 };
        UnusedLine {
            what: named(kind, id),
            name: thing.names.iter().copied().collect::<Vec<_>>().join("; "),
            place: format!("{}:{line}", home.place.file),
        }
    });
    let unused = unused.collect();
    let shipped = index.unused().filter(|(.., home)| home.is_shipped());
    let shipped = shipped.map(|(kind, id, ..)| named(kind, id)).collect();
    let same = uses::alike::alike(&index);
    let same = same.iter().map(|one| shown::question(language, one)).collect();
    UsesView { frame, unused, shipped, same, kinds }
}

struct Filler<'t> {
    language: Language,
    lines: Lines<'t>,
}

impl Filler<'_> {
    fn kind(&mut self, index: &Index, kind: Kind) -> UsesKind {
        let things = index.of(kind).map(|(id, thing)| self.thing(id, thing)).collect();
        let name = kind.all().shown(self.language);
        UsesKind { name, slug: kind.slug().to_owned(), things }
    }

    fn thing(&mut self, id: &str, thing: &Thing) -> UsedThing {
        let (homes, more) = first(&thing.homes);
        let stands = homes.iter().map(|home| {
            let note = if home.is_used { "" } else { self.language.word("uses-not-there") };
            let one = Use { by: home.owner, place: home.place.clone() };
            UseSpot { note: note.to_owned(), ..self.spot(&one) }
        });
        let stands = First { list: stands.collect(), more };
        let (uses, more) = first(&thing.uses);
        let uses = First { list: uses.iter().map(|one| self.spot(one)).collect(), more };
        let jobs: Vec<&str> = thing.jobs.iter().copied().collect();
        let (jobs, more) = first(&jobs);
        let jobs =
            First { list: jobs.iter().map(|id| Link::new(*id, paths::job(id))).collect(), more };
        let names = thing.names.iter().map(|name| (*name).to_owned()).collect();
        UsedThing { id: id.to_owned(), names, stands, uses, jobs }
    }

    fn spot(&mut self, one: &Use) -> UseSpot {
        let href = match one.by {
            Who::Machine(id) => paths::machine(id),
            Who::Procedure(id) | Who::Step { procedure: id, .. } => paths::procedure(id),
            Who::Job(id) => paths::job(id),
            // A recipe has no page of its own, and neither has the plant's file.
            Who::Recipe(_) | Who::Plant | Who::Person(_) => String::new(),
        };
        let place = format!("{}:{}", one.place.file, self.lines.line(&one.place));
        UseSpot {
            who: Link::new(one.by.told().shown(self.language), href),
            place,
            note: String::new(),
        }
    }
}

/// The first of a list that a page has room for, and how many more there are.
fn first<T>(list: &[T]) -> (&[T], usize) {
    let (shown, left) = list.split_at(USES_SHOWN.min(list.len()));
    (shown, left.len())
}
