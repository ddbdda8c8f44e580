//! Input that wants to do harm: text stays text, nothing outside the plant is read, nothing panics,
//! hangs or eats the machine, and the exit code is one of the three.

use std::collections::BTreeSet;
use std::process::Command;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use witnessmark::finding::show;
use witnessmark::language::Language;
use witnessmark::packet;
use witnessmark::plant::load;

use crate::plant::{Plant, Run, copy_folder, files_of, root};

const LARGE: &str = "recipes/large-pouch.yaml";
const MACHINE: &str = "machines/line-1.yaml";
const JOB: &str = "jobs/J-1.yaml";
const THIRD: &str = "recipes/third.yaml";
const PREPARE: &str = "instructions/prepare.md";

/// Text that means something to a browser, a template engine, a terminal or a reader of lines.
fn evil() -> String {
    let long = "W".repeat(300);
    format!(
        "<script>alert(1)</script>\"><img src=x onerror=alert(1)>' onload='x' {{{{ 7*7 }}}} \
         {{% raw %}}{{{{ strip }}}}{{% endraw %}} </style></title><!-- ]]> &lt;b&gt; \u{202e}gnp.exe \
         🦺 Z\u{335}\u{322}\u{349}a\u{301} \u{7} {long}"
    )
}

/// Keys whose values are free text.
const TEXTS: [&str; 34] = [
    "name",
    "kind",
    "location",
    "datum",
    "guard",
    "interlock",
    "stop_position",
    "control",
    "inspector",
    "enforced_by",
    "dc",
    "part",
    "gloves",
    "device",
    "place",
    "safe",
    "lock",
    "stored",
    "relieve",
    "prove",
    "author",
    "reason",
    "source",
    "order",
    "shift",
    "note",
    "hazard",
    "consequence",
    "avoid",
    "item",
    "title",
    "technician",
    "lead",
    "quality",
];

/// Puts the text into every free text of a YAML file.
fn poisoned(yaml: &str, text: &str) -> String {
    fn poison(value: &mut serde_yaml::Value, text: &str) {
        match value {
            serde_yaml::Value::Mapping(map) => {
                for (key, value) in map {
                    let key = key.as_str().unwrap_or_default();
                    let fixed = key == "kind" && value.as_str().is_some_and(|v| !v.contains(' '));
                    // A text in several languages is a text.
                    let is_text = value.is_string() || value.get("en").is_some();
                    match value {
                        words if is_text && TEXTS.contains(&key) && !fixed => {
                            *words = serde_yaml::Value::String(text.to_owned());
                        }
                        other => poison(other, text),
                    }
                }
            }
            serde_yaml::Value::Sequence(list) => list.iter_mut().for_each(|v| poison(v, text)),
            _ => {}
        }
    }
    let mut value: serde_yaml::Value = serde_yaml::from_str(yaml).unwrap();
    poison(&mut value, text);
    serde_yaml::to_string(&value).unwrap()
}

/// The small plant with that text wherever text may stand.
fn poisoned_plant() -> Plant {
    let plant = Plant::small();
    let mut text = evil();
    for (file, bytes) in files_of(&plant.folder()) {
        if !file.ends_with(".yaml") {
            continue;
        }
        plant.write(&file, poisoned(std::str::from_utf8(&bytes).unwrap(), &text));
    }
    let facts = plant.read("plant.yaml");
    plant.write(
        "plant.yaml",
        poisoned(&format!("{facts}languages: [en, es, de]\nnote: x\n"), &text),
    );
    let line = plant.read(MACHINE).replace("    sources: [", "    interlock: x\n    sources: [");
    let line = line.replace("    conductors: [", "    dc: x\n    conductors: [");
    let inching = "inching: { sources: [air], control: x, held: hold-to-run, most: 1 m/min }\n";
    plant.write(MACHINE, poisoned(&format!("{line}stop_position: x\n{inching}"), &text));
    let large =
        plant.read(LARGE) + "parts: [{ item: x, place: x }]\nmaterial: [{ item: x, place: x }]\n";
    plant.write(LARGE, poisoned(&large, &text));
    let hazards = std::fs::read_to_string(root().join("instructions/hazards.yaml")).unwrap();
    plant.write("hazards.yaml", poisoned(&hazards, &text));
    // Procedures know double braces: there they are left out.
    for braces in ["{{ 7*7 }}", "{{ strip }}", "{% raw %}", "{% endraw %}"] {
        text = text.replace(braces, "");
    }
    // A comment of HTML would reach to the end of the step, as it does in any Markdown.
    text = text.replace("<!--", "<!-");
    let list = serde_json::to_string(&[&text, "{{ job.order }}"]).unwrap();
    let word = serde_json::to_string(&text).unwrap();
    plant.write(
        PREPARE,
        format!(
            "---\nid: prepare\ntitle: {word}\nrevision: {word}\ndate: 2026-01-05\nauthor: {word}\n\
             reason: {word}\nstandards: {list}\n---\n{text}\n\n## Go {text}\n\
             {text}\n\nThe order is {{{{ job.order }}}}, on {{{{ machine.name }}}}.\n\n{LINKS}\n\n\
             ```step\nhazards: [unexpected-start]\ntools: {list}\nchecks: {list}\noutside: {word}\n\
             reading: {{ name: {word}, unit: N, low: 1, high: 2 }}\n\
             sign: {{ performed: technician }}\n```\n"
        ),
    );
    plant
}

/// Links that must not be links.
const LINKS: &str = "\
[a](javascript:alert(1)) [b](JaVaScRiPt:alert(1)) [c](data:text/html,x) [d](vbscript:x) \
[e](file:///etc/passwd) [f](//elsewhere.example/x) <javascript:alert(1)> [g][h] ![i](x.png) \
[j](java&#10;script:alert(1))

[h]: javascript:alert(2)

<iframe src=\"//elsewhere.example\"></iframe>

<svg onload=alert(1)>";

/// Every tag of a page with the names of its attributes, as a browser would see them.
fn tags(page: &str) -> BTreeSet<(String, String)> {
    let mut found = BTreeSet::new();
    let mut rest = page;
    while let Some(at) = rest.find('<') {
        rest = &rest[at + 1..];
        let name: String = rest.chars().take_while(|c| !c.is_whitespace() && *c != '>').collect();
        let end = rest.find('>').unwrap_or(rest.len());
        let mut inside = &rest[name.len().min(end)..end];
        // Values in quotes hold no tag of ours that closes early: quotes are escaped in texts.
        while let Some((attribute, value)) = inside.split_once("=\"") {
            found.insert((name.clone(), attribute.trim().to_owned()));
            inside = value.split_once('"').map_or("", |(_, rest)| rest);
        }
        found.insert((name, inside.trim().to_owned()));
    }
    found
}

#[test]
fn text_from_data_is_shown_as_text_on_every_page() {
    let clean = Plant::demo();
    let small = Plant::small();
    assert!(clean.run(&["publish", "PLANT", "--out", "site"]).code < 2);
    small.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    let mut known = BTreeSet::new();
    for (file, bytes) in
        files_of(&clean.beside("site")).into_iter().chain(files_of(&small.beside("site")))
    {
        if file.ends_with(".html") {
            known.extend(tags(std::str::from_utf8(&bytes).unwrap()));
        }
    }
    let plant = poisoned_plant();
    // The site is made; all that is found is that every instrument has the same name.
    let run = plant.run(&["publish", "PLANT", "--out", "site"]).ends(1).says("warning[same-name]");
    assert!(!run.stdout.contains("error["), "{}", run.stdout);
    let files = files_of(&plant.beside("site"));
    for (file, bytes) in files.iter().filter(|(file, _)| file.ends_with(".html")) {
        let page = std::str::from_utf8(bytes).unwrap();
        let strange: Vec<_> = tags(page).difference(&known).cloned().collect();
        assert!(strange.is_empty(), "{file}: {strange:?}");
        assert!(page.contains("http-equiv=\"Content-Security-Policy\""), "{file}");
        for scheme in ["javascript:", "data:", "vbscript:", "file:", "//"] {
            assert!(!page.to_lowercase().contains(&format!("href=\"{scheme}")), "{file}: {scheme}");
        }
    }
    let packet = std::str::from_utf8(&files["packets/J-1.html"]).unwrap();
    for shown in ["{{ 7*7 }}", "{{ strip }}", "{% raw %}", "&lt;script&gt;alert(1)", "🦺"] {
        assert!(packet.contains(shown), "{shown}");
    }
    assert!(
        packet.contains("<p>a b c d e f javascript:alert(1) g i j</p>"),
        "links are their words"
    );
    // The same in the single file, and nothing of it plays with the terminal.
    plant.run(&["packet", "PLANT", "J-1", "--out", "one.html"]).ends(0);
    let one = std::fs::read_to_string(plant.beside("one.html")).unwrap();
    assert!(tags(&one).is_subset(&known));
    for words in
        [&["derive", "PLANT", "J-1"][..], &["check", "PLANT"], &["signoff", "PLANT", "J-1"]]
    {
        let said = plant.run(words).stdout;
        assert!(!said.contains(['\u{7}', '\u{202e}']), "{said}");
    }
}

/// The program with bounds on its time and its memory.
fn bounded(plant: &Plant, words: &[&str]) -> Run {
    let inner = plant.command(words);
    let mut command = Command::new("sh");
    command.args(["-c", "ulimit -v 3000000; exec timeout 20 \"$0\" \"$@\""]);
    command.arg(inner.get_program()).args(inner.get_args());
    command.current_dir(inner.get_current_dir().unwrap());
    Run::of(command)
}

/// Wants an exit code of `check` and a piece of what it says; every other command ends well too.
#[track_caller]
fn check(make: impl FnOnce(&Plant), code: i32, says: &str) {
    let plant = checked(make, code, says);
    for words in ["derive PLANT J-1", "publish PLANT --out s", "audit PLANT --json"] {
        let run = bounded(&plant, &words.split(' ').collect::<Vec<_>>());
        assert!((0..=2).contains(&run.code), "{words}: {} {}", run.code, run.stderr);
        assert!(!run.stdout.contains(SECRET) && !run.stderr.contains(SECRET), "{words}");
    }
    for (file, bytes) in files_of(&plant.beside("s")) {
        assert!(!String::from_utf8_lossy(&bytes).contains(SECRET), "{file}");
    }
}

#[track_caller]
fn checked(make: impl FnOnce(&Plant), code: i32, says: &str) -> Plant {
    let plant = Plant::small();
    make(&plant);
    let run = bounded(&plant, &["check", "PLANT"]);
    let said = format!("{}{}", run.stdout, run.stderr);
    let head: String = said.chars().take(2000).collect();
    assert!(run.code == code && said.contains(says), "{says}: {} {head}", run.code);
    assert!(!said.contains(SECRET), "{said}");
    plant
}

/// A file with these bytes.
fn written(file: &str, bytes: impl AsRef<[u8]>) -> impl FnOnce(&Plant) {
    move |plant| {
        plant.write(file, bytes);
    }
}

/// A file with other text in the place of some.
fn edited(file: &str, from: &str, to: &str) -> impl FnOnce(&Plant) {
    move |plant| {
        plant.edit(file, from, to);
    }
}

const SECRET: &str = "something-from-outside";

fn link(plant: &Plant, name: &str) {
    let path = plant.folder().join(name);
    let outside = plant.beside("outside");
    if path.is_dir() {
        copy_folder(&path, &outside);
        std::fs::remove_dir_all(&path).unwrap();
    } else {
        std::fs::write(&outside, format!("name: {SECRET}\n")).unwrap();
        let _ = std::fs::remove_file(&path);
    }
    std::fs::create_dir_all(path.parent().unwrap()).unwrap();
    std::os::unix::fs::symlink(outside, path).unwrap();
}

#[test]
fn links_are_not_followed() {
    for file in [
        "plant.yaml",
        "people.yaml",
        MACHINE,
        LARGE,
        JOB,
        PREPARE,
        "hazards.yaml",
        "allowed_signers",
    ] {
        check(|plant| link(plant, file), 1, "error[link-refused]");
    }
    for folder in ["machines", "recipes", "jobs"] {
        check(|plant| link(plant, folder), 1, "error[link-refused]");
    }
}

#[test]
fn records_that_are_links_are_not_followed() {
    for name in ["records", "records/J-1"] {
        let plant = Plant::small();
        let outside = plant.beside("outside/J-1");
        std::fs::create_dir_all(&outside).unwrap();
        std::fs::write(outside.join("packet.json"), SECRET).unwrap();
        std::fs::write(outside.join("000001.json"), SECRET).unwrap();
        let to = if name == "records" { outside.parent().unwrap().to_owned() } else { outside };
        std::fs::create_dir_all(plant.folder().join(name).parent().unwrap()).unwrap();
        std::os::unix::fs::symlink(to, plant.folder().join(name)).unwrap();
        for words in [
            "publish PLANT --out s",
            "audit PLANT",
            "packet PLANT J-1 --out a.html",
            "signoff PLANT J-1",
        ] {
            let run = bounded(&plant, &words.split(' ').collect::<Vec<_>>());
            let said = format!("{}{}", run.stdout, run.stderr);
            assert!((0..=2).contains(&run.code) && !said.contains(SECRET), "{words}: {said}");
        }
        for (file, bytes) in files_of(&plant.beside("s")) {
            assert!(!String::from_utf8_lossy(&bytes).contains(SECRET), "{name}: {file}");
        }
    }
}

#[test]
fn names_do_not_lead_out_of_their_folder() {
    check(edited(JOB, "id: J-1", "id: ../x"), 1, "error[id-is-not-file-name]");
    check(
        edited(JOB, "machine: line-1", "machine: ../machines/line-1"),
        1,
        "error[unknown-machine]",
    );
    check(edited(JOB, "to: large-pouch", "to: ../recipes/large-pouch"), 1, "error[unknown-recipe]");
    check(edited(MACHINE, "[prepare,", "[../../plant, ..,"), 1, "error[unknown-procedure]");
    check(written("instructions/...md", "x"), 0, "");
    check(written("instructions/a..b.md", "x"), 1, "error[no-front-matter]");
    check(written("recipes/-x.yaml", "id: -x"), 1, "error[missing-key]");
}

fn pipe(plant: &Plant, name: &str) {
    let path = plant.folder().join(name);
    let _ = std::fs::remove_file(&path);
    assert!(Command::new("mkfifo").arg(path).status().unwrap().success());
}

#[test]
fn what_is_no_file_is_not_opened() {
    check(|plant| pipe(plant, THIRD), 1, "error[link-refused]");
    check(|plant| pipe(plant, "allowed_signers"), 1, "error[link-refused]");
    check(|plant| pipe(plant, "plant.yaml"), 2, "is not a plant");
    check(
        |plant| std::fs::create_dir(plant.folder().join(THIRD)).unwrap(),
        1,
        "error[link-refused]",
    );
}

#[test]
fn bytes_that_are_no_text_are_refused() {
    check(written(THIRD, vec![b'#'; 3 << 20]), 1, "error[file-too-large]");
    check(written(PREPARE, b"---\n\xc3\x28"), 1, "error[not-utf8]");
    check(edited(LARGE, "Large", "La\0rge"), 1, "error[not-yaml]");
    check(written(PREPARE, "\0"), 1, "error[no-front-matter]");
    for file in ["plant.yaml", "people.yaml", MACHINE, LARGE, JOB, "hazards.yaml"] {
        check(written(file, ""), 1, "error[");
        check(written(file, "\n---\n---\n"), 1, "error[");
        check(written(file, "- 1\n"), 1, "error[wrong-shape]");
    }
    check(written(PREPARE, ""), 1, "error[no-front-matter]");
    check(written("allowed_signers", ""), 0, "nothing found");
}

#[test]
fn files_of_other_systems_are_read() {
    let plant = Plant::small();
    for (file, bytes) in files_of(&plant.folder()) {
        let text = String::from_utf8(bytes).unwrap().replace('\n', "\r\n");
        plant.write(&file, format!("\u{feff}{text}"));
    }
    let shipped = std::fs::read_to_string(root().join(PREPARE)).unwrap();
    plant.write(PREPARE, format!("\u{feff}{}", shipped.replace('\n', "\r\n")));
    plant.run(&["check", "PLANT"]).ends(0).says("nothing found");
    plant.edit(LARGE, "fin: 5 mm", "fin: 5 mmm");
    plant.run(&["check", "PLANT"]).ends(1).says("large-pouch.yaml:8:37");
}

#[test]
fn a_folder_that_is_no_plant_is_named() {
    let plant = Plant::small();
    std::fs::create_dir(plant.beside("empty")).unwrap();
    for folder in ["empty", "none", "plant/plant.yaml", "/"] {
        plant.run(&["check", folder]).ends(2).complains("is not a plant");
    }
}

/// Lists that name each other: the last one stands for ten to the twelfth words.
fn alias_bomb() -> String {
    let mut text = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n".to_owned();
    for n in 1..12 {
        let list = vec![format!("*a{}", n - 1); 10].join(", ");
        text += &format!("a{n}: &a{n} [{list}]\n");
    }
    text
}

/// One long list, named many times: no nesting, and yet more than a machine holds.
fn wide_alias_bomb(inside: &str) -> String {
    format!("a: &a [{}]\nb: [{}]\n", format!("{inside},").repeat(90_000), "*a,".repeat(90_000))
}

#[test]
fn yaml_that_grows_is_refused() {
    check(written(THIRD, alias_bomb()), 1, "error[not-yaml]");
    check(written(THIRD, wide_alias_bomb("x")), 1, "error[not-yaml]");
    let people = "people:\n- &p { id: a@b.example, name: n, roles: [".to_owned()
        + &"{ role: lead, from: 2026-01-01 },".repeat(9_000)
        + "] }\n"
        + &"- *p\n".repeat(90_000);
    check(written("people.yaml", people), 1, "error[not-yaml]");
}

#[test]
fn deep_nesting_is_refused() {
    for depth in [2_000, 400_000] {
        for (open, close) in [("[", "]"), ("{a: ", "}"), ("- ", "")] {
            let depth = depth / open.len();
            let text = format!("a:\n  {}x{}\n", open.repeat(depth), close.repeat(depth));
            checked(written(THIRD, text), 1, "error[not-yaml]");
        }
    }
    let parentheses = format!("{}1{}", "(".repeat(2_000), ")".repeat(2_000));
    let formula = |text: String| {
        move |plant: &Plant| {
            plant.edit(LARGE, "lanes * strip + 2 * trim", &text);
        }
    };
    checked(formula(parentheses), 1, "error[bad-formula]");
    checked(formula("-".repeat(1_900) + "1"), 1, "error[bad-formula]");
    checked(formula("9".repeat(1_900)), 1, "error[bad-formula]");
    checked(formula(vec!["99999999"; 200].join(" * ")), 1, "error[bad-formula]");
    checked(formula("1 / (lanes - 4)".to_owned()), 1, "error[bad-formula]");
    checked(formula("round(1 mm, 0 mm)".to_owned()), 1, "error[bad-formula]");
    for lanes in ["1000000000", "10001", "999999999999999999999999999999", "-1", "0.5", "1/3"] {
        let lanes = format!("lanes: {lanes},");
        checked(edited(LARGE, "lanes: 4,", &lanes), 1, "error[");
    }
    let quotes = "> ".repeat(200_000);
    let text = format!(
        "---\nid: third\ntitle: T\nrevision: 1\ndate: 2026-01-05\nauthor: A\nreason: R\n---\n{quotes}\n"
    );
    checked(written("instructions/third.md", text), 1, "error[no-steps]");
}

/// A large file that is wrong in every line: none of the work may grow with its square.
#[test]
fn very_many_faults_are_told_in_bounded_time() {
    let lines = |make: &dyn Fn(usize) -> String| {
        let mut text = String::new();
        let mut number = 0;
        while text.len() < 250_000 {
            text += &make(number);
            number += 1;
        }
        text
    };
    let recipe = Plant::small().read(LARGE).replace("id: large-pouch", "id: third");
    let inputs = lines(&|n| format!("  a{n}: 1 mmm\n"));
    let inputs = recipe.replace("inputs: { ", "inputs:\n").replace(
        "flat_width: 40 mm, fin: 5 mm, lanes: 4, trim: 10 mm }\n",
        &format!("  flat_width: 40 mm\n  fin: 5 mm\n  lanes: 4\n  trim: 10 mm\n{inputs}"),
    );
    checked(written(THIRD, inputs), 1, "error[bad-quantity]");
    let settings = lines(&|n| format!("  s{n}: {{ name: n, formula: zz{n} }}\n"));
    let settings = recipe.replace("layouts:\n", &format!("{settings}layouts:\n"));
    checked(written(THIRD, settings), 1, "error[bad-formula]");
    let people =
        "people:\n".to_owned() + &lines(&|_| "- { id: a, name: n, roles: [] }\n".to_owned());
    checked(written("people.yaml", people), 1, "error[person-twice]");
    let unknown = recipe.clone() + &lines(&|n| format!("k{n}: 1\n"));
    checked(written(THIRD, unknown), 1, "error[unknown-key]");
    let head =
        "---\nid: third\ntitle: T\nrevision: 1\ndate: 2026-01-05\nauthor: A\nreason: R\n---\n";
    let steps = head.to_owned() + &lines(&|_| "## A\n```step\n```\n".to_owned());
    checked(written("instructions/third.md", steps), 1, "error[heading-twice]");
    let steps =
        head.to_owned() + &lines(&|n| format!("## A {n}\n{{{{ 1 }}}}\n```step\nx: 1\n```\n"));
    checked(written("instructions/third.md", steps), 1, "error[bad-braces]");
    let signers = lines(&|_| "nobody\n".to_owned());
    checked(written("allowed_signers", signers), 1, "there are more: mend these first");
    let machines = format!("machines: [{}]", lines(&|n| format!("m{n}, ")));
    let machines = recipe.replace("machines: [line-1]", &machines);
    checked(written(THIRD, machines), 1, "error[unknown-machine]");
}

/// One change of a file: bytes taken out at a place, others put in.
type Change = (prop::sample::Index, prop::sample::Index, usize, Vec<u8>);

fn change() -> impl Strategy<Value = Change> {
    let pieces = prop::sample::select(vec![
        "",
        "\n",
        "  ",
        "- ",
        ": ",
        "{",
        "}",
        "[",
        "]",
        "\"",
        "'",
        "&a ",
        "*a",
        "!!int ",
        "|\n",
        "#",
        "{{",
        "}}",
        "{{ strip }}",
        "```",
        "```step\n",
        "## ",
        "---\n",
        "0",
        "-1",
        "1/0",
        "1e9",
        "mm",
        "±",
        "°C",
        "9999999999999999999999",
        "\u{feff}",
        "\u{202e}",
        "é",
        "null",
        "~",
        "true",
    ]);
    let bytes = prop_oneof![
        4 => pieces.prop_map(|piece| piece.as_bytes().to_vec()),
        1 => prop::collection::vec(any::<u8>(), 0..6),
    ];
    (any::<prop::sample::Index>(), any::<prop::sample::Index>(), 0..24_usize, bytes)
}

/// Everything the program does with a plant before it prints, as one call.
fn all_of_it(plant: &Plant) {
    let Ok(reading) = load::load(&plant.folder()) else { return };
    let mut findings = reading.findings.clone();
    if let Some(whole) = &reading.plant {
        let prepared = packet::prepare(&mut findings, whole);
        for job in whole.jobs.keys() {
            let packet = packet::assemble(&mut findings, &prepared, job);
            if let Some(packet) = packet {
                packet::digest(&packet).unwrap();
            }
        }
    }
    let shown = show::text(&findings, &reading.texts, Language::English);
    assert_eq!(shown.is_empty(), findings.is_empty());
    assert!(
        show::located(&findings, &reading.texts, Language::English).len()
            <= findings.iter().count()
    );
}

#[test]
fn no_change_of_a_plant_makes_it_panic() {
    let clean = Plant::small();
    for procedure in ["prepare", "lockout", "knives", "first-piece"] {
        let name = format!("instructions/{procedure}.md");
        clean.write(&name, std::fs::read(root().join(&name)).unwrap());
    }
    let files: Vec<_> = files_of(&clean.folder()).into_iter().collect();
    let config = Config { cases: 256, failure_persistence: None, ..Config::default() };
    let chance = TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]);
    let mut runner = TestRunner::new_with_rng(config, chance);
    runner
        .run(&prop::collection::vec(change(), 1..4), |changes| {
            let mut changed = BTreeSet::new();
            for (file, at, length, bytes) in &changes {
                let (name, old) = &files[file.index(files.len())];
                let mut new = match changed.contains(name) {
                    true => std::fs::read(clean.folder().join(name)).unwrap(),
                    false => old.clone(),
                };
                let at = at.index(new.len() + 1);
                let end = (at + length).min(new.len());
                new.splice(at..end, bytes.iter().copied());
                clean.write(name, new);
                changed.insert(name);
            }
            all_of_it(&clean);
            for (name, old) in files.iter().filter(|(name, _)| changed.contains(name)) {
                clean.write(name, old);
            }
            Ok(())
        })
        .unwrap();
}

#[test]
fn no_bytes_make_it_panic() {
    let plant = Plant::small();
    let config = Config { cases: 256, failure_persistence: None, ..Config::default() };
    let chance = TestRng::from_seed(RngAlgorithm::ChaCha, &[11; 32]);
    let mut runner = TestRunner::new_with_rng(config, chance);
    let bytes = prop::collection::vec(any::<u8>(), 0..200);
    let text = prop::collection::vec("[a-z0-9:\\[\\]{}#&*!|>'\"%@` \n-]{0,40}", 0..8)
        .prop_map(|lines| lines.join("\n").into_bytes());
    let strategy = (prop_oneof![bytes, text], 0..4_usize);
    runner
        .run(&strategy, |(bytes, which)| {
            let file =
                [THIRD, "machines/m.yaml", "instructions/third.md", "allowed_signers"][which];
            let head: &[u8] = if which == 2 { b"---\nid: third\n---\n" } else { b"" };
            plant.write(file, [head, &bytes].concat());
            all_of_it(&plant);
            std::fs::remove_file(plant.folder().join(file)).unwrap();
            Ok(())
        })
        .unwrap();
}
