//! The lockout in every published packet, against 29 CFR 1910.147 paragraph by paragraph.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::LazyLock;

use witnessmark::finding::{Findings, Place};
use witnessmark::language::Language;
use witnessmark::packet::model::{EnergyState, Meaning, Packet, SHIFT_CHANGE, Stage, Step};
use witnessmark::packet::{self};
use witnessmark::plant::load;
use witnessmark::procedure::protect::{self, Machine};

use crate::plant::{Plant, files_of, root};

/// A stage outside of a test block, or in one.
type At = (Stage, bool);

/// A line of the published sequence.
struct Line {
    paragraph: &'static str,
    says: &'static str,
    stage: At,
    /// What may come only after it, and the paragraph that is broken when it comes before.
    before: At,
    /// The paragraph that its absence breaks, where that is another one.
    without: &'static str,
}

const fn line(paragraph: &'static str, says: &'static str, stage: Stage, before: Stage) -> Line {
    Line { paragraph, says, stage: (stage, false), before: (before, false), without: paragraph }
}

/// In a block, the paragraphs of (d) hold again: (f)(1)(v).
const fn in_block(paragraph: &'static str, says: &'static str, stage: Stage, before: At) -> Line {
    Line { paragraph, says, stage: (stage, true), before, without: paragraph }
}

/// Source: 29 CFR 1910.147 and its Appendix A, by paragraph; (c)(9) and the first steps of Appendix A
/// are quoted from memory.
const SEQUENCE: [Line; 22] = [
    line("(c)(9)", "people are told before controls are applied", Stage::Notify, Stage::Shutdown),
    line(
        "(d)(1)",
        "type, magnitude and means of control are known",
        Stage::Prepare,
        Stage::Shutdown,
    ),
    line("(d)(2)", "orderly stop", Stage::Shutdown, Stage::Isolate),
    line("(d)(3)", "isolating devices are operated", Stage::Isolate, Stage::Lock),
    line("(d)(4)", "a lock on each device", Stage::Lock, Stage::Relieve),
    line("(d)(5)", "stored energy is relieved after the locks", Stage::Relieve, Stage::TryOut),
    line("Appendix A", "nobody exposed, the controls are tried", Stage::TryOut, Stage::Verify),
    line("(d)(6)", "zero is verified before work", Stage::Verify, Stage::Inspect),
    line("(e)(1)", "tools out, parts whole", Stage::Inspect, Stage::ClearPeople),
    line("(e)(2)(i)", "everybody is clear", Stage::ClearPeople, Stage::Unlock),
    line("(e)(3)", "each lock is taken off by who put it on", Stage::Unlock, Stage::NotifyAfter),
    line("(e)(2)(ii)", "people are told before the start", Stage::NotifyAfter, Stage::Restart),
    in_block("(f)(1)(i)", "tools are clear", Stage::Inspect, (Stage::ClearPeople, true)),
    in_block("(f)(1)(ii)", "people are clear", Stage::ClearPeople, (Stage::Unlock, true)),
    in_block("(f)(1)(iii)", "its locks come off", Stage::Unlock, (Stage::Work, true)),
    Line {
        // A test after the stop starts the machine again.
        paragraph: "(d)(2)",
        without: "(f)(1)(iv)",
        ..in_block("", "test or position", Stage::Work, (Stage::Shutdown, true))
    },
    in_block("(d)(2)", "orderly stop again", Stage::Shutdown, (Stage::Isolate, true)),
    in_block("(d)(3)", "isolated again", Stage::Isolate, (Stage::Lock, true)),
    in_block("(d)(4)", "locked again", Stage::Lock, (Stage::Relieve, true)),
    in_block("(d)(5)", "relieved again", Stage::Relieve, (Stage::TryOut, true)),
    in_block("Appendix A", "tried again", Stage::TryOut, (Stage::Verify, true)),
    in_block(
        "(f)(1)(v)",
        "verified again before the block ends",
        Stage::Verify,
        (Stage::Inspect, false),
    ),
];

type Holds = fn(&Packet) -> bool;

/// What a written procedure has to hold, and how a packet shows it.
///
/// Source: 29 CFR 1910.147(c)(4)(ii)(A)-(D).
const WRITTEN: [(&str, Holds); 4] = [
    ("(c)(4)(ii)(A): intended use", |packet| {
        let lockout = packet.steps.iter().filter(|step| step.stage == Stage::Lock);
        let mut of = lockout.map(|step| &step.procedure).peekable();
        let uses = |id: &String| {
            packet.procedures.iter().any(|one| one.id == *id && !one.intended_use.is_empty())
        };
        of.peek().is_some() && of.all(uses)
    }),
    ("(c)(4)(ii)(B): steps for shutting down, isolating, blocking, securing", |packet| {
        use Stage::{Isolate, Lock, Relieve, Shutdown};
        [Shutdown, Isolate, Lock, Relieve]
            .iter()
            .all(|stage| !places(packet, (*stage, false)).is_empty())
    }),
    ("(c)(4)(ii)(C): steps for locks on and off, and who is responsible", |packet| {
        let of = |stage| {
            let mut steps = places(packet, (stage, false)).into_iter().map(|at| &packet.steps[at]);
            let done = |step: &Step| step.signs.iter().any(|s| s.meaning == Meaning::Performed);
            steps.next().is_some_and(done) && steps.all(done)
        };
        of(Stage::Lock) && of(Stage::Unlock)
    }),
    ("(c)(4)(ii)(D): a test that the control works", |packet| {
        let verify = places(packet, (Stage::Verify, false)).into_iter().map(|at| &packet.steps[at]);
        let mut read = verify.map(|step| !step.readings.is_empty()).peekable();
        let tried = !places(packet, (Stage::TryOut, false)).is_empty();
        tried && read.peek().is_some() && read.all(|read| read)
    }),
];

/// Every packet of the demo plant by which somebody locks out, by job; made once.
pub fn packets() -> BTreeMap<String, Packet> {
    static ALL: LazyLock<BTreeMap<String, Packet>> = LazyLock::new(|| {
        let mut all = packets_of(&root().join("demo-data"));
        all.retain(|_, packet| !packet.energy.is_empty());
        all
    });
    ALL.clone()
}

/// Packets of a plant, by job.
pub fn packets_of(folder: &Path) -> BTreeMap<String, Packet> {
    let reading = load::load(folder).unwrap();
    let plant = reading.plant.unwrap();
    let mut findings = Findings::default();
    let prepared = packet::prepare(&mut findings, &plant);
    plant
        .jobs
        .keys()
        .map(|job| (job.clone(), packet::assemble(&mut findings, &prepared, job).unwrap()))
        .collect()
}

/// The machine of a packet, as the walk takes it.
pub fn machine(packet: &Packet) -> Machine<'_> {
    let inching = packet.machine.inching.as_ref();
    Machine {
        sources: &packet.energy,
        zones: &packet.zones,
        inching: inching.map_or(&[], |inching| &inching.sources),
    }
}

/// Steps of a stage that are done.
fn places(packet: &Packet, (stage, in_block): At) -> Vec<usize> {
    let is_it = |step: &Step| {
        step.stays.is_none() && step.stage == stage && step.block.is_some() == in_block
    };
    packet.steps.iter().enumerate().filter(|(_, step)| is_it(step)).map(|(at, _)| at).collect()
}

/// Packets with a test block have every line of the sequence, the others those outside of one.
fn lines_of(packet: &Packet) -> impl Iterator<Item = &'static Line> {
    let has_block = packet.steps.iter().any(|step| step.block.is_some());
    SEQUENCE.iter().filter(move |line| has_block || !line.stage.1)
}

#[test]
fn every_packet_keeps_the_order_of_the_rule() {
    let mut with_block = 0;
    for (job, packet) in packets() {
        for line in lines_of(&packet) {
            let (first, then) = (places(&packet, line.stage), places(&packet, line.before));
            let what = format!("{job}: {} {}", line.paragraph, line.says);
            assert!(!first.is_empty() && !then.is_empty(), "{what}: a stage is missing");
            assert!(first.iter().max() < then.iter().min(), "{what}");
            with_block += usize::from(line.without == "(f)(1)(iv)");
        }
    }
    assert!(with_block >= 2, "{with_block}");
}

/// The paragraphs that stand in what is said about steps.
fn said(steps: &[Step], machine: Machine) -> Vec<String> {
    let mut findings = Findings::default();
    for found in protect::walk(steps, machine) {
        findings.unprotected(&Place::file(&"a.md".into()), &steps[found.step], &found.why);
    }
    findings.iter().map(|finding| finding.way_out(Language::English)).collect()
}

#[track_caller]
fn refused(steps: &[Step], packet: &Packet, paragraph: &str, what: &str) {
    let said = said(steps, machine(packet));
    let named = said.iter().any(|way_out| way_out.contains(paragraph));
    assert!(named, "{}: {what}: {paragraph} is not among {said:?}", packet.job.id);
}

#[test]
fn each_line_that_is_left_out_or_comes_too_late_is_refused_with_its_paragraph() {
    for packet in packets().values() {
        for line in lines_of(packet) {
            let own = places(packet, line.stage);
            let mut left = packet.steps.clone();
            left.retain(|step| !own.iter().any(|at| packet.steps[*at].id == step.id));
            refused(&left, packet, line.without, &format!("without {}", line.says));
            let after = &packet.steps[*places(packet, line.before).first().unwrap()].id;
            let after = left.iter().position(|step| step.id == *after).unwrap() + 1;
            let late = own.iter().map(|at| packet.steps[*at].clone());
            left.splice(after..after, late);
            refused(&left, packet, line.paragraph, &format!("too late: {}", line.says));
        }
    }
}

#[test]
fn every_packet_holds_what_a_written_procedure_has_to_hold() {
    for (job, packet) in packets() {
        for (paragraph, holds) in WRITTEN {
            assert!(holds(&packet), "{job}: {paragraph}");
            let mut bare = packet.clone();
            bare.procedures.iter_mut().for_each(|one| one.intended_use.clear());
            bare.steps.iter_mut().for_each(|step| {
                step.readings.clear();
                step.signs.clear();
            });
            bare.steps.retain(|step| step.stage != Stage::Shutdown);
            assert!(!holds(&bare), "{job}: {paragraph} cannot fail");
        }
    }
}

#[test]
fn every_stage_acts_on_every_source_and_in_a_block_on_those_for_it() {
    use Stage::{Isolate, Lock, Relieve, Unlock, Verify};
    for (job, packet) in packets() {
        let acting =
            |line: &&Line| [Isolate, Lock, Relieve, Verify, Unlock].contains(&line.stage.0);
        for Line { stage, .. } in lines_of(&packet).filter(acting) {
            let is_for_it = |source: &&String| machine(&packet).inching.contains(source);
            let mut sources: Vec<&String> = packet.energy.iter().map(|source| &source.id).collect();
            sources.retain(|source| !stage.1 || is_for_it(source));
            let step = &packet.steps[places(&packet, *stage)[0]];
            let acted: Vec<&String> = step.sources.iter().collect();
            assert_eq!(acted, sources, "{job}: {stage:?}");
            let rows = &step.table.as_ref().unwrap().rows;
            assert_eq!(rows.len(), sources.len(), "{job}: {stage:?}");
        }
    }
}

#[test]
fn work_inside_a_guard_lies_between_proof_of_zero_and_release() {
    for (job, packet) in packets() {
        let verified = places(&packet, (Stage::Verify, false))[0];
        let inspected = places(&packet, (Stage::Inspect, false))[0];
        let inside: Vec<usize> = packet
            .steps
            .iter()
            .enumerate()
            .filter(|(_, step)| step.zone.is_some() && step.stays.is_none())
            .map(|(at, _)| at)
            .collect();
        assert!(!inside.is_empty(), "{job} has work inside a guard");
        assert!(
            inside.iter().all(|at| (verified..inspected).contains(at)),
            "{job}: (d)(6), (e)(1)"
        );
    }
}

/// Nothing is locked where nothing has to be: then nobody reaches behind a guard either.
#[test]
fn a_machine_without_energy_has_no_lockout_and_no_zone() {
    let mut all = packets_of(&root().join("demo-data"));
    all.retain(|_, packet| packet.energy.is_empty());
    assert!(!all.is_empty());
    for (job, packet) in all {
        assert_eq!(packet.zones, [], "{job}");
        for step in &packet.steps {
            let is_work = step.stage == Stage::Work && step.needs == EnergyState::Any;
            assert!(is_work && step.zone.is_none(), "{job}: {}", step.title);
        }
    }
}

/// Drops each step of the lockout and the release in turn, and swaps each with its neighbour.
#[test]
fn a_packet_without_one_of_the_stages_is_refused() {
    let mut refused = 0;
    for (job, packet) in packets() {
        assert_eq!(protect::walk(&packet.steps, machine(&packet)), []);
        for (at, step) in packet.steps.iter().enumerate() {
            // An arriving crew proves again what is proved already.
            let again = step.procedure == SHIFT_CHANGE;
            if again || matches!(step.stage, Stage::Work | Stage::Restart) {
                continue;
            }
            let mut steps = packet.steps.clone();
            steps.remove(at);
            let found = protect::walk(&steps, machine(&packet));
            assert_ne!(found, [], "{job} without `{}`", step.title);
            refused += 1;
        }
    }
    assert!(refused >= 11 * 7, "{refused} mutants");
}

/// The page a shift lead prints shows the steps in the order of the packet, in two kinds of place:
/// the sequence itself and each hazard message before the step it protects.
#[test]
fn published_packets_show_the_steps_in_this_order() {
    let plant = Plant::demo();
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    let files = files_of(&plant.beside("site"));
    for (job, packet) in packets_of(&plant.folder()) {
        let html = String::from_utf8(files[&format!("packets/{job}.html")].clone()).unwrap();
        let steps = &html[html.find("id=\"steps\"").unwrap()..];
        let mut at = 0;
        for step in &packet.steps {
            let heading = format!("</b> {}", step.title);
            let found = steps[at..].find(&heading);
            at += found.unwrap_or_else(|| panic!("{job}: `{}` is not in its place", step.title));
        }
    }
}
