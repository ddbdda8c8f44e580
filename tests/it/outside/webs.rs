//! Strip, web, roll and film of an order, by the formulas that stand in a packet.

use std::collections::BTreeMap;

use serde_json::{Map, Value as Json, json};
use witnessmark::finding::Findings;
use witnessmark::formula::{Formula, Reads, Sheet, Table, Value};
use witnessmark::packet;
use witnessmark::plant::load;
use witnessmark::quantity::Measure;

use super::{Cases, exact_in};
use crate::plant::Plant;

const MANY: usize = 300;

/// The kinds of bags, and whether each has a seal and a gusset.
const FORMATS: [(&str, bool, bool); 6] = [
    ("fin", true, false),
    ("fin", true, true),
    ("lap", true, false),
    ("lap", true, true),
    ("flat", false, false),
    ("flat", false, true),
];

/// Figures and the unit of each answer.
const FIGURES: [(&str, &str); 15] = [
    ("web.strip", "mm"),
    ("web.width", "mm"),
    ("web.roll", "mm"),
    ("web.side_trim", "mm"),
    ("web.trimmed_share", "%"),
    ("web.roll_outside", "mm"),
    ("web.roll_length", "m"),
    ("web.roll_mass", "kg"),
    ("web.pieces_per_roll", ""),
    ("web.film_needed", "m"),
    ("web.rolls", ""),
    ("web.splices", ""),
    ("web.film_mass", "kg"),
    ("web.trimmed_mass", "kg"),
    ("web.last_roll_outside", "mm"),
];

pub(super) fn ask(cases: &mut Cases) {
    let formulas: Vec<_> = FORMATS.iter().map(|format| formulas(*format)).collect();
    for round in 0..MANY {
        let which = round % FORMATS.len();
        web(cases, FORMATS[which], &formulas[which]);
    }
}

/// The texts of all formulas of a web, as they stand in a packet.
fn formulas((format, seal, gusset): (&str, bool, bool)) -> BTreeMap<String, String> {
    let plant = Plant::small();
    plant.write(
        "stock.yaml",
        "films:\n  clear:\n    name: Clear\n    thickness: 50 µm\n    \
        density: 0.92 g/cm³\n    rolls: [{ width: 900 mm, outside: 300 mm, core: 76 mm }]\n",
    );
    // A rail with room for any of these webs, and knives laid out by it.
    let machine = plant.read("machines/line-1.yaml").replace("_end: 250 mm", "_end: 2000 mm");
    plant.write("machines/line-1.yaml", machine);
    let (by_recipe, by_web) =
        ("strip: strip, trim: trim,", "strip: web.strip, trim: web.side_trim,");
    let mut recipe = plant.read("recipes/large-pouch.yaml").replace(by_recipe, by_web);
    recipe += &format!(
        "web:\n  format: {format}\n  flat_width: flat_width\n  lanes: lanes\n  \
        trim: trim\n  cut_length: 100 mm\n  film: clear\n"
    );
    recipe += if seal { "  seal: fin\n" } else { "" };
    recipe += if gusset { "  gusset: 9 mm\n" } else { "" };
    plant.write("recipes/large-pouch.yaml", &recipe);
    let job = plant.read("jobs/J-1.yaml") + "pieces: \"1000\"\n";
    plant.write("jobs/J-1.yaml", &job);
    let read = load::load(&plant.folder()).unwrap().plant.unwrap();
    let mut findings = Findings::default();
    let prepared = packet::prepare(&mut findings, &read);
    let packet = packet::assemble(&mut findings, &prepared, "J-1").unwrap();
    packet.web.into_iter().map(|figure| (figure.id, figure.working.formula)).collect()
}

fn web(cases: &mut Cases, format: (&str, bool, bool), formulas: &BTreeMap<String, String>) {
    let given = given(cases, format);
    let mut sheet = Sheet::default();
    for (name, text) in &given.values {
        sheet.givens.insert(name.clone(), Measure::parse(text).unwrap());
    }
    let column = |at: usize| -> Vec<(Measure, Measure)> {
        let read = |text: &str| Measure::parse(text).unwrap();
        given.rolls.iter().map(|roll| (read(&roll[0]), read(&roll[at]))).collect()
    };
    let tables =
        [("next_width", Reads::NextUp), ("outside", Reads::Exactly), ("core", Reads::Exactly)];
    for (at, (name, reads)) in tables.into_iter().enumerate() {
        sheet.tables.insert(format!("stock.{name}"), Table::new(reads, column(at)).unwrap());
    }
    for (name, text) in formulas {
        sheet.formulas.insert(name.clone(), Formula::parse(text).unwrap());
    }
    let solved = sheet.solve();
    let mut answer = Map::new();
    for (name, unit) in FIGURES {
        let Value::Measure(measure) = solved[name].as_ref().unwrap().value else {
            panic!("{name} is no quantity")
        };
        answer.insert(name.to_owned(), Json::from(exact_in(measure.quantity, unit)));
    }
    let format = json!({ "kind": format.0, "gusset": format.2 });
    let asked = json!({ "format": format, "values": given.values, "rolls": given.rolls });
    cases.add("web", &asked, &Json::Object(answer));
}

/// What a recipe, a stock and an order say.
struct Given {
    values: BTreeMap<String, String>,
    /// Width, outside and core of each roll, the narrowest first.
    rolls: Vec<[String; 3]>,
}

fn given(cases: &mut Cases, (_, seal, gusset): (&str, bool, bool)) -> Given {
    let dice = &mut cases.dice;
    let mut values = BTreeMap::new();
    let mut put = |name: &str, text: String| values.insert(name.to_owned(), text);
    put("web.flat_width", format!("{} mm", dice.fraction(80, 480, 4)));
    let lanes = dice.between(1, 8);
    put("web.lanes", lanes.to_string());
    // Now and then lanes between those that run are left out.
    let gaps = if dice.one_in(3) { dice.between(1, 2) } else { 0 };
    put("web.across", (lanes + gaps).to_string());
    put("web.trim", format!("{} mm", dice.fraction(0, 60, 4)));
    put(
        "web.cut_length",
        match dice.one_in(3) {
            true => format!("{} {}/8 in", dice.between(1, 6), dice.between(1, 7)),
            false => format!("{} mm", dice.fraction(120, 900, 4)),
        },
    );
    put("web.waste", format!("{} %", dice.fraction(0, 60, 10)));
    put("web.threading", format!("{} m", dice.between(0, 40)));
    put("job.pieces", dice.between(1000, 2_000_000).to_string());
    put(
        "stock.thickness",
        match dice.one_in(3) {
            true => format!("{} gauge", dice.between(48, 400)),
            false => format!("{} µm", dice.between(12, 150)),
        },
    );
    put("stock.grammage", format!("{} g/m²", dice.fraction(200, 1800, 10)));
    if seal {
        put("web.seal", format!("{} mm", dice.fraction(12, 80, 4)));
    }
    if gusset {
        put("web.gusset", format!("{} mm", dice.fraction(20, 160, 4)));
    }
    let rolls = [250, 500, 1000, 2000, 4000].map(|width| {
        let core = dice.pick(&["76 mm", "3 in", "152 mm", "6 in"]).to_owned();
        [format!("{width} mm"), format!("{} mm", dice.between(220, 800)), core]
    });
    Given { values, rolls: rolls.into() }
}
