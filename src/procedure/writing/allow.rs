//! Comments by which a writer keeps a sentence as it is: `<!-- allow: rule: reason -->`.
//!
//! A comment silences one rule on its own line, or on the next line when it stands alone. It never
//! reaches a page. No other comment is touched: raw HTML is shown as text. In the block of a step,
//! which is YAML, it is written `# allow: rule: reason`.

use std::ops::Range;

use pulldown_cmark::{CodeBlockKind, Event, Options, Parser, Tag};

use crate::finding::{Finding, Findings, Place, Spot};

/// One comment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::procedure) struct Allow {
    /// Bytes of the comment.
    pub range: Range<usize>,
    /// Bytes that do not reach the page: the comment, its line end or the space before it.
    pub cut: Range<usize>,
    rule: String,
    has_reason: bool,
    is_alone: bool,
}

/// The comments of a procedure, in order; `body` is where the front matter ends.
pub(in crate::procedure) fn comments(text: &str, body: usize) -> Vec<Allow> {
    let mut found: Vec<Allow> = Vec::new();
    if !text[body..].contains("allow") {
        return found;
    }
    let lines = Lines::of(text);
    for (event, range) in Parser::new_ext(&text[body..], Options::ENABLE_TABLES).into_offset_iter()
    {
        let html = body + range.start..body + range.end;
        match event {
            Event::Html(_) | Event::InlineHtml(_) => {}
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(word))) if &*word == "step" => {
                found.extend(in_yaml(text, html).map(|range| allow(text, &lines, range)));
                continue;
            }
            _ => continue,
        }
        for (at, _) in text[html.clone()].match_indices("<!--") {
            let start = html.start + at;
            let is_inside = found.last().is_some_and(|last| start < last.range.end);
            if is_inside || !text[start + 4..].trim_start().starts_with("allow") {
                continue;
            }
            // Without an end it reaches to the end of the file, and so does every later one.
            let Some(length) = text[start..].find("-->") else { return found };
            found.push(allow(text, &lines, start..start + length + 3));
        }
    }
    found
}

/// The comments of a block of YAML: at most one a line.
fn in_yaml(text: &str, block: Range<usize>) -> impl Iterator<Item = Range<usize>> {
    let mut from = block.start;
    text[block].split_inclusive('\n').filter_map(move |line| {
        let start = from;
        from += line.len();
        let is_allow = |at: &usize| {
            let is_comment = *at == 0 || line[..*at].ends_with([' ', '\t']);
            is_comment && line[at + 1..].trim_start().starts_with("allow:")
        };
        let at = line.match_indices('#').map(|(at, _)| at).find(is_allow)?;
        Some(start + at..start + line.trim_end().len())
    })
}

fn allow(text: &str, lines: &Lines, range: Range<usize>) -> Allow {
    let comment = &text[range.clone()];
    let inner = comment.trim_start_matches(['#', '<', '!', '-']).trim_end_matches("-->").trim();
    let mut parts = inner.splitn(3, ':').map(str::trim);
    let (word, rule, reason) = (parts.next(), parts.next(), parts.next());
    let has_reason = word == Some("allow") && reason.is_some_and(|reason| !reason.is_empty());
    let line = lines.0[lines.at(range.start) - 1];
    let end = lines.0.get(lines.at(range.end)).copied().unwrap_or(text.len());
    let before = text[line..range.start].trim_end_matches([' ', '\t']);
    let is_last = text[range.end..end].trim_start().is_empty();
    let is_alone = before.is_empty() && is_last;
    let cut = match (is_alone, is_last) {
        (true, _) => line..end,
        (false, true) => line + before.len()..range.end,
        (false, false) => range.clone(),
    };
    Allow { range, cut, rule: rule.unwrap_or("").to_owned(), has_reason, is_alone }
}

/// Whether a place lies inside one of the comments.
pub(in crate::procedure) fn covers(comments: &[Allow], at: usize) -> bool {
    let index = comments.partition_point(|allow| allow.range.end <= at);
    comments.get(index).is_some_and(|allow| allow.range.start <= at)
}

/// The findings that no comment silences, and what is wrong with the comments.
pub(super) fn judge(
    found: Findings,
    file: &std::sync::Arc<str>,
    text: &str,
    comments: &[Allow],
) -> Findings {
    if comments.is_empty() {
        return found;
    }
    let lines = Lines::of(text);
    let targets = targets(&lines, comments);
    let mut used = vec![false; comments.len()];
    let mut kept = Findings::default();
    let mut silenced = |finding: &Finding| {
        let Spot::Bytes(range) = &finding.place.spot else { return false };
        let line = lines.at(range.start);
        let first = targets.partition_point(|target| *target < line);
        let same = (first..targets.len()).take_while(|index| targets[*index] == line);
        let matching: Vec<usize> =
            same.filter(|index| comments[*index].rule == finding.rule).collect();
        matching.iter().for_each(|index| used[*index] = true);
        matching.iter().any(|index| comments[*index].has_reason)
    };
    kept.extend(found.iter().filter(|finding| !silenced(finding)).cloned().collect());
    for (allow, used) in comments.iter().zip(used) {
        let at = Place::bytes(file, allow.range.clone());
        if !allow.has_reason {
            kept.allow_without_reason(&at);
        } else if !used && !found.is_cut() {
            kept.allow_unused(&at, &allow.rule);
        }
    }
    kept
}

/// The line each comment speaks of, in the order of the comments; of several alone, all the last.
fn targets(lines: &Lines, comments: &[Allow]) -> Vec<usize> {
    let mut targets = vec![0; comments.len()];
    let mut after: Option<(usize, usize)> = None;
    for (index, allow) in comments.iter().enumerate().rev() {
        let line = lines.at(allow.range.start);
        let next = lines.at(allow.range.end) + 1;
        targets[index] = match after {
            Some((later, target)) if allow.is_alone && later == next => target,
            _ if allow.is_alone => next,
            _ => line,
        };
        after = allow.is_alone.then_some((line, targets[index]));
    }
    targets
}

/// Where the lines of a text begin; never empty.
struct Lines(Vec<usize>);

impl Lines {
    fn of(text: &str) -> Lines {
        Lines(std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect())
    }

    /// The line of a byte, counted from 1.
    fn at(&self, byte: usize) -> usize {
        self.0.partition_point(|start| *start <= byte)
    }
}

/// A piece of a file without its comments.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::procedure) struct Stripped {
    /// What is left.
    pub text: String,
    /// Start in what is left, start in the file.
    starts: Vec<(usize, usize)>,
}

impl Stripped {
    /// Takes the comments out of a piece.
    pub(in crate::procedure) fn new(
        file: &str,
        piece: Range<usize>,
        comments: &[Allow],
    ) -> Stripped {
        let mut stripped = Stripped { text: String::new(), starts: Vec::new() };
        let mut from = piece.start;
        let first = comments.partition_point(|allow| allow.cut.end <= piece.start);
        for Allow { cut, .. } in &comments[first..] {
            if cut.start >= piece.end {
                break;
            }
            stripped.add(file, from..cut.start.max(from));
            from = cut.end.min(piece.end);
        }
        stripped.add(file, from..piece.end);
        stripped
    }

    fn add(&mut self, file: &str, piece: Range<usize>) {
        self.starts.push((self.text.len(), piece.start));
        self.text += &file[piece];
    }

    /// Bytes in the file of a range of what is left.
    pub(super) fn in_file(&self, range: Range<usize>) -> Range<usize> {
        let map = |at: usize| {
            let index = self.starts.partition_point(|(start, _)| *start <= at);
            let (start, file) = self.starts[index.saturating_sub(1)];
            file + at - start
        };
        let last = range.end.saturating_sub(1).max(range.start);
        map(range.start)..map(last) + (range.end - last)
    }
}

#[cfg(test)]
mod tests {
    use super::{Stripped, comments};

    /// What is left of a text, and where its last byte stands.
    #[track_caller]
    fn check(text: &str, left: &str) {
        let stripped = Stripped::new(text, 0..text.len(), &comments(text, 0));
        assert_eq!(stripped.text, left, "{text}");
        for (at, sign) in left.char_indices() {
            let range = stripped.in_file(at..at + sign.len_utf8());
            assert_eq!(text[range].chars().next(), Some(sign), "{text}");
        }
    }

    #[test]
    fn a_comment_leaves_no_trace() {
        check("One.\n<!-- allow: a: b -->\nTwo.\n", "One.\nTwo.\n");
        check("One. <!-- allow: a: b -->\nTwo.\n", "One.\nTwo.\n");
        check("One <!-- allow: a: b --> two.", "One  two.");
        check("<!-- allow: a: b -->", "");
        check("- One.\n  <!-- allow: a: b -->\n  two ü\n", "- One.\n  two ü\n");
        check("One <!--allow\nbad--> two", "One  two");
    }

    #[test]
    fn other_comments_and_code_stay() {
        for text in
            ["a <!-- note --> b", "`<!-- allow: a: b -->`", "a <!-- allow: a: b", "<b>allow</b>"]
        {
            check(text, text);
        }
    }
}
