//! Files of a plant that nobody would write: lines, tokens, nesting, anchors, encodings. Loading and
//! judging them never panics and never hangs, and memory stays in proportion to what was written.

use std::time::{Duration, Instant};

use witnessmark::finding::{Findings, show};
use witnessmark::language::Language;
use witnessmark::packet;
use witnessmark::plant::load;

use crate::dice::Dice;
use crate::plant::{Plant, files_of, root};

/// How many plants are tried.
const PLANTS: usize = 300;

/// Most bytes in use at once: so many for each byte that was written more than the plant had, and
/// as much again as the plant without a fault uses.
const BYTES_A_BYTE: u64 = 400;
/// Most allocations: a loop that does not end would have more, on the slowest machine too.
const ALLOCATIONS_A_BYTE: u64 = 40;
/// Nobody waits longer, not even in a build without optimising on a machine that is busy.
const LONGEST: Duration = Duration::from_secs(60);

/// Values that mean something to a reader of YAML, or that no reader expects.
const VALUES: [&str; 30] = [
    "",
    "~",
    "null",
    "true",
    "-0",
    ".nan",
    "-.inf",
    "0x7fffffffffffffffffffff",
    "1e999999999",
    "1_000",
    "2026-13-45",
    "&a x",
    "*a",
    "*",
    "&",
    "!!binary aGVsbG8=",
    "!t { a: 1 }",
    "!!set { a, b }",
    "{ <<: *a, b: 1 }",
    "[",
    "}",
    "\"\\u202e\\0\"",
    "'it''s'",
    "|",
    ">-",
    "? a",
    "{{ strip }}",
    "{% if a %}",
    "%YAML 9.9",
    "- - - a",
];

/// A text of a plant, changed.
fn change(dice: &mut Dice, text: &str) -> Vec<u8> {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    for _ in 0..dice.between(1, 3) {
        change_lines(dice, &mut lines);
    }
    let text = lines.join("\n") + "\n";
    encoded(dice, text)
}

fn change_lines(dice: &mut Dice, lines: &mut Vec<String>) {
    if lines.is_empty() {
        lines.push("a: 1".to_owned());
    }
    let at = dice.below(lines.len());
    let end = (at + dice.below(8)).min(lines.len());
    match dice.below(12) {
        0 => drop(lines.drain(at..end)),
        1 => {
            let block = lines[at..end].to_vec();
            for _ in 0..dice.below(40) {
                lines.splice(end..end, block.iter().cloned());
            }
        }
        2 => lines.truncate(at),
        3 => lines[at].insert_str(0, dice.pick(&["  ", "\t", "- ", "\u{feff}", "#", " "])),
        4 => lines[at] = lines[at].trim_start().to_owned(),
        5 => {
            let other = dice.below(lines.len());
            lines.swap(at, other);
        }
        6 => set_value(&mut lines[at], dice.pick(&VALUES)),
        7 => set_value(&mut lines[at], &nested(dice)),
        8 => set_value(&mut lines[at], &long(dice)),
        9 => {
            lines.insert(0, "base: &a { a: &b [1, 2], c: *b }".to_owned());
            lines.insert(at + 1, "<<: *a".to_owned());
        }
        10 => lines.insert(at, "---".to_owned()),
        _ => lines.insert(at, grown(dice)),
    }
}

/// Puts a value where one stands; where none does, into the line.
fn set_value(line: &mut String, value: &str) {
    match line.find(": ") {
        Some(colon) => line.replace_range(colon + 2.., value),
        None => line.push_str(value),
    }
}

/// Brackets inside each other, fewer or more than are allowed.
fn nested(dice: &mut Dice) -> String {
    let depth = dice.pick(&[3, 60, 499, 501, 3_000]);
    let (open, close) = dice.pick(&[("[", "]"), ("{ a: ", "}"), ("[ { a: ", "} ]")]);
    let closed = if dice.one_in(4) { 0 } else { depth };
    format!("{}1{}", open.repeat(depth), close.repeat(closed))
}

/// A long line: digits, letters, signs, or what is read from right to left.
fn long(dice: &mut Dice) -> String {
    let piece = dice.pick(&["9", "x", "é", "\u{202e}a", "{{ a }}", "a, ", "*a ", "- ", "\u{0}"]);
    piece.repeat(dice.pick(&[300, 5_000, 60_000]))
}

/// A few lines in which each alias stands for ten of the line before.
fn grown(dice: &mut Dice) -> String {
    let rows = dice.between(2, 9);
    let mut text = "z0: &z0 [x, x, x, x, x, x, x, x, x, x]\n".to_owned();
    for row in 1..rows {
        let list = vec![format!("*z{}", row - 1); 10].join(", ");
        text += &format!("z{row}: &z{row} [{list}]\n");
    }
    text
}

/// The bytes of a text, most often as they are.
fn encoded(dice: &mut Dice, text: String) -> Vec<u8> {
    match dice.below(12) {
        0 => text.replace('\n', "\r\n").into_bytes(),
        1 => text.replace('\n', "\r").into_bytes(),
        2 => format!("\u{feff}{text}").into_bytes(),
        3 => text.encode_utf16().flat_map(u16::to_le_bytes).collect(),
        4 => {
            let mut bytes = text.into_bytes();
            let at = dice.below(bytes.len());
            bytes[at] ^= 1 << dice.below(8);
            bytes
        }
        5 => {
            let mut bytes = text.into_bytes();
            bytes.truncate(dice.below(bytes.len()));
            bytes
        }
        _ => text.into_bytes(),
    }
}

/// Loads a plant, makes its packets and shows what was found; how many findings that are.
fn judge(plant: &Plant) -> usize {
    let Ok(reading) = load::load(&plant.folder()) else { return 0 };
    let mut findings: Findings = reading.findings.clone();
    if let Some(whole) = &reading.plant {
        let prepared = packet::prepare(&mut findings, whole);
        for job in whole.jobs.keys() {
            packet::assemble(&mut findings, &prepared, job);
        }
    }
    let located = show::located(&findings, &reading.texts, Language::English);
    for one in &located {
        let lines = reading.texts.get(one.file).map_or(0, |text| text.lines().count() + 1);
        assert!(one.line <= lines && !one.message.is_empty() && !one.way_out.is_empty(), "{one:?}");
    }
    assert!(show::text(&findings, &reading.texts, Language::German).len() >= located.len());
    located.len()
}

/// The same, held to what it may use; `more` is how many bytes the plant has more than it had.
fn tame(
    plant: &Plant,
    more: usize,
    clean: &allocation_counter::AllocationInfo,
    what: &str,
) -> usize {
    let mut found = None;
    let begin = Instant::now();
    let used = allocation_counter::measure(|| {
        found = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| judge(plant))).ok();
    });
    let Some(found) = found else { panic!("it panics: {what}") };
    let more = more as u64;
    let most = 2 * clean.bytes_max + BYTES_A_BYTE * more;
    assert!(used.bytes_max <= most, "{} bytes, {most} are allowed: {what}", used.bytes_max);
    let most = 4 * clean.count_total + ALLOCATIONS_A_BYTE * more;
    assert!(used.count_total <= most, "{} allocations, not {most}: {what}", used.count_total);
    assert!(begin.elapsed() < LONGEST, "{:?}: {what}", begin.elapsed());
    found
}

/// A small plant with procedures of its own.
fn small() -> Plant {
    let plant = Plant::small();
    for procedure in ["prepare", "knives", "first-piece"] {
        let name = format!("instructions/{procedure}.md");
        plant.write(&name, std::fs::read(root().join(&name)).unwrap());
    }
    plant
}

#[test]
fn plants_that_nobody_would_write_are_tame() {
    let plant = small();
    let files: Vec<(String, String)> = files_of(&plant.folder())
        .into_iter()
        .filter_map(|(name, bytes)| Some((name, String::from_utf8(bytes).ok()?)))
        .collect();
    judge(&plant);
    let clean = allocation_counter::measure(|| assert_eq!(judge(&plant), 0));
    let mut dice = Dice::new(5);
    let mut faulty = 0;
    for number in 0..PLANTS {
        let (name, text) = &files[dice.below(files.len())];
        let bytes = change(&mut dice, text);
        let more = bytes.len().saturating_sub(text.len());
        plant.write(name, &bytes);
        let what = format!("plant {number}, {name}: {:?}", String::from_utf8_lossy(&bytes));
        let what: String = what.chars().take(20_000).collect();
        faulty += usize::from(tame(&plant, more, &clean, &what) > 0);
        plant.write(name, text);
    }
    assert!((PLANTS / 2..PLANTS).contains(&faulty), "{faulty} of {PLANTS} have findings");
}

#[test]
fn what_repeats_itself_too_often_is_refused_at_its_first_alias() {
    let head = "id: third\n";
    let forms = [
        "a: &a [x, x, x, x, x, x, x, x, x, x]\nb: &b [*a, *a, *a, *a, *a, *a]\nc: [*b, *b, *b, *b, *b]\n",
        "a: &a { x: 1, y: 2, z: 3, u: 4, v: 5, w: 6 }\nb: [*a, *a, *a, *a, *a, *a, *a, *a, *a, *a, *a, *a]\n",
        "? &k [1, 2, 3, 4, 5, 6, 7, 8, 9, 1, 2, 3, 4, 5, 6, 7, 8]\n: [*k, *k, *k, *k, *k, *k, *k, *k]\n",
    ];
    for form in forms {
        let plant = Plant::small();
        plant.write("recipes/third.yaml", format!("{head}{form}"));
        let run = plant.run(&["check", "PLANT", "--json"]).ends(1).json();
        let found = &run[0];
        assert_eq!((&found["rule"], run.as_array().unwrap().len()), (&"not-yaml".into(), 1));
        let line = usize::try_from(found["line"].as_u64().unwrap()).unwrap();
        let shown = plant.read("recipes/third.yaml");
        assert!(shown.lines().nth(line - 1).unwrap().contains('*'), "{run}");
    }
}

#[test]
fn two_thousand_findings_are_shown_in_time_that_grows_with_them() {
    let plant = Plant::small();
    let recipe = plant.read("recipes/large-pouch.yaml");
    let faults: String = (0..10).map(|n| format!("k{n}: 1\n")).collect();
    let shown = |files: usize| {
        for n in 0..files {
            let text = recipe.replace("id: large-pouch", &format!("id: r{n}")) + &faults;
            plant.write(&format!("recipes/r{n}.yaml"), text);
        }
        let reading = load::load(&plant.folder()).unwrap();
        assert_eq!(reading.findings.iter().count(), 10 * files);
        let mut text = String::new();
        let used = allocation_counter::measure(|| {
            text = show::text(&reading.findings, &reading.texts, Language::English);
        });
        assert_eq!(text.matches("error[unknown-key]").count(), 10 * files);
        used.count_total
    };
    let (some, all) = (shown(50), shown(200));
    assert!(all < 5 * some, "{some} allocations for 500 findings, {all} for 2000");
    let run = plant.run(&["check", "PLANT"]).ends(1);
    run.says("recipes/r7.yaml: 10 errors, 0 warnings\n").says("\n2000 errors, 0 warnings\n");
}
