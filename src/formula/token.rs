//! A formula as a row of tokens, read one at a time.
//!
//! A unit stands only directly after a number, and the longest one counts: `2 m/s` is a speed,
//! `2 m / s` a length divided by what is called `s`. A whole number, a blank and a fraction are one
//! number, as in quantities: `5 1/2 in`; a fraction alone is a division, and a hyphen subtracts.

use std::ops::Range;

use super::wrong::{FormulaError, Wrong};
use crate::quantity::{Measure, Number, Quantity, Unit, scan, unknown_unit};

/// What stands between two values.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Operator {
    Add,
    Sub,
    Mul,
    Div,
    Less,
    LessOrEqual,
    Greater,
    GreaterOrEqual,
    Equal,
    NotEqual,
    And,
    Or,
}

impl Operator {
    /// As it is written.
    pub(super) fn symbol(self) -> &'static str {
        match self {
            Operator::Add => "+",
            Operator::Sub => "-",
            Operator::Mul => "*",
            Operator::Div => "/",
            Operator::Less => "<",
            Operator::LessOrEqual => "<=",
            Operator::Greater => ">",
            Operator::GreaterOrEqual => ">=",
            Operator::Equal => "=",
            Operator::NotEqual => "!=",
            Operator::And => "and",
            Operator::Or => "or",
        }
    }

    /// How strongly it binds; more is stronger.
    pub(super) fn level(self) -> u8 {
        match self {
            Operator::Or => 1,
            Operator::And => 2,
            Operator::Add | Operator::Sub => 4,
            Operator::Mul | Operator::Div => 5,
            _ => Operator::COMPARISON,
        }
    }

    /// The level of comparisons.
    pub(super) const COMPARISON: u8 = 3;
}

/// The smallest piece of a formula that means something.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Token<'a> {
    Measure(Measure),
    Name(&'a str),
    Operator(Operator),
    Not,
    Open,
    Close,
    Comma,
    End,
}

/// The token at or after `position`, and the bytes it fills.
pub(super) fn next(text: &str, position: usize) -> Result<(Token<'_>, Range<usize>), FormulaError> {
    let rest = &text[position..];
    let start = position + (rest.len() - rest.trim_start().len());
    let rest = &text[start..];
    match rest.chars().next() {
        None => Ok((Token::End, start..start)),
        Some(c) if c.is_ascii_digit() || c == '.' => measure(text, start),
        Some(c) if c.is_ascii_alphabetic() || c == '_' => word(text, start),
        Some(c) => sign(rest, c, start),
    }
}

/// A number, and the unit directly after it.
fn measure(text: &str, start: usize) -> Result<(Token<'_>, Range<usize>), FormulaError> {
    let number = |bad: scan::BadMeasure| wrong(bad.range, Wrong::Number(bad.kind));
    let (amount, end) = number_at(text, start).map_err(number)?;
    let after = end + (text[end..].len() - text[end..].trim_start().len());
    let (unit, end) = match Unit::at_start(&text[after..]) {
        Some((unit, length)) => (Some(unit), after + length),
        None => (None, end),
    };
    if unit.is_none() && starts_a_unit(&text[after..]) {
        let written = unit_like(&text[after..]);
        let kind = unknown_unit(written);
        return Err(wrong(after..after + written.len(), Wrong::Number(kind)));
    }
    let quantity = Quantity::of(amount, unit);
    let quantity = quantity.map_err(|no| wrong(start..end, Wrong::Quantity(no.into())))?;
    Ok((Token::Measure(Measure { quantity, unit }), start..end))
}

/// An unsigned number at `start`, `12`, `0.5` or `5 1/2`, and where it ends.
fn number_at(text: &str, start: usize) -> Result<(Number, usize), scan::BadMeasure> {
    let (number, end) = scan::decimal_at(text, start)?;
    // Only after a blank: `1/2` is a division and `5-1/2` a subtraction.
    let blank = text[end..].starts_with(char::is_whitespace);
    if blank { scan::fraction_at(text, start) } else { Ok((number, end)) }
}

/// Whether a word begins here that is none of the words that may follow a number.
fn starts_a_unit(rest: &str) -> bool {
    let word = unit_like(rest);
    !word.is_empty() && !matches!(word, "and" | "or")
}

/// The letters, digits and degree signs that begin with a letter or a degree sign.
fn unit_like(rest: &str) -> &str {
    let begins = rest.starts_with(|c: char| c.is_alphabetic() || c == '°' || c == '_');
    let end = rest.find(|c: char| !c.is_alphanumeric() && !matches!(c, '_' | '°' | '·' | '.'));
    if begins { &rest[..end.unwrap_or(rest.len())] } else { "" }
}

/// A name with dots, or a word of formulas.
fn word(text: &str, start: usize) -> Result<(Token<'_>, Range<usize>), FormulaError> {
    let rest = &text[start..];
    let length = rest.find(|c: char| !c.is_alphanumeric() && c != '_' && c != '.');
    let name = &rest[..length.unwrap_or(rest.len())];
    let range = start..start + name.len();
    let token = match name {
        "and" => Token::Operator(Operator::And),
        "or" => Token::Operator(Operator::Or),
        "not" => Token::Not,
        _ if name.split('.').all(is_name) => Token::Name(name),
        _ => return Err(wrong(range, Wrong::BadName(name.chars().take(40).collect()))),
    };
    Ok((token, range))
}

/// Whether a text is one part of a name: `[a-z][a-z0-9_]*`.
pub fn is_name(part: &str) -> bool {
    let more = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_';
    part.starts_with(|c: char| c.is_ascii_lowercase()) && part.chars().all(more)
}

fn sign(rest: &str, c: char, start: usize) -> Result<(Token<'_>, Range<usize>), FormulaError> {
    let second = rest[c.len_utf8()..].chars().next();
    let (token, length) = match (c, second) {
        ('<', Some('=')) => (Token::Operator(Operator::LessOrEqual), 2),
        ('>', Some('=')) => (Token::Operator(Operator::GreaterOrEqual), 2),
        ('!', Some('=')) => (Token::Operator(Operator::NotEqual), 2),
        ('=', Some('=')) => return Err(instead(start..start + 2, c, Some("="))),
        ('<', _) => (Token::Operator(Operator::Less), 1),
        ('>', _) => (Token::Operator(Operator::Greater), 1),
        ('=', _) => (Token::Operator(Operator::Equal), 1),
        ('+', _) => (Token::Operator(Operator::Add), 1),
        ('-' | '\u{2212}', _) => (Token::Operator(Operator::Sub), c.len_utf8()),
        ('*', _) => (Token::Operator(Operator::Mul), 1),
        ('/', _) => (Token::Operator(Operator::Div), 1),
        ('(', _) => (Token::Open, 1),
        (')', _) => (Token::Close, 1),
        (',', _) => (Token::Comma, 1),
        _ => return Err(instead(start..start + c.len_utf8(), c, written_for(c))),
    };
    Ok((token, start..start + length))
}

/// What people mean by a character that formulas do not know.
fn written_for(c: char) -> Option<&'static str> {
    match c {
        '×' | '·' | '⋅' | '∙' => Some("*"),
        '÷' | ':' => Some("/"),
        '≤' => Some("<="),
        '≥' => Some(">="),
        '≠' => Some("!="),
        '–' | '—' => Some("-"),
        '!' => Some("not"),
        '&' => Some("and"),
        '|' => Some("or"),
        '[' | '{' => Some("("),
        ']' | '}' => Some(")"),
        ';' => Some(","),
        'π' => Some("pi"),
        '√' => Some("sqrt"),
        _ => None,
    }
}

fn instead(range: Range<usize>, found: char, instead: Option<&'static str>) -> FormulaError {
    wrong(range, Wrong::Character { found, instead })
}

pub(super) fn wrong(range: Range<usize>, wrong: Wrong) -> FormulaError {
    FormulaError { range, wrong }
}
