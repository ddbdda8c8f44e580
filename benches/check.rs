//! Reading and judging a whole plant, and doing it again after an edit.
//!
//! A plant is written that is twice as large as another: `whole` reads and judges each of them, as
//! `check` does. `again/...` does the larger one again with what is kept from the run before, after
//! one edited recipe, procedure or job. The yardstick is the whole run in the same process. Run with
//! `cargo bench --bench check`; without `--bench` it runs small, as a test of how much work there is,
//! never of times. A number is how many machines the plant has.
#![allow(clippy::print_stdout, reason = "a bench prints what it measured")]
#![allow(clippy::unwrap_used, reason = "a bench may stop")]
#![allow(clippy::disallowed_methods, reason = "a bench writes files")]

use std::path::Path;
use std::time::{Duration, Instant};

use witnessmark::finding::Findings;
use witnessmark::packet;
use witnessmark::plant::load;

/// Recipes and jobs of a machine.
const RECIPES: usize = 10;
const JOBS: usize = 25;
/// Machines that share a procedure of their own.
const SHARE: usize = 10;

/// Twice the plant may take so many percent of the time.
const MOST_PERCENT: u128 = 260;
/// A run after an edit may take so many thousandths of a whole run, beside the share of the packets
/// that it makes anew.
const MOST_AGAIN: u128 = 200;

fn main() {
    let full = std::env::args().any(|argument| argument == "--bench");
    let wanted = std::env::args().find_map(|argument| argument.parse::<usize>().ok());
    let (machines, rounds) = if full { (wanted.unwrap_or(200), 3) } else { (4, 1) };
    let scratch = tempfile::tempdir().unwrap();
    let [half, all] = [machines / 2, machines].map(|machines| {
        let folder = scratch.path().join(machines.to_string());
        write(&folder, machines);
        (folder, machines)
    });
    if full {
        // Times of files count only when they are some seconds old.
        std::thread::sleep(Duration::from_secs(4));
    }
    let times = [&half, &all].map(|(folder, machines)| {
        let times = (0..rounds).map(|_| timed(|| run(folder, &mut Memory::default(), *machines)));
        times.min().unwrap()
    });
    println!(
        "{} machines, {} recipes, {} jobs; best of {rounds}",
        all.1,
        all.1 * RECIPES,
        all.1 * JOBS
    );
    for (name, time) in [("whole/half", times[0]), ("whole/all", times[1])] {
        println!("{name:<20} {:>9} µs", time.as_micros());
    }
    let percent = times[1].as_nanos() * 100 / times[0].as_nanos();
    println!("twice the plant      {percent:>9} % of the time");
    assert!(!full || percent <= MOST_PERCENT, "time grows faster than the plant: {percent} %");
    again(&all.0, all.1, full, times[1]);
}

/// Runs with what was kept, after one edit each.
fn again(folder: &Path, machines: usize, full: bool, whole: Duration) {
    let mut memory = Memory::default();
    run(folder, &mut memory, machines);
    let share = SHARE.min(machines) * JOBS;
    for (name, file, most) in [
        ("again/nothing", "", 0),
        // Each recipe is left and wanted a few times.
        ("again/recipe", "recipes/r-0-3.yaml", JOBS / RECIPES * 2 + 2),
        ("again/job", "jobs/J-0-3.yaml", 2),
        ("again/procedure", "instructions/first-piece-0.md", share),
    ] {
        if !file.is_empty() {
            let path = folder.join(file);
            let text = std::fs::read_to_string(&path).unwrap();
            std::fs::write(&path, text + "\n").unwrap();
        }
        let time = timed(|| run(folder, &mut memory, machines));
        let packet::Work { computed, assembled } = memory.packets.work;
        let load::Work { read, parsed } = memory.files.work;
        let thousandth = time.as_nanos() * 1000 / whole.as_nanos();
        println!(
            "{name:<20} {:>9} µs  {:>3}.{} % of a whole run; {read} read, {parsed} taken apart, {computed} \
             worked out, {assembled} packets",
            time.as_micros(),
            thousandth / 10,
            thousandth % 10
        );
        assert_eq!(
            (parsed, computed),
            (usize::from(!file.is_empty()), usize::from(file.contains("r-")))
        );
        assert!(assembled <= most && (assembled > 0) == (most > 0), "{name}: {assembled} packets");
        let share = (assembled * 1000 / (machines * JOBS)) as u128;
        let is_quick = thousandth <= MOST_AGAIN + share;
        assert!(!full || is_quick, "{name} takes {thousandth} thousandths for {share}");
    }
}

#[derive(Default)]
struct Memory {
    files: load::Memory,
    packets: packet::Memory,
}

/// Reads and judges a plant in which nothing is wrong.
fn run(folder: &Path, memory: &mut Memory, machines: usize) {
    let load::Reading { plant, mut findings, .. } =
        load::load_again(folder, &mut memory.files).unwrap();
    let plant = plant.unwrap();
    let prepared = packet::prepare_again(&mut findings, &plant, &mut memory.packets);
    let packets = packet::packets(&mut findings, &prepared, &mut memory.packets);
    assert_eq!(findings, Findings::default());
    assert_eq!(packets.len(), machines * JOBS);
}

fn timed(run: impl FnOnce()) -> Duration {
    let start = Instant::now();
    run();
    start.elapsed()
}

/// Writes a plant of so many machines, after the small one of the tests.
fn write(folder: &Path, machines: usize) {
    let small = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/it/small-plant");
    let read = |file: &str| std::fs::read_to_string(small.join(file)).unwrap();
    for name in ["machines", "recipes", "jobs", "instructions"] {
        std::fs::create_dir_all(folder.join(name)).unwrap();
    }
    let put = |file: String, text: String| std::fs::write(folder.join(file), text).unwrap();
    for file in ["plant.yaml", "people.yaml", "allowed_signers"] {
        put(file.to_owned(), read(file));
    }
    for entry in std::fs::read_dir(small.join("instructions")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        put(format!("instructions/{name}"), read(&format!("instructions/{name}")));
    }
    let [machine, recipe, job] =
        ["machines/line-1.yaml", "recipes/large-pouch.yaml", "jobs/J-1.yaml"].map(read);
    let procedure = read("instructions/first-piece.md");
    for share in 0..machines.div_ceil(SHARE) {
        let own = procedure.replacen("id: first-piece", &format!("id: first-piece-{share}"), 1);
        put(format!("instructions/first-piece-{share}.md"), own);
    }
    for m in 0..machines {
        let own = machine.replacen("id: line-1", &format!("id: line-{m}"), 1);
        let own = own.replacen("first-piece", &format!("first-piece-{}", m / SHARE), 1);
        put(format!("machines/line-{m}.yaml"), own);
        for r in 0..RECIPES {
            let own = recipe.replacen("id: large-pouch", &format!("id: r-{m}-{r}"), 1);
            let own = own.replacen("[line-1]", &format!("[line-{m}]"), 1);
            let own = own.replacen("flat_width: 40 mm", &format!("flat_width: {} mm", 30 + r), 1);
            put(format!("recipes/r-{m}-{r}.yaml"), own);
        }
        for j in 0..JOBS {
            let own = job.replacen("id: J-1", &format!("id: J-{m}-{j}"), 1);
            let own = own.replacen("machine: line-1", &format!("machine: line-{m}"), 1);
            let own = own.replacen("small-pouch", &format!("r-{m}-{}", j % RECIPES), 1);
            let own = own.replacen("large-pouch", &format!("r-{m}-{}", (j + 1) % RECIPES), 1);
            let own = own.replacen("2026-01-12", &format!("2026-02-{:02}", j + 1), 1);
            put(format!("jobs/J-{m}-{j}.yaml"), own);
        }
    }
}
