//! The handbook: every example in it is run, every link leads somewhere.
//!
//! The examples of a chapter belong together: they are run in one scratch folder, in their order. A
//! `console` block is a session: commands after `$ `, and what they answer; `…` stands for what
//! differs from run to run, and alone on a line for any number of lines. A `yaml` or `markdown` block
//! names its file, and is put into it: keys are laid over those that are there, text takes the place
//! of the file. The plant must check clean with it, unless a session follows that checks it; examples
//! with nothing between them are put in together. A plant that is not there yet is made by `start`;
//! `demo-data` is a copy of the demo.
//!
//! `SNAPSHOTS=overwrite` writes what sessions answer into the chapters.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_yaml::Value;

use crate::plant::{Plant, copy_folder, files_of, root};

/// What stands between two fences.
struct Example<'t> {
    info: &'t str,
    text: &'t str,
    /// Whether nothing stands between it and the example before.
    goes_on: bool,
}

impl Example<'_> {
    /// Whether it is a session that begins by checking a plant.
    fn checks(&self) -> bool {
        self.info == "console" && self.text.starts_with("$ witnessmark check")
    }
}

/// The examples of a chapter.
fn examples(chapter: &str) -> Vec<Example<'_>> {
    let mut found = Vec::new();
    let mut rest = chapter;
    while let Some((before, after)) = rest.split_once("\n```") {
        let ticks = after.len() - after.trim_start_matches('`').len();
        let fence = format!("\n{}", "`".repeat(3 + ticks));
        let (info, body) = after[ticks..].split_once('\n').unwrap();
        // An empty example ends where it begins.
        let end = format!("\n{body}").find(&fence).expect("a fence that is closed");
        let text = body.get(..end).unwrap_or_default();
        found.push(Example { info, text, goes_on: before.trim().is_empty() });
        rest = &body[end.saturating_sub(1)..][fence.len()..];
    }
    found
}

/// A session: each command, and what it must answer.
fn commands(session: &str) -> Vec<(String, String)> {
    let mut found: Vec<(String, String)> = Vec::new();
    let mut goes_on = false;
    for line in session.lines() {
        let typed = line.strip_prefix("$ ");
        match (typed, found.last_mut()) {
            (None, Some((command, _))) if goes_on => *command += &format!("\n{line}"),
            (None, Some((_, answer))) => *answer += &format!("{line}\n"),
            (None, None) => panic!("a session begins with `$ `: {line}"),
            (Some(typed), _) => found.push((typed.to_owned(), String::new())),
        }
        goes_on = (typed.is_some() || goes_on) && line.ends_with('\\');
    }
    found
}

/// Whether an answer is what stands in the chapter.
fn answers(expected: &str, actual: &str) -> bool {
    let (expected, actual): (Vec<&str>, Vec<&str>) =
        (expected.lines().collect(), actual.lines().collect());
    lines_fit(&expected, &actual)
}

/// A new answer, with what the old one left open.
fn open(expected: &str, actual: &str) -> String {
    let left: Vec<&str> =
        expected.lines().filter(|line| line.contains('…') && *line != "…").collect();
    let lines = actual.lines().map(|line| {
        let kept = left.iter().find(|open| line_fits(open, line)).unwrap_or(&line);
        format!("{kept}\n")
    });
    lines.collect()
}

fn lines_fit(expected: &[&str], actual: &[&str]) -> bool {
    match (expected, actual) {
        (["…", rest @ ..], _) => (0..=actual.len()).any(|skip| lines_fit(rest, &actual[skip..])),
        ([first, rest @ ..], [line, others @ ..]) => {
            line_fits(first, line) && lines_fit(rest, others)
        }
        (expected, actual) => expected.is_empty() && actual.is_empty(),
    }
}

fn line_fits(expected: &str, line: &str) -> bool {
    match expected.split_once('…') {
        None => expected == line,
        Some((before, after)) => line.strip_prefix(before).is_some_and(|rest| {
            (0..=rest.len())
                .filter(|at| rest.is_char_boundary(*at))
                .any(|at| line_fits(after, &rest[at..]))
        }),
    }
}

#[test]
fn what_differs_from_run_to_run_is_left_open() {
    for (expected, actual, fits) in [
        ("a\n", "a\n", true),
        ("a\n", "b\n", false),
        ("a … c\n", "a b c\n", true),
        ("a … d\n", "a b c\n", false),
        ("…\nz\n", "a\nb\nz\n", true),
        ("…\nz\n", "a\nb\n", false),
        ("a\n", "a\nb\n", false),
    ] {
        assert_eq!(answers(expected, actual), fits, "{expected} {actual}");
    }
}

/// The scratch folder of a chapter.
struct Desk {
    scratch: Plant,
    chapter: String,
}

impl Desk {
    /// The folder of a plant, made when it is not there.
    fn plant(&self, name: &str) -> PathBuf {
        let folder = self.scratch.beside(name);
        if !folder.exists() {
            match name {
                "demo-data" => copy_folder(&root().join("demo-data"), &folder),
                _ => drop(self.scratch.run(&["start", name]).ends(0)),
            }
        }
        folder
    }

    /// Puts an example into the file that it names.
    fn put(&self, example: &Example) -> String {
        let (kind, file) = example.info.split_once(' ').unwrap_or_else(|| {
            panic!("{}: an example of `{}` that nobody runs", self.chapter, example.info)
        });
        let (plant, file) = file.split_once('/').expect("plant/file");
        let path = self.plant(plant).join(file);
        let text = match kind {
            "yaml" => laid_over(&path, example.text),
            "markdown" => example.text.to_owned(),
            _ => panic!("{}: an example of `{kind}` that nobody runs", self.chapter),
        };
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
        plant.to_owned()
    }

    fn checks_clean(&self, plant: &str, example: &Example) {
        let run = self.scratch.run(&["check", plant]);
        let said = format!("{}: {}\n{}{}", self.chapter, example.info, run.stdout, run.stderr);
        assert!(run.code == 0 && run.stdout.contains("nothing found"), "{said}");
    }

    /// Runs a session, and gives it back as it went.
    fn session(&self, example: &Example) -> String {
        let lines = commands(example.text).into_iter().map(|(command, expected)| {
            if let Some(name) = command.split([' ', '/']).find(|word| *word == "demo-data") {
                self.plant(name);
            }
            let actual = self.answer(&command);
            let shown =
                if answers(&expected, &actual) { expected } else { open(&expected, &actual) };
            format!("$ {command}\n{shown}")
        });
        lines.collect()
    }

    fn answer(&self, command: &str) -> String {
        let program = Path::new(env!("CARGO_BIN_EXE_witnessmark")).parent().unwrap().to_owned();
        let others = std::env::var_os("PATH").unwrap();
        let folders = std::iter::once(program).chain(std::env::split_paths(&others));
        let output = Command::new("bash")
            .args(["-c", &format!("exec 2>&1\n{command}")])
            .current_dir(self.scratch.beside(""))
            .env("PATH", std::env::join_paths(folders).unwrap())
            .env("LC_ALL", "C")
            .stdin(Stdio::null())
            .output()
            .unwrap();
        String::from_utf8(output.stdout).unwrap()
    }
}

/// The keys of a text laid over those of a file; a key that is nothing is taken away.
fn laid_over(path: &Path, text: &str) -> String {
    let Ok(there) = std::fs::read_to_string(path) else { return text.to_owned() };
    let mut whole: Value = serde_yaml::from_str(&there).unwrap();
    lay(&mut whole, serde_yaml::from_str(text).unwrap());
    serde_yaml::to_string(&whole).unwrap()
}

fn lay(under: &mut Value, over: Value) {
    match (under, over) {
        (Value::Mapping(under), Value::Mapping(over)) => {
            for (key, value) in over {
                match value {
                    Value::Null => drop(under.remove(&key)),
                    value => lay(under.entry(key).or_insert(Value::Null), value),
                }
            }
        }
        (under, over) => *under = over,
    }
}

/// Runs a chapter; its text as it went.
fn run(name: &str, text: &str) -> String {
    let desk = Desk { scratch: Plant::small(), chapter: name.to_owned() };
    let examples = examples(text);
    let mut went = text.to_owned();
    for (index, example) in examples.iter().enumerate() {
        if example.info == "console" {
            let fenced = |text: &str| format!("\n```console\n{text}```");
            went = went.replacen(&fenced(example.text), &fenced(&desk.session(example)), 1);
            continue;
        }
        let plant = desk.put(example);
        let waits = |next: &Example| next.checks() || (next.goes_on && next.info != "console");
        if !examples.get(index + 1).is_some_and(waits) {
            desk.checks_clean(&plant, example);
        }
    }
    went
}

/// Chapters by name.
fn chapters() -> BTreeMap<String, (PathBuf, String)> {
    let files = std::fs::read_dir(root().join("site/handbook")).unwrap();
    let paths = files.map(|entry| entry.unwrap().path());
    let chapters = paths.filter(|path| path.extension().is_some_and(|end| end == "md"));
    let named = chapters.map(|path| {
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        let text = std::fs::read_to_string(&path).unwrap();
        (name, (path, text))
    });
    named.collect()
}

#[test]
fn every_example_is_run() {
    let only = std::env::var("CHAPTER").ok();
    let chapters = chapters();
    let chosen = chapters.iter().filter(|(name, _)| only.as_ref().is_none_or(|only| only == *name));
    let wrong: Vec<String> = std::thread::scope(|scope| {
        let runs: Vec<_> = chosen
            .map(|(name, (path, text))| (path, text, scope.spawn(move || run(name, text))))
            .collect();
        let wrong = runs.into_iter().filter_map(|(path, text, run)| {
            let went = run.join().expect("the chapter's own complaint stands above");
            (went != *text).then_some((path, went))
        });
        wrong.map(|(path, went)| differs(path, &went)).collect()
    });
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Writes the chapter anew when asked to; else says what is not as it was.
fn differs(path: &Path, went: &str) -> String {
    if std::env::var("SNAPSHOTS").is_ok_and(|word| word == "overwrite") {
        std::fs::write(path, went).unwrap();
    }
    let old = std::fs::read_to_string(path).unwrap();
    let old: BTreeSet<&str> = old.lines().collect();
    let fresh = went.lines().filter(|line| !old.contains(line)).collect::<Vec<_>>();
    format!("{}: SNAPSHOTS=overwrite writes\n{}", path.display(), fresh.join("\n"))
}

/// The values of an attribute on a page.
fn values<'p>(page: &'p str, attribute: &str) -> Vec<&'p str> {
    let opening = format!(" {attribute}=\"");
    let pieces = page.split(&*opening).skip(1);
    pieces.map(|piece| piece.split_once('"').unwrap().0).collect()
}

#[test]
fn every_link_of_the_handbook_leads_to_a_place_and_every_page_is_reached() {
    let plant = Plant::small();
    plant.run(&["handbook", "--out", "book"]).ends(0).says("book/index.html");
    let files = files_of(&plant.beside("book"));
    let pages = files.iter().filter(|(name, _)| name.ends_with(".html"));
    let pages: BTreeMap<&str, &str> =
        pages.map(|(name, bytes)| (name.as_str(), std::str::from_utf8(bytes).unwrap())).collect();
    let mut reached = BTreeSet::from(["index.html".to_owned()]);
    for (name, page) in &pages {
        for link in values(page, "href").into_iter().filter(|link| !link.starts_with("http")) {
            let (target, place) = link.split_once('#').unwrap_or((link, ""));
            let target = match (target, name.split_once('/')) {
                ("", _) => (*name).to_owned(),
                (target, None) => target.to_owned(),
                (target, Some((folder, _))) => match target.strip_prefix("../") {
                    Some(above) => above.to_owned(),
                    None => format!("{folder}/{target}"),
                },
            };
            assert!(files.contains_key(&target), "{name}: {link}");
            let there = pages.get(target.as_str()).map(|page| values(page, "id"));
            assert!(place.is_empty() || there.unwrap().contains(&place), "{name}: {link}");
            reached.insert(target);
        }
    }
    let lost: Vec<_> = pages.keys().filter(|name| !reached.contains(**name)).collect();
    assert!(lost.is_empty(), "{lost:?}");
}

#[test]
fn a_finding_that_is_shown_has_its_page() {
    let plant = Plant::small();
    plant.run(&["handbook", "--out", "book"]).ends(0);
    let pages = files_of(&plant.beside("book/findings"));
    assert!(pages.len() > 200, "{}", pages.len());
    for name in files_of(&root().join("site/handbook/findings")).keys() {
        let Some(rule) = name.strip_suffix(".txt") else { continue };
        assert!(pages.contains_key(&format!("{rule}.html")), "{rule} has no page");
    }
    plant.edit("jobs/J-1.yaml", "machine:", "machin:");
    for finding in plant.run(&["check", "PLANT", "--json"]).ends(1).json().as_array().unwrap() {
        let rule = finding["rule"].as_str().unwrap();
        assert!(pages.contains_key(&format!("{rule}.html")), "{rule}");
    }
}

#[test]
fn a_site_leads_to_the_handbook_when_it_has_one() {
    let plant = Plant::small();
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    assert!(!plant.beside("site/handbook").exists());
    let foot = |page: &str| std::fs::read_to_string(plant.beside(page)).unwrap();
    assert!(!foot("site/index.html").contains("handbook/"));
    plant.run(&["publish", "PLANT", "--out", "site", "--handbook"]).ends(0);
    assert!(foot("site/jobs/index.html").contains("href=\"../handbook/index.html\""));
    assert!(foot("site/handbook/findings/index.html").contains("href=\"../../index.html\""));
    // A site is no handbook, and a handbook no site: neither takes the other's place.
    plant.run(&["handbook", "--out", "site"]).ends(2).complains("handbook.json");
    plant.run(&["handbook", "--out", "book"]).ends(0);
    plant.run(&["handbook", "--out", "book"]).ends(0);
    plant.run(&["publish", "PLANT", "--out", "book"]).ends(2);
}

#[test]
fn every_command_has_its_help_in_the_handbook() {
    let plant = Plant::small();
    plant.run(&["handbook", "--out", "book"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("book/commands.html")).unwrap();
    for command in crate::commands::COMMANDS {
        assert!(page.contains(&format!("<h2 id=\"{command}\">")), "{command}");
    }
}
