//! Units, rounding, limits, general tolerances and uncertainty.

use serde_json::{Value, json};
use witnessmark::quantity::uncertainty::{combined, rectangular, triangular, u_shaped};
use witnessmark::quantity::unit::UNITS;
use witnessmark::quantity::{
    Dimension, GeneralClass, Limits, Measure, Number, Quantity, Rounding, Sure, Unit, guard,
    inward, of_instrument, outward, settle,
};

use super::{Cases, exact, exact_in, quantity};

const MANY: usize = 300;

pub(super) fn ask(cases: &mut Cases) {
    conversions(cases);
    differences(cases);
    for _ in 0..MANY {
        rounding(cases);
        settled(cases);
        printed_limits(cases);
        general(cases);
        angle(cases);
        instrument(cases);
        contributions(cases);
        verdict(cases);
    }
}

/// A decimal or a mixed fraction, as people write it.
fn written(cases: &mut Cases) -> String {
    if cases.dice.one_in(4) {
        let below = cases.dice.pick(&[2, 4, 8, 16, 32, 64]);
        let above = cases.dice.between(1, below - 1);
        return format!("{} {above}/{below}", cases.dice.between(0, 99));
    }
    cases.dice.decimal(-999, 9999)
}

/// Every unit of a dimension to every other one.
fn conversions(cases: &mut Cases) {
    let all = UNITS.iter().flat_map(|from| UNITS.iter().map(move |to| (from, to)));
    for (from, to) in all.filter(|(from, to)| from.dimension == to.dimension) {
        for _ in 0..3 {
            let number = written(cases);
            let measure = Measure::parse(&format!("{number} {from}")).unwrap();
            let answer = exact(measure.quantity.in_unit(Some(to)).unwrap());
            let given = json!({ "number": number, "from": from.symbol, "to": to.symbol });
            cases.add("conversion", &given, &json!({ "number": answer }));
        }
    }
}

/// Temperatures that are read as differences.
fn differences(cases: &mut Cases) {
    for _ in 0..MANY {
        let (number, from) = (written(cases), cases.dice.pick(&["°C", "°F", "K"]));
        let measure = Measure::parse_difference(&format!("{number} {from}")).unwrap();
        let to = cases.dice.pick(&["°C", "°F", "K"]);
        let given = json!({ "number": number, "from": from, "to": to });
        cases.add("difference", &given, &json!({ "number": exact_in(measure.quantity, to) }));
    }
}

fn rounding(cases: &mut Cases) {
    let step = match cases.dice.one_in(2) {
        true => Number::ratio(1, cases.dice.pick(&[1, 2, 8, 10, 20, 64, 1000])).unwrap(),
        false => cases.dice.fraction(1, 90, 7),
    };
    // Halves of a step come often: they are what goes wrong.
    let number = match cases.dice.one_in(2) {
        true => cases.dice.fraction(-99, 99, 2).mul(step).unwrap(),
        false => cases.dice.fraction(-99_999, 99_999, 96),
    };
    let places = u32::try_from(cases.dice.between(0, 5)).unwrap();
    let way = |rounding| exact(number.round_to_step(step, rounding).unwrap());
    let given = json!({ "number": exact(number), "step": exact(step), "places": places });
    let answer = json!({
        "half_even": way(Rounding::HalfEven),
        "up": way(Rounding::Up),
        "down": way(Rounding::Down),
        "decimal": number.decimal(places),
    });
    cases.add("rounding", &given, &answer);
}

/// Limits about a target, sometimes open on a side, all of them in one unit.
struct Band {
    unit: &'static str,
    target: Number,
    low: Option<Number>,
    high: Option<Number>,
}

impl Band {
    fn any(cases: &mut Cases) -> Band {
        let dice = &mut cases.dice;
        let unit = dice.pick(&["mm", "in", "°C", "°F", "N", "bar", "g"]);
        let target = dice.fraction(-20_000, 90_000, 128);
        let low = (!dice.one_in(5)).then(|| target.sub(dice.fraction(0, 99, 64)).unwrap());
        let high = (!dice.one_in(5)).then(|| target.add(dice.fraction(0, 99, 64)).unwrap());
        Band { unit, target, low, high }
    }

    fn of(&self, number: Number) -> Quantity {
        Quantity::of(number, Unit::find(self.unit)).unwrap()
    }

    fn limits(&self) -> Limits {
        let of = |number: Option<Number>| number.map(|number| self.of(number));
        Limits { low: of(self.low), high: of(self.high) }
    }

    fn given(&self) -> Value {
        let (low, high) = (self.low.map(exact), self.high.map(exact));
        json!({ "unit": self.unit, "target": exact(self.target), "low": low, "high": high })
    }
}

/// Units in which the same thing may be read too.
fn readable(unit: &str) -> &'static [&'static str] {
    match unit {
        "mm" | "in" => &["mm", "in"],
        "°C" | "°F" => &["°C", "°F"],
        "N" => &["N", "lbf"],
        "bar" => &["bar", "psi"],
        _ => &["g", "oz"],
    }
}

fn settled(cases: &mut Cases) {
    let band = Band::any(cases);
    let unit = cases.dice.pick(readable(band.unit));
    let step = cases.dice.pick(&["0.1", "0.5", "1", "0.05", "1/16", "1/64", "0.02"]);
    let resolution = Measure::parse_difference(&format!("{step} {unit}")).unwrap();
    let answer = settle(band.of(band.target), &band.limits(), &resolution)
        .map_or("none".to_owned(), |settled| exact_in(settled.value, unit));
    let mut given = band.given();
    given["step"] = json!(step);
    given["step_unit"] = json!(unit);
    cases.add("settled", &given, &json!({ "number": answer }));
}

fn printed_limits(cases: &mut Cases) {
    let band = Band::any(cases);
    let shown = cases.dice.pick(readable(band.unit));
    let (unit, places) = (Unit::find(shown), u32::try_from(cases.dice.between(0, 3)).unwrap());
    let mut given = band.given();
    given["shown"] = json!(shown);
    given["places"] = json!(places);
    let answer = match inward(&band.limits(), unit, places) {
        Ok(inner) => json!({ "low": inner.low, "high": inner.high }),
        Err(_) => json!({ "low": "none", "high": "none" }),
    };
    cases.add("inward", &given, &answer);
    let outer = outward(&band.limits(), unit, places).unwrap();
    cases.add("outward", &given, &json!({ "low": outer.low, "high": outer.high }));
}

fn general(cases: &mut Cases) {
    let class = cases.dice.pick(&GeneralClass::ALL);
    let unit = cases.dice.pick(&["mm", "mm", "in"]);
    let edge = cases.dice.pick(&["0.5", "3", "6", "30", "120", "400", "1000", "2000", "4000"]);
    let size = match cases.dice.one_in(3) {
        true => edge.to_owned(),
        false => match cases.dice.one_in(2) {
            true => cases.dice.decimal(-40, 40),
            false => cases.dice.decimal(-4100, 4100),
        },
    };
    let allowed = class.for_length(quantity(&format!("{size} {unit}")));
    let answer = allowed.map_or("none".to_owned(), |by| exact_in(by.upper, "mm"));
    let given = json!({ "class": class.letter(), "size": size, "unit": unit });
    cases.add("general", &given, &json!({ "mm": answer }));
}

fn angle(cases: &mut Cases) {
    let class = cases.dice.pick(&GeneralClass::ALL);
    let leg = match cases.dice.one_in(3) {
        true => cases.dice.pick(&["10", "50", "120", "400"]).to_owned(),
        false => cases.dice.decimal(1, 500),
    };
    let allowed = class.for_angle(quantity(&format!("{leg} mm"))).unwrap();
    let given = json!({ "class": class.letter(), "leg": leg });
    cases.add("angle", &given, &json!({ "arcmin": exact_in(allowed.upper, "arcmin") }));
}

fn instrument(cases: &mut Cases) {
    let unit = cases.dice.pick(&["mm", "in", "N", "°C"]);
    let step = cases.dice.pick(&["1", "0.5", "0.1", "0.01", "0.02", "1/64", "1/128"]);
    let limit = cases.dice.fraction(1, 900, 1000).decimal(3);
    let read = |number: &str| Measure::parse_difference(&format!("{number} {unit}")).unwrap();
    let uncertainty = of_instrument(&read(step), &read(&limit)).unwrap();
    let given = json!({ "step": step, "limit": limit });
    cases.add("instrument", &given, &json!({ "U": exact_in(uncertainty.quantity, unit) }));
}

fn contributions(cases: &mut Cases) {
    let dimension = Dimension::LENGTH;
    let (mut given, mut variances) = (Vec::new(), Vec::new());
    for _ in 0..cases.dice.between(1, 5) {
        let half_width = Quantity { amount: cases.dice.fraction(1, 400, 1000), dimension };
        let (shape, variance) = match cases.dice.below(3) {
            0 => ("rectangular", rectangular(half_width)),
            1 => ("triangular", triangular(half_width)),
            _ => ("u_shaped", u_shaped(half_width)),
        };
        given.push(json!([shape, exact(half_width.amount)]));
        variances.push(variance.unwrap());
    }
    let together = combined(&variances).unwrap();
    cases.add("combined", &json!({ "parts": given }), &json!({ "u": exact(together.amount) }));
}

fn verdict(cases: &mut Cases) {
    let band = Band::any(cases);
    let uncertainty = cases.dice.fraction(0, 60, 64);
    // On a limit, or on one moved by the uncertainty, as often as elsewhere.
    let edges = [band.target, band.low.unwrap_or(band.target), band.high.unwrap_or(band.target)];
    let moved = cases.dice.pick(&[Number::ZERO, uncertainty, uncertainty.neg()]);
    let near = cases.dice.pick(&edges).add(moved).unwrap();
    let reading =
        near.add(cases.dice.pick(&[-1, 0, 0, 1].map(|off| Number::ratio(off, 64))).unwrap());
    let reading = reading.unwrap();
    let unit = Unit::find(band.unit);
    let width = Quantity::difference_of(uncertainty, unit).unwrap();
    let sure = guard(&band.limits(), width).unwrap().judge(band.of(reading)).unwrap();
    let word = match sure {
        Sure::Within => "within",
        Sure::TooCloseToTell => "too close to tell",
        Sure::Outside => "outside",
    };
    let mut given = band.given();
    given["U"] = json!(exact(uncertainty));
    given["reading"] = json!(exact(reading));
    cases.add("verdict", &given, &json!({ "word": word }));
}
