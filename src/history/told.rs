//! The history as lines of text: each machine, the blanks at which a rule fired, what may be changed.
//!
//! Must never say more than the history does, nor call a signal a fault.

use super::capability::{Capability, Refused};
use super::chart::NoLines;
use super::model::{History, LeftOut, Machine, Of, Proposal, Series, Share, Spent};
use super::rules::Rule;
use crate::language::{Language, Part, Words};
use crate::quantity::{Number, decimals_in};

/// Decimals that means and limits have beyond those of the readings.
const MORE: u32 = 2;
/// Decimals of a capability figure.
const INDEX: u32 = 2;

/// The history in a language.
pub fn text(history: &History, language: Language) -> String {
    let mut text = Text { said: String::new(), language };
    if history.machines.is_empty() {
        text.line(0, language.word("history-none"));
    }
    for machine in &history.machines {
        text.machine(machine);
        let own = history.series.iter().filter(|series| series.machine == machine.id);
        let (loud, quiet): (Vec<_>, Vec<_>) = own.partition(|series| series.has_signal());
        loud.into_iter().for_each(|series| text.series(series));
        if !quiet.is_empty() {
            text.say(1, "history-quiet", &[("count", quiet.len().into())]);
        }
    }
    history.proposals.iter().for_each(|proposal| text.proposal(proposal));
    history.left_out.iter().for_each(|left_out| text.left_out(left_out));
    text.said
}

impl Series {
    /// Whether a rule fired, or a moving range lay above its limit.
    pub fn has_signal(&self) -> bool {
        !self.signals.is_empty() || self.range_signals > 0
    }

    /// Decimals with which its means and limits are shown: two more than its newest reading has.
    pub fn places(&self) -> u32 {
        let newest = self.points.last();
        newest.map_or(0, |point| decimals_in(&point.reading)).saturating_add(MORE)
    }
}

impl Rule {
    /// The rule by its published numbers: `Nelson 5 (Western Electric 2)`.
    pub fn name(self) -> Words {
        let number = |number: Option<u8>| number.map(|number| number.to_string());
        match (number(self.nelson()), number(self.western_electric())) {
            (Some(number), Some(other)) => {
                let parts = [("number", number.into()), ("other", other.into())];
                Words::new("history-rule-both", &parts)
            }
            (Some(number), None) => Words::new("history-rule-nelson", &[("number", number.into())]),
            (None, other) => {
                let other = other.unwrap_or_default();
                Words::new("history-rule-western", &[("other", other.into())])
            }
        }
    }

    /// The pattern in words.
    pub fn meaning(self) -> Words {
        Words::of(match self {
            Rule::BeyondThree => "history-rule-beyond-three",
            Rule::NineOnOneSide => "history-rule-nine",
            Rule::SixSteady => "history-rule-six",
            Rule::FourteenInTurn => "history-rule-fourteen",
            Rule::TwoOfThree => "history-rule-two-of-three",
            Rule::FourOfFive => "history-rule-four-of-five",
            Rule::FifteenWithin => "history-rule-fifteen",
            Rule::EightWithout => "history-rule-eight-without",
            Rule::EightOnOneSide => "history-rule-eight",
        })
    }
}

impl NoLines {
    /// Why, for people.
    pub fn words(self) -> Words {
        match self {
            NoLines::TooFew { have, need } => {
                Words::new("history-no-lines-few", &[("have", shown(have)), ("need", shown(need))])
            }
            NoLines::NoSpread => Words::of("history-no-lines-spread"),
            NoLines::TooLong => Words::of("history-no-lines-long"),
        }
    }
}

impl Refused {
    /// Why, for people.
    pub fn words(self) -> Words {
        match self {
            Refused::NoLimits => Words::of("history-capability-no-limits"),
            Refused::OneValue => Words::of("history-capability-one-value"),
            Refused::TooFew { have, need } => {
                let parts = [("have", shown(have)), ("need", shown(need))];
                Words::new("history-capability-few", &parts)
            }
            Refused::NotStable { at, have, need } => {
                let parts = [("at", shown(at)), ("have", shown(have)), ("need", shown(need))];
                Words::new("history-capability-not-stable", &parts)
            }
            Refused::NoSpread => Words::of("history-capability-spread"),
            Refused::TooLong => Words::of("history-capability-long"),
        }
    }
}

/// A count that no plural hangs on.
fn shown(count: impl ToString) -> Part<'static> {
    count.to_string().into()
}

/// A count that a plural hangs on.
fn count(number: u64) -> Part<'static> {
    usize::try_from(number).unwrap_or(usize::MAX).into()
}

/// Lines in a language.
struct Text {
    said: String,
    language: Language,
}

impl Text {
    fn line(&mut self, depth: usize, words: &str) {
        self.said += &"  ".repeat(depth);
        self.said += words;
        self.said.push('\n');
    }

    fn say(&mut self, depth: usize, key: &'static str, parts: &[(&'static str, Part)]) {
        let words = self.language.text(key, parts);
        self.line(depth, &words);
    }

    fn number(&self, number: Number, places: u32) -> String {
        self.language.decimals(&number.decimal(places))
    }

    fn measure(&self, text: &str, unit: &str) -> String {
        format!("{} {unit}", self.language.decimals(text)).trim_end().to_owned()
    }

    fn machine(&mut self, machine: &Machine) {
        let Machine { id, name, changeovers, readings, .. } = machine;
        let (id, name) = (("id", id.into()), ("name", name.into()));
        let parts = [id, name, ("count", count(*changeovers)), ("readings", count(*readings))];
        self.say(0, "history-machine", &parts);
        self.spent("history-time", machine.time);
        self.spent("history-stop", machine.stop);
        let Share { good, all } = machine.first_pass;
        self.say(1, "history-first-pass", &[("good", shown(good)), ("all", shown(all))]);
        for (key, number) in [
            ("history-corrections", machine.corrections),
            ("history-deviations", machine.deviations),
        ] {
            if number > 0 {
                self.say(1, key, &[("count", count(number))]);
            }
        }
    }

    fn spent(&mut self, key: &'static str, spent: Spent) {
        let mean = |minutes: u64| {
            let minutes = Number::from(i64::try_from(minutes).ok()?);
            minutes.div(Number::from(i64::try_from(spent.changeovers).ok()?)).ok()
        };
        let (Some(minutes), Some(planned)) = (mean(spent.minutes), mean(spent.planned)) else {
            return;
        };
        let parts = [
            ("minutes", self.number(minutes, 0).into()),
            ("planned", self.number(planned, 0).into()),
        ];
        self.say(1, key, &parts);
    }

    fn series(&mut self, series: &Series) {
        let places = series.places();
        let shown_in_unit = |number: Option<Number>| match number {
            Some(number) => self.measure(&number.decimal(places), &series.unit),
            None => "–".to_owned(),
        };
        let of = match series.of {
            Of::Deviation => "history-of-deviation",
            Of::Reading => "history-of-reading",
        };
        let (mean, deviation) = (shown_in_unit(series.mean), shown_in_unit(series.deviation));
        let parts = [
            ("label", (&series.label).into()),
            ("blank", (&series.blank).into()),
            ("count", count(series.count)),
            ("of", Words::of(of).into()),
            ("mean", mean.into()),
            ("deviation", deviation.into()),
        ];
        self.say(1, "history-series", &parts);
        self.lines(series);
        self.signals(series);
        self.capability(series);
    }

    fn lines(&mut self, series: &Series) {
        let Some(lines) = &series.lines else {
            if let Some(why) = series.no_lines {
                let why = why.words().shown(self.language);
                self.line(2, &why);
            }
            return;
        };
        let places = series.places();
        let number = |number: Number| -> Part<'static> { self.number(number, places).into() };
        let parts = [
            ("lower", number(lines.lower)),
            ("upper", number(lines.upper)),
            ("centre", number(lines.centre)),
            ("base", shown(lines.base)),
        ];
        let key = match lines.is_provisional {
            true => "history-lines-provisional",
            false => "history-lines",
        };
        self.say(2, key, &parts);
    }

    fn signals(&mut self, series: &Series) {
        for (rule, times) in &series.signals {
            let (name, meaning) = (rule.name(), rule.meaning());
            let parts =
                [("rule", name.into()), ("meaning", meaning.into()), ("count", count(*times))];
            self.say(2, "history-signal", &parts);
            let Some(last) = series.points.iter().rfind(|point| point.fired.contains(rule)) else {
                continue;
            };
            let day = last.at.get(..10).unwrap_or(&last.at);
            let (number, record) = (shown(last.number), (&last.record).into());
            let parts = [("number", number), ("record", record), ("day", day.into())];
            self.say(3, "history-signal-last", &parts);
        }
        if series.range_signals > 0 {
            self.say(2, "history-range-signal", &[("count", count(series.range_signals))]);
        }
    }

    fn capability(&mut self, series: &Series) {
        match &series.capability {
            Capability::Known(figures) => {
                let parts = [
                    ("within", self.number(figures.within.cpk, INDEX).into()),
                    ("overall", self.number(figures.overall.cpk, INDEX).into()),
                    ("count", shown(figures.count)),
                ];
                self.say(2, "history-capability", &parts);
            }
            Capability::Refused(why) => {
                let why = why.words().shown(self.language);
                self.line(2, &why);
            }
        }
    }

    fn proposal(&mut self, own: &Proposal) {
        let places = decimals_in(&own.target).saturating_add(MORE);
        let measure = |text: &str| -> Part<'static> { self.measure(text, &own.unit).into() };
        let number = |number: Number| measure(&number.decimal(places));
        let head = [
            ("recipe", (&own.recipe).into()),
            ("machine", (&own.machine).into()),
            ("name", (&own.name).into()),
            ("target", measure(&own.target)),
            ("ends", measure(&own.ends_at)),
            ("count", shown(own.count)),
        ];
        let readings: Vec<String> = own
            .evidence
            .iter()
            .map(|one| format!("{} {}", one.record, self.language.decimals(&one.reading)))
            .collect();
        let evidence = [
            ("mean", number(own.mean)),
            ("least", number(own.least)),
            ("most", number(own.most)),
            ("readings", readings.join(", ").into()),
        ];
        self.say(0, "history-proposal", &head);
        self.say(1, "history-proposal-mean", &evidence);
        self.say(1, "history-proposal-edit", &[("recipe", (&own.recipe).into())]);
        own.edit.lines().for_each(|line| self.line(2, line));
        self.say(1, "history-proposal-caution", &[]);
    }

    fn left_out(&mut self, own: &LeftOut) {
        let (record, why) = (("record", (&own.record).into()), ("why", own.why.join(", ").into()));
        match own.entries {
            None => self.say(0, "history-left-out", &[record, why]),
            Some(entries) => {
                let parts = [record, why, ("count", count(entries))];
                self.say(0, "history-left-out-entries", &parts);
            }
        }
    }
}
