//! Texts that nobody would write, given to everything that reads quantities and formulas: no panic, no
//! place outside the text, no memory out of proportion, and time that grows with the length.
//!
//! Good texts are changed at random, the same way in every run.

mod plants;

use std::collections::BTreeMap;
use std::hint::black_box;
use std::ops::Range;

use witnessmark::formula::{Formula, FormulaError, Reads, Sheet, SheetError, Table, Value};
use witnessmark::language::Language;
use witnessmark::quantity::{
    Allowed, BadMeasure, Measure, Number, Tolerance, fraction_of, inward, printed, settle,
};

use crate::dice::Dice;

/// How many texts each reader is given.
const QUANTITIES: usize = 20_000;
const FORMULAS: usize = 20_000;
const SHEETS: usize = 3_000;

/// Longest text: longer ones than the longest formula are among them.
const LONGEST: usize = 3000;

/// Most bytes that may be in use at once: so many for each byte of the text, and these.
const BYTES_A_BYTE: u64 = 64;
const BYTES: u64 = 1 << 20;

const WRITTEN_QUANTITIES: [&str; 40] = [
    "56 mm",
    "2 1/4 in",
    "2-1/4 in",
    "-0.5 mm",
    "\u{2212}0.5 mm",
    "120 °C",
    "90 1/min",
    "6",
    "3/8",
    "0.50",
    "5 lbf in",
    "12 g/m²",
    "45°",
    "5 %",
    "1 kgf/cm²",
    "999999999999999999",
    "0",
    "+7 N·m",
    "±0.5 mm",
    "+-0.5 mm",
    "+/-0.5 mm",
    "+0.3/-0.1 mm",
    "-0.1/+0.3 mm",
    "+0.3 mm/-0.1 mm",
    "±5 °C",
    "+1/64/-1/64 in",
    "3 to 5 N",
    "3 N to 5 N",
    "-2 to 2 mm",
    "120 to 130 °C",
    "at least 3 N",
    "at most 5 N",
    "ISO 2768-1 m",
    "ISO 2768-m",
    "ISO 2768 v",
    "1/32 in",
    "2 1/2 to 2 3/4 in",
    "12.5 µm",
    "100 gauge",
    "0.000000000000000001 mil",
];

const WRITTEN_FORMULAS: [&str; 26] = [
    "2 * flat + 2 * fin",
    "lanes * (2 * flat + 2 * fin) + 2 * trim",
    "hot + 5 K",
    "hot - cold",
    "if(lanes > 2, flat, fin)",
    "min(flat, fin, trim)",
    "max(3 mm, 5 mm)",
    "abs(-flat)",
    "round(flat, 1/2 mm)",
    "round_up(flat / 3, 0.5 mm)",
    "round_down(hot, 5 K)",
    "sqrt(flat * fin)",
    "pi * (flat * flat - fin * fin) / (4 * trim)",
    "dwell(25 µm)",
    "dwell(trim) + 0.1 s",
    "next(lanes)",
    "not (lanes = 4) or flat >= fin and trim != 0 mm",
    "-(-(-lanes))",
    "machine.pitch * lanes",
    "12 % * flat",
    "90 1/min * 2 min",
    "1 / (lanes - 4)",
    "sqrt(2) * sqrt(3)",
    "hot < cold",
    "9.81 N / (2 mm * 3 mm)",
    "((((lanes))))",
];

/// What is put into texts: characters that mean something somewhere, and some that mean nothing.
const PIECES: [&str; 56] = [
    " ",
    "\t",
    "\n",
    "\u{a0}",
    "\u{2009}",
    "\u{200b}",
    "0",
    "1",
    "9",
    "/",
    "-",
    "+",
    "\u{2212}",
    "±",
    ".",
    ",",
    "%",
    "°",
    "µ",
    "²",
    "·",
    "mm",
    "in",
    "°C",
    "K",
    "N·m",
    "lbf in",
    "to",
    "at least",
    "ISO 2768",
    "(",
    ")",
    "((((((((",
    "))))))))",
    "min(",
    "if(",
    "not ",
    "and",
    "or",
    "pi",
    "sqrt(",
    "round(",
    "<",
    ">=",
    "!=",
    "=",
    "*",
    "flat",
    "lanes",
    "hot",
    "dwell(",
    "machine.",
    "\u{0}",
    "\u{1f9ba}",
    "e\u{301}",
    "\u{202e}",
];

/// A good text with a few changes.
fn text(dice: &mut Dice, good: &[&str]) -> String {
    let mut text: Vec<char> = dice.pick(good).chars().collect();
    if dice.one_in(3) {
        (0..dice.between(1, 5)).for_each(|_| change(dice, &mut text, good));
    } else {
        nudge(dice, &mut text);
    }
    let mut text: String = text.into_iter().collect();
    while text.len() > LONGEST {
        text.pop();
    }
    text
}

/// A small change, after which it often still is a good text.
fn nudge(dice: &mut Dice, text: &mut Vec<char>) {
    let at = dice.below(text.len() + 1);
    match text.get_mut(at) {
        Some(c) if c.is_ascii_digit() => *c = char::from(b'0' + dice.below(10) as u8),
        Some(c) if c.is_alphabetic() => *c = dice.pick(&['m', 'n', 'a', 'µ', 'K']),
        _ => insert(text, at, dice.pick(&[" ", "  ", "0", "-", "\t"])),
    }
}

fn change(dice: &mut Dice, text: &mut Vec<char>, good: &[&str]) {
    let at = dice.below(text.len() + 1);
    let end = at + dice.below(text.len() - at + 1);
    match dice.below(9) {
        0 => insert(text, at, dice.pick(&PIECES)),
        1 => drop(text.drain(at..end)),
        2 => text.truncate(at),
        3 => insert(text, at, dice.pick(good)),
        4 => insert(text, at, &digits(dice)),
        5 => {
            let part: String = text[at..end].iter().collect();
            insert(text, at, &part.repeat(dice.below(120)));
        }
        6 => insert(text, at, &dice.pick(&PIECES).repeat(dice.below(200))),
        7 => {
            let (open, depth) = (dice.pick(&["(", "-", "not ", "abs(", "min(1, "]), dice.below(90));
            insert(text, at, &open.repeat(depth));
            insert(text, text.len(), &")".repeat(depth));
        }
        _ => {
            if let Some(c) = text.get_mut(at) {
                *c = char::from_u32(*c as u32 ^ (1 << dice.below(16))).unwrap_or('\u{fffd}');
            }
        }
    }
}

fn insert(text: &mut Vec<char>, at: usize, piece: &str) {
    text.splice(at..at, piece.chars());
}

/// More digits than fit, sometimes with a point or a stroke among them.
fn digits(dice: &mut Dice) -> String {
    let mut digit = || dice.pick(&["0", "1", "9", "9", "7", ".", "/"]);
    (0..45).map(|_| digit()).collect()
}

/// Does something with a text; what it uses must be in proportion, and a panic says with which text.
fn tame<T>(text: &str, work: impl Fn() -> T + std::panic::RefUnwindSafe) -> T {
    // The program's texts are read once, by whoever comes first.
    black_box(Language::English.word("finding-help"));
    let mut result = None;
    let used = allocation_counter::measure(|| result = std::panic::catch_unwind(&work).ok());
    let Some(result) = result else { panic!("it panics on {text:?}") };
    let most = BYTES_A_BYTE * text.len() as u64 + BYTES;
    assert!(used.bytes_max < most, "{} bytes, {most} are allowed: {text:?}", used.bytes_max);
    result
}

/// The place of an error is one that can be shown.
fn in_text(text: &str, range: &Range<usize>) {
    assert!(text.get(range.clone()).is_some(), "{range:?} is no part of {text:?}");
}

fn sound<T: std::fmt::Debug>(text: &str, read: Result<T, BadMeasure>) -> Option<T> {
    read.inspect_err(|bad| {
        in_text(text, &bad.range);
        assert!(!bad.to_string().is_empty() && !bad.kind.words().way_out().to_string().is_empty());
    })
    .ok()
}

/// Reads a text as everything it may be; how many of these it is.
fn read_quantity(text: &str) -> usize {
    let number = sound(text, Number::parse(text));
    let measure = sound(text, Measure::parse(text));
    let difference = sound(text, Measure::parse_difference(text));
    let tolerance = sound(text, Tolerance::parse(text));
    let allowed = sound(text, Allowed::parse(text));
    fraction_of(text);
    if let Some(measure) = measure {
        assert!(measure.to_string().len() < 90, "{measure}");
        let limits = allowed.and_then(|allowed| allowed.limits(measure.quantity).ok());
        let step = Measure::parse_difference("0.5 mm").unwrap();
        for limits in limits.iter() {
            black_box(settle(measure.quantity, limits, &step).ok());
            black_box(inward(limits, measure.unit, 3).ok());
            black_box(printed(measure.quantity, limits, measure.unit, 12).ok());
        }
    }
    // Whatever deviations are allowed was read as deviations too, and as the same ones.
    if let (Some(tolerance), Some(Allowed::Deviations(same))) = (tolerance, allowed) {
        assert_eq!(tolerance, same, "{text:?}");
        assert!(tolerance.lower.compare(tolerance.upper).unwrap().is_le(), "{text:?}");
    }
    let read = [number.is_some(), measure.is_some(), difference.is_some(), allowed.is_some()];
    read.into_iter().filter(|is| *is).count()
}

#[test]
fn readers_of_quantities_are_tame() {
    let mut dice = Dice::new(1);
    let mut good = 0;
    for _ in 0..QUANTITIES {
        let text = text(&mut dice, &WRITTEN_QUANTITIES);
        good += usize::from(tame(&text, || read_quantity(&text)) > 0);
    }
    let tenth = QUANTITIES / 10;
    assert!((tenth..9 * tenth).contains(&good), "{good} of {QUANTITIES} could be read");
}

fn values() -> BTreeMap<String, Measure> {
    let all = [
        ("flat", "23 mm"),
        ("fin", "5 mm"),
        ("trim", "30 µm"),
        ("lanes", "4"),
        ("hot", "120 °C"),
        ("cold", "68 °F"),
        ("machine.pitch", "2 1/4 in"),
    ];
    all.map(|(name, text)| (name.to_owned(), Measure::parse(text).unwrap())).into()
}

fn tables() -> BTreeMap<String, Table> {
    let table = |reads, rows: &[(&str, &str)]| {
        let read = |text: &str| Measure::parse(text).unwrap();
        let rows = rows.iter().map(|(x, y)| (read(x), read(y))).collect();
        Table::new(reads, rows).unwrap()
    };
    [
        ("dwell".to_owned(), table(Reads::Between, &[("20 µm", "0.3 s"), ("30 µm", "0.5 s")])),
        ("next".to_owned(), table(Reads::NextUp, &[("1", "250 mm"), ("7", "500 mm")])),
    ]
    .into()
}

fn sound_formula(text: &str, error: &FormulaError) {
    in_text(text, &error.range);
    assert!(!error.to_string().is_empty() && !error.wrong.words().way_out().to_string().is_empty());
}

/// Reads a formula and works it out; whether there is an answer.
fn work_out(text: &str) -> bool {
    let formula = match Formula::parse(text) {
        Ok(formula) => formula,
        Err(error) => {
            sound_formula(text, &error);
            return false;
        }
    };
    let known = values().into_iter().map(|(name, value)| (name, Value::Measure(value))).collect();
    match formula.evaluate(&known, &tables()) {
        Ok(evaluated) => {
            let shown: usize = evaluated.steps.iter().map(|line| line.chars().count()).sum();
            assert!(shown <= 4001, "{shown} characters of working: {text:?}");
            true
        }
        Err(error) => {
            sound_formula(text, &error);
            false
        }
    }
}

#[test]
fn formulas_are_tame() {
    let mut dice = Dice::new(2);
    let mut good = 0;
    for _ in 0..FORMULAS {
        let text = text(&mut dice, &WRITTEN_FORMULAS);
        good += usize::from(tame(&text, || work_out(&text)));
    }
    let twentieth = FORMULAS / 20;
    assert!((twentieth..19 * twentieth).contains(&good), "{good} of {FORMULAS} have an answer");
}

/// What is handed on from operation to operation, or written down again and again.
#[test]
fn the_largest_formulas_are_tame() {
    let filled = |start: &str, piece: &str| {
        start.to_owned() + &piece.repeat((2000 - start.len()) / piece.len())
    };
    let unknown = "x".repeat(1000);
    let shapes = [
        filled(&unknown, " + 1"),
        filled(&format!("{unknown} = 1"), " or 1 = 1"),
        filled(&format!("{unknown}(1)"), " + 1"),
        filled("machine.pitch", "*machine.pitch"),
        filled("hot", "-hot"),
        filled("flat", "+flat/7"),
        filled("1", "/7 + 1"),
        filled("sqrt(2)", "*sqrt(2)"),
        filled("dwell(31 µm)", "+dwell(31 µm)"),
        format!("{}1{}", "abs(".repeat(63), ")".repeat(63)),
        format!("{}1{}", "(".repeat(999), ")".repeat(999)),
        "-".repeat(2000),
    ];
    for text in shapes {
        tame(&text, || work_out(&text));
    }
}

/// Formulas that may use each other and themselves.
fn sheet(dice: &mut Dice) -> (Sheet, String) {
    let mut sheet = Sheet { givens: values(), tables: tables(), ..Sheet::default() };
    let mut all = String::new();
    for name in ["a", "b", "c", "d", "e", "machine.f", "flat"] {
        let mut text = match dice.one_in(3) {
            true => text(dice, &WRITTEN_FORMULAS),
            false => dice.pick(&WRITTEN_FORMULAS).to_owned(),
        };
        for given in ["flat", "fin", "trim", "lanes"] {
            if dice.one_in(3) {
                text = text.replace(given, dice.pick(&["a", "b", "c", "d", "e", "machine.f"]));
            }
        }
        match Formula::parse(&text) {
            Ok(formula) if name != "flat" || dice.one_in(9) => {
                sheet.formulas.insert(name.to_owned(), formula);
            }
            Ok(_) => {}
            Err(_) => drop(sheet.unreadable.insert(name.to_owned())),
        }
        all.push_str(&text);
    }
    (sheet, all)
}

#[test]
fn sheets_are_tame() {
    let mut dice = Dice::new(3);
    let (mut good, mut seen) = (0, [false; 4]);
    for _ in 0..SHEETS {
        let (sheet, all) = sheet(&mut dice);
        let solved = tame(&all, || sheet.solve());
        assert!(solved.keys().eq(sheet.formulas.keys()), "every formula is answered: {all:?}");
        for (name, answer) in &solved {
            let Err(error) = answer else {
                good += 1;
                continue;
            };
            assert!(
                !error.to_string().is_empty() && !error.words().way_out().to_string().is_empty()
            );
            let kind = match error {
                SheetError::Formula(error) => {
                    sound_formula(sheet.formulas[name].text(), error);
                    0
                }
                SheetError::Cycle(names) => {
                    assert!(names.len() > 1 && names.first() == names.last(), "{names:?}");
                    1
                }
                SheetError::DependsOn(other) => {
                    assert!(solved.get(other).is_none_or(Result::is_err), "{other} is right");
                    2
                }
                SheetError::Twice => 3,
            };
            seen[kind] = true;
        }
    }
    assert!(good > SHEETS && seen == [true; 4], "{good} answers, {seen:?}");
}

/// The least time of several runs in nanoseconds: of this thread alone, whatever else runs beside it.
fn least(work: impl Fn()) -> i128 {
    let now = || {
        let now = rustix::time::clock_gettime(rustix::time::ClockId::ThreadCPUTime);
        i128::from(now.tv_sec) * 1_000_000_000 + i128::from(now.tv_nsec)
    };
    let timed = || {
        let start = now();
        work();
        now() - start
    };
    (0..7).map(|_| timed()).min().unwrap().max(1)
}

/// How much larger the large one is.
const TIMES: usize = 8;

/// How many times as long it may take: if time grew with the square, it would be 64 times.
const MOST_TIMES: i128 = 24;

#[track_caller]
fn check_growth<T>(name: &str, large: usize, shape: impl Fn(usize) -> T, work: impl Fn(&T)) {
    let (small, large) = (shape(large / TIMES), shape(large));
    work(&large);
    let ratio = least(|| work(&large)) / least(|| work(&small));
    assert!(ratio < MOST_TIMES, "{name}: {TIMES} times as much takes {ratio} times as long");
}

#[test]
#[should_panic(expected = "times as long")]
fn growth_with_the_square_is_noticed() {
    let square = |size: &usize| (0..size * size).for_each(|i| drop(black_box(vec![i])));
    check_growth("a square", 800, |size| size, square);
}

#[test]
#[should_panic(expected = "bytes, 1048640 are allowed")]
fn too_much_memory_is_noticed() {
    tame("1", || black_box(vec![1_u8; 1 << 21]).len());
}

#[test]
#[should_panic(expected = "it panics on \"1\"")]
fn a_panic_is_noticed() {
    tame("1", || assert_eq!(black_box(1), 2));
}

/// A text of about so many bytes.
type Shape = fn(usize) -> String;

#[test]
fn long_quantities_take_time_by_their_length() {
    let shapes: [(&str, Shape); 14] = [
        ("digits", |n| "9".repeat(n)),
        ("decimals", |n| "0.".to_owned() + &"3".repeat(n)),
        ("blanks", |n| format!("1{}mm", " ".repeat(n))),
        ("blanks around", |n| format!("{0}1 mm{0}", " ".repeat(n))),
        ("letters", |n| "1 ".to_owned() + &"m".repeat(n)),
        ("letters of two bytes", |n| "1 ".to_owned() + &"µ".repeat(n)),
        ("strokes", |n| "+1".to_owned() + &"/".repeat(n)),
        ("strokes and blanks", |n| "+1".to_owned() + &"/ ".repeat(n)),
        ("strokes, then blanks", |n| format!("+1{}{}+2", "/".repeat(n), " ".repeat(n))),
        ("signs", |n| "+".repeat(n)),
        ("deviations", |n| "+1/-1 mm ".repeat(n)),
        ("ranges", |n| "1 to ".repeat(n)),
        ("words with to", |n| "tot ".repeat(n)),
        ("at least", |n| "at least ".repeat(n)),
    ];
    for (name, shape) in shapes {
        check_growth(name, 32_000, shape, |text: &String| {
            black_box(read_quantity(text));
        });
    }
}

#[test]
fn long_formulas_take_time_by_their_length() {
    let sum = |n: usize, term: &str| vec![term; n / (term.len() + 3)].join(" + ");
    let nest = |n: usize, open: &str| {
        let depth = n / 40;
        let inner = sum(n - depth * (open.len() + 1), "1");
        format!("{}{inner}{}", open.repeat(depth), ")".repeat(depth))
    };
    let shapes: [(&str, &dyn Fn(usize) -> String); 11] = [
        ("sum of numbers", &|n| sum(n, "1")),
        ("sum of units", &|n| sum(n, "1 kgf/cm²")),
        ("sum of names", &|n| sum(n, "machine.pitch")),
        ("sum of tables", &|n| sum(n, "dwell(25 µm)")),
        ("sum of unknowns", &|n| sum(n, "flatt")),
        ("product of fractions", &|n| vec!["7/3"; n / 6].join(" * ")),
        ("many arguments", &|n| format!("min({})", vec!["flat"; n / 6].join(", "))),
        ("deep", &|n| nest(n, "(")),
        ("deep functions", &|n| nest(n, "abs(")),
        ("comparisons", &|n| vec!["1 < 2"; n / 10].join(" and ")),
        ("blanks", &|n| format!("1 +{}1", " ".repeat(n - 4))),
    ];
    for (name, shape) in shapes {
        check_growth(name, 1960, shape, |text: &String| {
            black_box(work_out(text));
        });
    }
}

#[test]
fn large_sheets_take_time_by_their_size() {
    fn formulas(n: usize, text: impl Fn(usize) -> String) -> Sheet {
        let mut sheet = Sheet { givens: values(), tables: tables(), ..Sheet::default() };
        for i in 0..n {
            sheet.formulas.insert(format!("f{i}"), Formula::parse(&text(i)).unwrap());
        }
        sheet
    }
    let long_names = |n: usize| {
        let name = |letter: &str, i: usize| format!("{}{i}", letter.repeat(n));
        let mut sheet = formulas(8, |i| name("x", i));
        let known = (0..8).map(|i| (name("y", i), Measure::parse("1 mm").unwrap()));
        sheet.givens.extend(known);
        sheet
    };
    let shapes: [(&str, &dyn Fn(usize) -> Sheet); 7] = [
        ("a chain", &|n| {
            formulas(n, |i| if i == 0 { "1".into() } else { format!("f{} + 1", i - 1) })
        }),
        ("a ring", &|n| formulas(n, |i| format!("f{} + 1", (i + 1) % n))),
        ("a chain into a ring", &|n| formulas(n, |i| format!("f{} + 1", (i + 1).min(n - 1)))),
        ("a star", &|n| formulas(n, |i| if i == 0 { "1".into() } else { "f0 + 1".into() })),
        ("all from a fault", &|n| {
            formulas(n, |i| if i == 0 { "1 / 0".into() } else { "f0".into() })
        }),
        ("unknown names", &|n| formulas(n, |_| "nobody + 1".into())),
        ("long unknown names", &long_names),
    ];
    for (name, shape) in shapes {
        check_growth(name, 1600, shape, |sheet: &Sheet| drop(black_box(sheet.solve())));
    }
}
