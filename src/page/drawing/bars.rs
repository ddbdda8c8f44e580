//! A crew's plan drawn to scale: a row for each person, a bar for each step, the stop between two lines.
//!
//! Outline and mark carry the meaning, never colour: a critical step has a thick outline and a small
//! triangle, a bar of who checks is dashed. Each bar has the number of its step, inside or on a line
//! to it. Everything drawn stands in a table beside it too.

use super::labels::{LINE, Label, stagger};
use super::{escape, line, middle, put, rect, row_name, side, text};

/// Width of the drawing: Letter landscape less its margins, and on any screen.
const WIDTH: i64 = 2530;
/// Where the time begins: names stand left of it.
const LEFT: i64 = 330;
/// Where it ends: room for a word beside the end of the stop.
const RIGHT: i64 = 2330;
/// Height of a bar.
const BAR: i64 = 64;
/// Most letters of a line of a name.
const NAME: usize = 15;
/// Size of text.
const TEXT: i64 = 32;

/// A plan to be drawn; times in minutes from its beginning.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Bars {
    /// Identifier of the drawing on its page.
    pub id: String,
    /// Its name.
    pub title: String,
    /// What it shows, in words.
    pub about: String,
    /// People, from top to bottom.
    pub people: Vec<String>,
    /// Steps of people.
    pub bars: Vec<Bar>,
    /// Stops of lines.
    pub stops: Vec<Stop>,
    /// Minutes with their words, along the axis.
    pub ticks: Vec<(u32, String)>,
    /// How long the plan is.
    pub minutes: u32,
}

/// A step of a person.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Bar {
    /// Place of the person.
    pub person: usize,
    /// From.
    pub from: u32,
    /// To.
    pub to: u32,
    /// What stands in it.
    pub label: String,
    /// Whether the person only checks.
    pub checks: bool,
    /// Whether it is critical.
    pub is_critical: bool,
}

/// The stop of a line.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Stop {
    /// Name of the row; may be empty.
    pub name: String,
    /// From.
    pub from: u32,
    /// To.
    pub to: u32,
    /// Words before, within and after it.
    pub words: [String; 3],
}

impl Bars {
    /// The drawing as SVG text.
    pub fn svg(&self) -> String {
        let rows: Vec<Row> = (0..self.people.len()).map(|person| self.row(person)).collect();
        let stops = i64::try_from(self.stops.len()).unwrap_or(0) * LINE + 10;
        let tops: Vec<i64> = rows
            .iter()
            .scan(stops, |top, row| {
                let own = *top + row.above;
                *top = own + BAR + 18;
                Some(own)
            })
            .collect();
        let axis = tops.last().map_or(stops, |top| top + BAR + 18);
        let mut out = String::new();
        self.open(&mut out, axis + 10 + LINE);
        for (top, at) in tops.iter().zip(0_i64..) {
            if at > 0 {
                let above = tops.get(usize::try_from(at - 1).unwrap_or(0)).copied().unwrap_or(0);
                line(&mut out, "between", (0, above + BAR + 9), (RIGHT, above + BAR + 9));
            }
            self.name(&mut out, *top, usize::try_from(at).unwrap_or(0));
        }
        self.stops(&mut out, axis);
        for (row, top) in rows.iter().zip(&tops) {
            self.draw(&mut out, row, *top);
        }
        self.axis(&mut out, axis);
        out.push_str("</svg>\n");
        out
    }

    fn x(&self, minute: u32) -> i64 {
        let whole = i64::from(self.minutes.max(1));
        LEFT + i64::from(minute) * (RIGHT - LEFT) / whole
    }

    fn row(&self, person: usize) -> Row<'_> {
        let bars: Vec<&Bar> = self.bars.iter().filter(|bar| bar.person == person).collect();
        let (wide, narrow): (Vec<&Bar>, Vec<&Bar>) =
            bars.into_iter().partition(|bar| self.has_room(bar));
        let wanted = narrow
            .iter()
            .map(|bar| (i64::midpoint(self.x(bar.from), self.x(bar.to)), bar.label.clone()));
        let labels = stagger(wanted, WIDTH);
        let above = super::labels::height(&labels) + if labels.is_empty() { 0 } else { 8 };
        Row { wide, narrow, labels, above }
    }

    fn has_room(&self, bar: &Bar) -> bool {
        let letters = i64::try_from(bar.label.chars().count()).unwrap_or(0);
        self.x(bar.to) - self.x(bar.from) >= letters * 19 + 14
    }

    fn open(&self, out: &mut String, height: i64) {
        let id = super::anchor(&self.id);
        put(
            out,
            format_args!(
                "<svg class=\"drawing crew\" xmlns=\"http://www.w3.org/2000/svg\" \
                 viewBox=\"0 0 {WIDTH} {height}\" role=\"img\" \
                 aria-labelledby=\"{id}-title {id}-desc\" font-size=\"{TEXT}\">\n\
                 <title id=\"{id}-title\">{}</title>\n<desc id=\"{id}-desc\">{}</desc>\n",
                escape(&self.title),
                escape(&self.about),
            ),
        );
    }

    /// A name in one line or two, beside its row.
    fn name(&self, out: &mut String, top: i64, person: usize) {
        let Some(name) = self.people.get(person) else { return };
        let middle = top + BAR / 2;
        match name.split_once(' ').filter(|_| name.chars().count() > NAME) {
            Some((first, rest)) => {
                row_name(out, middle - 17, &short(first));
                row_name(out, middle + 17, &short(rest));
            }
            None => row_name(out, middle, &short(name)),
        }
    }

    fn stops(&self, out: &mut String, axis: i64) {
        let is_one = self.stops.len() == 1;
        for (stop, at) in self.stops.iter().zip(0_i64..) {
            let (left, right) = (self.x(stop.from), self.x(stop.to));
            let y = at * LINE + LINE / 2;
            row_name(out, y, &short(&stop.name));
            for x in [left, right] {
                let end = if is_one { axis } else { y + 18 };
                line(out, "stop", (x, y - 18), (x, end));
            }
            line(out, "stop-span", (left, y), (right, y));
            let [before, within, after] = &stop.words;
            side(out, "end", (left - 12, y + 10), before);
            side(out, "start", (right + 12, y + 10), after);
            let width = super::labels::width(within);
            if right - left > width {
                super::backed(out, i64::midpoint(left, right), y, within);
            }
        }
    }

    fn draw(&self, out: &mut String, row: &Row, top: i64) {
        for label in &row.labels {
            let y = top - 8 - label.level * LINE;
            line(out, "leader", (label.at, y), (label.at, top));
        }
        for bar in row.wide.iter().chain(&row.narrow) {
            self.bar(out, bar, top);
        }
        for bar in &row.wide {
            let x = i64::midpoint(self.x(bar.from), self.x(bar.to));
            middle(out, x, top + BAR / 2, &bar.label);
        }
        for label in &row.labels {
            let y = top - 8 - label.level * LINE;
            let width = super::labels::width(&label.text) - 22;
            rect(out, "patch", (label.x - width / 2, y - LINE + 10), (width, LINE - 10));
            text(out, label.x, y - 6, &label.text);
        }
    }

    fn bar(&self, out: &mut String, bar: &Bar, top: i64) {
        let (left, right) = (self.x(bar.from), self.x(bar.to));
        let class = match (bar.checks, bar.is_critical) {
            (true, _) => "bar checks",
            (false, true) => "bar critical",
            (false, false) => "bar",
        };
        if right <= left {
            line(out, class, (left, top), (left, top + BAR));
            return;
        }
        rect(out, class, (left + 1, top), ((right - left - 2).max(1), BAR));
        if bar.is_critical {
            let (x, y) = (i64::midpoint(left, right), top + BAR + 2);
            put(
                out,
                format_args!(
                    "<path class=\"tip\" d=\"M{} {} {x} {y} {} {}z\"/>\n",
                    x - 9,
                    y + 15,
                    x + 9,
                    y + 15,
                ),
            );
        }
    }

    fn axis(&self, out: &mut String, axis: i64) {
        line(out, "axis", (LEFT, axis), (RIGHT, axis));
        for (minute, word) in &self.ticks {
            let x = self.x(*minute);
            line(out, "axis", (x, axis), (x, axis + 12));
            text(out, x, axis + LINE, word);
        }
    }
}

struct Row<'b> {
    wide: Vec<&'b Bar>,
    narrow: Vec<&'b Bar>,
    labels: Vec<Label>,
    /// Height of the labels above its bars.
    above: i64,
}

/// A text that fits beside the rows.
fn short(name: &str) -> String {
    match name.chars().nth(NAME + 2) {
        Some(_) => name.chars().take(NAME + 1).chain(['\u{2026}']).collect(),
        None => name.to_owned(),
    }
}

/// Minutes along an axis: at most sixteen, at whole quarters of an hour, hours or days.
pub fn ticks(minutes: u32) -> impl Iterator<Item = u32> {
    const STEPS: [u32; 9] = [5, 10, 15, 30, 60, 120, 240, 480, 1440];
    let fits = |step: &u32| minutes / *step <= 16;
    let step = STEPS.into_iter().find(fits).unwrap_or(minutes / 16 + 1);
    (0..=minutes / step).map(move |at| at * step)
}

#[cfg(test)]
mod tests {
    use super::{Bar, Bars, Stop, ticks};

    fn plan() -> Bars {
        let bar = |person, from, to, label: &str| Bar {
            person,
            from,
            to,
            label: label.into(),
            ..Bar::default()
        };
        let words = ["stops", "stands", "runs"].map(str::to_owned);
        Bars {
            id: "plan".into(),
            title: "Plan".into(),
            about: "Two people.".into(),
            people: vec!["Ada".into(), "Bartholomew Longname-Example".into()],
            bars: vec![
                Bar { is_critical: true, ..bar(0, 0, 50, "1") },
                bar(0, 50, 51, "2"),
                bar(0, 51, 51, "3"),
                Bar { checks: true, ..bar(1, 0, 50, "1") },
            ],
            stops: vec![Stop { name: String::new(), from: 20, to: 51, words }],
            ticks: ticks(60).map(|minute| (minute, minute.to_string())).collect(),
            minutes: 60,
        }
    }

    #[test]
    fn what_a_bar_means_is_told_by_outline_and_mark() {
        let drawing = plan().svg();
        for (piece, count) in [
            ("class=\"bar critical\"", 1),
            ("class=\"tip\"", 1),
            ("class=\"bar checks\"", 1),
            // The short one, and the moment as a line.
            ("class=\"bar\"", 2),
            // Two lines with words at both.
            ("class=\"stop\"", 2),
            (">stops<", 1),
            (">runs<", 1),
            // No room in the bar: above it, with a line to it.
            ("class=\"leader\"", 1),
        ] {
            assert_eq!(drawing.matches(piece).count(), count, "{piece}");
        }
        for word in ["style=", "<style", "<script", "#0", "#f", "rgb(", "href"] {
            assert!(!drawing.contains(word), "{word}");
        }
    }

    #[test]
    fn names_of_any_kind_stay_text_and_any_length_is_drawn() {
        let hostile = "<script>alert(1)</script>&\"'\u{0}";
        let mut bars = plan();
        bars.people = vec![hostile.into(), hostile.into()];
        bars.bars.iter_mut().for_each(|bar| bar.label = hostile.into());
        bars.title = hostile.into();
        bars.stops.iter_mut().for_each(|stop| stop.name = hostile.into());
        let drawing = bars.svg();
        assert!(!drawing.contains("<script") && !drawing.contains('\u{0}'));
        let nothing = Bars::default().svg();
        assert!(nothing.starts_with("<svg") && nothing.ends_with("</svg>\n"));
        let long = Bar { from: 0, to: u32::MAX, ..Bar::default() };
        Bars { minutes: u32::MAX, bars: vec![long], people: vec![String::new()], ..plan() }.svg();
    }

    #[test]
    fn an_axis_has_few_ticks_at_round_times() {
        let at = |minutes| ticks(minutes).collect::<Vec<_>>();
        assert_eq!(at(0), [0]);
        assert_eq!(at(44), [0, 5, 10, 15, 20, 25, 30, 35, 40]);
        assert_eq!(at(366).len(), 13);
        assert_eq!(at(366)[1], 30);
        for minutes in [79, 80, 1000, 100_000, u32::MAX] {
            assert!(ticks(minutes).count() <= 18, "{minutes}");
        }
    }
}
