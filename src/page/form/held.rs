//! From which step to which each energy source is held at zero.
//!
//! Reads the packet's stages, as its check has judged them. Must never judge the order itself.

use crate::language::Language;
use crate::packet::model::{Packet, Stage, Step};

/// A time in which a source is held: after the step that proves zero, before the one that takes off
/// its lock.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Span {
    source: String,
    proved: u32,
    unlocked: Option<u32>,
}

/// Every source's spans.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Held {
    spans: Vec<Span>,
    sources: usize,
}

impl Held {
    /// Follows the steps that are done.
    pub(super) fn of(packet: &Packet) -> Held {
        let mut spans: Vec<Span> = Vec::new();
        for step in packet.steps.iter().filter(|step| step.stays.is_none()) {
            for source in &packet.energy {
                let open = |span: &&mut Span| span.source == source.name && span.unlocked.is_none();
                match (effect(step, &source.id), spans.iter_mut().find(open)) {
                    (Effect::Proves, None) => spans.push(Span {
                        source: source.name.clone(),
                        proved: step.number,
                        unlocked: None,
                    }),
                    (Effect::Frees, Some(span)) => span.unlocked = Some(step.number),
                    _ => {}
                }
            }
        }
        Held { spans, sources: packet.energy.len() }
    }

    /// Which sources are held in the steps from `first` to `last`, each with its limits where they fall
    /// inside; empty when none is.
    pub(super) fn within(&self, language: Language, first: u32, last: u32) -> Vec<String> {
        let mut lines: Vec<(Option<u32>, Option<u32>, Vec<&str>)> = Vec::new();
        let meets = |span: &&Span| {
            span.proved <= last && span.unlocked.is_none_or(|unlocked| unlocked >= first)
        };
        for span in self.spans.iter().filter(meets) {
            let from = Some(span.proved).filter(|proved| *proved >= first);
            let until = span.unlocked.filter(|unlocked| *unlocked <= last);
            match lines.iter_mut().find(|line| (line.0, line.1) == (from, until)) {
                Some(line) => line.2.push(&span.source),
                None => lines.push((from, until, vec![&span.source])),
            }
        }
        lines.iter().map(|(from, until, names)| self.line(language, *from, *until, names)).collect()
    }

    fn line(
        &self,
        language: Language,
        from: Option<u32>,
        until: Option<u32>,
        names: &[&str],
    ) -> String {
        let what = match names.len() == self.sources && self.sources > 1 {
            true => language.text("forms-all-sources", &[("count", self.sources.into())]),
            false => names.join(", "),
        };
        let number = |step: u32| step.to_string().into();
        let what = ("what", what.into());
        match (from, until) {
            (None, None) => language.text("forms-held", &[what]),
            (Some(from), None) => language.text("forms-held-from", &[what, ("from", number(from))]),
            (None, Some(until)) => {
                language.text("forms-held-until", &[what, ("until", number(until))])
            }
            (Some(from), Some(until)) => language.text(
                "forms-held-between",
                &[what, ("from", number(from)), ("until", number(until))],
            ),
        }
    }
}

/// What a step does to a source.
enum Effect {
    Proves,
    Frees,
    Nothing,
}

/// A step that names no source frees all of them and proves none: in doubt there is energy.
fn effect(step: &Step, source: &str) -> Effect {
    let named = step.sources.iter().any(|id| id == source);
    match step.stage {
        Stage::Verify if named => Effect::Proves,
        Stage::Unlock | Stage::Restart if named || step.sources.is_empty() => Effect::Frees,
        _ => Effect::Nothing,
    }
}
