//! Each command as a person or a program uses it: help, exit codes, JSON, signing from end to end.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::plant::{Plant, Run, copy_folder, files_of, root};

pub const COMMANDS: [&str; 20] = [
    "start",
    "check",
    "derive",
    "packet",
    "shift",
    "publish",
    "preview",
    "redline",
    "signoff",
    "approve",
    "inspected",
    "audit",
    "checkpoint",
    "export",
    "collect",
    "handbook",
    "schemas",
    "where-used",
    "import",
    "history",
];

/// The examples of a help text, each as its words.
fn examples(help: &str) -> Vec<Vec<String>> {
    let joined = help.replace("\\\n", " ");
    let lines = joined.lines().filter_map(|line| line.strip_prefix("  witnessmark "));
    lines.map(|line| line.split_whitespace().map(str::to_owned).collect()).collect()
}

#[test]
fn the_examples_of_the_help_work() {
    let scratch = Plant::small();
    copy_folder(&root().join("demo-data"), &scratch.beside("demo-data"));
    for command in COMMANDS {
        let help = scratch.run(&[command, "--help"]).ends(0);
        let examples = examples(&help.stdout);
        assert!(!examples.is_empty(), "{command} has no example");
        for example in examples {
            assert!(COMMANDS.contains(&example[0].as_str()), "{example:?}");
            // It goes on until somebody ends it: its own tests run it.
            if command == "preview" {
                continue;
            }
            let words: Vec<&str> = example.iter().map(String::as_str).collect();
            let run = scratch.run(&words);
            // The example with a key has the digits of a sheet that nobody printed.
            let expected = i32::from(words.contains(&"--key"));
            assert_eq!(run.code, expected, "{words:?}\n{}\n{}", run.stdout, run.stderr);
        }
    }
    assert!(scratch.beside("my-site/index.html").is_file());
}

#[test]
fn the_help_names_every_command_and_the_exit_codes() {
    let help = Plant::small().run(&["--help"]).ends(0);
    for word in COMMANDS.iter().chain(&["Exit codes: 0 fine, 1 findings, 2 could not run."]) {
        assert!(help.stdout.contains(word), "{word}");
    }
    Plant::small().run(&[]).ends(2);
    Plant::small().run(&["chek"]).ends(2).complains("check");
}

/// Wants every line to hold: words of a command, its exit code, and what it says.
#[test]
fn exit_codes_tell_findings_from_what_could_not_run() {
    let plant = Plant::small();
    for (words, code, says) in [
        ("check PLANT", 0, "nothing found"),
        ("check nowhere", 2, "nowhere is not a plant"),
        ("derive PLANT J-1", 0, "Strip width"),
        ("derive PLANT J-9", 2, "there is no job `J-9`; the plant has: J-1"),
        ("derive PLANT ../plant/jobs/J-1", 2, "there is no job"),
        ("shift PLANT 2026-01-12 early --out a.html", 0, "1 job"),
        ("shift PLANT 2026-01-12 late --out a.html", 2, "2026-01-12 early"),
        ("shift PLANT 2026-01-12 --out a.html", 2, "no job is planned for the shift `2026-01-12`"),
        ("derive PLANT J-1 strip", 0, "2 * 40 mm + 2 * 5 mm"),
        ("derive PLANT J-1 stripe", 2, "it has: strip, web_width, knife_rail"),
        ("packet PLANT J-9 --out a.html", 2, "there is no job `J-9`"),
        ("packet PLANT J-1 --out none/a.html", 2, "none/a.html"),
        ("packet PLANT J-1 --out PLANT", 2, "plant is no plain file"),
        ("packet PLANT J-1 --out /dev/null", 2, "/dev/null is no plain file"),
        ("packet PLANT J-1", 2, "--out"),
        ("publish PLANT --out PLANT/site", 2, "is a part of the plant"),
        ("signoff PLANT J-9", 2, "there is no job `J-9`"),
        ("signoff PLANT J-1", 0, "J-1: open, 0 entries"),
        ("audit PLANT", 0, "0 records, 0 entries, 0 findings"),
        ("audit PLANT J-9", 2, "there is no record of a job `J-9`"),
        ("start PLANT", 2, "plant is not empty"),
        ("start PLANT/plant.yaml", 2, "plant.yaml"),
    ] {
        let run = plant.run(&words.split(' ').collect::<Vec<_>>());
        let said = format!("{}{}", run.stdout, run.stderr);
        assert!(run.code == code && said.contains(says), "{words}: {}\n{said}", run.code);
    }
    let changed: Vec<_> = files_of(&plant.folder()).into_keys().collect();
    assert_eq!(changed, files_of(&Plant::small().folder()).into_keys().collect::<Vec<_>>());
}

#[test]
fn findings_end_with_one_and_speak_json_when_asked() {
    let plant = Plant::small();
    plant.edit("recipes/large-pouch.yaml", "fin: 5 mm", "fin: 5 mmm");
    for words in ["check PLANT", "derive PLANT J-1", "packet PLANT J-1 --out a.html"] {
        let mut words: Vec<&str> = words.split(' ').collect();
        plant.run(&words).ends(1).says("error[bad-quantity]");
        words.push("--json");
        let found = plant.run(&words).ends(1).json();
        assert_eq!(found.as_array().unwrap().len(), 1, "{words:?}");
        let found = found[0].as_object().unwrap();
        let keys: Vec<&str> = found.keys().map(String::as_str).collect();
        let expected = ["column", "file", "line", "message", "rule", "severity", "way_out"];
        assert_eq!(keys, expected);
    }
    assert!(!plant.beside("a.html").exists());
    // Also when the plant as a whole cannot be read.
    plant.write("plant.yaml", "name: [");
    for words in ["check PLANT", "derive PLANT J-1", "publish PLANT --out s", "audit PLANT"] {
        let words: Vec<&str> = words.split(' ').chain(["--json"]).collect();
        let found = plant.run(&words).ends(1).json();
        assert_eq!(found[0]["rule"], "not-yaml", "{words:?}");
    }
}

/// A fault in a file that a job has nothing to do with does not stop this job.
#[test]
fn a_fault_elsewhere_does_not_stop_tonights_job() {
    let plant = Plant::small();
    let third = plant.read("recipes/large-pouch.yaml").replace("id: large-pouch", "id: third");
    plant.write("recipes/third.yaml", third.replace("fin: 5 mm", "fin: 5 mmm"));
    plant.run(&["check", "PLANT"]).ends(1);
    plant.run(&["derive", "PLANT", "J-1"]).ends(0);
    plant.run(&["packet", "PLANT", "J-1", "--out", "a.html"]).ends(0);
}

#[test]
fn json_has_the_promised_fields() {
    let plant = Plant::small();
    assert_eq!(plant.run(&["check", "PLANT", "--json"]).ends(0).json(), serde_json::json!([]));
    for (words, fields) in [
        ("derive PLANT J-1", "job machine settings web contents fasteners rails"),
        ("packet PLANT J-1 --out a.html", "job form file digest steps readings"),
        ("publish PLANT --out s", "machines jobs packets records findings files milliseconds"),
        ("signoff PLANT J-1", "state missing"),
    ] {
        let words: Vec<&str> = words.split(' ').chain(["--json"]).collect();
        let value = plant.run(&words).ends(0).json();
        let mut found: Vec<&str> = value.as_object().unwrap().keys().map(String::as_str).collect();
        let mut expected: Vec<&str> = fields.split(' ').collect();
        found.sort_unstable();
        expected.sort_unstable();
        assert_eq!(found, expected, "{words:?}");
    }
    let derived = plant.run(&["derive", "PLANT", "J-1", "strip", "--json"]).json();
    assert_eq!(derived["settings"][0]["target"], "90.0");
    assert_eq!(derived["rails"], serde_json::json!([]));
    let audit = plant.run(&["audit", "PLANT", "--json"]).json();
    assert_eq!(audit["records"], serde_json::json!([]));
}

#[test]
fn a_reader_that_goes_away_is_no_fault() {
    let plant = Plant::small();
    for words in [&["derive", "PLANT", "J-1"][..], &["check", "nowhere"], &["--help"]] {
        for stream in ["stdout", "stderr"] {
            let mut command = plant.command(words);
            command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
            let mut child = command.spawn().unwrap();
            match stream {
                "stdout" => drop(child.stdout.take()),
                _ => drop(child.stderr.take()),
            }
            let output = child.wait_with_output().unwrap();
            let said = String::from_utf8([output.stdout, output.stderr].concat()).unwrap();
            assert!(matches!(output.status.code(), Some(0 | 2)), "{words:?}: {}", output.status);
            assert!(!said.contains("panicked"), "{said}");
        }
    }
}

#[test]
fn a_packet_file_is_replaced_whole() {
    let plant = Plant::small();
    let out = plant.beside("out/a.html");
    std::fs::create_dir(plant.beside("out")).unwrap();
    std::fs::write(&out, "old").unwrap();
    plant.run(&["packet", "PLANT", "J-1", "--out", "out/a.html"]).ends(0);
    let names: Vec<_> = files_of(&plant.beside("out")).into_keys().collect();
    assert_eq!(names, ["a.html"]);
    let page = std::fs::read_to_string(&out).unwrap();
    assert!(page.starts_with("<!DOCTYPE html>") && page.trim_end().ends_with("</html>"));
    // A run that fails leaves the file as it was.
    plant.edit("jobs/J-1.yaml", "to: large-pouch", "to: nothing");
    plant.run(&["packet", "PLANT", "J-1", "--out", "out/a.html"]).ends(1);
    assert_eq!(std::fs::read_to_string(&out).unwrap(), page);
}

/// A small plant whose people have keys made by the system's `ssh-keygen`.
pub struct Crew {
    pub plant: Plant,
}

pub const TECHNICIAN: &str = "t.one@plant.example";
pub const LEAD: &str = "l.two@plant.example";
pub const QUALITY: &str = "q.three@plant.example";

impl Crew {
    pub fn new() -> Crew {
        let plant = Plant::small();
        let mut signers = String::new();
        for person in [TECHNICIAN, LEAD, QUALITY] {
            let key = plant.beside(person);
            let made = Command::new("ssh-keygen")
                .args(["-q", "-t", "ed25519", "-N", "", "-C", person, "-f"])
                .arg(&key)
                .status()
                .unwrap();
            assert!(made.success());
            let public = std::fs::read_to_string(plant.beside(&format!("{person}.pub"))).unwrap();
            let public = public.split(' ').take(2).collect::<Vec<_>>().join(" ");
            signers += &format!(
                "{person} namespaces=\"signoff@plant.example\",valid-after=\"20260101000000Z\",\
                 valid-before=\"20990101000000Z\" {public}\n"
            );
        }
        plant.write("allowed_signers", signers);
        let machine = plant.read("machines/line-1.yaml").replace("2027-06-30", "2098-12-31");
        plant.write("machines/line-1.yaml", machine);
        Crew { plant }
    }

    /// `signoff` by a person with the person's own key.
    pub fn sign(&self, by: &str, words: &[&str]) -> Run {
        self.sign_with(by, by, words)
    }

    fn sign_with(&self, by: &str, key: &str, words: &[&str]) -> Run {
        Run::of(self.command(by, key, words))
    }

    pub fn command(&self, by: &str, key: &str, words: &[&str]) -> Command {
        let mut all = vec!["signoff", "PLANT", "J-1", "--by", by, "--key", key];
        all.extend(words);
        self.plant.command(&all)
    }

    /// The digest on the sheet.
    pub fn digest(&self) -> String {
        let words = ["packet", "PLANT", "J-1", "--out", "sheet.html", "--json"];
        let written = self.plant.run(&words).ends(0).json();
        written["digest"].as_str().unwrap().to_owned()
    }

    /// Freezes the packet with the first step.
    pub fn begin(&self) {
        let digest = self.digest();
        self.sign(TECHNICIAN, &["--sheet", &digest[..12], "--performed", "1"]).ends(0);
    }

    pub fn record(&self) -> PathBuf {
        self.plant.folder().join("records/J-1")
    }

    fn entries(&self) -> Vec<String> {
        let names = files_of(&self.record()).into_keys();
        names.filter(|name| name.ends_with(".json") && name != "packet.json").collect()
    }

    /// What is missing first: kind, step, and meaning or blank.
    fn next(&self) -> Option<(String, String, String)> {
        let standing = self.plant.run(&["signoff", "PLANT", "J-1", "--json"]).ends(0).json();
        let (kind, what) = standing["missing"].get(0)?.as_object()?.iter().next()?;
        let text = |key: &str| what[key].as_str().unwrap_or_default().to_owned();
        let last = if kind == "signature" { text("meaning") } else { text("blank") };
        Some((kind.clone(), text("step"), last))
    }

    /// Signs on, a step at a time, with readings on target, until a step of that name comes.
    pub fn sign_until(&self, stop: &str) {
        let packet: serde_json::Value =
            serde_json::from_slice(&std::fs::read(self.record().join("packet.json")).unwrap())
                .unwrap();
        while let Some((kind, step, last)) = self.next().filter(|(_, step, _)| step != stop) {
            let run = match (kind.as_str(), last.as_str()) {
                ("signature", "verified") => {
                    let role = role(&packet, &step, "verified");
                    self.sign(role, &["--verified", &step])
                }
                ("signature", "released") => self.sign(LEAD, &["--release"]),
                _ => {
                    let readings = readings(&packet, &step);
                    let mut words: Vec<&str> = vec!["--performed", &step];
                    for reading in &readings {
                        words.extend(["--read", reading]);
                    }
                    self.sign(TECHNICIAN, &words)
                }
            };
            run.ends(0);
        }
    }
}

fn step_of<'a>(packet: &'a serde_json::Value, id: &str) -> &'a serde_json::Value {
    packet["steps"].as_array().unwrap().iter().find(|step| step["id"] == id).unwrap()
}

/// Who signs a step with this meaning.
fn role(packet: &serde_json::Value, step: &str, meaning: &str) -> &'static str {
    let signs = step_of(packet, step)["signs"].as_array().unwrap();
    let sign = signs.iter().find(|sign| sign["meaning"] == meaning).unwrap();
    match sign["role"].as_str().unwrap() {
        "lead" => LEAD,
        "quality" => QUALITY,
        _ => TECHNICIAN,
    }
}

/// `blank=target` for each blank of a step; zero where there is no target.
fn readings(packet: &serde_json::Value, step: &str) -> Vec<String> {
    let readings = step_of(packet, step)["readings"].as_array().unwrap();
    let text = |reading: &serde_json::Value| {
        let target = reading["target"].as_str().unwrap_or("0");
        format!("{}={target}", reading["id"].as_str().unwrap())
    };
    readings.iter().map(text).collect()
}

#[test]
fn the_first_sign_off_needs_the_sheet_in_hand() {
    let crew = Crew::new();
    let digest = crew.digest();
    let first = ["--performed", "1"];
    crew.sign(TECHNICIAN, &first).ends(2).complains("give --sheet");
    let short = ["--sheet", &digest[..11], "--performed", "1"];
    crew.sign(TECHNICIAN, &short).ends(2).complains("12 digits or more");
    let other = ["--sheet", "000000000000", "--performed", "1"];
    crew.sign(TECHNICIAN, &other).ends(1).says("is not the packet of J-1");
    let right = ["--sheet", &digest[..12], "--performed", "1"];
    crew.sign_with(TECHNICIAN, QUALITY, &right).ends(1).says("refused[signer-differs]");
    crew.sign(LEAD, &right).ends(1).says("refused[");
    assert!(!crew.record().exists(), "nothing refused leaves a packet behind");

    crew.sign(TECHNICIAN, &right).ends(0).says("Technician One");
    assert_eq!(crew.entries(), ["000001.json"]);
    assert_eq!(crew.digest(), digest);
    // From now on the packet is frozen: a changed recipe changes no sheet that is signed.
    crew.plant.edit("recipes/large-pouch.yaml", "fin: 5 mm", "fin: 6 mm");
    assert_eq!(crew.digest(), digest);
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
}

#[test]
fn wrong_hands_are_refused() {
    let crew = Crew::new();
    let both = "      - { role: technician, from: 2026-01-01 }\n";
    crew.plant.edit("people.yaml", both, &format!("{both}{}", both.replace("technician", "lead")));
    crew.begin();
    crew.sign_with(TECHNICIAN, LEAD, &["--performed", "2"]).ends(1).says("refused[signer-differs]");
    crew.sign("nobody@plant.example", &["--performed", "2"]).ends(2);
    crew.sign(LEAD, &["--performed", "2"]).ends(1).says("refused[role-");
    let early = ["--performed", "knives.cover-every-blade"];
    crew.sign(TECHNICIAN, &early).ends(1).says("refused[step-order]");
    crew.sign(LEAD, &["--release"]).ends(1).says("refused[release-incomplete]");
    crew.sign(TECHNICIAN, &["--performed", "no.such-step"]).ends(1).says("refused[step-unknown]");
    crew.sign(TECHNICIAN, &["--read", "x"]).ends(2).complains("BLANK=VALUE");
    crew.sign(TECHNICIAN, &["--performed", "1"]).ends(1).says("refused[signed-twice]");
    assert_eq!(crew.entries().len(), 1);

    crew.sign(TECHNICIAN, &["--performed", "2", "--performed", "3", "--performed", "4"]).ends(0);
    // Technician One is a lead too, but checked nothing that Technician One did.
    let itself = ["--verified", "prepare.brief-the-crew"];
    crew.sign(TECHNICIAN, &itself).ends(1).says("refused[same-person]");
    crew.sign(LEAD, &itself).ends(0);
}

#[test]
fn a_job_is_signed_from_end_to_end() {
    let crew = Crew::new();
    crew.begin();
    let measured = "first-piece.measure-the-first-pieces";
    crew.sign_until(measured);

    // On the limit is within; one digit beyond is outside, kept and marked.
    let read = |lane: u8, value: &str| format!("{measured}/strip-lane-{lane}={value}");
    let values = [read(1, "89.5"), read(2, "90.5"), read(3, "90.6"), read(4, "90.0")];
    let mut words = vec!["--performed", measured];
    for value in &values {
        words.extend(["--read", value]);
    }
    let run = crew.sign(TECHNICIAN, &words).ends(0);
    let lines: Vec<&str> = run.stdout.lines().collect();
    assert_eq!(lines.iter().filter(|line| line.contains("mm (within)")).count(), 3);
    assert_eq!(lines.iter().filter(|line| line.contains("= 90.6 mm (outside)")).count(), 1);

    let standing = crew.plant.run(&["signoff", "PLANT", "J-1", "--json"]).ends(0).json();
    let mut missing = standing["missing"].as_array().unwrap().iter();
    let outside = missing.find_map(|missing| missing.get("acceptance")).unwrap();
    assert_eq!(outside["blank"], format!("{measured}/strip-lane-3"));
    let seq = outside["seq"].to_string();
    crew.sign(QUALITY, &["--verified", measured]).ends(0);
    for step in ["first-piece.look-at-the-first-pieces", "first-piece.run-at-working-speed"] {
        crew.sign(TECHNICIAN, &["--performed", step]).ends(0);
    }
    crew.sign(QUALITY, &["--verified", "first-piece.look-at-the-first-pieces"]).ends(0);
    for step in ["put-everything-away", "hand-the-line-over"] {
        let step = format!("release-to-production.{step}");
        crew.sign(TECHNICIAN, &["--performed", &step]).ends(0);
    }
    crew.sign(QUALITY, &["--verified", "release-to-production.hand-the-line-over"]).ends(0);

    crew.sign(LEAD, &["--release"]).ends(1).says("refused[release-deviation]");
    let accept = ["--accept", &seq, "--reason", "Closure test passed on 20 pouches."];
    crew.sign(QUALITY, &accept[..2]).ends(2).complains("--reason");
    crew.sign(LEAD, &accept).ends(1).says("refused[");
    crew.sign(QUALITY, &accept).ends(0);
    crew.sign(LEAD, &["--release"]).ends(0).says("released with an accepted deviation");
    crew.sign(TECHNICIAN, &["--performed", "1"]).ends(1).says("refused[after-release]");

    let audit = crew.plant.run(&["audit", "PLANT", "--json", "--entries"]).ends(0).json();
    let report = &audit["records"][0];
    assert_eq!(report["state"], "released-with-deviation");
    assert_eq!(report["entries"].as_array().unwrap().len(), crew.entries().len());
    let worse = report["findings"].as_array().unwrap().iter();
    assert_eq!(worse.filter(|finding| finding["severity"] == "error").count(), 0);
    for entry in crew.entries() {
        verified_by_ssh_keygen(&crew.plant.folder(), &crew.record().join(entry));
    }
    // One flipped byte is found.
    let third = crew.record().join("000003.json");
    let text = std::fs::read_to_string(&third).unwrap();
    std::fs::write(&third, text.replace("Technician One", "Technician Two")).unwrap();
    crew.plant.run(&["audit", "PLANT"]).ends(1).says("signature-bad");
}

/// The system's own tool finds the signature of an entry good, at the time it names.
#[track_caller]
fn verified_by_ssh_keygen(plant: &Path, entry: &Path) {
    let json: serde_json::Value = serde_json::from_slice(&std::fs::read(entry).unwrap()).unwrap();
    let at = chrono::DateTime::parse_from_rfc3339(json["at"].as_str().unwrap()).unwrap();
    let output = Command::new("ssh-keygen")
        .args(["-Y", "verify", "-n", "signoff@plant.example", "-I", json["by"].as_str().unwrap()])
        .arg("-f")
        .arg(plant.join("allowed_signers"))
        .arg("-s")
        .arg(entry.with_extension("json.sig"))
        .arg(format!("-Overify-time={}", at.to_utc().format("%Y%m%d%H%M%SZ")))
        .stdin(std::fs::File::open(entry).unwrap())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stdout).into_owned()
        + &String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success() && said.contains("Good"), "{}: {said}", entry.display());
}

#[test]
fn a_correction_keeps_what_was_there() {
    let crew = Crew::new();
    crew.begin();
    let step = "stored-energy.prove-zero-at-each-source";
    crew.sign_until(step);
    let wrong = format!("{step}/air=0.4");
    let right = format!("{step}/air=0.0");
    crew.sign(TECHNICIAN, &["--read", &wrong]).ends(0).says("(outside)");
    crew.sign(TECHNICIAN, &["--read", &right]).ends(1).says("refused[reading-twice]");
    crew.sign(TECHNICIAN, &["--correct", &right]).ends(2).complains("--reason");
    let before = crew.entries();
    let why = ["--correct", &right, "--reason", "Read before the drain was open."];
    crew.sign(TECHNICIAN, &why).ends(0).says("(within)");
    assert_eq!(crew.entries()[..before.len()], before);
    crew.plant.run(&["audit", "PLANT"]).ends(0);
}

#[test]
fn two_who_sign_at_once_are_both_in_the_chain() {
    let crew = Crew::new();
    let digest = crew.digest();
    // Also the very first sign-off: both find no record yet.
    let words: [&[&str]; 2] = [
        &["--sheet", &digest[..16], "--performed", "1"],
        &["--sheet", &digest[..16], "--performed", "prepare.compare-the-packet-with-the-order"],
    ];
    let runs = at_once(words.map(|words| crew.command(TECHNICIAN, TECHNICIAN, words)));
    let codes: Vec<i32> = runs.iter().map(|run| run.code).collect();
    assert!(codes.contains(&0) && codes.iter().all(|code| (0..=1).contains(code)), "{codes:?}");
    assert_eq!(crew.entries().len(), 1, "one of the two signed it already");

    crew.sign(TECHNICIAN, &["--performed", "2", "--performed", "3", "--performed", "4"]).ends(0);
    let step = "prepare.brief-the-crew";
    let runs = at_once([
        crew.command(LEAD, LEAD, &["--verified", step]),
        crew.command(TECHNICIAN, TECHNICIAN, &["--performed", "5"]),
    ]);
    for run in runs {
        run.ends(0);
    }
    assert_eq!(crew.entries().len(), 6);
    crew.plant.run(&["audit", "PLANT"]).ends(0).says("6 entries");
}

fn at_once(commands: [Command; 2]) -> Vec<Run> {
    std::thread::scope(|scope| {
        let runs = commands.map(|command| scope.spawn(move || Run::of(command)));
        runs.map(|run| run.join().unwrap()).into()
    })
}

#[test]
fn a_draft_says_so_on_its_sheet_and_nobody_signs_it() {
    for (file, key) in [
        ("recipes/large-pouch.yaml", "id: large-pouch"),
        ("recipes/small-pouch.yaml", "id: small-pouch"),
        ("instructions/knives.md", "id: knives"),
    ] {
        let plant = Plant::small();
        plant.write(file, plant.read(file).replacen(key, &format!("{key}\ndraft: true"), 1));
        plant.run(&["packet", "PLANT", "J-1", "--out", "one.html"]).ends(0);
        let page = std::fs::read_to_string(plant.beside("one.html")).unwrap();
        assert!(page.contains("<div class=\"watermark\""), "{file}");
        assert!(page.contains(&format!("Still being written, or not approved: {file}.")), "{file}");
        let refused = plant.run(&["signoff", "PLANT", "J-1", "--performed", "1"]).ends(1);
        refused.says("refused[draft-packet]").says(file).says("nothing was added");
        assert!(!plant.folder().join("records/J-1").exists(), "{file}");
    }
    let plant = Plant::small();
    plant.run(&["packet", "PLANT", "J-1", "--out", "one.html"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("one.html")).unwrap();
    assert!(!page.contains("class=\"watermark\""));
}

/// Source: POSIX.1-2017, 8.2, for the order of the locale variables.
#[test]
fn findings_are_in_the_language_that_was_asked_for_and_rules_keep_their_names() {
    let plant = Plant::small();
    plant.edit("jobs/J-1.yaml", "machine:", "machin:");
    let spanish = plant.run(&["check", "PLANT", "--language", "es"]).ends(1);
    let spanish = spanish.says("error[unknown-key]: clave desconocida `machin`");
    spanish.says("ayuda: ¿quiso decir `machine`?").says("1 error, 0 advertencias");
    let mut german = plant.command(&["check", "PLANT", "--json"]);
    german.env("LC_ALL", "").env("LC_MESSAGES", "de_DE.UTF-8").env("LANG", "es_ES.UTF-8");
    let found = Run::of(german).ends(1).json();
    assert_eq!(found[0]["rule"], "unknown-key");
    assert_eq!(found[0]["message"], "unbekannter Schlüssel `machin`");
    assert_eq!(found[0]["way_out"], "war `machine` gemeint?");
    let unknown = plant.run(&["check", "PLANT", "--language", "fr"]).ends(2);
    unknown.complains("the languages are en, es, es-419, de");
}

#[test]
fn an_audit_and_what_pages_show_have_their_language() {
    let plant = Plant::demo();
    plant.run(&["audit", "PLANT", "SM-1041", "--language", "de"]).says("anderswo aufbewahren");
    let plant = Plant::small();
    std::fs::remove_file(plant.folder().join("allowed_signers")).unwrap();
    let said = plant.run(&["publish", "PLANT", "--out", "site", "--language", "es"]);
    said.ends(1).says("sin allowed_signers nadie puede firmar");
    // The site is in the plant's language, whoever published it.
    let pages = crate::plant::files_of(&plant.beside("site"));
    let shows =
        |text: &str| pages.values().any(|page| String::from_utf8_lossy(page).contains(text));
    assert!(shows("without allowed_signers nobody can sign"));
    assert!(!shows("sin allowed_signers nadie puede firmar"));
}

#[test]
fn why_a_command_could_not_run_is_said_in_the_language_asked_for() {
    let plant = Plant::small();
    for (language, words) in [
        ("en", "witnessmark: there is no job `J-9`; the plant has: J-1"),
        ("es", "witnessmark: no hay ningún trabajo `J-9`; la planta tiene: J-1"),
        ("de", "witnessmark: es gibt keinen Auftrag `J-9`; der Betrieb hat: J-1"),
    ] {
        plant.run(&["derive", "PLANT", "J-9", "--language", language]).ends(2).complains(words);
    }
}
