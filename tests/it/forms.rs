//! The compact forms of each packet: what they must hold, compared with the packet itself, never with
//! what a page was made from.

use std::collections::{BTreeMap, BTreeSet};

use witnessmark::finding::Findings;
use witnessmark::packet;
use witnessmark::packet::model::{Change, Packet, Signal, Stage, Step};
use witnessmark::page::words;
use witnessmark::plant::load;

use crate::plant::Plant;

/// The packets of a plant without records.
fn packets(plant: &Plant) -> BTreeMap<String, Packet> {
    let reading = load::load(&plant.folder()).unwrap();
    let whole = reading.plant.unwrap();
    let mut findings = Findings::default();
    let prepared = packet::prepare(&mut findings, &whole);
    let made = |job: &String| packet::assemble(&mut findings, &prepared, job);
    let packets = whole.jobs.keys().cloned().zip(whole.jobs.keys().filter_map(made));
    // The words that are looked for are English.
    packets.filter(|(_, packet)| packet.language.is_english()).collect()
}

/// The plants of the tests, each without records, so that every packet is today's.
fn plants() -> [Plant; 3] {
    let plants = [Plant::demo(), Plant::library(), Plant::small()];
    for plant in &plants {
        let _ = std::fs::remove_dir_all(plant.folder().join("records"));
    }
    plants
}

/// Every packet with its page of one form.
fn each(form: &str, check: impl Fn(&Packet, &str)) {
    let mut checked = 0;
    for plant in plants() {
        for (job, packet) in packets(&plant) {
            let words = ["packet", "PLANT", &job, "--form", form, "--out", "form.html"];
            plant.run(&words).ends(0);
            check(&packet, &std::fs::read_to_string(plant.beside("form.html")).unwrap());
            checked += 1;
        }
    }
    assert!(checked > 8, "{checked}");
}

/// What a reader sees of a piece of a page: no tags, no entities, plain blanks and minus signs.
fn seen(html: &str) -> String {
    let mut text = String::new();
    let body = html.split_once("</style>").map_or(html, |(_, body)| body);
    let mut pieces = body.split('<');
    text += pieces.next().unwrap_or_default();
    for piece in pieces {
        text.push(' ');
        text += piece.split_once('>').map_or("", |(_, after)| after);
    }
    plain(&text)
}

fn plain(text: &str) -> String {
    let mut text = text.replace(['\u{a0}', '\n'], " ").replace('\u{2212}', "-");
    for (entity, letter) in [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&#39;", "'"),
        ("&#x27;", "'"),
        ("&ndash;", "–"),
        ("&amp;", "&"),
    ] {
        text = text.replace(entity, letter);
    }
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Wants texts to stand one after the other.
#[track_caller]
fn in_order<'a>(page: &str, texts: impl IntoIterator<Item = &'a str>) {
    let mut rest = page;
    for text in texts.into_iter().map(plain).filter(|text| !text.is_empty()) {
        match rest.split_once(&text) {
            Some((_, after)) => rest = after,
            None => panic!("`{text}` is missing, or out of order, in:\n{rest}"),
        }
    }
}

/// What each form says of its packet, and that it is not the instruction.
fn check_head(packet: &Packet, page: &str) {
    let digest = packet::digest(packet).unwrap();
    let text = seen(page);
    let head = [&packet.job.id, &packet.from.name, &packet.to.name, &packet.machine.name];
    in_order(&text, head.map(String::as_str));
    let day = words::date(packet.language, &packet.job.date);
    for piece in [&packet.job.order, &day, &digest] {
        assert!(text.contains(&plain(piece)), "{piece}");
    }
    for piece in
        ["Local codes, the machine maker's manual", "the full instruction", "nothing signed"]
    {
        assert!(text.contains(piece), "{piece}");
    }
    assert!(page.contains("class=\"qr\"") && !page.contains("<script") && !page.contains(" src="));
    assert!(page.contains(&format!("content: \"Packet {}\"", &digest[..16])));
    assert!(page.contains("\" counter(page) \"") && page.contains("\" counter(pages) \""));
}

/// Signal words of some steps.
fn signals(packet: &Packet, steps: &[&Step]) -> Vec<Signal> {
    let named = |id: &String| packet.hazards.iter().find(|hazard| hazard.id == *id);
    steps
        .iter()
        .flat_map(|step| &step.hazards)
        .filter_map(named)
        .map(|found| found.signal)
        .collect()
}

#[test]
fn the_checklist_has_every_step_with_the_energy_and_the_hazards_of_its_group() {
    each("checklist", |packet, page| {
        check_head(packet, page);
        let steps: Vec<&Step> = packet.steps.iter().collect();
        let groups: Vec<&[&Step]> = steps.chunk_by(|a, b| a.procedure == b.procedure).collect();
        let (page, rest) = page.split_once("<h3 id=\"considered\">").unwrap_or((page, ""));
        let shown: Vec<&str> = page.split("<section class=\"group\">").skip(1).collect();
        assert_eq!(groups.len(), shown.len());
        for one in &packet.considered {
            assert!(rest.contains(&one.why), "{}", one.why);
        }
        for (steps, shown) in groups.into_iter().zip(shown) {
            check_group(packet, steps, shown);
        }
    });
}

fn check_group(packet: &Packet, steps: &[&Step], shown: &str) {
    let text = seen(shown);
    let lines = steps.iter().map(|step| format!("{} {}", step.number, step.title));
    in_order(&text, lines.collect::<Vec<_>>().iter().map(String::as_str));
    let signals = signals(packet, steps);
    for signal in [Signal::Danger, Signal::Warning, Signal::Caution, Signal::Notice] {
        assert_eq!(text.contains(signal.word()), signals.contains(&signal), "{text}");
    }
    for hazard in steps.iter().flat_map(|step| &step.hazards) {
        let hazard = packet.hazards.iter().find(|one| one.id == *hazard).unwrap();
        assert!(text.contains(&plain(hazard.hazard.trim_end_matches('.'))), "{}", hazard.id);
    }
    let done = steps.iter().filter(|step| step.stays.is_none());
    let readings = done.clone().map(|step| step.readings.len()).sum::<usize>();
    assert_eq!(shown.matches("class=\"box\"").count(), readings, "{text}");
    let ticks = shown.matches("<li").count() - shown.matches("<li class=\"not-done\"").count();
    assert_eq!(ticks, done.clone().count(), "{text}");
    for limit in
        done.flat_map(|step| &step.readings).flat_map(|one| [&one.low, &one.high]).flatten()
    {
        assert!(text.contains(&plain(limit)), "{limit}");
    }
    // A step that proves zero says after which number its sources are there, one that frees them until
    // which.
    for step in steps.iter().filter(|step| step.stays.is_none() && !step.sources.is_empty()) {
        let said = match step.stage {
            Stage::Verify => format!("after step {}", step.number),
            Stage::Unlock => format!("until step {}", step.number),
            _ => continue,
        };
        // Proved again by a new crew, they were there already.
        let again = step.stage == Stage::Verify && text.contains("At zero: ");
        assert!(again || text.contains(&said), "{said}: {text}");
    }
    if steps.iter().all(|step| step.needs == packet::model::EnergyState::Isolated) {
        assert!(text.contains("Isolated, locked and verified. At zero: "), "{text}");
    }
}

#[test]
fn the_kit_list_has_every_thing_with_its_place_or_its_date() {
    each("kit", |packet, page| {
        check_head(packet, page);
        let text = seen(page);
        for item in &packet.kit {
            for said in [&item.item, &item.detail, &item.place] {
                assert!(text.contains(&plain(said)), "{said}");
            }
        }
        let things = packet.kit.iter().map(|item| (&item.group, &item.item, &item.place));
        let things: BTreeSet<_> = things.collect();
        // What is at the machine is named, and nobody fetches it.
        let fetched = packet.kit.iter().filter(|item| !item.is_here);
        let fetched: BTreeSet<_> =
            fetched.map(|item| (&item.group, &item.item, &item.place)).collect();
        assert!(fetched.len() < things.len() || packet.kit.iter().all(|item| !item.is_here));
        assert_eq!(page.matches("class=\"tick\"").count(), fetched.len());
        // What lies at one place stands together: each place is a heading once.
        for place in things.iter().map(|(_, _, place)| *place).filter(|place| !place.is_empty()) {
            let is_head = format!("<h2>{} <span", plain(place).replace('&', "&amp;"));
            assert!(page.matches(&is_head).count() <= 1, "{place}");
        }
    });
}

#[test]
fn the_lockout_sheet_has_every_source_and_every_step_of_lockout_and_release() {
    each("lockout", |packet, page| {
        check_head(packet, page);
        let text = seen(page);
        for source in &packet.energy {
            let pieces = [
                &source.name,
                &source.kind,
                &source.magnitude,
                &source.device,
                &source.place,
                &source.safe,
                &source.lock,
                &source.stored,
                &source.relieve,
                &source.wait,
                &source.prove,
                &source.zero,
            ];
            in_order(&text, pieces.map(String::as_str));
        }
        let steps = packet.steps.iter().filter(|step| step.is_lockout() || step.block.is_some());
        let mut last = 0;
        for step in steps {
            let at = page.find(&format!("id=\"step-{}\"", step.number));
            let at = match &step.stays {
                None => at.unwrap_or_else(|| panic!("step {}", step.number)),
                Some(_) => page.find(&format!(">{}</span>", step.number)).unwrap(),
            };
            assert!(at > last, "step {} stands in its order", step.number);
            last = at;
            check_step(packet, step, &page[at..]);
        }
    });
}

fn check_step(packet: &Packet, step: &Step, page: &str) {
    let shown = page.split_once("</section>\n<section class=\"step").map_or(page, |(own, _)| own);
    let shown = shown.split("<h2>").next().unwrap();
    if step.stays.is_some() {
        return;
    }
    let text = seen(shown);
    // In full, or shortened where its procedure has said it in full.
    let messages = ["<div class=\"hazard ", "<p class=\"brief "];
    let messages: usize = messages.iter().map(|message| shown.matches(message).count()).sum();
    assert_eq!(messages, step.hazards.len(), "{text}");
    for hazard in &step.hazards {
        let hazard = packet.hazards.iter().find(|one| one.id == *hazard).unwrap();
        for piece in [hazard.signal.word(), &hazard.hazard, &hazard.avoid] {
            assert!(text.contains(&plain(piece)), "step {}: {piece}", step.number);
        }
    }
    for piece in step.first.iter().chain(&step.checks).chain(step.rows().flat_map(|row| &row.cells))
    {
        assert!(text.contains(&plain(piece)), "step {}: {piece}", step.number);
    }
    assert_eq!(shown.matches("class=\"blank\"").count(), step.readings.len(), "{text}");
    assert!(step.signs.is_empty() || shown.contains("class=\"sign"), "{text}");
}

#[test]
fn the_moves_sheet_has_every_change_every_move_and_every_blank_of_a_position() {
    let blanks = std::cell::Cell::new(0);
    each("moves", |packet, page| {
        check_head(packet, page);
        let text = seen(page);
        for setting in packet.settings.iter().filter(|setting| setting.change != Change::Keep) {
            let target = match setting.fraction.as_str() {
                "" => &setting.target,
                fraction => fraction,
            };
            let was = setting.was.as_deref().unwrap_or("");
            let pieces =
                [&setting.name, was, target, setting.low.as_deref().unwrap_or(""), &setting.place];
            in_order(&text, pieces);
        }
        for dropped in &packet.dropped {
            in_order(&text, [dropped.name.as_str(), &dropped.was]);
        }
        for rail in &packet.rails {
            check_rail(packet, rail, page);
        }
        let positions =
            packet.steps.iter().flat_map(|step| step.readings.iter().map(move |r| (step, r)));
        for (step, reading) in
            positions.filter(|(step, one)| step.stays.is_none() && one.id.contains("/holder-"))
        {
            let code = step.short_name(&reading.id);
            assert_eq!(page.matches(&format!(">{code}<")).count(), 1, "{code}");
            blanks.set(blanks.get() + 1);
        }
    });
    assert!(blanks.get() > 20, "{}", blanks.get());
}

fn check_rail(packet: &Packet, rail: &packet::model::RailLayout, page: &str) {
    let section = page.split("<section class=\"rail-form\"").find(|part| {
        part.contains(&format!("\">{}", rail.name)) && part.contains("class=\"far moving\"")
    });
    let section = section.unwrap_or_else(|| panic!("{}", rail.name));
    let text = seen(section.split("class=\"far moving\"").nth(1).unwrap());
    let far = |position: &str| position.trim_start_matches('-').to_owned();
    let mut texts = Vec::new();
    for (index, step) in rail.moves.iter().enumerate() {
        texts.push(format!("{} ", index + 1));
        texts.extend(step.from.as_deref().map(far));
        texts.push(far(&step.distance));
        // A position in fractions is written in another way.
        let holder = rail.holders.iter().find(|holder| Some(holder.number) == step.holder);
        texts.extend(holder.filter(|holder| holder.fraction.is_empty()).map(|_| far(&step.to)));
    }
    in_order(&text, texts.iter().map(String::as_str));
    for holder in &rail.holders {
        assert!(text.contains(&plain(&holder.scale)), "{}: {}", rail.name, holder.scale);
    }
    for lane in &rail.lanes {
        in_order(
            &text,
            [&lane.number.to_string(), &far(&lane.edges.left), &far(&lane.edges.right)]
                .map(String::as_str),
        );
    }
    let steps: Vec<&Step> = packet
        .steps
        .iter()
        .filter(|step| step.stays.is_none() && step.zone.as_ref() == Some(&rail.zone))
        .collect();
    let head = seen(section);
    for signal in signals(packet, &steps) {
        assert!(head.contains(signal.word()), "{}: {}", rail.name, signal.word());
    }
}

#[test]
fn a_form_is_named_in_the_answer_and_an_unknown_one_is_refused() {
    let plant = Plant::small();
    for form in ["instruction", "checklist", "kit", "lockout", "moves"] {
        let words = ["packet", "PLANT", "J-1", "--form", form, "--out", "a.html", "--json"];
        assert_eq!(plant.run(&words).ends(0).json()["form"], form);
    }
    let plain = ["packet", "PLANT", "J-1", "--out", "b.html", "--json"];
    assert_eq!(plant.run(&plain).ends(0).json()["form"], "instruction");
    let words = ["packet", "PLANT", "J-1", "--form", "poster", "--out", "c.html"];
    plant.run(&words).ends(2).complains("checklist");
}

#[test]
fn the_site_has_the_same_forms_as_the_command() {
    let plant = Plant::small();
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    let job = std::fs::read_to_string(plant.beside("site/jobs/J-1.html")).unwrap();
    for (form, page) in [
        ("checklist", "checklists/J-1.html"),
        ("kit", "kits/J-1.html"),
        ("lockout", "lockouts/J-1.html"),
        ("moves", "moves/J-1.html"),
    ] {
        plant.run(&["packet", "PLANT", "J-1", "--form", form, "--out", "a.html"]).ends(0);
        let read = |name: &str| std::fs::read(plant.beside(name)).unwrap();
        assert!(read("a.html") == read(&format!("site/{page}")), "{form}");
        assert!(job.contains(&format!("href=\"../{page}\"")), "{form}");
    }
}

#[test]
fn a_form_speaks_the_language_of_its_packet() {
    for (tag, lang, title, foot) in [
        ("es", "es", "Lista de verificación", "hoja \" counter(page) \" de"),
        ("es-419", "es", "Lista de verificación", "hoja \" counter(page) \" de"),
        ("de", "de", "Prüfliste", "Blatt \" counter(page) \" von"),
    ] {
        let plant = Plant::small();
        let job = plant.read("jobs/J-1.yaml");
        plant.write("jobs/J-1.yaml", format!("{job}\nlanguage: {tag}\n"));
        plant.run(&["packet", "PLANT", "J-1", "--form", "checklist", "--out", "a.html"]).ends(0);
        let page = std::fs::read_to_string(plant.beside("a.html")).unwrap();
        for piece in [&format!("<html lang=\"{lang}\">"), &format!("<h1>{title} "), foot] {
            assert!(page.contains(piece), "{tag}: {piece}");
        }
    }
}
