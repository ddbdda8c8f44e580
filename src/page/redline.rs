//! What changed in a plant, worded: as text for a terminal, as one page, as pages of a site.
//!
//! Takes what [`crate::redline`] found. Must never show by colour alone what is gone, new or weighs for
//! safety: words, lines through and under the text and a bar at the margin say it.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::sync::LazyLock;

use serde::Serialize;

use super::packet::style;
use super::site::{Fact, FindingView, Frame, Link, Page};
use super::{PAGES_CSS, REDLINE_CSS, SITE_CSS, escaped, paths};
use crate::language::Language;
use crate::redline::prose::{self, Block, Kind, Mark, Run, Style};
use crate::redline::touches::{Difference, Fate, Job, Touches};
use crate::redline::{Change, Changed, Issue, What};

/// What changed, in words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RedlineView {
    /// Frame.
    pub frame: Frame,
    /// What people call the earlier state.
    pub since: String,
    /// Five lines that say the whole.
    pub summary: Vec<String>,
    /// Every change that weighs for safety.
    pub weighing: Vec<WeighingLine>,
    /// What revisions leave undone.
    pub findings: Vec<FindingView>,
    /// What it touches.
    pub touches: Vec<TouchedView>,
    /// Each text that changed.
    pub texts: Vec<TextView>,
}

/// A change that weighs for safety, in the list of them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct WeighingLine {
    /// Why.
    pub why: String,
    /// The text, and where it stands.
    pub text: Link,
    /// Step and field.
    pub place: String,
}

/// Things of one kind that are touched.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TouchedView {
    /// What they are.
    pub title: String,
    /// One line each.
    pub lines: Vec<String>,
}

/// A text that changed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TextView {
    /// What it is called on the command line.
    pub subject: String,
    /// The same as a part of links.
    pub anchor: String,
    /// Its name.
    pub name: String,
    /// Its path.
    pub file: String,
    /// What happened to it as a whole; mostly empty.
    pub note: String,
    /// Its revision, and what it was.
    pub facts: Vec<Fact>,
    /// How many changes, and how many of them are marked.
    pub count: String,
    /// How many changes weigh for safety.
    pub weighing: usize,
    /// Changes by step.
    pub groups: Vec<GroupView>,
}

/// Changes of one step, or of what stands outside the steps.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct GroupView {
    /// The step; empty outside.
    pub step: String,
    /// Its changes.
    pub changes: Vec<ChangeView>,
}

/// A change.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ChangeView {
    /// Why it weighs for safety; mostly empty.
    pub weighs: String,
    /// What happened.
    pub what: String,
    /// Its words as markup of ours; may be empty.
    pub html: String,
    /// The same for a terminal.
    pub text: Vec<String>,
}

/// How many of a packet's differences are named in one line.
const MOST_NAMED: usize = 6;

impl RedlineView {
    /// Words what was found. `findings` are those of revisions.
    pub fn new(
        frame: Frame,
        since: &str,
        changed: &[Changed],
        touches: &Touches,
        findings: Vec<FindingView>,
    ) -> RedlineView {
        let language = frame.language;
        let texts: Vec<TextView> = changed.iter().map(|one| text_view(language, one)).collect();
        RedlineView {
            summary: summary(language, since, changed, touches, findings.len()),
            weighing: changed.iter().flat_map(|one| weighing(language, one)).collect(),
            touches: touched(language, touches),
            since: since.to_owned(),
            texts,
            findings,
            frame,
        }
    }
}

fn summary(
    language: Language,
    since: &str,
    changed: &[Changed],
    touches: &Touches,
    findings: usize,
) -> Vec<String> {
    if changed.is_empty() {
        return vec![language.text("redline-sum-nothing", &[("since", since.into())])];
    }
    let count = |key, count: usize| language.text(key, &[("count", count.into())]);
    let changes: usize = changed.iter().map(|one| one.changes.len()).sum();
    let changes = [
        ("changes", count("redline-changes", changes).into()),
        ("texts", count("redline-texts", changed.len()).into()),
        ("since", since.into()),
    ];
    let jobs = touches.jobs.iter().map(|job| job.job.as_str());
    let printed = touches.printed.iter().map(|own| own.record.as_str());
    let packets = [
        ("jobs", some(language, jobs.collect()).into()),
        ("printed", some(language, printed.collect()).into()),
    ];
    let number = |count: usize| count.to_string().into();
    let lapse = [
        ("approvals", number(touches.approvals.len())),
        ("translations", number(touches.translations.len())),
        ("inspections", number(touches.inspections.len())),
    ];
    vec![
        language.text("redline-sum-changes", &changes),
        weights(language, changed),
        language.text("redline-sum-packets", &packets),
        language.text("redline-sum-lapse", &lapse),
        count("redline-sum-revisions", findings),
    ]
}

/// What weighs for safety, by kind, with how often.
fn weights(language: Language, changed: &[Changed]) -> String {
    let mut kinds = BTreeMap::new();
    for weight in changed.iter().flat_map(Changed::weighing).filter_map(|change| change.weighs) {
        *kinds.entry(weight).or_insert(0_usize) += 1;
    }
    let list: Vec<String> =
        kinds.iter().map(|(weight, n)| format!("{} ({n})", language.word(weight.key()))).collect();
    let count: usize = kinds.values().sum();
    match count {
        0 => language.word("redline-sum-no-weight").to_owned(),
        _ => {
            let parts = [("count", count.into()), ("list", list.join(", ").into())];
            language.text("redline-sum-weight", &parts)
        }
    }
}

fn some(language: Language, names: Vec<&str>) -> String {
    match names.is_empty() {
        true => language.word("redline-none").to_owned(),
        false => short(language, names.into_iter().map(str::to_owned).collect()),
    }
}

/// The first names, and how many more there are.
fn short(language: Language, mut names: Vec<String>) -> String {
    let more = names.len().saturating_sub(MOST_NAMED);
    names.truncate(MOST_NAMED);
    if more > 0 {
        names.push(language.text("redline-more", &[("count", more.into())]));
    }
    names.join(", ")
}

fn weighing(language: Language, one: &Changed) -> Vec<WeighingLine> {
    let line = |change: &Change| {
        let places = [change.step.as_str(), change.field.as_str()];
        let places: Vec<&str> = places.into_iter().filter(|place| !place.is_empty()).collect();
        let text = Link::new(one.subject.to_string(), anchor(one));
        let why = change.weighs.map(|weight| language.word(weight.key()).to_owned());
        WeighingLine { why: why.unwrap_or_default(), text, place: places.join(", ") }
    };
    one.weighing().map(line).collect()
}

/// A subject as a part of links and file names.
fn anchor(one: &Changed) -> String {
    let plain = |c: char| if c.is_ascii_alphanumeric() { c } else { '-' };
    one.subject.to_string().chars().map(plain).collect()
}

fn text_view(language: Language, one: &Changed) -> TextView {
    let note = match one.what {
        What::Added => language.word("redline-text-added"),
        What::Removed => language.word("redline-text-removed"),
        _ if one.changes.is_empty() => language.word("redline-only-blanks"),
        _ => "",
    };
    let changes = &one.changes;
    let groups = changes.chunk_by(|one, two| one.step == two.step).map(|changes| GroupView {
        step: changes.first().map(|change| change.step.clone()).unwrap_or_default(),
        changes: changes.iter().map(|change| change_view(language, change)).collect(),
    });
    TextView {
        subject: one.subject.to_string(),
        anchor: anchor(one),
        name: one.name.clone(),
        file: one.file.clone(),
        note: note.to_owned(),
        facts: facts(language, one.before.as_ref(), one.after.as_ref()),
        count: language.text("redline-changes", &[("count", changes.len().into())]),
        weighing: one.weighing().count(),
        groups: groups.collect(),
    }
}

/// Revision, date, author and reason, each with what it was.
fn facts(language: Language, before: Option<&Issue>, after: Option<&Issue>) -> Vec<Fact> {
    let Some(now) = after.or(before) else { return Vec::new() };
    let said = |key, of: fn(&Issue) -> &str| {
        let own = of(now);
        let value = match before.map(of).filter(|was| *was != own && !was.is_empty()) {
            Some(was) => {
                language.text("redline-was", &[("now", own.into()), ("before", was.into())])
            }
            None => own.to_owned(),
        };
        Fact::new(language.word(key), value)
    };
    vec![
        said("redline-revision", |issue| &issue.revision),
        said("redline-date", |issue| &issue.date),
        said("redline-author", |issue| &issue.author),
        said("redline-reason", |issue| &issue.reason),
    ]
}

fn change_view(language: Language, change: &Change) -> ChangeView {
    let why = change.weighs.map(|weight| language.word(weight.key()));
    let weighs = why.map(|why| language.text("redline-mark", &[("why", why.into())]));
    let (html, text) = match (change.words.is_empty(), change.field.is_empty()) {
        (false, _) => {
            let lines = change.words.iter().map(|block| runs_text(language, &block.runs));
            (blocks_html(language, &change.words), lines.collect())
        }
        (true, false) => {
            let runs = prose::plain(&change.before, &change.after);
            let html = format!("<p class=\"changed\">{}</p>\n", runs_html(language, &runs));
            (html, vec![runs_text(language, &runs)])
        }
        _ => (String::new(), Vec::new()),
    };
    ChangeView { weighs: weighs.unwrap_or_default(), what: what(language, change), html, text }
}

fn what(language: Language, change: &Change) -> String {
    let key = match (change.what, change.field.is_empty()) {
        (What::Added, true) => "redline-step-added",
        (What::Removed, true) => "redline-step-removed",
        (What::Moved, true) => "redline-step-moved",
        (What::Renamed, _) => "redline-step-renamed",
        (What::Reworded | What::Changed, true) => "redline-reworded",
        (What::Added, false) => "redline-field-added",
        (What::Removed, false) => "redline-field-removed",
        (What::Moved, false) => "redline-field-moved",
        (_, false) => "redline-field-changed",
    };
    language.text(key, &[("field", (&change.field).into()), ("before", (&change.before).into())])
}

/// Pieces of text as markup, with a bar at those that changed.
pub fn blocks_html(language: Language, blocks: &[Block]) -> String {
    let mut html = String::new();
    let is_item = |block: &Block| block.kind == Kind::Item;
    for group in blocks.chunk_by(|one, two| is_item(one) && is_item(two)) {
        let is_list = group.first().is_some_and(is_item);
        html += if is_list { "<ul>\n" } else { "" };
        for block in group {
            let (tag, name) = match block.kind {
                Kind::Item => ("li", ""),
                Kind::Heading => ("p", "heading"),
                Kind::Row => ("p", "row"),
                Kind::Code => ("p", "line"),
                Kind::Paragraph => ("p", ""),
            };
            let bar = if block.is_changed() { "changed" } else { "" };
            let classes = [name, bar].join(" ");
            let class = match classes.trim() {
                "" => String::new(),
                class => format!(" class=\"{class}\""),
            };
            let _ = writeln!(html, "<{tag}{class}>{}</{tag}>", runs_html(language, &block.runs));
        }
        html += if is_list { "</ul>\n" } else { "" };
    }
    html
}

fn runs_html(language: Language, runs: &[Run]) -> String {
    let mut html = String::new();
    for marked in runs.chunk_by(|one, two| one.mark == two.mark) {
        let words: String = marked.iter().map(run_html).collect();
        let (tag, key) = match marked.first().map(|run| run.mark) {
            Some(Mark::Gone) => ("del", "redline-gone"),
            Some(Mark::New) => ("ins", "redline-new"),
            _ => {
                html += &words;
                continue;
            }
        };
        let (word, end) = (language.word(key), language.word("redline-end"));
        // The blank before it is no part of what is struck or underlined.
        let blank = if words.starts_with(' ') || html.ends_with("</del>") { " " } else { "" };
        let words = words.trim_start_matches(' ');
        let _ = write!(
            html,
            "{blank}<{tag}><span class=\"unseen\">[{word}: </span>{words}<span class=\"unseen\"> \
             {end}]</span></{tag}>"
        );
    }
    html
}

fn run_html(run: &Run) -> String {
    let blank = if run.text.starts_with(' ') { " " } else { "" };
    let text = escaped(run.text.trim_start_matches(' '));
    let tag = match run.style {
        Style::Plain => return format!("{blank}{text}"),
        Style::Strong => "strong",
        Style::Stressed => "em",
        Style::Code => "code",
    };
    format!("{blank}<{tag}>{text}</{tag}>")
}

/// Words for a terminal: `[gone: the mark] [new: the scale]`.
fn runs_text(language: Language, runs: &[Run]) -> String {
    let mut text = String::new();
    for marked in runs.chunk_by(|one, two| one.mark == two.mark) {
        let words: String = marked.iter().map(|run| run.text.as_str()).collect();
        let key = match marked.first().map(|run| run.mark) {
            Some(Mark::Gone) => "redline-gone",
            Some(Mark::New) => "redline-new",
            _ => {
                text += &words;
                continue;
            }
        };
        let blank = if words.starts_with(' ') || text.ends_with(']') { " " } else { "" };
        let _ = write!(text, "{blank}[{}: {}]", language.word(key), words.trim_start());
    }
    text
}

fn touched(language: Language, touches: &Touches) -> Vec<TouchedView> {
    let view =
        |key, lines: Vec<String>| TouchedView { title: language.word(key).to_owned(), lines };
    let names = |names: &std::collections::BTreeSet<String>| names.iter().cloned().collect();
    let printed = touches.printed.iter().map(|own| {
        let parts = [("record", (&own.record).into()), ("state", own.state.told().into())];
        language.text("redline-printed-line", &parts)
    });
    let approvals = touches.approvals.iter().map(|own| {
        let parts = [
            ("subject", (&own.subject).into()),
            ("revision", (&own.revision).into()),
            ("by", (&own.by).into()),
            ("entry", own.entry.to_string().into()),
        ];
        language.text("redline-approval-line", &parts)
    });
    let translations = touches.translations.iter().map(|own| {
        let parts = [
            ("subject", (&own.subject).into()),
            ("translates", (&own.translates).into()),
            ("revision", (&own.revision).into()),
        ];
        language.text("redline-translation-line", &parts)
    });
    let inspections = touches.inspections.iter().map(|own| {
        let parts = [
            ("procedure", (&own.procedure).into()),
            ("machine", (&own.machine).into()),
            ("date", (&own.date).into()),
            ("entry", own.entry.to_string().into()),
        ];
        language.text("redline-inspection-line", &parts)
    });
    let views = [
        view("redline-printed", printed.collect()),
        view("redline-jobs", touches.jobs.iter().map(|job| job_line(language, job)).collect()),
        view("redline-approvals", approvals.collect()),
        view("redline-translations", translations.collect()),
        view("redline-inspections", inspections.collect()),
        view("redline-machines", names(&touches.machines)),
        view("redline-recipes", names(&touches.recipes)),
    ];
    views.into_iter().filter(|view| !view.lines.is_empty()).collect()
}

fn job_line(language: Language, job: &Job) -> String {
    let what = match job.packet {
        Fate::New => language.word("redline-job-new").to_owned(),
        Fate::Gone => language.word("redline-job-gone").to_owned(),
        Fate::Changed if job.is_only_digests() => language.word("redline-job-digests").to_owned(),
        Fate::Changed => differences(language, job),
    };
    let parts =
        [("job", (&job.job).into()), ("machine", (&job.machine).into()), ("what", what.into())];
    language.text("redline-job", &parts)
}

fn differences(language: Language, job: &Job) -> String {
    let number = |own: &Difference| match own.after.is_empty() {
        true => format!("{} ({})", own.name, language.word("redline-gone")),
        false => format!("{} {}", own.after, own.name),
    };
    let value = |own: &Difference| {
        let said = |text: &str| match text {
            "" => language.word("redline-none").to_owned(),
            text => language.decimals(text),
        };
        format!("{} {} -> {}", own.name, said(&own.before), said(&own.after))
    };
    let groups: [(&str, Vec<String>); 3] = [
        ("redline-job-steps", job.steps.iter().map(number).collect()),
        ("redline-job-numbers", job.numbers.iter().map(value).collect()),
        ("redline-job-parts", job.parts.clone()),
    ];
    let told = groups
        .into_iter()
        .filter(|(_, list)| !list.is_empty())
        .map(|(key, list)| language.text(key, &[("list", short(language, list).into())]));
    told.collect::<Vec<_>>().join("; ")
}

/// All of it as text for a terminal, without the findings.
pub fn redline_text(view: &RedlineView) -> String {
    let mut text = view.summary.join("\n") + "\n";
    if !view.weighing.is_empty() {
        let title = view.frame.language.word("redline-weighing");
        let _ = writeln!(text, "\n{title}");
    }
    for line in &view.weighing {
        let place = [&line.text.text, &line.place].map(String::as_str);
        let place: Vec<&str> = place.into_iter().filter(|place| !place.is_empty()).collect();
        let _ = writeln!(text, "  {}: {}", line.why, place.join(", "));
    }
    for touched in &view.touches {
        let _ = writeln!(text, "\n{}", touched.title);
        for line in &touched.lines {
            let _ = writeln!(text, "  {line}");
        }
    }
    for own in &view.texts {
        let _ = writeln!(text, "\n{} - {}", own.subject, own.name);
        for fact in own.facts.iter().filter(|fact| !fact.value.is_empty()) {
            let _ = writeln!(text, "  {}: {}", fact.name, fact.value);
        }
        if !own.note.is_empty() {
            let _ = writeln!(text, "  {}", own.note);
        }
        for group in &own.groups {
            group_text(&mut text, group);
        }
    }
    if !view.findings.is_empty() {
        text.push('\n');
    }
    text
}

fn group_text(text: &mut String, group: &GroupView) {
    let indent = if group.step.is_empty() { "  " } else { "    " };
    if !group.step.is_empty() {
        let _ = writeln!(text, "  ## {}", group.step);
    }
    // What weighs for safety stands first.
    let (marked, others): (Vec<_>, Vec<_>) =
        group.changes.iter().partition(|change| !change.weighs.is_empty());
    for change in marked.into_iter().chain(others) {
        let mark = match change.weighs.as_str() {
            "" => String::new(),
            weighs => format!("! {weighs}: "),
        };
        match change.text.as_slice() {
            [] => drop(writeln!(text, "{indent}{mark}{}", change.what)),
            [line] => drop(writeln!(text, "{indent}{mark}{}: {line}", change.what)),
            lines => {
                let _ = writeln!(text, "{indent}{mark}{}:", change.what);
                for line in lines {
                    let _ = writeln!(text, "{indent}  {line}");
                }
            }
        }
    }
}

/// All of it as one file to read and print.
pub fn redline_alone_html(view: &RedlineView) -> String {
    static SHEETS: LazyLock<[style::Sheet; 3]> =
        LazyLock::new(|| [SITE_CSS, PAGES_CSS, REDLINE_CSS].map(style::Sheet::read));
    let title = view.frame.language.word("redline-title");
    let page = Page::new(&view.frame, view, title, paths::START).html("redline-alone.html");
    let [site, pages, redline] = &*SHEETS;
    style::put(&page, &[site, pages, redline])
}

/// The list of what changed, for [`paths::REDLINE`].
pub fn redline_html(view: &RedlineView) -> String {
    let title = view.frame.language.word("redline-title");
    Page::new(&view.frame, view, title, paths::REDLINE).html("redline.html")
}

/// One text that changed.
#[derive(Serialize)]
struct OneView<'a> {
    frame: &'a Frame,
    since: &'a str,
    text: &'a TextView,
}

/// Each text that changed on a page of its own: path and page.
pub fn redline_text_pages(view: &RedlineView) -> Vec<(String, String)> {
    let page = |text: &TextView| {
        let one = OneView { frame: &view.frame, since: &view.since, text };
        let page = Page::new(&view.frame, &one, &text.name, paths::REDLINE).under("redline-title");
        (paths::redline(&text.anchor), page.html("redline-text.html"))
    };
    view.texts.iter().map(page).collect()
}

#[cfg(test)]
mod tests {
    use super::{RedlineView, blocks_html, redline_alone_html, redline_html, redline_text_pages};
    use crate::language::Language;
    use crate::page::site::Frame;
    use crate::redline::prose;
    use crate::redline::touches::Touches;

    #[test]
    fn a_reworded_paragraph_is_struck_and_underlined_with_a_bar() {
        let before = "Loosen the **two** screws.\n\n- Slide it.\n- Read it.";
        let after = "Loosen the three screws & wait.\n\n- Slide it.\n- Write it.";
        let expected = "\
<p class=\"changed\">Loosen the <del><span class=\"unseen\">[gone: </span><strong>two</strong>\
<span class=\"unseen\"> end]</span></del> <ins><span class=\"unseen\">[new: </span>three\
<span class=\"unseen\"> end]</span></ins> screws <ins><span class=\"unseen\">[new: </span>&amp; wait\
<span class=\"unseen\"> end]</span></ins>.</p>
<ul>
<li>Slide it.</li>
<li class=\"changed\"><del><span class=\"unseen\">[gone: </span>Read<span class=\"unseen\"> end]</span></del> \
<ins><span class=\"unseen\">[new: </span>Write<span class=\"unseen\"> end]</span></ins> it.</li>
</ul>
";
        assert_eq!(blocks_html(Language::English, &prose::markdown(before, after)), expected);
    }

    #[test]
    fn markup_of_a_text_stays_text() {
        let blocks = prose::markdown("", "x <script>y</script> [a](javascript:x) ![p](q)");
        let html = blocks_html(Language::English, &blocks);
        assert!(html.contains("&lt;script&gt;"), "{html}");
        assert!(!html.contains("href") && !html.contains("<img"), "{html}");
    }

    #[test]
    fn a_view_without_changes_is_a_page() {
        for language in Language::ALL {
            let frame = Frame { language, ..Frame::default() };
            let view = RedlineView::new(frame, "HEAD", &[], &Touches::default(), Vec::new());
            assert!(redline_html(&view).contains("HEAD"));
            assert!(redline_alone_html(&view).contains("HEAD"));
            assert!(redline_text_pages(&view).is_empty());
        }
    }
}
