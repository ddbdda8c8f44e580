//! A plant that was read before is read again: the same answers as of a first run, with only the work
//! that an edit makes.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use witnessmark::finding::Findings;
use witnessmark::finding::show;
use witnessmark::language::Language;
use witnessmark::packet::{self, Packets};
use witnessmark::plant::load;

use crate::dice::Dice;
use crate::plant::Plant;

/// What is kept from one run to the next.
#[derive(Default)]
struct Memory {
    files: load::Memory,
    packets: packet::Memory,
}

/// Everything that a run says of a plant.
#[derive(Debug, PartialEq)]
struct Answer {
    findings: Findings,
    shown: String,
    files: BTreeMap<String, String>,
    packets: Packets,
    digests: Vec<String>,
    /// Recipes that could be worked out, in each language.
    computed: Vec<String>,
}

fn answer(folder: &Path, memory: &mut Memory) -> Answer {
    let read = load::load_again(folder, &mut memory.files);
    let load::Reading { plant, texts, mut findings } = match read {
        Ok(read) => read,
        // A folder without `plant.yaml` is no plant.
        Err(failure) => {
            let (findings, shown) = (Findings::default(), failure.to_string());
            let (files, packets) = (BTreeMap::new(), Packets::new());
            return Answer { findings, shown, files, packets, digests: vec![], computed: vec![] };
        }
    };
    let (mut packets, mut files, mut computed) = (Packets::new(), BTreeMap::new(), Vec::new());
    if let Some(plant) = &plant {
        let prepared = packet::prepare_again(&mut findings, plant, &mut memory.packets);
        packets = packet::packets(&mut findings, &prepared, &mut memory.packets);
        prepared.policy.settle(&mut findings);
        let digests = plant.digests.iter();
        files = digests.map(|(file, sha256)| (file.to_string(), sha256.clone())).collect();
        let editions = [&prepared].into_iter().chain(prepared.editions.values());
        computed = editions.map(|edition| format!("{:?}", edition.computed)).collect();
    }
    let shown = show::text(&findings, &texts, Language::English);
    let digests = packets.values().map(|packet| packet::digest(packet).unwrap()).collect();
    Answer { findings, shown, files, packets, digests, computed }
}

/// Files that people write, in order.
fn written(folder: &Path) -> Vec<PathBuf> {
    let files = crate::plant::files_of(folder);
    let written = files.into_keys().filter(|file| {
        let is_made = ["records/", "logs/", "register/", "demo-keys/"];
        !is_made.iter().any(|folder| file.starts_with(folder))
    });
    written.map(|file| folder.join(file)).collect()
}

/// One edit of a plant: a number, a word, a line, a whole file; broken, mended, new or gone.
fn edit(folder: &Path, originals: &BTreeMap<PathBuf, String>, dice: &mut Dice) -> String {
    let files = written(folder);
    let file = files[dice.below(files.len())].clone();
    let name = file.strip_prefix(folder).unwrap().display().to_string();
    let text = std::fs::read_to_string(&file).unwrap();
    let lines: Vec<&str> = text.lines().collect();
    let at = dice.below(lines.len().max(1));
    let with = |line: Option<String>| {
        let own = lines.iter().enumerate();
        let new =
            own.filter_map(|(i, own)| if i == at { line.clone() } else { Some((*own).into()) });
        new.map(|line| line + "\n").collect::<String>()
    };
    let line = lines.get(at).copied().unwrap_or_default();
    match dice.below(9) {
        0 | 1 => {
            let new = line.replace(['1', '2', '4'], "3");
            std::fs::write(&file, with(Some(new))).unwrap();
            format!("numbers in line {at} of {name}")
        }
        2 => {
            std::fs::write(&file, with(Some(line.replace('e', "ë")))).unwrap();
            format!("letters in line {at} of {name}")
        }
        3 => {
            std::fs::write(&file, with(None)).unwrap();
            format!("line {at} of {name} gone")
        }
        4 => {
            std::fs::write(&file, with(Some(format!("{line}\n[")))).unwrap();
            format!("{name} broken at {at}")
        }
        5 => {
            std::fs::remove_file(&file).unwrap();
            format!("{name} gone")
        }
        6 => {
            let stem = file.file_stem().unwrap().to_str().unwrap();
            let new = format!("{stem}-{}", dice.below(3));
            let text = text.replacen(&format!("id: {stem}"), &format!("id: {new}"), 1);
            let end = file.extension().map_or(String::new(), |end| format!(".{}", end.display()));
            std::fs::write(file.with_file_name(new + &end), text).unwrap();
            format!("a copy of {name}")
        }
        7 => {
            // As some editors save: written aside, then put in its place.
            let aside = file.with_file_name(".aside");
            std::fs::write(&aside, with(Some(format!("{line} ")))).unwrap();
            std::fs::rename(&aside, &file).unwrap();
            format!("a blank at line {at} of {name}")
        }
        _ => {
            for (file, text) in originals {
                std::fs::write(file, text).unwrap();
            }
            "everything mended".to_owned()
        }
    }
}

/// After each of so many edits, what is kept and a first run must say the same.
fn same_after_edits(plant: &Plant, seed: u64, edits: usize) {
    let folder = plant.folder();
    let texts = written(&folder).into_iter().map(|file| {
        let text = std::fs::read_to_string(&file).unwrap();
        (file, text)
    });
    let originals: BTreeMap<PathBuf, String> = texts.collect();
    let (mut dice, mut memory, mut done) = (Dice::new(seed), Memory::default(), Vec::new());
    answer(&folder, &mut memory);
    for _ in 0..edits {
        done.push(edit(&folder, &originals, &mut dice));
        let kept = answer(&folder, &mut memory);
        let fresh = answer(&folder, &mut Memory::default());
        assert!(kept.shown == fresh.shown, "{done:#?}\n{}\n---\n{}", kept.shown, fresh.shown);
        assert!(kept == fresh, "seed {seed}: {done:#?}");
    }
}

#[test]
fn what_is_kept_answers_like_a_first_run_after_any_edits() {
    for seed in 0..4 {
        same_after_edits(&Plant::small(), seed, 12);
    }
}

#[test]
fn so_it_does_with_languages_approvals_and_several_machines() {
    same_after_edits(&Plant::demo(), 10, 8);
}

/// What an edit of the demo plant makes to do: files taken apart, recipes worked out, packets made.
#[test]
fn an_edit_makes_the_work_of_what_is_made_from_it() {
    let plant = Plant::demo();
    let folder = plant.folder();
    let mut memory = Memory::default();
    let all = answer(&folder, &mut memory).packets;
    assert_eq!(memory.packets.work.assembled, all.len());
    let mut work = || {
        let packets = answer(&folder, &mut memory).packets;
        assert_eq!(packets.len(), all.len());
        let packet::Work { computed, assembled } = memory.packets.work;
        (memory.files.work.parsed, computed, assembled)
    };
    assert_eq!(work(), (0, 0, 0));
    let languages = std::collections::BTreeSet::from_iter(all.values().map(|own| own.language));
    let languages = languages.len();
    let made_from = |file: &str| {
        let is_in = |packet: &&std::sync::Arc<packet::Packet>| {
            packet.sources.iter().any(|source| source.path == file)
        };
        all.values().filter(is_in).count()
    };
    let recipe = "recipes/dill-mustard-22.yaml";
    plant.write(recipe, plant.read(recipe) + "\n");
    assert_eq!(work(), (languages, languages, made_from(recipe)));
    let procedure = "instructions/jar-supply.md";
    assert!((1..all.len()).contains(&made_from(procedure)));
    plant.write(procedure, plant.read(procedure) + "\nA last word.\n");
    assert_eq!(work(), (1, 0, made_from(procedure)));
    let job = "jobs/SM-1041.yaml";
    plant.write(job, plant.read(job) + "\n");
    assert_eq!(work(), (1, 0, 1));
    assert_eq!(work(), (0, 0, 0));
    plant.write("plant.yaml", plant.read("plant.yaml") + "\n");
    let (_, _, assembled) = work();
    assert_eq!(assembled, all.len(), "everything is made from the plant's own facts");
}
