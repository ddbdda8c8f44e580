//! Who does what when: plans of whole packets hold, and the pages say what was worked out.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;
use witnessmark::packet::model::{Meaning, Packet, Step};
use witnessmark::plan::tasks::{When, items};
use witnessmark::plan::timeline::{Bar, Choice, Job, Plan, Staff, choices, chosen, longest};

use crate::lockout::{packets, packets_of};
use crate::plant::{Plant, root};

/// Every packet of the demo and of the library's plant.
fn all() -> BTreeMap<String, Packet> {
    let mut all = packets();
    all.extend(packets_of(&root().join("tests/it/library-plant")));
    all
}

fn job(packet: &Packet) -> [Job<'_>; 1] {
    [Job { packet, earliest: 0, runs: None }]
}

fn everybody(bar: &Bar) -> impl Iterator<Item = usize> {
    bar.does.iter().chain(&bar.checks).copied()
}

/// A plan against its packets, by what they say themselves.
fn holds(staff: &Staff, jobs: &[Job], plan: &Plan, what: &str) {
    for (index, job) in jobs.iter().enumerate() {
        let own: Vec<&Bar> = plan.bars.iter().filter(|bar| bar.job == index).collect();
        let done = job.packet.steps.iter().enumerate().filter(|(_, step)| step.stays.is_none());
        let steps: Vec<usize> = done.map(|(at, _)| at).collect();
        assert_eq!(own.iter().map(|bar| bar.step).collect::<Vec<_>>(), steps, "{what}");
        for bar in &own {
            let step = &job.packet.steps[bar.step];
            assert_eq!(bar.span.minutes(), step.minutes.unwrap_or(0), "{what}: {}", step.id);
            assert!(bar.span.from >= job.earliest && bar.span.to <= plan.minutes, "{what}");
            signs_can_be_given(staff, step, bar, what);
        }
        waits(job.packet, &own, what);
        stands(&own, plan, index, what);
    }
    nobody_is_at_two_places(jobs, plan, what);
    assert!(longest(jobs) <= plan.bound && plan.bound <= plan.minutes, "{what}");
    assert!(!plan.is_best || plan.bound == plan.minutes, "{what}");
}

/// Each signature has somebody who may give it, and who checks did not do it.
fn signs_can_be_given(staff: &Staff, step: &Step, bar: &Bar, what: &str) {
    let what = format!("{what}: {}", step.id);
    let people: BTreeSet<usize> = everybody(bar).collect();
    assert_eq!(people.len(), bar.does.len() + bar.checks.len(), "{what}: twice in one step");
    assert!(bar.does.len() >= step.people as usize, "{what}");
    for sign in &step.signs {
        let who = if sign.meaning == Meaning::Performed { &bar.does } else { &bar.checks };
        let may = |worker: &usize| {
            let worker = &staff.workers[*worker];
            let holds = worker.roles.as_ref().is_none_or(|roles| roles.contains(&sign.role));
            holds && sign.by.as_ref().is_none_or(|by| *by == worker.id)
        };
        assert!(who.iter().any(may), "{what}: nobody signs {sign:?}");
    }
}

/// What waits begins when what it waits for has ended, and no zone is fuller than it may be.
fn waits(packet: &Packet, bars: &[&Bar], what: &str) {
    let items = items(packet);
    let span = |step: usize| bars.iter().find(|bar| bar.step == step).unwrap().span;
    for item in &items {
        for before in &item.after {
            let before = items[*before].step;
            assert!(span(before).to <= span(item.step).from, "{what}: {before} {}", item.step);
        }
    }
    for zone in &packet.zones {
        let inside = |bar: &&&Bar| packet.steps[bar.step].zone.as_ref() == Some(&zone.id);
        for bar in bars.iter().filter(inside) {
            let at = bar.span.from;
            let now = bars.iter().filter(inside);
            let now = now.filter(|bar| bar.span.from <= at && at < bar.span.to);
            assert!(now.count() <= zone.at_once as usize, "{what}: {}", zone.id);
        }
    }
}

/// What is done before and after the stop is.
fn stands(bars: &[&Bar], plan: &Plan, job: usize, what: &str) {
    let Some(stop) = plan.stops[job] else {
        assert!(bars.iter().all(|bar| bar.when != When::During), "{what}");
        return;
    };
    for bar in bars {
        let fits = match bar.when {
            When::Before => bar.span.to <= stop.from,
            When::During => stop.from <= bar.span.from && bar.span.to <= stop.to,
            When::After => stop.to <= bar.span.from,
        };
        assert!(fits, "{what}: {bar:?} and {stop:?}");
    }
}

fn nobody_is_at_two_places(jobs: &[Job], plan: &Plan, what: &str) {
    for (at, bar) in plan.bars.iter().enumerate() {
        for other in &plan.bars[at + 1..] {
            let apart = bar.span.to <= other.span.from || other.span.to <= bar.span.from;
            let shares = everybody(bar).any(|one| everybody(other).any(|two| one == two));
            assert!(apart || !shares, "{what}: {bar:?} and {other:?}");
            let machine = |bar: &Bar| &jobs[bar.job].packet.machine.id;
            let follows = bar.job == other.job || machine(bar) != machine(other);
            assert!(follows || bar.span.to <= other.span.from, "{what}: {bar:?}, then {other:?}");
        }
    }
}

#[test]
fn every_plan_of_every_packet_holds() {
    let mut possible = 0;
    // Each with the people who are named, and with whoever comes.
    let unnamed = |packet: &Packet| {
        let mut packet = packet.clone();
        packet.job.people.clear();
        packet
    };
    for (id, packet) in all().into_iter().flat_map(|(id, packet)| {
        let other = unnamed(&packet);
        [(id.clone(), packet), (id, other)]
    }) {
        let jobs = job(&packet);
        let staff = Staff::of(&jobs);
        let all = choices(&staff, &jobs);
        for Choice { people, plan } in &all {
            let Ok(plan) = plan else { continue };
            possible += 1;
            holds(&staff, &jobs, plan, &format!("{id}, {people} people"));
        }
        let proven = all.iter().filter_map(|one| one.plan.as_ref().ok()).filter(|own| own.is_best);
        let lengths: Vec<u32> = proven.map(|plan| plan.minutes).collect();
        assert!(lengths.is_sorted_by(|fewer, more| fewer >= more), "{id}: {lengths:?}");
        // Whoever did a step does not check it.
        assert!(all[0].plan.is_err(), "{id}");
    }
    assert!(possible > 20, "{possible}");
}

/// Who took the own lock off at a shift change does nothing more in the job.
#[test]
fn who_left_is_not_counted_on() {
    let packet = packets().remove("SM-1046").unwrap();
    let signs =
        |step: &Step, id: &str| step.signs.iter().any(|sign| sign.by.as_deref() == Some(id));
    let off = |id: &str| {
        let is_change = |step: &Step| step.procedure == "shift-change";
        packet.steps.iter().rposition(|step| is_change(step) && signs(step, id)).unwrap()
    };
    let jobs = job(&packet);
    let staff = Staff::of(&jobs);
    let mut seen = 0;
    for plan in choices(&staff, &jobs).into_iter().filter_map(|choice| choice.plan.ok()) {
        for id in ["b.tanaka@saltmarsh.example", "r.osei@saltmarsh.example"] {
            let worker = staff.workers.iter().position(|worker| worker.id == id).unwrap();
            let has = |bar: &&Bar| bar.does.contains(&worker) || bar.checks.contains(&worker);
            for bar in plan.bars.iter().filter(has) {
                assert!(bar.step <= off(id), "{id}: {bar:?}");
                seen += 1;
            }
        }
    }
    assert!(seen > 10, "{seen}");
}

/// All jobs of the demo as one shift: people are shared, machines are not.
#[test]
fn the_plan_of_a_shift_holds() {
    let packets = packets();
    let one_each: BTreeMap<&str, &Packet> =
        packets.values().map(|packet| (packet.machine.id.as_str(), packet)).collect();
    let mut jobs: Vec<Job> = one_each
        .into_values()
        .zip([0, 30, 0, 45, 10])
        .map(|(packet, earliest)| Job { packet, earliest, runs: None })
        .collect();
    // Two on one machine.
    let first = jobs[0].packet;
    jobs.extend(
        packets
            .values()
            .filter(|own| own.machine.id == first.machine.id)
            .take(1)
            .map(|packet| Job { packet, earliest: 0, runs: None }),
    );
    let staff = Staff::of(&jobs);
    for Choice { people, plan } in choices(&staff, &jobs) {
        let Ok(plan) = plan else { continue };
        holds(&staff, &jobs, &plan, &format!("{people} people"));
    }
}

/// The rows of a table on a page, each as the texts of its cells.
fn rows(page: &str, caption: &str) -> Vec<Vec<String>> {
    let table = page.split_once(caption).unwrap_or_else(|| panic!("no {caption}")).1;
    let body = table.split_once("<tbody>").unwrap().1.split_once("</tbody>").unwrap().0;
    let text = |cell: &str| {
        let mut out = String::new();
        let mut inside = true;
        for c in cell.chars() {
            match c {
                '<' => inside = false,
                '>' => inside = true,
                c if inside => out.push(c),
                _ => {}
            }
        }
        out.trim().to_owned()
    };
    let cells = |row: &str| row.split("</t").map(|cell| text(&format!("<{cell}"))).collect();
    let rows = body.split("</tr>").filter(|row| row.contains("<tr"));
    rows.map(|row| {
        let row = row.replace("<td", "</t><td").replace("<th", "</t><th");
        let all: Vec<String> = cells(&row);
        all.into_iter().filter(|cell| !cell.is_empty()).collect()
    })
    .collect()
}

fn hours(minutes: u32) -> String {
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

/// A copy of the demo without records: each page goes by the packet that is assembled now.
fn published() -> (Plant, BTreeMap<String, Packet>) {
    let plant = Plant::demo();
    for folder in ["records", "logs"] {
        std::fs::remove_dir_all(plant.folder().join(folder)).unwrap();
    }
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    let packets = packets_of(&plant.folder());
    (plant, packets)
}

#[test]
fn the_numbers_on_the_pages_are_those_of_the_plan() {
    let (plant, packets) = published();
    for (id, packet) in packets {
        let page = std::fs::read_to_string(plant.beside(&format!("site/plans/{id}.html"))).unwrap();
        let jobs = job(&packet);
        let staff = Staff::of(&jobs);
        let all = choices(&staff, &jobs);
        let shown = chosen(&staff, &all);
        let crews = rows(&page, "plan-choices");
        assert_eq!(crews.len(), all.len(), "{id}");
        for (choice, row) in all.iter().zip(&crews) {
            assert!(row[0].starts_with(&choice.people.to_string()), "{id}: {row:?}");
            let is_shown = shown.is_some_and(|(people, _)| people == choice.people);
            assert_eq!(row[0].len() > 2, is_shown, "{id}: {row:?}");
            match &choice.plan {
                Ok(plan) => {
                    let numbers = [plan.stopped(), plan.minutes, plan.bound].map(hours);
                    assert_eq!(row[1..4], numbers, "{id}");
                }
                Err(lack) => {
                    let number = packet.steps[lack.step].number;
                    assert!(row[1].contains(&format!(" {number} ")), "{id}: {row:?}");
                }
            }
        }
        let Some((_, plan)) = shown else { continue };
        let steps = rows(&page, "plan-steps");
        assert_eq!(steps.len(), plan.bars.len(), "{id}");
        for (bar, row) in plan.bars.iter().zip(&steps) {
            let step = &packet.steps[bar.step];
            assert!(row[0].starts_with(&format!("{} ", step.number)), "{id}: {row:?}");
            let critical = row[4].starts_with('&') || row[4].starts_with('\u{25b2}');
            assert_eq!(critical, bar.is_critical(), "{id}: {row:?}");
            for worker in everybody(bar).map(|worker| &staff.workers[worker].name) {
                assert!(row[1].contains(worker.as_str()), "{id}: {row:?}");
            }
        }
        let job = std::fs::read_to_string(plant.beside(&format!("site/jobs/{id}.html"))).unwrap();
        assert!(job.contains(&format!("../plans/{id}.html")), "{id}");
    }
}

/// Planned and signed of the demo's record, worked out anew from its files.
#[test]
fn what_was_signed_stands_beside_the_plan() {
    let plant = Plant::demo();
    std::fs::remove_dir_all(plant.folder().join("logs")).unwrap();
    for record in std::fs::read_dir(plant.folder().join("records")).unwrap() {
        let record = record.unwrap();
        if record.file_name() != "SM-1042" {
            std::fs::remove_dir_all(record.path()).unwrap();
        }
    }
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("site/plans/SM-1042.html")).unwrap();
    let folder = plant.folder().join("records/SM-1042");
    let read = |name: &str| std::fs::read(folder.join(name)).unwrap();
    let packet: Packet = serde_json::from_slice(&read("packet.json")).unwrap();
    let entries = std::fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path());
    let entries = entries.filter(|path| {
        let name = path.file_name().unwrap().to_str().unwrap();
        name.starts_with('0') && name.ends_with(".json")
    });
    let mut entries: Vec<Value> = entries
        .map(|path| serde_json::from_slice(&std::fs::read(path).unwrap()).unwrap())
        .collect();
    entries.sort_by_key(|entry| entry["seq"].as_u64());
    assert!(entries.iter().all(|entry| entry["withdraws"].is_null()), "nothing was taken back");
    let minute = |entry: &Value| {
        let at = chrono::DateTime::parse_from_rfc3339(entry["at"].as_str().unwrap()).unwrap();
        at.timestamp()
    };
    let signs = |step: &Step| -> Vec<i64> {
        let is_sign = |entry: &&Value| {
            let kind = entry["kind"].as_str().unwrap();
            entry["step"] == step.id.as_str()
                && ["performed", "verified", "released"].contains(&kind)
        };
        entries.iter().filter(is_sign).map(minute).collect()
    };
    let jobs = job(&packet);
    let staff = Staff::of(&jobs);
    let all = choices(&staff, &jobs);
    let (_, plan) = chosen(&staff, &all).unwrap();
    let zero = signs(&packet.steps[0])[0];
    let end = i64::from(plan.bars[0].span.to);
    let signed = |step: &Step| {
        let last = signs(step).into_iter().max()?;
        Some((last - zero).div_euclid(60) + end)
    };
    let rows = rows(&page, "plan-actual");
    assert_eq!(rows.len(), plan.bars.len());
    for (bar, row) in plan.bars.iter().zip(&rows) {
        let step = &packet.steps[bar.step];
        assert_eq!(row[1], hours(bar.span.to), "{}", step.id);
        let actual = u32::try_from(signed(step).unwrap()).unwrap();
        assert_eq!(row[2], hours(actual), "{}", step.id);
        let late = i64::from(actual) - i64::from(bar.span.to);
        let said = match late {
            0 => "as planned".to_owned(),
            1.. => format!("{late} min later"),
            _ => format!("{} min earlier", -late),
        };
        assert_eq!(row[3], said, "{}", step.id);
    }
    assert!(page.contains("not when the work ended"));
}
