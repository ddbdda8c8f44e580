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
    for command in ["check", "derive", "packet", "publish", "signoff", "audit", "start"] {
        assert!(readme.contains(&format!("| `{command} ")), "{command} in the README");
        assert!(help.contains(&format!("\n  {command} ")), "{command} in the help");
    }
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
