//! The stop of a job on a page: what is done before, during and after it, what each step costs it, what
//! could move out.
//!
//! Words what [`crate::plan::stop`] worked out. Must never say that a step may move: it asks.

use serde::Serialize;

use super::site::Spoken;
use crate::language::{Language, Part};
use crate::packet::model::{Packet, Step};
use crate::plan::stop::{CouldMove, Stop, Takes, stop};
use crate::plan::tasks::{Item, When};

/// The stop of one job, for `plan-stop.html`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StopView {
    /// How long the line stands, in a sentence.
    pub stands: String,
    /// How much the plan saves, in a sentence; may be empty.
    pub saved: String,
    /// Before, during and after, those that have steps.
    pub lists: Vec<StopList>,
    /// Steps inside the stop that could move out.
    pub could_move: Vec<CouldMoveLine>,
    /// Steps without planned minutes.
    pub unplanned: Vec<StopStep>,
}

/// The steps before, during or after the stop.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StopList {
    /// When.
    pub heading: String,
    /// How long, in words.
    pub minutes: String,
    /// Whether its steps cost minutes of the stop.
    pub has_costs: bool,
    /// The steps, in the order of the plan.
    pub steps: Vec<StopLine>,
}

/// A step with its minutes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StopLine {
    /// The step.
    pub step: StopStep,
    /// Planned minutes.
    pub minutes: String,
    /// Minutes of the stop that it costs; empty outside.
    pub cost: String,
    /// Whether the plan takes it out of the stop.
    pub is_moved: bool,
}

/// A step by its number and title.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StopStep {
    /// Its number in the packet.
    pub number: u32,
    /// Its title.
    pub title: Spoken,
}

/// A step inside the stop, and what it takes to move it out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CouldMoveLine {
    /// The step.
    pub step: StopStep,
    /// What it takes, as a question.
    pub takes: String,
}

impl StopView {
    /// The stop of a packet, in the packet's language.
    pub fn of(packet: &Packet) -> StopView {
        let stop = stop(packet);
        let words = Wording { packet, language: packet.language };
        let could_move = stop.could_move.iter().filter_map(|one| words.could_move(one));
        let unplanned = stop.unplanned.iter().filter_map(|step| packet.steps.get(*step));
        StopView {
            stands: words.stands(&stop),
            saved: match stop.saved() {
                0 => String::new(),
                saved => words.text("stop-saved", &[("minutes", saved.into())]),
            },
            lists: words.lists(&stop),
            could_move: could_move.collect(),
            unplanned: unplanned.map(named).collect(),
        }
    }
}

struct Wording<'a> {
    packet: &'a Packet,
    language: Language,
}

impl Wording<'_> {
    fn text(&self, key: &'static str, parts: &[(&str, Part)]) -> String {
        self.language.text(key, parts)
    }

    fn stands(&self, stop: &Stop) -> String {
        match stop.of(When::During).next() {
            Some(_) => self.text("stop-stands", &[("minutes", stop.minutes.into())]),
            None => self.language.word("stop-none").to_owned(),
        }
    }

    fn lists(&self, stop: &Stop) -> Vec<StopList> {
        let of = [
            (When::Before, "stop-before", stop.minutes_before),
            (When::During, "stop-during", stop.minutes),
            (When::After, "stop-after", stop.minutes_after),
        ];
        let list = |(when, heading, longest)| {
            let steps: Vec<StopLine> =
                stop.of(when).filter_map(|(item, cost)| self.line(item, cost)).collect();
            let minutes: u32 =
                stop.of(when).fold(0, |sum, (item, _)| sum.saturating_add(item.minutes));
            let parts = [("minutes", minutes.into()), ("longest", u32::into(longest))];
            (!steps.is_empty()).then(|| StopList {
                heading: self.language.word(heading).to_owned(),
                minutes: self.text("stop-planned", &parts),
                has_costs: when == When::During,
                steps,
            })
        };
        of.into_iter().filter_map(list).collect()
    }

    fn line(&self, item: &Item, cost: u32) -> Option<StopLine> {
        let step = self.packet.steps.get(item.step)?;
        let minutes = |count: u32| self.text("stop-min", &[("count", count.into())]);
        let missing = || self.language.word("stop-not-planned").to_owned();
        Some(StopLine {
            step: named(step),
            minutes: step.minutes.map_or_else(missing, minutes),
            cost: if item.when == When::During { minutes(cost) } else { String::new() },
            is_moved: item.is_moved,
        })
    }

    fn could_move(&self, one: &CouldMove) -> Option<CouldMoveLine> {
        let step = self.packet.steps.get(one.step)?;
        let other = |place: usize| self.packet.steps.get(place);
        let takes = match one.takes {
            Takes::Running => self.language.word("stop-could-running").to_owned(),
            Takes::AnotherPlace(place) => {
                self.text("stop-could-place", &[("number", other(place)?.number.into())])
            }
            Takes::LessAfter(place) => {
                let other = other(place)?;
                let parts = [
                    ("number", other.number.into()),
                    ("procedure", (&other.procedure).into()),
                    ("own", (&step.procedure).into()),
                ];
                self.text("stop-could-after", &parts)
            }
        };
        Some(CouldMoveLine { step: named(step), takes })
    }
}

fn named(step: &Step) -> StopStep {
    let lang = step.language.map_or(String::new(), |language| language.tag().to_owned());
    StopStep { number: step.number, title: Spoken { text: step.title.clone(), lang } }
}

#[cfg(test)]
mod tests {
    use super::StopView;
    use crate::language::Language;
    use crate::packet::model::Packet;
    use crate::page::engine;
    use crate::plan::fixture::packet;

    /// The section as text: tags are gaps.
    fn shown(packet: &Packet) -> String {
        let mut engine = engine(packet.language);
        engine.add_raw_templates([("stop-alone.html", "{{<stop s={s} />}}")]).unwrap();
        let mut context = tera::Context::new();
        context.insert("s", &StopView::of(packet));
        let page = engine.render("stop-alone.html", &context).unwrap();
        let mut text = String::new();
        for piece in page.split('<') {
            text.push_str(piece.split_once('>').map_or(piece, |(_, text)| text));
            text.push(' ');
        }
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    const STEPS: [&str; 6] = [
        "prepare/kit work =12 ~",
        "lockout/stop shutdown =4",
        "papers<prepare/read work =8 ~",
        "knives/<b> in",
        "label/look work =3 ~",
        "hand/over work =6 +run",
    ];

    #[test]
    fn the_section_says_what_is_done_when_and_what_it_costs() {
        let text = shown(&packet(&STEPS));
        for said in [
            "The line stands 13 min at least, however many people work. That is 8 min less",
            "Before the stop. 20 min planned, 20 min at least",
            "3 read out of the stop by this plan 8 min",
            "2 stop 4 min 4 min",
            "4 &lt;b&gt; not planned 0 min",
            "counted as none: 4 &lt;b&gt;",
            "5 look It may be done while the line runs, and waits for step 4 of the procedure \
             “knives”. Does it need that? If not, “after” of the procedure “label” names",
        ] {
            assert!(text.contains(said), "{said}\n{text}");
        }
    }

    #[test]
    fn it_is_worded_in_the_language_of_the_packet() {
        for (language, said) in [
            (Language::Spanish, "La línea está parada 13 min"),
            (Language::German, "Die Linie steht mindestens 13 min"),
        ] {
            let packet = Packet { language, ..packet(&STEPS) };
            assert!(shown(&packet).contains(said), "{}", shown(&packet));
        }
    }

    #[test]
    fn a_packet_that_needs_no_stop_says_so() {
        let text = shown(&packet(&["prepare/kit work =12 ~"]));
        assert!(text.contains("Nothing in this packet needs the line stopped."), "{text}");
        assert!(text.contains("No step in the stop could move out"), "{text}");
    }
}
