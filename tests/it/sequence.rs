//! The order of tonight's jobs on a machine, on a plant whose minutes can be added up by hand.
//!
//! Every changeover of the small plant stops the line for [`ALWAYS`] minutes. Moving the knives takes 24
//! more (18 to move, 6 to tighten), heating the jaws to another temperature 30 more.

use crate::plant::Plant;

const MACHINE: &str = "machines/line-1.yaml";
const SMALL: &str = "recipes/small-pouch.yaml";
const LARGE: &str = "recipes/large-pouch.yaml";

/// Lockout 4 + 6 + 6, stored energy 12 + 3 + 10 + 2, knives that stay 4 + 3 + 12 + 2, release 5 + 3 + 4
/// + 2 + 6, first pieces 5 + 12 + 6 + 8, putting away and handing over 8 + 6.
const ALWAYS: u32 = 16 + 27 + 21 + 20 + 31 + 14;

const HEAT: &str = "---
id: heat
title: Heat the jaws
revision: 1
date: 2026-01-05
author: Technician One
reason: First issue
---
## Set the jaw temperature
Set the jaw temperature to {{ jaw_heat }} at the panel.
```step
when: { changes: [jaw_heat] }
sign: { performed: technician }
minutes: 30
```
";

/// A plant with four products: small and large pouches, each warm and hot; the large warm one is on the
/// machine. Four jobs of one shift, planned so that nearly everything changes every time.
fn night() -> Plant {
    let plant = Plant::small();
    plant.write("instructions/heat.md", HEAT);
    plant.edit(MACHINE, "knives, release-from-lockout", "knives, heat, release-from-lockout");
    for (file, id) in [(SMALL, "small"), (LARGE, "large")] {
        let setting =
            "settings:\n  jaw_heat: { name: Jaw temperature, formula: 140 °C, unit: °C }\n";
        plant.edit(file, "settings:\n", setting);
        let hot = plant
            .read(file)
            .replace("140 °C", "160 °C")
            .replace(&format!("id: {id}-pouch"), &format!("id: {id}-hot"));
        plant.write(&format!("recipes/{id}-hot.yaml"), hot);
    }
    plant.remove("jobs/J-1.yaml");
    let jobs = [
        ("J-1", "large-pouch", "small-pouch"),
        ("J-2", "small-pouch", "large-hot"),
        ("J-3", "large-hot", "small-hot"),
        ("J-4", "small-hot", "large-pouch"),
    ];
    for (minute, (id, from, to)) in (10..).zip(jobs) {
        job(&plant, id, from, to, minute);
    }
    plant
}

fn job(plant: &Plant, id: &str, from: &str, to: &str, minute: u32) {
    let text = format!(
        "id: {id}\nmachine: line-1\nfrom: {from}\nto: {to}\norder: An order\ndate: 2026-01-12\n\
         shift: early\nissued: 2026-01-09T14:{minute}:00+01:00\nissued_by: l.two@plant.example\n"
    );
    plant.write(&format!("jobs/{id}.yaml"), text);
}

/// What the page says of the order, without its marks.
fn said(plant: &Plant) -> String {
    plant.run(&["shift", "PLANT", "2026-01-12", "early", "--out", "shift.html"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("shift.html")).unwrap();
    let start = page.find("id=\"order\"").map_or(page.len(), |at| at - 4);
    let end = page.find("id=\"kit\"").unwrap().max(start);
    let mut words = String::new();
    let mut is_mark = false;
    for letter in page[start..end].chars() {
        match letter {
            '<' => (is_mark, words) = (true, words + " "),
            '>' => is_mark = false,
            _ if !is_mark => words.push(letter),
            _ => {}
        }
    }
    let words = words.replace("&ndash;", "\u{2013}").replace("&#39;", "'");
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[track_caller]
fn check(plant: &Plant, pieces: &[&str]) {
    let said = said(plant);
    for piece in pieces {
        assert!(said.contains(piece), "`{piece}` is not in:\n{said}");
    }
}

/// Minutes of stop of both orders, and the difference.
fn stops(planned: u32, advised: u32) -> String {
    let less = planned - advised;
    format!("Minutes of stop {} {} \u{2212}{less}", 4 * ALWAYS + planned, 4 * ALWAYS + advised)
}

#[test]
fn the_order_with_the_least_stop_is_advised_and_nothing_is_changed() {
    let plant = night();
    let before = plant.read("jobs/J-2.yaml");
    check(
        &plant,
        &[
            "Advised order: J-4, J-1, J-3, J-2. Proven: no order is better.",
            // Planned 24 + 54 + 24 + 54, advised 0 + 24 + 30 + 24.
            &stops(156, 78),
            // From what is on the machine, then from each job.
            &format!("Large pouch, 40 mm {} {} {} {ALWAYS}", ALWAYS + 24, ALWAYS + 30, ALWAYS + 54),
            &format!("J-3 {} {} \u{2013} {}", ALWAYS + 30, ALWAYS + 24, ALWAYS + 54),
            "In the file of J-4 write “from: large-pouch”.",
            "In the file of J-3 write “from: small-pouch”.",
            "In the file of J-2 write “from: small-hot”.",
            "has no “starts”: times of day are not shown",
        ],
    );
    assert!(!said(&plant).contains("In the file of J-1"), "J-1 begins with large-pouch in both");
    assert_eq!(plant.read("jobs/J-2.yaml"), before);
}

#[test]
fn who_follows_the_advice_is_told_that_no_better_order_was_found() {
    let plant = night();
    for (id, from, to, minute) in [
        ("J-4", "large-pouch", "large-pouch", 20),
        ("J-1", "large-pouch", "small-pouch", 21),
        ("J-3", "small-pouch", "small-hot", 22),
        ("J-2", "small-hot", "large-hot", 23),
    ] {
        job(&plant, id, from, to, minute);
    }
    plant.run(&["check", "PLANT"]).ends(0);
    check(&plant, &["No better order than the planned one was found. Proven: no order is better."]);
}

/// Each job starts so many minutes after six.
fn timed(plant: &Plant) {
    for (id, starts) in [("J-1", "06:00"), ("J-2", "09:00"), ("J-3", "12:00"), ("J-4", "13:50")] {
        let file = format!("jobs/{id}.yaml");
        let text = plant.read(&file) + &format!("starts: \"{starts}\"\npieces: 10 000\n");
        plant.write(&file, text);
    }
    for recipe in ["small-pouch", "large-pouch", "small-hot", "large-hot"] {
        let file = format!("recipes/{recipe}.yaml");
        plant.edit(&file, "machines: [line-1]", "machines: [line-1]\npieces_per_hour: 30000");
    }
}

#[test]
fn a_due_time_is_kept_when_an_order_keeps_it() {
    let plant = night();
    timed(&plant);
    // Large to large hot takes 159 minutes, 10,000 pieces 20: done at 08:59.
    let due = plant.read("jobs/J-2.yaml") + "due: 2026-01-12T08:59\n";
    plant.write("jobs/J-2.yaml", due);
    check(
        &plant,
        &[
            // 30 + 24 + 30 + 24 on top of what is always done.
            "Advised order: J-2, J-3, J-1, J-4. Proven: no order is better.",
            &stops(156, 108),
            // 153 + 20 + 183 + 20 minutes are done at 12:16.
            "Minutes late, of all jobs 197 0 \u{2212}197",
            "J-2 Large pouch, 40 mm 183 08:53 12:16 197 min late",
            "J-2 Large pouch, 40 mm 159 06:00 08:59 J-3",
            // From J-2 to J-3 in both, with four holders that move and two settings.
            "Small pouch, 23 mm J-3 both orders 153 4 2",
        ],
    );
    // One minute less, and no order keeps it: that job is late by as little as can be.
    plant.edit("jobs/J-2.yaml", "T08:59", "T08:58");
    check(&plant, &["Advised order: J-2, J-3, J-1, J-4.", "08:59 1 min late"]);
}

#[test]
fn allergens_come_last_where_the_plant_wants_it() {
    let plant = night();
    for recipe in ["small-pouch", "small-hot"] {
        let file = format!("recipes/{recipe}.yaml");
        plant.edit(&file, "machines: [line-1]", "machines: [line-1]\nallergens: [mustard]");
    }
    check(&plant, &["Advised order: J-4, J-1, J-3, J-2.", "mustard"]);
    plant.write("plant.yaml", plant.read("plant.yaml") + "allergens_last: true\n");
    check(
        &plant,
        &[
            // 0 + 30 + 24 + 30, without a way back from mustard.
            "Advised order: J-4, J-2, J-3, J-1. Proven: no order is better.",
            "Changeovers from a product with an allergen to one without it 2 0 \u{2212}2",
            &stops(156, 84),
        ],
    );
}

/// Clears the line and brings material in, but nobody cleans: an allergen cannot be left behind.
const SUPPLY: &str = "
## Clear the line
Take the old product off the line.
```step
marks: [line-cleared]
checks: [Nothing is left]
sign: { performed: technician, verified: lead }
minutes: 5
```

## Bring the material
Bring the material to the line.
```step
marks: [material-in]
sign: { performed: technician }
minutes: 5
```
";

#[test]
fn a_changeover_with_an_error_is_in_no_order() {
    let plant = night();
    plant.write("instructions/heat.md", HEAT.to_owned() + SUPPLY);
    plant.edit(SMALL, "machines: [line-1]", "machines: [line-1]\nallergens: [mustard]");
    for id in ["J-3", "J-4"] {
        plant.remove(&format!("jobs/{id}.yaml"));
    }
    job(&plant, "J-1", "large-pouch", "large-hot", 10);
    job(&plant, "J-2", "large-hot", "small-pouch", 11);
    check(
        &plant,
        &[
            "No better order than the planned one was found. Proven: no order is better.",
            "J-2 to J-1 cannot be made: `Bring the material` brings material in before the old \
             product's mustard is cleaned out",
        ],
    );
}

#[test]
fn names_are_words_and_never_marks() {
    let plant = night();
    plant.edit(SMALL, "name: Small pouch, 23 mm", "name: \"<b>Small</b> & {{ x }}\"");
    plant.run(&["shift", "PLANT", "2026-01-12", "early", "--out", "shift.html"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("shift.html")).unwrap();
    assert!(page.contains("&lt;b&gt;Small&lt;/b&gt; &amp; {{ x }}") && !page.contains("<b>Small"));
}
