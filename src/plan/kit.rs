//! What a shift fetches, by the place where it lies, and what two of its jobs want at the same time.
//!
//! Puts together the kits of packets. Must never leave a thing of a kit out, and never take two things
//! for one because their names are alike: kind, name and place count.

use std::collections::{BTreeMap, BTreeSet};

use crate::language::Language;
use crate::packet::model::{KitItem, Packet, Stage};

/// A job of a shift, as far as fetching goes.
#[derive(Debug, Clone, Copy)]
pub struct Fetching<'a> {
    /// Its packet.
    pub packet: &'a Packet,
    /// Minutes at which it starts, counted as for the others of the shift; none when nobody says.
    pub starts: Option<u32>,
}

/// What kind of thing is fetched, in the order of the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Change parts.
    Parts,
    /// Material.
    Material,
    /// Tools.
    Tools,
    /// What is measured or read with.
    Instruments,
    /// What people wear.
    Worn,
    /// Locks and tags.
    Locks,
}

impl Kind {
    /// Every kind, with the text that names it.
    pub const ALL: [(Kind, &'static str); 6] = [
        (Kind::Parts, "kit-parts"),
        (Kind::Material, "kit-material"),
        (Kind::Tools, "kit-tools"),
        (Kind::Instruments, "kit-instruments"),
        (Kind::Worn, "kit-protective"),
        (Kind::Locks, "kit-locks"),
    ];

    /// The kind of a kit's group, in whatever language it was written.
    pub fn of(group: &str) -> Option<Kind> {
        let is_named = |key| Language::ALL.iter().any(|language| language.word(key) == group);
        Kind::ALL.into_iter().find(|(_, key)| is_named(key)).map(|(kind, _)| kind)
    }
}

/// A thing to fetch, for all jobs that want it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Thing {
    /// What kind of thing; none for a group that this program does not know.
    pub kind: Option<Kind>,
    /// What, as its first packet has it.
    pub item: String,
    /// Where it lies; empty when nobody says.
    pub place: String,
    /// Language of its words.
    pub language: Language,
    /// How many there are; none when nobody counts them.
    pub stock: Option<u32>,
    /// Who wants it, in the order of the jobs.
    pub wanted: Vec<Wanted>,
    /// The most that may be wanted at the same time.
    pub at_once: u32,
}

/// Jobs that want more of a thing at the same time than there are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TooFew {
    /// What.
    pub item: String,
    /// How many there are.
    pub stock: u32,
    /// How many are wanted at once.
    pub wanted: u32,
    /// Identifiers of the jobs, in their order.
    pub jobs: Vec<String>,
    /// How sure it is that they meet.
    pub meets: Meets,
}

/// How sure it is that jobs want a thing at the same time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meets {
    /// One job alone wants more than there are.
    Alone,
    /// By their planned times they meet.
    Surely,
    /// Nobody can tell: a time is missing.
    Perhaps,
}

/// A thing that a job wants.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wanted {
    /// Identifier of the job.
    pub job: String,
    /// How many.
    pub count: u32,
    /// Number of the step that needs it first; none when the packet does not say.
    pub step: Option<u32>,
    /// Whether that step comes before the line stops.
    pub is_before: bool,
    /// Whether it is at the machine already and nobody fetches it.
    pub is_here: bool,
    /// What else stands beside it, in the packet's words.
    pub detail: String,
    /// Place of the job among the jobs.
    at: usize,
}

/// A place to go to, with what lies there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shelf {
    /// Its name; empty for what lies nobody says where, and for the machines.
    pub place: String,
    /// Whether it is the machines themselves: nothing is fetched there.
    pub is_here: bool,
    /// What lies there, by kind.
    pub things: Vec<Thing>,
}

/// What the jobs of a shift fetch, by place: places by name, then what lies nobody says where, then
/// what is at the machines.
pub fn shelves(jobs: &[Fetching]) -> Vec<Shelf> {
    let mut shelves: BTreeMap<(bool, bool, String), Vec<Thing>> = BTreeMap::new();
    for thing in things(jobs) {
        let is_here = thing.wanted.iter().all(|wanted| wanted.is_here);
        let place = if is_here { String::new() } else { thing.place.clone() };
        shelves.entry((is_here, place.is_empty(), place)).or_default().push(thing);
    }
    let shelf = |((is_here, _, place), mut things): ((bool, bool, String), Vec<Thing>)| {
        things.sort_by_key(|thing| (thing.kind.is_none(), thing.kind));
        Shelf { place, is_here, things }
    };
    shelves.into_iter().map(shelf).collect()
}

/// Everything that is wanted, each thing once, in the order in which it is first wanted.
pub fn things(jobs: &[Fetching]) -> Vec<Thing> {
    let mut things: Vec<Thing> = Vec::new();
    let mut known: BTreeMap<(Option<Kind>, &str, &str), usize> = BTreeMap::new();
    for (at, job) in jobs.iter().enumerate() {
        let stop = stop(job.packet);
        for item in &job.packet.kit {
            let kind = Kind::of(&item.group);
            let own = *known.entry((kind, &item.item, &item.place)).or_insert(things.len());
            if own == things.len() {
                things.push(thing(job.packet, kind, item));
            }
            if let Some(thing) = things.get_mut(own) {
                thing.stock = thing.stock.max(item.stock);
                thing.wanted.push(wanted(at, job.packet, item, stop));
            }
        }
    }
    let spans = spans(jobs);
    for thing in &mut things {
        thing.at_once = meeting(jobs, &spans, thing, true).count;
    }
    things
}

/// Of which things there are too few.
pub fn too_few(jobs: &[Fetching]) -> Vec<TooFew> {
    let spans = spans(jobs);
    let found = |thing: Thing| {
        let stock = thing.stock?;
        let sure = meeting(jobs, &spans, &thing, false);
        let is_sure = sure.count > stock;
        let Meeting { count: wanted, jobs } =
            if is_sure { sure } else { meeting(jobs, &spans, &thing, true) };
        let meets = match jobs.len() {
            0 | 1 => Meets::Alone,
            _ if is_sure => Meets::Surely,
            _ => Meets::Perhaps,
        };
        (wanted > stock).then_some(TooFew { item: thing.item, stock, wanted, jobs, meets })
    };
    things(jobs).into_iter().filter_map(found).collect()
}

/// A thing that nobody wants yet.
fn thing(packet: &Packet, kind: Option<Kind>, item: &KitItem) -> Thing {
    Thing {
        kind,
        item: item.item.clone(),
        place: item.place.clone(),
        language: packet.language,
        stock: item.stock,
        wanted: Vec::new(),
        at_once: 0,
    }
}

fn wanted(at: usize, packet: &Packet, item: &KitItem, stop: Option<u32>) -> Wanted {
    Wanted {
        job: packet.job.id.clone(),
        count: item.count,
        step: item.step,
        is_before: item.step.zip(stop).is_some_and(|(step, stop)| step < stop),
        is_here: item.is_here,
        detail: item.detail.clone(),
        at,
    }
}

/// Number of the step with which the line stops.
fn stop(packet: &Packet) -> Option<u32> {
    let mut done = packet.steps.iter().filter(|step| step.stays.is_none());
    done.find(|step| step.stage == Stage::Shutdown).map(|step| step.number)
}

/// When a job is under way: from its start, for its planned minutes; none when that cannot be told.
fn span(job: &Fetching) -> Option<(u32, u32)> {
    let done = job.packet.steps.iter().filter(|step| step.stays.is_none());
    let minutes = done.filter_map(|step| step.minutes).fold(0, u32::saturating_add);
    let starts = job.starts.filter(|_| minutes > 0)?;
    Some((starts, starts.saturating_add(minutes)))
}

/// When a job has what it fetches.
struct Held {
    /// What comes back with the cart.
    carried: (u32, u32),
    /// A change part: it is on the machine while that runs, until the machine's next job is over.
    fitted: (u32, u32),
}

/// When each job has what it fetches; none where that cannot be told.
fn spans(jobs: &[Fetching]) -> Vec<Option<Held>> {
    let all: Vec<Option<(u32, u32)>> = jobs.iter().map(span).collect();
    let mut by_machine: BTreeMap<&str, BTreeSet<(u32, u32)>> = BTreeMap::new();
    for (job, span) in jobs.iter().zip(&all) {
        by_machine.entry(&job.packet.machine.id).or_default().extend(*span);
    }
    let held = |(job, span): (&Fetching, &Option<(u32, u32)>)| {
        let (start, end) = (*span)?;
        let own = by_machine.get(job.packet.machine.id.as_str())?;
        let next = own.iter().find(|(next, _)| *next > start);
        let until = next.map_or(u32::MAX, |(_, end)| *end);
        Some(Held { carried: (start, end), fitted: (start, until) })
    };
    jobs.iter().zip(&all).map(held).collect()
}

/// Jobs that want a thing at one moment.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
struct Meeting {
    count: u32,
    jobs: Vec<String>,
}

/// The moment at which most of a thing is wanted. Jobs of one machine follow each other; one whose time
/// cannot be told is under way at any moment, or left out.
fn meeting(jobs: &[Fetching], spans: &[Option<Held>], thing: &Thing, with_untold: bool) -> Meeting {
    let wanted = &thing.wanted;
    let own = |wanted: &Wanted| {
        let held = spans.get(wanted.at)?.as_ref()?;
        Some(if thing.kind == Some(Kind::Parts) { held.fitted } else { held.carried })
    };
    let starts = wanted.iter().filter_map(|wanted| own(wanted).map(|(start, _)| start));
    let starts: BTreeSet<u32> = starts.collect();
    let moments = starts.into_iter().map(Some).chain([None]);
    let at = |moment: Option<u32>| {
        let is_on = |wanted: &&Wanted| match (own(wanted), moment) {
            (None, _) => with_untold,
            (Some((start, end)), Some(moment)) => start <= moment && moment < end,
            (Some(_), None) => false,
        };
        together(jobs, wanted.iter().filter(is_on))
    };
    let mut most = Meeting::default();
    for found in moments.map(at) {
        if found.count > most.count {
            most = found;
        }
    }
    most
}

/// What the machines of some jobs want together: each as much as that of its jobs that wants most.
fn together<'a>(jobs: &[Fetching], wanted: impl Iterator<Item = &'a Wanted>) -> Meeting {
    let mut by_job: BTreeMap<usize, u32> = BTreeMap::new();
    for one in wanted {
        let count = by_job.entry(one.at).or_default();
        *count = count.saturating_add(one.count);
    }
    let mut by_machine: BTreeMap<&str, (u32, usize)> = BTreeMap::new();
    for (at, count) in by_job {
        let Some(job) = jobs.get(at) else { continue };
        let most = by_machine.entry(&job.packet.machine.id).or_insert((count, at));
        if count > most.0 {
            *most = (count, at);
        }
    }
    let mut places: Vec<usize> = by_machine.values().map(|(_, at)| *at).collect();
    places.sort_unstable();
    let ids = places.into_iter().filter_map(|at| jobs.get(at));
    Meeting {
        count: by_machine.values().fold(0, |sum, (count, _)| sum.saturating_add(*count)),
        jobs: ids.map(|job| job.packet.job.id.clone()).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::Meets::{self, Alone, Perhaps, Surely};
    use super::{Fetching, shelves, things, too_few};
    use crate::packet::Packet;
    use crate::packet::model::KitItem;
    use crate::record::fixture;

    /// A job on a machine that takes so long, with a kit of `count x item @ place / stock`.
    fn job(id: &str, machine: &str, minutes: u32, kit: &[&str]) -> Packet {
        let mut packet = fixture::packet();
        packet.job.id = id.to_owned();
        packet.machine.id = machine.to_owned();
        packet.steps.truncate(1);
        packet.steps[0].minutes = Some(minutes);
        packet.kit = kit.iter().map(|text| item(text)).collect();
        packet
    }

    fn item(text: &str) -> KitItem {
        let (rest, stock) = text.split_once(" / ").unwrap_or((text, ""));
        let (rest, place) = rest.split_once(" @ ").unwrap_or((rest, ""));
        let (count, name) = rest.split_once(' ').unwrap();
        KitItem {
            group: "Tools".to_owned(),
            item: name.to_owned(),
            detail: String::new(),
            place: place.to_owned(),
            count: count.parse().unwrap(),
            stock: stock.parse().ok(),
            step: None,
            is_here: false,
        }
    }

    /// Jobs by machine and start; each takes an hour and wants this. Expected: how many are wanted, and
    /// how sure that is; none when there are enough.
    #[track_caller]
    fn check(jobs: &[(&str, Option<u32>)], kit: &str, expected: Option<(u32, Meets)>) {
        let made =
            |(at, (machine, _)): (usize, &(&str, _))| job(&format!("J-{at}"), machine, 60, &[kit]);
        let packets: Vec<Packet> = jobs.iter().enumerate().map(made).collect();
        let fetching = packets
            .iter()
            .zip(jobs)
            .map(|(packet, (_, starts))| Fetching { packet, starts: *starts });
        let found = too_few(&fetching.collect::<Vec<_>>());
        assert_eq!(found.first().map(|one| (one.wanted, one.meets)), expected, "{jobs:?} {kit}");
    }

    #[test]
    fn jobs_meet_when_their_times_overlap() {
        let key = "1 key @ Crib / 1";
        check(&[("a", Some(0)), ("b", Some(59))], key, Some((2, Surely)));
        check(&[("a", Some(0)), ("b", Some(60))], key, None);
        check(&[("a", Some(60)), ("b", Some(0))], key, None);
        check(&[("a", Some(30)), ("b", Some(0))], key, Some((2, Surely)));
        check(&[("a", Some(0)), ("b", None)], key, Some((2, Perhaps)));
        check(&[("a", None), ("b", None)], key, Some((2, Perhaps)));
        check(&[("a", None)], key, None);
        check(&[], key, None);
    }

    #[test]
    fn a_machine_does_its_jobs_one_after_the_other() {
        let key = "1 key @ Crib / 1";
        check(&[("a", None), ("a", None)], key, None);
        check(&[("a", None), ("a", None), ("b", None)], key, Some((2, Perhaps)));
        check(&[("a", Some(0)), ("a", Some(30)), ("b", Some(90))], key, None);
        check(&[("a", Some(0)), ("a", Some(60)), ("b", Some(90))], key, Some((2, Surely)));
    }

    /// What is fitted stays on the machine while it runs; what is carried comes back.
    #[test]
    fn a_change_part_is_wanted_until_the_next_changeover_is_over() {
        let wanted = |group: &str, starts: &[(&str, u32)]| {
            let made = |(at, (machine, _)): (usize, &(&str, u32))| {
                let mut packet = job(&format!("J-{at}"), machine, 60, &["1 chuck @ Rack / 1"]);
                packet.kit[0].group = group.to_owned();
                packet
            };
            let mut packets: Vec<Packet> = starts.iter().enumerate().map(made).collect();
            if let Some(last) = packets.get_mut(2) {
                last.kit.clear();
            }
            let jobs = packets.iter().zip(starts);
            let jobs = jobs.map(|(packet, (_, at))| Fetching { packet, starts: Some(*at) });
            too_few(&jobs.collect::<Vec<_>>()).first().map_or(1, |few| few.wanted)
        };
        let long_after = [("a", 0), ("b", 500)];
        assert_eq!(wanted("Tools", &long_after), 1);
        assert_eq!(wanted("Change parts", &long_after), 2);
        assert_eq!(wanted("Change parts", &[("a", 0), ("b", 500), ("a", 400)]), 1);
        assert_eq!(wanted("Change parts", &[("a", 0), ("b", 500), ("a", 450)]), 2);
    }

    #[test]
    fn what_nobody_counts_is_never_too_few() {
        check(&[("a", None), ("b", None)], "5 key @ Crib", None);
        check(&[("a", Some(0))], "3 key @ Crib / 2", Some((3, Alone)));
        check(&[("a", None), ("b", None)], "1 key @ Crib / 2", None);
        check(&[("a", None), ("b", None)], "2 key @ Crib / 3", Some((4, Perhaps)));
        // Sure of three, and four if it comes badly: what is sure is said.
        let jobs = [("a", Some(0)), ("b", Some(0)), ("c", Some(0)), ("d", None)];
        check(&jobs, "1 key @ Crib / 2", Some((3, Surely)));
        check(&jobs, "1 key @ Crib / 3", Some((4, Perhaps)));
    }

    #[test]
    fn numbers_without_end_do_no_harm() {
        let most = format!("{} key @ Crib / 1", u32::MAX);
        let jobs = [("a", Some(u32::MAX)), ("b", Some(u32::MAX - 10)), ("c", None)];
        check(&jobs, &most, Some((u32::MAX, Alone)));
    }

    #[test]
    fn things_stand_once_by_place_and_what_nobody_places_comes_last() {
        let one = job("J-1", "a", 60, &["1 key", "1 key @ Crib", "1 torch @ Aisle"]);
        let mut two = job("J-2", "b", 60, &["1 key @ Crib", "1 gauge @ Panel", "1 torch"]);
        two.kit[1].is_here = true;
        let jobs = [&one, &two].map(|packet| Fetching { packet, starts: None });
        let shown: Vec<(String, bool, Vec<String>)> = shelves(&jobs)
            .into_iter()
            .map(|shelf| {
                let things = shelf.things.iter().map(|thing| {
                    let jobs: Vec<&str> = thing.wanted.iter().map(|own| own.job.as_str()).collect();
                    format!("{} {} {}", thing.at_once, thing.item, jobs.join("+"))
                });
                (shelf.place, shelf.is_here, things.collect())
            })
            .collect();
        let shelf = |place: &str, is_here, things: &[&str]| {
            (place.to_owned(), is_here, things.iter().map(|thing| (*thing).to_owned()).collect())
        };
        let expected: Vec<(String, bool, Vec<String>)> = vec![
            shelf("Aisle", false, &["1 torch J-1"]),
            shelf("Crib", false, &["2 key J-1+J-2"]),
            shelf("", false, &["1 key J-1", "1 torch J-2"]),
            shelf("", true, &["1 gauge J-2"]),
        ];
        assert_eq!(shown, expected);
        let wants: usize = things(&jobs).iter().map(|thing| thing.wanted.len()).sum();
        assert_eq!(wants, one.kit.len() + two.kit.len());
    }
}
