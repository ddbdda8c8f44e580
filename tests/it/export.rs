//! What leaves the plant, looked at by others: coreutils, OpenSSH, Python, and the browser's rules.

use std::path::Path;
use std::process::Command;

use crate::plant::{Plant, Run, files_of, root};

/// The demo plant with one job exported beside it.
fn exported(job: &str) -> (Plant, std::path::PathBuf) {
    let plant = Plant::demo();
    plant.run(&["export", "PLANT", job, "--out", "out"]).says("README.txt in it says how");
    let out = plant.beside("out");
    (plant, out)
}

/// A shell command in a folder: whether it went well, and what it printed.
fn sh(folder: &Path, command: &str) -> (bool, String) {
    let output = Command::new("sh").args(["-c", command]).current_dir(folder).output().unwrap();
    let text = [output.stdout, output.stderr].concat();
    (output.status.success(), String::from_utf8(text).unwrap())
}

#[test]
fn an_exported_record_is_whole_and_holds_for_others() {
    let (plant, out) = exported("SM-1042");
    assert_eq!(sh(&out, "sha256sum --quiet -c SHA256SUMS"), (true, String::new()));
    let (holds, said) = sh(&out, "python3 -B verify.py");
    assert!(holds && said.contains(", 0 findings, people checked, "), "{said}");
    let own = files_of(&plant.folder().join("records/SM-1042"));
    let own: Vec<_> = own.into_iter().filter(|(name, _)| name != ".lock").collect();
    assert_eq!(files_of(&out.join("record")).into_iter().collect::<Vec<_>>(), own);
    let signers = std::fs::read_to_string(out.join("allowed_signers")).unwrap();
    assert_eq!(signers, plant.read("allowed_signers"));
    let sums = std::fs::read_to_string(out.join("SHA256SUMS")).unwrap();
    assert_eq!(sums.lines().count(), files_of(&out).len() - 1, "every other file is in it");
}

#[test]
fn the_audit_takes_an_exported_folder_or_many() {
    let (plant, _) = exported("SM-1042");
    let of_plant = plant.run(&["audit", "PLANT", "SM-1042", "--json", "--entries"]).json();
    let of_folder = plant.run(&["audit", "out", "--json", "--entries"]).ends(0).json();
    let (of_plant, of_folder) = (&of_plant["records"][0], &of_folder["records"][0]);
    assert_eq!(of_folder["entries"], of_plant["entries"]);
    assert_eq!(of_folder["head"], of_plant["head"]);
    plant.run(&["audit", "out"]).ends(0).says("judged by allowed_signers ");
    std::fs::create_dir(plant.beside("shelf")).unwrap();
    for job in ["SM-1041", "SM-1043"] {
        let out = format!("shelf/{job}");
        plant.run(&["export", "PLANT", job, "--out", &out]);
    }
    plant.run(&["audit", "shelf"]).ends(0).says("2 records, ");
    plant.run(&["audit", "shelf", "SM-1041"]).ends(0).says("1 record, ");
}

/// The README's own commands, run as they stand there.
#[test]
fn the_commands_of_the_how_to_do_what_it_says() {
    let (plant, out) = exported("SM-1042");
    let text = std::fs::read_to_string(out.join("README.txt")).unwrap();
    let run = |number: &str| {
        let line = text.lines().find(|line| line.trim_start().starts_with(number)).unwrap();
        let (holds, said) = sh(&out, &line.trim_start()[number.len()..]);
        assert!(holds, "{line}: {said}");
        said
    };
    let audit = plant.run(&["audit", "PLANT", "SM-1042", "--json", "--entries"]).json();
    let report = &audit["records"][0];
    let last = report["entries"].as_array().unwrap().last().unwrap();
    assert!(run("1  ").starts_with(last["digest"].as_str().unwrap()));
    assert!(run("2  ").starts_with("Good \"signoff@saltmarsh.example\" signature"));
    let head = report["head"].as_str().unwrap();
    assert!(
        run("3  ").starts_with(head)
            && text.contains(&format!("head of the record            {head}\n"))
    );
    for name in ["allowed_signers", "people.json"] {
        let (_, sum) = sh(&out, &format!("sha256sum {name}"));
        assert!(text.contains(sum.split(' ').next().unwrap()), "{name}");
    }
    // Every other file is named, each in a line of its own.
    for name in files_of(&out).keys().filter(|name| !name.starts_with("record/")) {
        assert!(name == "README.txt" || text.contains(&format!("\n{name} ")), "{name}");
    }
}

#[test]
fn the_how_to_and_the_answer_are_in_the_language_asked_for() {
    let plant = Plant::demo();
    for (language, word) in [("es", "QUÉ NO DEMUESTRA"), ("de", "WAS ES NICHT BEWEIST")] {
        plant.run(&["--language", language, "export", "PLANT", "SM-1043", "--out", language]);
        let text = std::fs::read_to_string(plant.beside(language).join("README.txt")).unwrap();
        assert!(text.contains(word), "{text}");
    }
}

#[test]
fn the_pages_stand_alone() {
    let (_plant, out) = exported("SM-1042");
    for name in ["packet.html", "record.html"] {
        let page = std::fs::read_to_string(out.join(name)).unwrap();
        assert!(page.contains("default-src 'none'; style-src 'sha256-"), "{name}");
        for foreign in ["<script", "<link", "<img", "src=\"", "http-equiv=\"refresh"] {
            assert!(!page.contains(foreign), "{name} has {foreign}");
        }
        for link in page.split("href=\"").skip(1).filter_map(|rest| rest.split('"').next()) {
            let is_there = link.starts_with('#') || out.join(link).is_file();
            assert!(is_there, "{name} leads to {link}");
        }
    }
    let page = std::fs::read_to_string(out.join("record.html")).unwrap();
    assert!(
        page.contains("ssh-keygen -Y verify -f allowed_signers")
            && page.contains("record/000001.json")
    );
}

#[test]
fn only_who_signed_is_named() {
    let (_plant, out) = exported("SM-1043");
    let people = std::fs::read_to_string(out.join("people.json")).unwrap();
    let page = std::fs::read_to_string(out.join("record.html")).unwrap();
    assert!(people.contains("Bunta Tanaka") && page.contains("Bunta Tanaka"));
    assert!(!people.contains("Goran Petrov"), "he signed nothing in this record");
}

#[test]
fn what_is_there_is_never_replaced() {
    let (plant, out) = exported("SM-1042");
    let before = files_of(&out);
    let refused = plant.run(&["export", "PLANT", "SM-1041", "--out", "out"]).ends(2);
    refused.complains("out is there already and is not replaced");
    assert_eq!(files_of(&out), before);
    std::fs::create_dir(plant.beside("empty")).unwrap();
    plant
        .run(&["export", "PLANT", "SM-1041", "--out", "empty"])
        .ends(2)
        .complains("is there already");
    std::fs::write(plant.beside("lines"), "mine").unwrap();
    for form in ["--lines", "--parquet"] {
        plant.run(&["export", "PLANT", form, "lines"]).ends(2).complains("is there already");
    }
    assert_eq!(std::fs::read_to_string(plant.beside("lines")).unwrap(), "mine");
    plant
        .run(&["export", "PLANT", "SM-1041", "--out", "plant/out"])
        .ends(2)
        .complains("part of the plant");
    plant.run(&["export", "PLANT", "SM-9999", "--out", "new"]).ends(2).complains("SM-9999");
    plant.run(&["export", "PLANT", "SM-1041", "--out", "no/such/new"]).ends(2).complains("no/such");
    plant.run(&["export", "PLANT", "--out", "new"]).ends(2);
    plant.run(&["export", "PLANT"]).ends(2);
    let left: Vec<_> =
        files_of(&plant.beside("")).into_keys().filter(|name| name.starts_with('.')).collect();
    assert_eq!(left, Vec::<String>::new(), "nothing is left half");
}

#[test]
fn a_record_that_does_not_hold_leaves_with_its_findings() {
    let plant = Plant::demo();
    plant.edit("records/SM-1041/000020.json", "SM-1041", "SM-1049");
    let run = plant.run(&["export", "PLANT", "SM-1041", "--out", "out"]).ends(1);
    run.says("error[signature-bad]");
    let out = plant.beside("out");
    let (holds, said) = sh(&out, "python3 -B verify.py");
    assert!(!holds && said.contains("000020: signature") && said.contains("000020: job"), "{said}");
    plant.run(&["audit", "out"]).ends(1).says("error[signature-bad]");
    let page = std::fs::read_to_string(out.join("record.html")).unwrap();
    assert!(page.contains("not good"), "the page says so too");
}

#[test]
fn a_packet_that_cannot_be_read_leaves_without_pages() {
    let plant = Plant::demo();
    plant.write("records/SM-1041/packet.json", "{}\n");
    plant.run(&["export", "PLANT", "SM-1041", "--out", "out"]).ends(1);
    let out = plant.beside("out");
    assert!(!out.join("packet.html").exists() && out.join("record/000001.json").exists());
    let (holds, said) = sh(&out, "python3 -B verify.py");
    assert!(!holds && said.starts_with("folder: form: "), "{said}");
    plant.run(&["audit", "out"]).ends(1).says("packet-unreadable");
}

#[test]
fn entries_leave_byte_for_byte() {
    let plant = Plant::demo();
    let run = plant.run(&["export", "PLANT", "--lines", "all", "--parquet", "table"]).ends(0);
    let mut own = Vec::new();
    for (name, bytes) in files_of(&plant.folder().join("records")) {
        if name.ends_with(".json") && !name.ends_with("packet.json") {
            own.extend(bytes);
        }
    }
    assert!(std::fs::read(plant.beside("all")).unwrap() == own);
    let count = own.iter().filter(|byte| **byte == b'\n').count();
    run.says(&format!("all: {count} entries")).says(&format!("table: {count} entries"));
    // `tests/outside/table.py` reads both with another reader.
    let folder = root().join("target/outside");
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::copy(plant.beside("all"), folder.join("entries.jsonl")).unwrap();
    std::fs::copy(plant.beside("table"), folder.join("entries.parquet")).unwrap();
}

#[test]
fn an_entry_that_is_no_line_is_named_and_left_out() {
    let plant = Plant::demo();
    plant.write("records/SM-1041/000003.json", "{\n}\n");
    let run = plant.run(&["export", "PLANT", "SM-1041", "--lines", "one"]).ends(1);
    run.says("SM-1041: entry 000003 is no line of JSON and was left out");
    let text = std::fs::read_to_string(plant.beside("one")).unwrap();
    assert_eq!(text.lines().count(), 174);
}

/// The way of each entry to the checkpoint, and what both programs say when it does not lead there.
#[test]
fn the_log_goes_along_with_the_record() {
    let plant = Plant::demo();
    let by = "e.whitcombe@saltmarsh.example";
    let key = "plant/demo-keys/e.whitcombe";
    plant.run(&["checkpoint", "PLANT", "--by", by, "--key", key]).ends(0);
    plant.run(&["export", "PLANT", "SM-1043", "--out", "out"]).ends(0);
    let out = plant.beside("out");
    let is_entry = |name: &&String| name.starts_with('0') && name.ends_with(".json");
    let files = files_of(&plant.folder().join("records/SM-1043"));
    let count = files.keys().filter(is_entry).count();
    let script = || sh(&out, "python3 -B verify.py");
    let (holds, said) = script();
    assert!(
        holds && said.contains(&format!(", 0 findings, people checked, {count} in the log, ")),
        "{said}"
    );
    plant
        .run(&["audit", "out"])
        .ends(0)
        .says(&format!("{count} entries of {count} lie in the log of checkpoint jar-1 {count} "));
    let note = std::fs::read_to_string(out.join("checkpoint")).unwrap();
    let own = plant.read("logs/jar-1/checkpoint");
    assert_eq!(note, own);
    // A checkpoint that was kept: the one in the folder, another of its length, and one it has no way to.
    let heads = plant.run(&["checkpoint", "PLANT", "jar-1", "--json"]).ends(0).json();
    let short = heads[0]["short"].as_str().unwrap().to_uppercase();
    let with = |kept: &str| plant.run(&["audit", "out", "--checkpoint", kept]);
    with(&short).ends(0).says("note[log-kept-holds]");
    with("plant/logs/jar-1").ends(0).says("note[log-kept-holds]");
    with(&format!("jar-1 {count} {}", "0".repeat(32))).ends(1).says("error[log-kept-differs]");
    let older = with(&format!("jar-1 80 {}", "0".repeat(32))).ends(1);
    older.says("warning[log-kept-elsewhere]").says("cannot prove a checkpoint of 80 entries");

    let check = |name: &str, old: &str, new: &str, code: &str, line: &str| {
        let path = out.join(name);
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(text.contains(old), "{old}");
        std::fs::write(&path, text.replacen(old, new, 1)).unwrap();
        plant.run(&["audit", "out"]).ends(1).says(&format!("error[{code}]"));
        let (_, said) = script();
        assert!(said.contains(line), "{said}");
        std::fs::write(&path, text).unwrap();
    };
    let root = note.lines().nth(2).unwrap();
    let other = "A".repeat(43) + "=";
    check("checkpoint", root, &other, "log-checkpoint", "log: 000001: expected AAAA");
    check("log.json", "\"index\":3,", "\"index\":4,", "log-proof", "log: ");
    check("record/000087.json", "SM-1043", "SM-1044", "log-proof", "log: 000087: ");
    // verify.py says in its head that it looks at no signature of a checkpoint.
    check("checkpoint", "at 20", "at 21", "log-checkpoint", ", 0 findings, ");
}

/// The second program stays one that an auditor can read: short, and nothing to install.
#[test]
fn the_second_program_is_short_and_needs_nothing() {
    let text = std::fs::read_to_string(root().join("src/export/verify.py")).unwrap();
    assert!(text.lines().count() <= 200, "{} lines", text.lines().count());
    assert!(text.lines().all(|line| line.chars().count() <= 112));
    let imports = text.lines().find_map(|line| line.strip_prefix("import ")).unwrap();
    let check = format!(
        "import sys; others = [name for name in {:?}.split(', ') if name not in sys.stdlib_module_names]; sys.exit(', '.join(others) or 0)",
        imports
    );
    let output = Command::new("python3").args(["-c", &check]).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    assert_eq!(text.matches("import ").count(), 1);
}

/// The folder of a published site holds what the second program needs.
#[test]
fn a_published_record_is_checked_where_it_lies() {
    let plant = Plant::demo();
    plant.run(&["publish", "PLANT", "--out", "public"]);
    let script = root().join("src/export/verify.py");
    let command = format!("python3 -B {} records/SM-1043", script.display());
    let (holds, said) = sh(&plant.beside("public"), &command);
    assert!(holds && said.contains(", 0 findings, people not checked, "), "{said}");
}

#[test]
fn the_help_shows_how() {
    let plant = Plant::demo();
    let Run { stdout, .. } = plant.run(&["export", "--help"]).ends(0);
    assert!(stdout.contains("witnessmark export demo-data SM-1041 --out sm-1041"), "{stdout}");
}
