//! What the README shows is what the program says.

use crate::plant::{Plant, root};

#[test]
fn the_derivation_in_the_readme_is_what_derive_prints() {
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let (_, rest) =
        readme.split_once("$ witnessmark derive demo-data SM-1046 dose_time\n").unwrap();
    let (shown, _) = rest.split_once("```").unwrap();
    let run = Plant::demo().run(&["derive", "PLANT", "SM-1046", "dose_time"]).ends(0);
    assert_eq!(run.stdout, shown);
}

#[test]
fn every_command_stands_in_the_readme_and_in_the_help() {
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let help = Plant::small().run(&["--help"]).ends(0).stdout;
    for command in crate::commands::COMMANDS {
        assert!(readme.contains(&format!("| `{command} ")), "{command} in the README");
        assert!(help.contains(&format!("\n  {command} ")), "{command} in the help");
    }
}

/// Each chapter is named in the README, and each file that it names is there.
#[test]
fn the_readme_leads_to_every_chapter() {
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let links: Vec<&str> =
        readme.split("](").skip(1).filter_map(|rest| rest.split(')').next()).collect();
    for link in &links {
        assert!(root().join(link).is_file(), "{link}");
    }
    for entry in std::fs::read_dir(root().join("site/handbook")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let link = format!("site/handbook/{name}");
        assert!(!name.ends_with(".md") || links.contains(&&*link), "{link}");
    }
}

/// The checkpoint in the README is that of the demo; `SNAPSHOTS=overwrite` writes it anew.
#[test]
fn the_checkpoint_in_the_readme_is_the_newest_of_the_demo() {
    let plant = Plant::demo();
    let path = root().join("README.md");
    let mut readme = std::fs::read_to_string(&path).unwrap();
    let printed = plant.run(&["checkpoint", "PLANT", "pouch-6"]).ends(0).stdout;
    let newest = printed.lines().next().unwrap();
    let (before, rest) = readme.split_once("--checkpoint \"").unwrap();
    let (shown, after) = rest.split_once('"').unwrap();
    let (shown, fresh) = (shown.to_owned(), format!("{before}--checkpoint \"{newest}\"{after}"));
    if std::env::var("SNAPSHOTS").is_ok_and(|word| word == "overwrite") {
        std::fs::write(&path, &fresh).unwrap();
        readme = fresh;
    }
    assert!(readme.contains(newest), "{shown} is not {newest}: SNAPSHOTS=overwrite");
    plant.run(&["audit", "PLANT", "SM-1041", "--checkpoint", newest]).ends(0);
}

/// The commands that an auditor copies from the README, on a demo record.
#[test]
fn the_readme_checks_a_record_without_this_program() {
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let (_, rest) = readme.split_once("cd records/SM-1041\n").unwrap();
    let (commands, _) = rest.split_once("```").unwrap();
    let output = std::process::Command::new("bash")
        .args(["-e", "-c", commands])
        .current_dir(root().join("demo-data/records/SM-1041"))
        .output()
        .unwrap();
    let said = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    let digests: Vec<&str> =
        said.lines().filter_map(|line| line.split("  ").next()).take(2).collect();
    let second =
        std::fs::read_to_string(root().join("demo-data/records/SM-1041/000002.json")).unwrap();
    assert!(second.contains(&format!("\"packet\":\"{}\"", digests[0])), "{said}");
    assert!(second.contains(&format!("\"prev\":\"{}\"", digests[1])), "{said}");
    assert!(said.contains("Good \"signoff@saltmarsh.example\" signature"), "{said}");
}
