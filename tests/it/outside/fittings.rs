//! Screws, wrenches and what may lack in a package.

use serde_json::json;
use witnessmark::quantity::Number;
use witnessmark::trade::screws::SCREWS;
use witnessmark::trade::{Class, Joint, NoWrench, Rules, net_contents, wrench_fits};

use super::{Cases, exact, exact_in, quantity};

const MANY: usize = 300;

pub(super) fn ask(cases: &mut Cases) {
    for screw in SCREWS {
        for class in Class::ALL {
            for _ in 0..9 {
                let nut_factor = cases.dice.fraction(12, 25, 100);
                let share = cases.dice.fraction(50, 90, 100);
                torque(cases, &Joint { screw, class, nut_factor, share });
            }
        }
    }
    for _ in 0..MANY {
        wrench(cases);
        contents(cases);
    }
}

fn torque(cases: &mut Cases, joint: &Joint) {
    let given = json!({
        "screw": joint.screw.to_string(),
        "class": joint.class.to_string(),
        "nut_factor": exact(joint.nut_factor),
        "share": exact(joint.share),
    });
    let answer = json!({
        "preload": exact_in(joint.preload().unwrap(), "N"),
        "torque": exact_in(joint.torque().unwrap(), "N·m"),
        "area": exact_in(joint.screw.calculated_area().unwrap(), "mm²"),
    });
    cases.add("torque", &given, &answer);
}

fn wrench(cases: &mut Cases) {
    let dice = &mut cases.dice;
    let high = dice.between(5, 60);
    let (low, at) = (dice.between(1, high), dice.fraction(1, high * 9, 8));
    let torque = if dice.one_in(8) { Number::from(10_u32) } else { at };
    let of = |number: Number| quantity(&format!("{number} N·m"));
    let fits = wrench_fits(of(low.into()), of(high.into()), of(torque));
    let answer = match fits {
        Ok(delivered) => json!({
            "low": delivered.limits.low.map(|low| exact_in(low, "N·m")),
            "high": delivered.limits.high.map(|high| exact_in(high, "N·m")),
        }),
        Err(NoWrench::NotInRange { .. }) => json!({ "low": "none", "high": "none" }),
        Err(other) => panic!("{other:?}"),
    };
    let given = json!({ "range": [low, high], "torque": exact(torque) });
    cases.add("wrench", &given, &answer);
}

fn contents(cases: &mut Cases) {
    let dice = &mut cases.dice;
    let label = match dice.below(4) {
        0 => Number::from(dice.pick(&[5_i64, 50, 100, 200, 300, 500, 1000, 10_000])),
        1 => dice.fraction(50, 1000, 10),
        2 => dice.fraction(100, 1100, 1),
        _ => dice.fraction(4, 10_100, 1),
    };
    let answer = net_contents(label, Rules::Eu).map_or(
        json!({ "error": "none", "least": "none", "never": "none" }),
        |limits| {
            json!({
                "error": exact(limits.tolerable_error),
                "least": exact(limits.least),
                "never": limits.never.map(exact),
            })
        },
    );
    cases.add("contents", &json!({ "label": exact(label) }), &answer);
}
