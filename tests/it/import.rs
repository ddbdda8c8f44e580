//! Import: recipes from tables of all kinds, and every table that must not become one.

use std::collections::BTreeMap;
use std::io::{Cursor, Write as _};

use rust_xlsxwriter::{ExcelDateTime, Format, Formula, Workbook};
use witnessmark::finding::Findings;
use witnessmark::packet::prepare;
use witnessmark::plant::load;

use crate::plant::{Plant, Run, files_of};

/// A mapping for the small plant.
const MAPPING: &str = "\
pattern: small-pouch
columns:
  No: { is: id }
  Name: { is: name }
  Width: { is: input, of: flat_width, unit: mm }
  Lanes: { is: input, of: lanes, unit: none }
  Strip tolerance: { is: tolerance, of: strip, unit: mm }
revision: \"1\"
date: 2026-11-26
author: Technician One
reason: From the old table
";

const HEAD: &str = "No,Name,Width,Lanes,Strip tolerance\n";
const TABLE: &str = "No,Name,Width,Lanes,Strip tolerance\nmint-28,Mint 28,28.5,4,0.5\nsage-30,\"Sage, \"\"large\"\"\",30,3,+0.6/-0.5\n";

/// A plant with a table and a mapping beside it.
fn plant(name: &str, table: impl AsRef<[u8]>, mapping: &str) -> Plant {
    let plant = Plant::small();
    std::fs::write(plant.beside(name), table).unwrap();
    std::fs::write(plant.beside("map.yaml"), mapping).unwrap();
    plant
}

fn import(plant: &Plant, name: &str, more: &[&str]) -> Run {
    let words = ["import", "PLANT", name, "--by", "map.yaml"];
    plant.run(&words.into_iter().chain(more.iter().copied()).collect::<Vec<_>>())
}

fn recipes(plant: &Plant) -> BTreeMap<String, Vec<u8>> {
    files_of(&plant.folder().join("recipes"))
}

#[test]
fn nothing_is_written_until_it_is_asked_for_and_then_it_checks_clean() {
    let plant = plant("t.csv", TABLE, MAPPING);
    let before = recipes(&plant);
    let said = import(&plant, "t.csv", &[]).ends(0).stdout;
    for words in [
        "t.csv: 2 rows read, 0 skipped",
        "recipes/mint-28.yaml: new, from row 2",
        "inputs.flat_width         28.5 mm",
        "settings.strip.tolerance  +0.6/-0.5 mm",
        "Taken over from the pattern",
        "  fin   5 mm",
        "Nothing was written. With --write: 2 recipes.",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    assert_eq!(recipes(&plant), before);
    import(&plant, "t.csv", &["--write"]).ends(0).says("2 recipes written");
    let after = recipes(&plant);
    assert_eq!(after.len(), before.len() + 2);
    plant.run(&["check", "PLANT"]).ends(0);
    let text = plant.read("recipes/sage-30.yaml");
    let pattern = plant.read("recipes/small-pouch.yaml");
    let changed = text.lines().zip(pattern.lines()).filter(|(new, old)| new != old);
    let changed: Vec<&str> = changed.map(|(new, _)| new).collect();
    let expected = [
        "id: sage-30",
        "name: \"Sage, \\\"large\\\"\"",
        "date: \"2026-11-26\"",
        "reason: From the old table",
        "inputs: { flat_width: 30 mm, fin: 5 mm, lanes: 3, trim: 10 mm }",
        "    tolerance: \"+0.6/-0.5 mm\"",
    ];
    assert_eq!(changed, expected);
    // Once more: everything is there, and nothing is to be done.
    import(&plant, "t.csv", &["--write"]).ends(0).says("is there with the same text already");
    assert_eq!(recipes(&plant), after);
}

#[test]
fn the_demo_table_becomes_two_recipes_that_check_clean() {
    let plant = Plant::demo();
    let words = ["import", "PLANT", "plant/import/sticks.csv", "--by", "plant/import/sticks.yaml"];
    plant.run(&words).ends(0).says("2 rows read, 1 skipped").says("settings.cross_seal.formula");
    plant.run(&[&words[..], &["--write"]].concat()).ends(0).says("2 recipes written");
    plant.run(&["check", "PLANT"]).ends(0);
}

/// Writes the inputs, plain settings and tolerances of a recipe as a table with one row, and its
/// mapping: what an import makes of it must compute to the same.
#[track_caller]
fn check_round_trip(plant: &Plant, id: &str) {
    let reading = load::load(&plant.folder()).unwrap().plant.unwrap();
    let body = &reading.recipes[id].body;
    let (mut heads, mut cells, mut columns) = (Vec::new(), Vec::new(), String::new());
    let mut put = |head: String, cell: &str, entry: &str| {
        columns += &format!("  {head}: {{ {entry} }}\n");
        heads.push(head);
        cells.push(format!("\"{cell}\""));
    };
    put("Id".to_owned(), "copy-1", "is: id");
    put("Name".to_owned(), "A copy", "is: name");
    for (name, text) in body.inputs.iter() {
        // A count has no unit, and says so.
        let count = if text.contains(char::is_alphabetic) || text.contains(['%', '°', 'µ']) {
            ""
        } else {
            ", unit: none"
        };
        put(format!("in {name}"), text, &format!("is: input, of: {name}{count}"));
    }
    for (name, setting) in body.settings.iter() {
        if witnessmark::quantity::Measure::parse(&setting.formula).is_ok() {
            put(format!("set {name}"), &setting.formula, &format!("is: setting, of: {name}"));
        }
        if let Some(tolerance) = &setting.tolerance {
            put(format!("tol {name}"), tolerance, &format!("is: tolerance, of: {name}"));
        }
    }
    let mapping = format!(
        "pattern: {id}\ncolumns:\n{columns}revision: \"1\"\ndate: 2026-11-26\nauthor: A\nreason: R\n"
    );
    std::fs::write(plant.beside("map.yaml"), mapping).unwrap();
    let table = format!("{}\n{}\n", heads.join(","), cells.join(","));
    std::fs::write(plant.beside("t.csv"), table).unwrap();
    import(plant, "t.csv", &["--write"]).ends(0).says("1 recipe written");
    let whole = load::load(&plant.folder()).unwrap().plant.unwrap();
    let prepared = prepare(&mut Findings::default(), &whole);
    let machine = body.machines[0].clone();
    let computed = |id: &str| &prepared.computed[&(machine.clone(), id.to_owned())];
    let (one, copy) = (computed(id), computed("copy-1"));
    assert_eq!(one.settings, copy.settings, "{id}");
    assert_eq!(one.web, copy.web, "{id}");
    assert!(!one.settings.is_empty());
    std::fs::remove_file(plant.folder().join("recipes/copy-1.yaml")).unwrap();
}

#[test]
fn a_recipe_that_went_through_a_table_computes_to_the_same() {
    let plant = Plant::demo();
    for id in ["turmeric-28", "beet-relish-63", "smoked-salt-23"] {
        check_round_trip(&plant, id);
    }
    check_round_trip(&Plant::small(), "large-pouch");
}

/// The table of `TABLE`, as a workbook with numbers.
fn workbook() -> Workbook {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet().set_name("Pouches").unwrap();
    for (column, head) in (0..).zip(HEAD.trim().split(',')) {
        sheet.write(0, column, head).unwrap();
    }
    let rows = [("mint-28", "Mint 28", 28.5, 4), ("sage-30", "Sage, \"large\"", 30.0, 3)];
    for (row, (id, name, width, lanes)) in (1..).zip(rows) {
        sheet.write(row, 0, id).unwrap().write(row, 1, name).unwrap();
        sheet.write(row, 2, width).unwrap().write(row, 3, lanes).unwrap();
    }
    sheet.write(1, 4, 0.5).unwrap().write(2, 4, "+0.6/-0.5").unwrap();
    book
}

/// An archive with these files.
fn archive(files: &[(&str, &[u8])]) -> Vec<u8> {
    let mut writer = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in files {
        writer.start_file(*name, zip::write::SimpleFileOptions::default()).unwrap();
        writer.write_all(bytes).unwrap();
    }
    writer.finish().unwrap().into_inner()
}

/// The table of `TABLE`, as an ODS workbook, with the rows of nothing that such files end with.
fn ods(body: &str) -> Vec<u8> {
    let content = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?><office:document-content xmlns:office=\"urn:oasis:names:tc:opendocument:xmlns:office:1.0\" xmlns:table=\"urn:oasis:names:tc:opendocument:xmlns:table:1.0\" xmlns:text=\"urn:oasis:names:tc:opendocument:xmlns:text:1.0\"><office:body><office:spreadsheet><table:table table:name=\"Pouches\">{body}</table:table></office:spreadsheet></office:body></office:document-content>"
    );
    let kind = b"application/vnd.oasis.opendocument.spreadsheet";
    let manifest = b"<?xml version=\"1.0\"?><manifest:manifest xmlns:manifest=\"urn:oasis:names:tc:opendocument:xmlns:manifest:1.0\"/>";
    archive(&[
        ("mimetype", kind),
        ("META-INF/manifest.xml", manifest),
        ("content.xml", content.as_bytes()),
    ])
}

fn ods_rows() -> String {
    let text = |text: &str| {
        format!(
            "<table:table-cell office:value-type=\"string\"><text:p>{text}</text:p></table:table-cell>"
        )
    };
    let number = |text: &str| {
        format!(
            "<table:table-cell office:value-type=\"float\" office:value=\"{text}\"><text:p>{text}</text:p></table:table-cell>"
        )
    };
    let row = |cells: Vec<String>| {
        let rest = "<table:table-cell table:number-columns-repeated=\"16379\"/>";
        format!("<table:table-row>{}{rest}</table:table-row>", cells.concat())
    };
    let mut rows = row(HEAD.trim().split(',').map(text).collect());
    rows +=
        &row(vec![text("mint-28"), text("Mint 28"), number("28.5"), number("4"), number("0.5")]);
    rows += &row(vec![
        text("sage-30"),
        text("Sage, &quot;large&quot;"),
        number("30"),
        number("3"),
        text("+0.6/-0.5"),
    ]);
    let nothing = "<table:table-cell table:number-columns-repeated=\"16384\"/>";
    rows + &format!(
        "<table:table-row table:number-rows-repeated=\"1048573\">{nothing}</table:table-row>"
    )
}

#[test]
fn text_and_workbooks_give_the_same_bytes() {
    let german = "\u{feff}No;Name;Width;Lanes;Strip tolerance\r\nmint-28;Mint 28;28,50;4;0,5\r\nsage-30;\"Sage, \"\"large\"\"\";30;3;+0,6/-0,5\r\n";
    let signs = format!("separator: \";\"\ndecimal: \",\"\n{MAPPING}");
    let tables: [(&str, Vec<u8>, &str); 4] = [
        ("t.csv", TABLE.into(), MAPPING),
        ("g.csv", german.into(), &signs),
        ("t.xlsx", workbook().save_to_buffer().unwrap(), MAPPING),
        ("t.ods", ods(&ods_rows()), MAPPING),
    ];
    let made = tables.map(|(name, bytes, mapping)| {
        let plant = plant(name, bytes, mapping);
        import(&plant, name, &["--write"]).ends(0).says("2 recipes written");
        recipes(&plant)
    });
    for other in &made[1..] {
        assert_eq!(&made[0], other);
    }
}

/// Rules and places of an import that was refused, and that nothing was written.
#[track_caller]
fn refused(plant: &Plant, name: &str, more: &[&str]) -> Vec<(String, String)> {
    let before = recipes(plant);
    let words = [&["--write", "--json"], more].concat();
    let told = import(plant, name, &words).ends(1).json();
    assert_eq!(recipes(plant), before);
    assert_eq!(told["written"], false);
    let remarks = told["remarks"].as_array().unwrap().iter();
    let word = |one: &serde_json::Value, key: &str| one[key].as_str().unwrap().to_owned();
    remarks
        .inspect(|one| {
            let way_out = word(one, "way_out");
            assert!(!way_out.is_empty() && !way_out.starts_with("import-"), "{one}");
        })
        .map(|one| (word(one, "rule"), word(one, "place")))
        .collect()
}

/// A table whose rows must not become recipes: the rule that says so, and the cell.
#[track_caller]
fn check(rows: &str, mapping: (&str, &str), rule: &str, place: &str) {
    assert!(MAPPING.contains(mapping.0), "{}", mapping.0);
    let mapping = MAPPING.replacen(mapping.0, mapping.1, 1);
    let table = if rows.starts_with("No") { rows.to_owned() } else { format!("{HEAD}{rows}") };
    let plant = plant("t.csv", table, &mapping);
    let found = refused(&plant, "t.csv", &[]);
    assert!(
        found.len() == 1 && found[0].0 == rule && found[0].1.contains(place),
        "{rule} {place}: {found:?}"
    );
}

#[test]
fn what_is_not_understood_is_said_with_its_cell() {
    let as_is = ("", "");
    let one = "a-1,A,28,4,0.5\n";
    check("a-1,A,x28,4,0.5\n", as_is, "import-no-number", "cell C2, column `Width`");
    check("a-1,A,,4,0.5\n", as_is, "import-empty", "cell C2");
    check("a-1,A,28\"\"\",4,0.5\n", as_is, "import-no-number", "cell C2");
    check("a-1,A,2.8 cm,4,0.5\n", as_is, "import-other-unit", "cell C2");
    check("a-1,A,28.1234567,4,0.5\n", as_is, "import-too-exact", "cell C2");
    check("a-1,A,\"28,5\",4,0.5\n", as_is, "import-no-number", "cell C2");
    check("a-1,A,=14*2,4,0.5\n", as_is, "import-no-number", "cell C2");
    check("a-1,A,28,4,wide\n", as_is, "import-not-understood", "cell E2");
    check(&format!("{one}{one}"), as_is, "import-id-twice", "cell A3");
    check("a 1,A,28,4,0.5\n", as_is, "import-bad-id", "cell A2");
    check("../a,A,28,4,0.5\n", as_is, "import-bad-id", "cell A2");
    check("a-1,\"A\nB\",28,4,0.5\n", as_is, "import-control", "cell B2");
    check("small-pouch,A,28,4,0.5\n", as_is, "import-is-there", "cell A2");
    check(one, ("unit: mm }\n  Lanes", "}\n  Lanes"), "import-no-unit", "cell C2");
    check(one, ("{ is: id }", "{ is: id, named: { b: b-1 } }"), "import-not-named", "cell A2");
    check(&format!("{one}Total,,28,4,0.5\n"), as_is, "import-empty", "cell B3");
}

#[test]
fn what_the_mapping_says_wrong_is_said_with_its_line() {
    let one = "a-1,A,28,4,0.5\n";
    let say = |from: &str, to: &str, rule: &str, place: &str| check(one, (from, to), rule, place);
    say("pattern: small-pouch", "pattern: small-poch", "import-no-pattern", "map.yaml:1");
    say("  Width:", "  Widht:", "import-no-heading", "map.yaml:5");
    say("is: name }", "is: left-out }", "import-no-column", "map.yaml:2");
    say("of: flat_width", "of: flat_widht", "import-not-in-pattern", "map.yaml:5");
    say("of: flat_width, ", "", "import-of-missing", "map.yaml:5");
    say("is: name }", "is: name, of: strip }", "import-of-idle", "map.yaml:4");
    say("of: lanes", "of: flat_width", "import-target-twice", "map.yaml:6");
    say("is: tolerance, of: strip", "is: setting, of: strip", "import-is-computed", "map.yaml:7");
    say("unit: mm }\n  Lanes", "unit: mmm }\n  Lanes", "import-unit-of-column", "map.yaml:5");
    say("author: Technician One\n", "", "import-nobody-says", "map.yaml:1");
    say("date: 2026-11-26", "date: 26.11.2026", "import-not-a-day", "map.yaml:9");
    say("columns:", "separator: ab\ncolumns:", "import-separator", "map.yaml:2");
    say("columns:", "skip: { where: { Sate: [x] } }\ncolumns:", "import-skip-column", "map.yaml:2");
    check(
        "No,Name,Width,Lanes,Strip tolerance,Speed\na-1,A,28,4,0.5,7\n",
        ("", ""),
        "import-not-mapped",
        "cell F1, column `Speed`",
    );
    check(
        "No,Name,Width,Width,Lanes,Strip tolerance\na-1,A,28,28,4,0.5\n",
        ("", ""),
        "import-heading-twice",
        "map.yaml:5",
    );
    let inches = (
        "  Width: { is: input, of: flat_width, unit: mm }",
        "  Width (in): { is: input, of: flat_width, unit: mm }",
    );
    check(
        "No,Name,Width (in),Lanes,Strip tolerance\na-1,A,28,4,0.5\n",
        inches,
        "import-heading-unit",
        "map.yaml:5",
    );
    // A near heading is offered.
    let plant = plant("t.csv", format!("No,Name,width ,Lanes,Strip tolerance\n{one}"), MAPPING);
    import(&plant, "t.csv", &[])
        .ends(1)
        .says("no column is headed `Width` in row 1; near to it: `width`");
    // A key that no mapping has is found as in any file of a plant.
    std::fs::write(plant.beside("map.yaml"), MAPPING.replacen("of: lanes", "off: lanes", 1))
        .unwrap();
    import(&plant, "t.csv", &[]).ends(1).says("error[unknown-key]").says("map.yaml:6");
}

#[test]
fn a_recipe_that_would_not_check_is_not_written() {
    // Wider than the rail; the finding is the one of the check, with its caret.
    let plant = plant("t.csv", format!("{HEAD}a-1,A,400,4,0.5\n"), MAPPING);
    let before = recipes(&plant);
    let run = import(&plant, "t.csv", &["--write"]).ends(1).says("recipes/a-1.yaml:").says("^");
    assert!(run.stdout.ends_with("Nothing was written.\n"), "{}", run.stdout);
    assert_eq!(recipes(&plant), before);
}

#[test]
fn a_recipe_is_replaced_only_when_it_is_named_and_with_another_revision() {
    let table = format!("{HEAD}large-pouch,Large pouch,41,4,0.5\n");
    let plant = plant("t.csv", table, MAPPING);
    assert_eq!(refused(&plant, "t.csv", &[])[0].0, "import-is-there");
    let named = ["--replace", "large-pouch"];
    assert_eq!(refused(&plant, "t.csv", &named)[0].0, "import-same-revision");
    let other = ["--replace", "large-puch", "--replace", "large-pouch", "--revision", "2"];
    assert_eq!(
        refused(&plant, "t.csv", &other)[0],
        ("import-not-replaced".to_owned(), "recipe large-puch".to_owned())
    );
    let stamp = [
        "--revision",
        "2",
        "--date",
        "2026-12-01",
        "--author",
        "Lead Two",
        "--reason",
        "Measured anew",
    ];
    import(&plant, "t.csv", &[&["--write"], &named[..], &stamp[..]].concat())
        .ends(0)
        .says("takes the place of the one that is there, from row 2")
        .says("1 recipe written");
    let text = plant.read("recipes/large-pouch.yaml");
    for line in
        ["revision: 2\n", "date: \"2026-12-01\"\n", "author: Lead Two\n", "reason: Measured anew\n"]
    {
        assert!(text.contains(line), "{line}{text}");
    }
}

#[test]
fn rows_are_skipped_by_number_and_by_what_stands_in_them() {
    let rows = "a-1,A,28,4,0.5\n\nb-1,B,28,4,0.5\nTotal,,,,\nc-1,C,28,4,old\n";
    let skip = "skip: { rows: [5], where: { Strip tolerance: [old] } }\ncolumns:";
    let plant = plant("t.csv", format!("{HEAD}{rows}"), &MAPPING.replacen("columns:", skip, 1));
    let run = import(&plant, "t.csv", &[]).ends(0).says("2 rows read, 2 skipped");
    assert!(run.stdout.contains("recipes/b-1.yaml: new, from row 4"), "{}", run.stdout);
}

#[test]
fn what_a_spreadsheet_worked_out_or_turned_into_something_else_is_said() {
    let mut book = workbook();
    let sheet = book.worksheet_from_index(0).unwrap();
    sheet.write_formula(1, 2, Formula::new("=57/2").set_result("28.5")).unwrap();
    let plant = plant("t.xlsx", book.save_to_buffer().unwrap(), MAPPING);
    let told = import(&plant, "t.xlsx", &["--json"]).ends(0).json();
    assert_eq!(told["remarks"][0]["rule"], "import-formulas");
    assert_eq!(told["remarks"][0]["place"], "t.xlsx, sheet Pouches, cell C2, column `Width`");
    assert_eq!(told["recipes"][0]["values"]["inputs.flat_width"], "28.5 mm");

    let spoil = |write: &dyn Fn(&mut rust_xlsxwriter::Worksheet)| {
        let mut book = workbook();
        write(book.worksheet_from_index(0).unwrap());
        std::fs::write(plant.beside("t.xlsx"), book.save_to_buffer().unwrap()).unwrap();
        refused(&plant, "t.xlsx", &[])
    };
    let day = ExcelDateTime::from_ymd(2026, 4, 3).unwrap();
    let as_day = Format::new().set_num_format("yyyy-mm-dd");
    let cell = "t.xlsx, sheet Pouches, cell C2, column `Width`".to_owned();
    let found = spoil(&|sheet| {
        sheet.write_datetime_with_format(1, 2, &day, &as_day).unwrap();
    });
    assert_eq!(found, [("import-is-a-day".to_owned(), cell.clone())]);
    let found = spoil(&|sheet| {
        sheet.write(1, 2, 0.1 + 0.2).unwrap();
    });
    assert_eq!(found, [("import-too-exact".to_owned(), cell.clone())]);
    let found = spoil(&|sheet| {
        sheet.write(1, 2, true).unwrap();
    });
    assert_eq!(found, [("import-is-a-truth".to_owned(), cell.clone())]);
    let found = spoil(&|sheet| {
        sheet.write_formula(1, 2, Formula::new("=1/0").set_result("#DIV/0!")).unwrap();
    });
    assert!(found.contains(&("import-is-an-error".to_owned(), cell)), "{found:?}");
    let found = spoil(&|sheet| {
        sheet.merge_range(1, 2, 2, 2, "28.5", &Format::new()).unwrap();
    });
    assert_eq!(found[0].0, "import-merged");
    assert!(found[0].1.contains("cell C3"), "{found:?}");
}

#[test]
fn a_workbook_with_several_sheets_wants_one_named() {
    let mut book = workbook();
    book.add_worksheet().set_name("Notes").unwrap();
    let plant = plant("t.xlsx", book.save_to_buffer().unwrap(), MAPPING);
    import(&plant, "t.xlsx", &[]).ends(2).complains("several sheets (Pouches, Notes)");
    import(&plant, "t.xlsx", &["--sheet", "Pouch"]).ends(2).complains("it has: Pouches, Notes");
    import(&plant, "t.xlsx", &["--sheet", "Pouches"]).ends(0).says("2 rows read");
}

/// A file made to do harm is refused: quickly, with a sentence, and never with a stop.
#[test]
fn hostile_tables_are_refused() {
    let zeros = vec![b' '; 100 << 20];
    let bomb = archive(&[("xl/workbook.xml", &zeros)]);
    assert!(bomb.len() < 1 << 20, "{}", bomb.len());
    let good = workbook().save_to_buffer().unwrap();
    let cell = "<table:table-cell table:number-columns-repeated=\"16384\" office:value-type=\"string\"><text:p>x</text:p></table:table-cell>";
    let wide = ods(&format!("<table:table-row>{cell}</table:table-row>").repeat(2000));
    let mut far = workbook();
    far.worksheet_from_index(0).unwrap().write(1_048_575, 16_383, "x").unwrap();
    let tables: Vec<(&str, Vec<u8>, &str)> = vec![
        ("bomb.xlsx", bomb.clone(), "too large"),
        ("bomb.ods", bomb, "too large"),
        ("wide.ods", wide, "too large"),
        ("far.xlsx", far.save_to_buffer().unwrap(), "too large"),
        ("cut.xlsx", good[..good.len() / 2].to_vec(), "cannot be read"),
        ("no.xlsx", b"no archive".to_vec(), "cannot be read"),
        ("empty.ods", Vec::new(), "cannot be read"),
        ("latin.csv", b"No,Name\na-1,Gr\xfcn\n".to_vec(), "not UTF-8"),
        ("long.csv", format!("{HEAD}{},A,1,1,1\n", "x".repeat(2000)).into(), "cell A2"),
        ("rows.csv", format!("{HEAD}{}", "a-1,A,28,4,0.5\n".repeat(20_001)).into(), "too large"),
        ("big.csv", vec![b'x'; (16 << 20) + 1], "too large"),
        ("table.xls", good.clone(), "ends in .csv, .xlsx or .ods"),
    ];
    let plant = plant("map.yaml", MAPPING, MAPPING);
    let before = recipes(&plant);
    for (name, bytes, says) in tables {
        std::fs::write(plant.beside(name), bytes).unwrap();
        let run = import(&plant, name, &["--write"]);
        assert!(run.code == 2 && run.stderr.contains(says), "{name}: {}{}", run.stdout, run.stderr);
    }
    import(&plant, "nowhere.csv", &[]).ends(2).complains("nowhere.csv");
    import(&plant, "plant", &[]).ends(2).complains("no plain file");
    assert_eq!(recipes(&plant), before);
}

/// Bytes that were turned at random never stop the program, and never write anything that does not check.
#[test]
fn spoiled_workbooks_never_stop_the_program() {
    let good = workbook().save_to_buffer().unwrap();
    let plant = plant("t.xlsx", &good, MAPPING);
    let mut dice = 7_u64;
    for _ in 0..12 {
        let mut bytes = good.clone();
        for _ in 0..20 {
            dice = dice
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            let at = usize::try_from(dice >> 33).unwrap() % bytes.len();
            bytes[at] ^= u8::try_from(dice >> 56).unwrap() | 1;
        }
        std::fs::write(plant.beside("t.xlsx"), bytes).unwrap();
        let run = import(&plant, "t.xlsx", &[]);
        assert!((0..=2).contains(&run.code) && !run.stderr.contains("panicked"), "{}", run.stderr);
    }
}

/// Faults in their hundreds are cut on the screen and not for a program.
#[test]
fn a_wrong_column_does_not_fill_the_screen() {
    let rows: String = (0..300).map(|n| format!("a-{n},A,wide,4,0.5\n")).collect();
    let plant = plant("t.csv", format!("{HEAD}{rows}"), MAPPING);
    let run = import(&plant, "t.csv", &[]).ends(1).says("200 more faults like these");
    assert_eq!(run.stdout.matches("error[import-no-number]").count(), 100);
    assert_eq!(refused(&plant, "t.csv", &[]).len(), 300);
}

#[test]
fn the_report_is_in_the_language_that_was_asked_for() {
    let plant = plant("t.csv", format!("{HEAD}a-1,A,wide,4,0.5\n"), MAPPING);
    import(&plant, "t.csv", &["--language", "de"]).ends(1).says("Zelle C2, Spalte `Width`");
    import(&plant, "t.csv", &["--language", "es"]).ends(1).says("celda C2, columna `Width`");
}
