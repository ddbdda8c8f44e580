//! How findings are shown: where the caret stands, and each rule as `check` prints it.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::LazyLock;

use super::{Row, broken, rows};
use crate::plant::root;

/// A finding as `check` prints it.
pub struct Shown {
    pub rule: String,
    pub file: String,
    /// 0 for a file as a whole.
    pub line: u64,
    /// The block that is printed.
    printed: String,
}

/// What `check` prints of every broken plant, row by row.
pub static ALL: LazyLock<Vec<Vec<Shown>>> = LazyLock::new(|| {
    let rows: Vec<&Row> = rows().collect();
    let half = rows.len().div_ceil(2);
    std::thread::scope(|scope| {
        let halves = rows.chunks(half);
        let runs: Vec<_> = halves
            .map(|half| scope.spawn(|| half.iter().map(|row| check(row)).collect::<Vec<_>>()))
            .collect();
        runs.into_iter().flat_map(|run| run.join().unwrap()).collect()
    })
});

fn check(row: &Row) -> Vec<Shown> {
    let run = broken(&row.fault).run(&["check", "PLANT"]).ends(i32::from(!row.found.is_empty()));
    let blocks = run.stdout.split("\n\n");
    blocks.filter(|block| block.starts_with(['e', 'w'])).map(shown).collect()
}

fn shown(block: &str) -> Shown {
    let rule = block.split(['[', ']']).nth(1).unwrap().to_owned();
    let place = block.lines().find_map(|line| line.trim_start().strip_prefix("--> ")).unwrap();
    let mut place = place.splitn(3, ':');
    let file = place.next().unwrap().to_owned();
    let line = place.next().map_or(0, |line| line.parse().unwrap());
    Shown { rule, file, line, printed: format!("{block}\n") }
}

impl Shown {
    /// The line that is shown and what the caret stands under; none for a file as a whole.
    fn under(&self) -> Option<(&str, String)> {
        let lines: Vec<&str> = self.printed.lines().collect();
        let is_caret = |line: &&str| line.trim_start().starts_with("| ") && line.contains('^');
        let caret = lines.iter().position(is_caret)?;
        let column = |line: &str, sign: char| line.chars().position(|c| c == sign).unwrap();
        let start = column(lines[caret], '^');
        let length = lines[caret].matches('^').count();
        let line = lines[caret - 1];
        let under = line.chars().skip(start).take(length).collect();
        Some((line.split_once("| ").unwrap().1.trim(), under))
    }
}

/// Rules whose caret stands under a whole line, and why.
const WHOLE_LINES: [(&str, &str); 1] =
    [("no-front-matter", "what is missing is the line that belongs before it")];

#[test]
fn a_caret_stands_under_words_and_not_under_a_line() {
    let all = || ALL.iter().flatten();
    let is_whole =
        |one: &&Shown| one.under().is_some_and(|(line, under)| line == under && line.contains(" "));
    let is_excused = |one: &&Shown| WHOLE_LINES.iter().any(|(rule, _)| *rule == one.rule);
    let wrong: Vec<&str> = all()
        .filter(is_whole)
        .filter(|one| !is_excused(one))
        .map(|one| one.printed.as_str())
        .collect();
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
    for (rule, why) in WHOLE_LINES {
        let needed = all().filter(is_whole).any(|one| one.rule == rule);
        assert!(needed && !why.is_empty(), "{rule} needs no excuse");
    }
    let pointed = all().filter(|one| one.under().is_some()).count();
    assert!(pointed * 10 > all().count() * 9, "{pointed}");
}

fn folder() -> PathBuf {
    root().join("site/handbook/findings")
}

/// Each rule once, as it is printed: where nothing else is wrong, or else the first time.
fn printed() -> BTreeMap<String, &'static str> {
    let alone = ALL.iter().filter(|found| found.len() == 1);
    let each = alone.chain(ALL.iter()).flatten();
    let mut printed = BTreeMap::new();
    for one in each {
        printed.entry(format!("{}.txt", one.rule)).or_insert(one.printed.as_str());
    }
    printed
}

#[test]
fn every_rule_is_printed_as_its_file_shows() {
    let printed = printed();
    if std::env::var("SNAPSHOTS").is_ok_and(|word| word == "overwrite") {
        let _ = std::fs::remove_dir_all(folder());
        std::fs::create_dir_all(folder()).unwrap();
        for (name, text) in &printed {
            std::fs::write(folder().join(name), text).unwrap();
        }
    }
    let files = std::fs::read_dir(folder()).unwrap().map(|file| file.unwrap().path());
    let kept: BTreeMap<String, String> = files
        .map(|path| {
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            (name, std::fs::read_to_string(path).unwrap())
        })
        .collect();
    assert!(kept.len() >= 80, "{}", kept.len());
    for (name, text) in &printed {
        let kept = kept.get(name).map(String::as_str);
        assert_eq!(Some(*text), kept, "{name}: SNAPSHOTS=overwrite renews it");
    }
    let unused: Vec<_> = kept.keys().filter(|name| !printed.contains_key(*name)).collect();
    assert!(unused.is_empty(), "no broken plant prints these any more: {unused:?}");
}
