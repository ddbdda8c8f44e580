//! From one setting of a rail to another.

use serde_json::{Value, json};
use witnessmark::layout::{Action, Body, Rail, Stand, fits, plan_moves};
use witnessmark::quantity::Number;

use super::rails::{rail, rail_given};
use super::{Cases, all_exact};

const MANY: usize = 500;

pub(super) fn ask(cases: &mut Cases) {
    for _ in 0..MANY {
        moves(cases);
    }
}

fn moves(cases: &mut Cases) {
    let rail = rail(cases);
    let old = setting(cases, &rail, &[]);
    let new = setting(cases, &rail, &old);
    let plan = plan_moves(&old, &new, &rail);
    let given = json!({
        "rail": rail_given(&rail),
        "old": all_exact(&old),
        "new": all_exact(&new),
    });
    let actions: Vec<Value> = plan.actions.iter().map(action).collect();
    cases.add("moves", &given, &json!({ "actions": actions, "kept": plan.kept }));
}

fn action(action: &Action) -> Value {
    match action {
        Action::Remove { old } => json!(["remove", old]),
        Action::Slide { old, new } => json!(["slide", old, new]),
        Action::Fit { new } => json!(["fit", new]),
    }
}

/// Holders that have room, some of them where others stood before.
fn setting(cases: &mut Cases, rail: &Rail, before: &[Number]) -> Vec<Number> {
    let keep = cases.dice.between(0, 4);
    let mut setting: Vec<Number> =
        before.iter().copied().filter(|_| cases.dice.between(1, 4) <= keep).collect();
    let wanted = setting.len() + cases.dice.below(7);
    for _ in 0..40 {
        if setting.len() >= wanted {
            break;
        }
        let mut more = setting.clone();
        more.push(cases.dice.fraction(-3500, 3500, 8));
        more.sort();
        let stand = |position: &Number| Stand { position: *position, parked: false };
        let stands: Vec<Stand> = more.iter().map(stand).collect();
        if fits(&stands, rail, Body::Holder).is_ok() {
            setting = more;
        }
    }
    setting
}
