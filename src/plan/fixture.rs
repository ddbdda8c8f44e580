//! Small packets in words, for tests of the plan.

use crate::packet::model::{Meaning, NamedBy, Packet, Part, Sign, Step};
use crate::procedure::protect::tests::{step as words_of, zones};
use crate::record::fixture;

/// A packet of these steps: `knives/set in @web =20`, its procedure and its own name, then what the walk's
/// tests say of a step, `=20` for minutes, `+run` for a mark, `~` when the line may run, `!` when it stays.
/// A procedure is `knives`, or `knives<old-web` when it waits for less than everything before it.
pub(crate) fn packet(steps: &[&str]) -> Packet {
    let mut packet = fixture::packet();
    packet.zones = zones();
    packet.order.clear();
    packet.steps = (1..).zip(steps).map(|(number, words)| step(number, words)).collect();
    for words in steps {
        let procedure = words.split('/').next().unwrap();
        let (name, after) = match procedure.split_once('<') {
            Some((name, after)) => (name, Some(after)),
            None => (procedure, None),
        };
        let after = after.map(|names| names.split(',').filter(|name| !name.is_empty()));
        let after = after.map(|names| names.map(str::to_owned).collect());
        if !packet.order.iter().any(|part| part.procedure == name) {
            packet.order.push(part(name, after));
        }
    }
    packet
}

fn part(procedure: &str, after: Option<Vec<String>>) -> Part {
    Part {
        procedure: procedure.to_owned(),
        nth: 1,
        by: NamedBy::Machine,
        place: String::new(),
        inside: String::new(),
        with: Default::default(),
        kept: String::new(),
        after,
    }
}

fn step(number: u32, words: &str) -> Step {
    let (procedure, rest) = words.split_once('/').unwrap();
    let procedure = procedure.split('<').next().unwrap();
    let (own, others): (Vec<&str>, Vec<&str>) =
        rest.split(' ').partition(|word| word.starts_with(['=', '+', '~', '!']));
    let (title, words) = others.split_first().unwrap();
    let found = |sign: char| own.iter().filter_map(move |word| word.strip_prefix(sign));
    let mark = |mark: &str| serde_json::from_str(&format!("\"{mark}\"")).unwrap();
    let sign = |meaning, role: &str| Sign { meaning, role: role.to_owned(), row: None, by: None };
    Step {
        number,
        id: format!("{procedure}.{title}"),
        procedure: procedure.to_owned(),
        title: (*title).to_owned(),
        minutes: found('=').next().map(|minutes| minutes.parse().unwrap()),
        marks: found('+').map(mark).collect(),
        while_running: found('~').next().is_some(),
        stays: found('!').next().map(|_| "nothing changes".to_owned()),
        signs: vec![sign(Meaning::Performed, "technician")],
        ..words_of(&words.join(" "))
    }
}
