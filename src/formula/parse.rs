//! From the text of a formula to its operations, in the order in which they are worked out.
//!
//! Grammar, weakest first: `or`, `and`, `not`, one comparison, `+ -`, `* /`, sign, then a number
//! with its unit (`5 1/2 in` is one number), a name with dots, `pi`, a function, a table or a parenthesis. `pi` is right to 16
//! digits. Which tables there are shows when the formula is evaluated.

use std::ops::Range;

use super::token::{self, Operator, Token, wrong};
use super::wrong::{FormulaError, Wrong};
use crate::quantity::{Measure, Number, Rounding};

/// Longest text of a formula, in bytes.
const LONGEST: usize = 2000;

/// Most parentheses, functions and signs inside each other.
const DEEPEST: usize = 64;

/// A formula that is written well; whether its kinds of quantities fit shows when it is evaluated.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Formula {
    text: String,
    /// Operations, each after those it uses; the last is the whole formula.
    nodes: Vec<Node>,
}

/// One operation and the bytes it was written in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Node {
    pub(super) what: What,
    pub(super) range: Range<usize>,
}

impl Node {
    /// The bytes of the name of what it calls.
    pub(super) fn called(&self, name: &str) -> Range<usize> {
        self.range.start..self.range.start + name.len()
    }
}

/// What an operation does; numbers are places of other operations.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum What {
    Measure(Measure),
    Name(String),
    Negate(usize),
    Not(usize),
    Pair(Operator, [usize; 2]),
    Call(Function, Vec<usize>),
    Table(String, Vec<usize>),
}

impl What {
    /// The places of the operations it uses.
    pub(super) fn operands(&self) -> &[usize] {
        match self {
            What::Measure(_) | What::Name(_) => &[],
            What::Negate(inner) | What::Not(inner) => std::slice::from_ref(inner),
            What::Pair(_, both) => both,
            What::Call(_, arguments) | What::Table(_, arguments) => arguments,
        }
    }
}

/// A function.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Function {
    If,
    Min,
    Max,
    Abs,
    Round(Rounding),
    Sqrt,
}

/// Name, function, least and most arguments, how it is written.
pub(super) const FUNCTIONS: [(&str, Function, usize, usize, &str); 8] = [
    ("if", Function::If, 3, 3, "if(condition, a, b)"),
    ("min", Function::Min, 2, usize::MAX, "min(a, b)"),
    ("max", Function::Max, 2, usize::MAX, "max(a, b)"),
    ("abs", Function::Abs, 1, 1, "abs(x)"),
    ("round", Function::Round(Rounding::HalfEven), 2, 2, "round(x, step)"),
    ("round_up", Function::Round(Rounding::Up), 2, 2, "round_up(x, step)"),
    ("round_down", Function::Round(Rounding::Down), 2, 2, "round_down(x, step)"),
    ("sqrt", Function::Sqrt, 1, 1, "sqrt(x)"),
];

impl Function {
    /// As it is written.
    pub(super) fn name(self) -> &'static str {
        FUNCTIONS.iter().find(|(_, known, ..)| *known == self).map_or("", |(name, ..)| name)
    }
}

/// Whether formulas keep a word for themselves: no table and no value of this name can be reached.
pub fn is_function(name: &str) -> bool {
    let is_word = matches!(name, "pi" | "and" | "or" | "not");
    is_word || FUNCTIONS.iter().any(|(known, ..)| *known == name)
}

impl Formula {
    /// Reads a formula.
    ///
    /// # Errors
    /// [`FormulaError`] with the first place that is wrong.
    pub fn parse(text: &str) -> Result<Formula, FormulaError> {
        if text.len() > LONGEST {
            return Err(wrong(0..text.len(), Wrong::TooLong));
        }
        if text.trim().is_empty() {
            return Err(wrong(0..text.len(), Wrong::Empty));
        }
        let (token, range) = token::next(text, 0)?;
        let mut parser = Parser { text, token, range, depth: 0, nodes: Vec::new() };
        parser.expression(0)?;
        match parser.token {
            Token::End => Ok(Formula { text: text.to_owned(), nodes: parser.nodes }),
            _ => Err(wrong(parser.range, Wrong::Unexpected)),
        }
    }

    /// The formula as written.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The names it uses with the bytes they fill, in the order in which they are written.
    pub fn names(&self) -> impl Iterator<Item = (&str, Range<usize>)> {
        self.nodes.iter().filter_map(|node| match &node.what {
            What::Name(name) => Some((name.as_str(), node.range.clone())),
            _ => None,
        })
    }

    /// The tables it uses with the bytes their names fill, innermost first.
    pub fn tables(&self) -> impl Iterator<Item = (&str, Range<usize>)> {
        self.nodes.iter().filter_map(|node| match &node.what {
            What::Table(name, _) => Some((name.as_str(), node.called(name))),
            _ => None,
        })
    }

    pub(super) fn nodes(&self) -> &[Node] {
        &self.nodes
    }
}

/// The place of an operation, and its bytes with the parentheses around it.
struct Part {
    index: usize,
    range: Range<usize>,
}

struct Parser<'a> {
    text: &'a str,
    /// The token that is looked at, and its bytes.
    token: Token<'a>,
    range: Range<usize>,
    depth: usize,
    nodes: Vec<Node>,
}

impl<'a> Parser<'a> {
    /// Steps to the next token; gives back the bytes of the one before.
    fn step(&mut self) -> Result<Range<usize>, FormulaError> {
        let (token, range) = token::next(self.text, self.range.end)?;
        self.token = token;
        Ok(std::mem::replace(&mut self.range, range))
    }

    fn push(&mut self, what: What, range: Range<usize>) -> Part {
        self.nodes.push(Node { what, range: range.clone() });
        Part { index: self.nodes.len() - 1, range }
    }

    /// Values with operators between them that bind at least as strongly as `level`.
    fn expression(&mut self, level: u8) -> Result<Part, FormulaError> {
        let mut left = self.operand()?;
        while let Token::Operator(operator) = self.token {
            if operator.level() < level {
                break;
            }
            self.step()?;
            let right = self.expression(operator.level() + 1)?;
            self.no_second_comparison(operator)?;
            let range = left.range.start..right.range.end;
            left = self.push(What::Pair(operator, [left.index, right.index]), range);
        }
        Ok(left)
    }

    fn no_second_comparison(&self, first: Operator) -> Result<(), FormulaError> {
        match self.token {
            Token::Operator(second)
                if first.level() == Operator::COMPARISON && second.level() == first.level() =>
            {
                Err(wrong(self.range.clone(), Wrong::ChainedComparison))
            }
            _ => Ok(()),
        }
    }

    /// One value with the signs before it. Everything that nests passes through here.
    fn operand(&mut self) -> Result<Part, FormulaError> {
        if self.depth == DEEPEST {
            return Err(wrong(self.range.clone(), Wrong::TooDeep));
        }
        self.depth += 1;
        let part = self.value();
        self.depth -= 1;
        part
    }

    fn value(&mut self) -> Result<Part, FormulaError> {
        match self.token {
            Token::Operator(Operator::Sub) => self.negative(),
            Token::Not => {
                let start = self.step()?.start;
                let inner = self.expression(Operator::COMPARISON)?;
                Ok(self.push(What::Not(inner.index), start..inner.range.end))
            }
            Token::Measure(measure) => {
                let range = self.step()?;
                Ok(self.push(What::Measure(measure), range))
            }
            Token::Name(name) => self.name(name),
            Token::Open => self.parenthesis(),
            _ => Err(wrong(self.range.clone(), Wrong::NoValue)),
        }
    }

    /// A sign; before a number it belongs to the number, so that `-5 °C` is a temperature.
    fn negative(&mut self) -> Result<Part, FormulaError> {
        let start = self.step()?.start;
        if let Token::Measure(measure) = self.token {
            let range = start..self.step()?.end;
            let measure = negated(measure).map_err(|no| wrong(range.clone(), no))?;
            return Ok(self.push(What::Measure(measure), range));
        }
        let inner = self.operand()?;
        Ok(self.push(What::Negate(inner.index), start..inner.range.end))
    }

    fn parenthesis(&mut self) -> Result<Part, FormulaError> {
        let open = self.step()?;
        let inner = self.expression(0)?;
        let close = self.close(open.clone())?;
        Ok(Part { range: open.start..close.end, ..inner })
    }

    /// Steps over the parenthesis that closes the one at `open`.
    fn close(&mut self, open: Range<usize>) -> Result<Range<usize>, FormulaError> {
        match self.token {
            Token::Close => self.step(),
            Token::End => Err(wrong(open, Wrong::Unclosed)),
            _ => Err(wrong(self.range.clone(), Wrong::Unexpected)),
        }
    }

    fn name(&mut self, name: &'a str) -> Result<Part, FormulaError> {
        let range = self.step()?;
        match self.token {
            Token::Open => self.call(name, range),
            _ if name == "pi" => Ok(self.push(What::Measure(Measure::plain(Number::PI)), range)),
            _ if is_function(name) => Err(wrong(range, Wrong::NoArguments(name.to_owned()))),
            _ => Ok(self.push(What::Name(name.to_owned()), range)),
        }
    }

    fn call(&mut self, name: &str, range: Range<usize>) -> Result<Part, FormulaError> {
        let open = self.step()?;
        let arguments = self.arguments()?;
        let close = self.close(open)?;
        let range = range.start..close.end;
        let known = FUNCTIONS.iter().find(|(known, ..)| *known == name);
        let Some(&(function_name, function, least, most, usage)) = known else {
            return Ok(self.push(What::Table(name.to_owned(), arguments), range));
        };
        if arguments.len() < least || arguments.len() > most {
            let given = arguments.len();
            return Err(wrong(range, Wrong::Arguments { function: function_name, usage, given }));
        }
        Ok(self.push(What::Call(function, arguments), range))
    }

    fn arguments(&mut self) -> Result<Vec<usize>, FormulaError> {
        let mut arguments = Vec::new();
        if self.token == Token::Close {
            return Ok(arguments);
        }
        loop {
            arguments.push(self.expression(0)?.index);
            if self.token != Token::Comma {
                return Ok(arguments);
            }
            self.step()?;
        }
    }
}

/// A number of a unit with the other sign: on its scale for a temperature.
fn negated(measure: Measure) -> Result<Measure, Wrong> {
    let number = measure.number().map_err(Wrong::Quantity)?.neg();
    let quantity = crate::quantity::Quantity::of(number, measure.unit);
    Ok(Measure { quantity: quantity.map_err(|no| Wrong::Quantity(no.into()))?, ..measure })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Formula, Node, What, Wrong, is_function};
    use crate::quantity::Measure;

    /// The operations with all their parentheses.
    fn structure(nodes: &[Node], index: usize) -> String {
        let show = |index: &usize| structure(nodes, *index);
        match &nodes[index].what {
            What::Measure(measure) => measure.to_string(),
            What::Name(name) => name.clone(),
            What::Negate(inner) => format!("-{}", show(inner)),
            What::Not(inner) => format!("not {}", show(inner)),
            What::Pair(operator, [left, right]) => {
                format!("({} {operator:?} {})", show(left), show(right))
            }
            What::Call(function, arguments) => {
                let arguments: Vec<String> = arguments.iter().map(show).collect();
                format!("{}({})", function.name(), arguments.join(", "))
            }
            What::Table(name, arguments) => {
                let arguments: Vec<String> = arguments.iter().map(show).collect();
                format!("table {name}({})", arguments.join(", "))
            }
        }
    }

    #[track_caller]
    fn check(text: &str, expected: &str) {
        let formula = Formula::parse(text).unwrap();
        assert_eq!(structure(formula.nodes(), formula.nodes().len() - 1), expected);
    }

    #[test]
    fn stronger_operators_bind_first() {
        check("a + b * c", "(a Add (b Mul c))");
        check("a - b - c", "((a Sub b) Sub c)");
        check("a / b * c", "((a Div b) Mul c)");
        check("(a + b) * c", "((a Add b) Mul c)");
        check("-a * b", "(-a Mul b)");
        check("a - -b", "(a Sub -b)");
        check(
            "a + 1 > b and not c < d or e != f",
            "((((a Add 1) Greater b) And not (c Less d)) Or (e NotEqual f))",
        );
    }

    #[test]
    fn units_stand_directly_after_numbers() {
        check("2 mm", "2 mm");
        check("2mm + 1in", "(2 mm Add 1 in)");
        check("1/2", "(1 Div 2)");
        check("1 / 2 in", "(1 Div 2 in)");
        check("2 m/s", "2 m/s");
        check("2 m / s", "(2 m Div s)");
        check("2 m/speed", "(2 m Div speed)");
        check("90 1/min * t", "(90 1/min Mul t)");
        check("1/min(a, b)", "(1 Div min(a, b))");
        check("9.5 N·m", "9.5 N·m");
        check("mm * 2", "(mm Mul 2)");
        check("a > 2 and b < 3 or c = 4", "(((a Greater 2) And (b Less 3)) Or (c Equal 4))");
        check("-5 °C", "-5 °C");
        check("x - 5 °C", "(x Sub 5 °C)");
        check("12 % * a", "(12 % Mul a)");
    }

    #[test]
    fn a_whole_number_a_blank_and_a_fraction_are_one_number() {
        check("5 1/2 in", "5.5 in");
        check("5 1/2", "5.5");
        check("5  1/2in", "5.5 in");
        check("2 * 5 1/2 in - 1/4", "((2 Mul 5.5 in) Sub (1 Div 4))");
        check("-5 1/2 in", "-5.5 in");
        check("5 1/2 / 2", "(5.5 Div 2)");
        check("5 1/2/2", "(5.5 Div 2)");
        check("min(2 7/8 in, a)", "min(2.875 in, a)");
        check("90 1/2 1/min", "90.5 1/min");
        check("0 3/4 in", "0.75 in");
        check("1/2", "(1 Div 2)");
        check("5 - 1/2", "(5 Sub (1 Div 2))");
        check("5-1/2", "(5 Sub (1 Div 2))");
        check("5 -1/2", "(5 Sub (1 Div 2))");
        check("5 + 1/2 in", "(5 Add (1 Div 2 in))");
    }

    /// The errors are those of quantities.
    #[test]
    fn the_fraction_of_a_mixed_number_is_below_one() {
        let below_one = "the fraction after a whole number must be below one";
        check_bad("5 3/2 in", "3/2", below_one, "write a fraction below one: 3 1/4 for 2 5/4");
        check_bad("a + 5 2/2", "2/2", below_one, "write a fraction below one: 3 1/4 for 2 5/4");
        let zero = "the denominator of a fraction is zero";
        check_bad("5 1/0", "1/0", zero, "write a denominator above zero");
        let digits = "the number has too many digits";
        let many = "1234567890123456789";
        check_bad(&format!("5 1/{many} in"), many, digits, "write at most 18 digits");
    }

    #[test]
    fn names_may_have_dots_and_functions_arguments() {
        check("machine.lane_pitch * 2", "(machine.lane_pitch Mul 2)");
        check("if(a > b, a, b)", "if((a Greater b), a, b)");
        check("max(a, b, c)", "max(a, b, c)");
        check("max(1,2,0.5)", "max(1, 2, 0.5)");
        check("round(sqrt(abs(a)), 1 mm)", "round(sqrt(abs(a)), 1 mm)");
        check("round_up(a, 1) - round_down(a, 1)", "(round_up(a, 1) Sub round_down(a, 1))");
        check("2 * dwell(film)", "(2 Mul table dwell(film))");
        check("machine.dwell(a + b)", "table machine.dwell((a Add b))");
        check("dwell()", "table dwell()");
    }

    #[test]
    fn names_are_listed_with_their_places() {
        let formula = Formula::parse("2 * (fin) + machine.pitch - fin").unwrap();
        let names: Vec<_> = formula.names().collect();
        assert_eq!(names, [("fin", 5..8), ("machine.pitch", 12..25), ("fin", 28..31)]);
    }

    #[test]
    fn tables_are_listed_with_the_places_of_their_names() {
        let formula = Formula::parse("2 * dwell(seal(film)) + max(1, 2)").unwrap();
        let tables: Vec<_> = formula.tables().collect();
        assert_eq!(tables, [("seal", 10..14), ("dwell", 4..9)]);
    }

    #[test]
    fn words_of_formulas_are_told_from_names() {
        for word in ["if", "round", "round_up", "sqrt", "pi", "and", "or", "not"] {
            assert!(is_function(word), "{word}");
            assert!(Formula::parse(word).is_err() || word == "pi", "{word}");
        }
        assert!(!is_function("dwell") && !is_function("round_off"));
    }

    #[track_caller]
    fn check_bad(text: &str, wrong: &str, says: &str, way_out: &str) {
        let error = Formula::parse(text).unwrap_err();
        let found = (
            &text[error.range.clone()],
            error.to_string(),
            error.wrong.words().way_out().to_string(),
        );
        assert_eq!(found, (wrong, says.to_owned(), way_out.to_owned()));
    }

    #[test]
    fn what_is_wrong_is_shown_at_its_place() {
        check_bad("a × b", "×", "`×` has no meaning in a formula", "write `*`");
        check_bad("a ≤ b", "≤", "`≤` has no meaning in a formula", "write `<=`");
        check_bad("a == b", "==", "`=` has no meaning in a formula", "write `=`");
        check_bad(
            "trim %",
            "%",
            "`%` has no meaning in a formula",
            "write a unit, such as mm, in, % or °C, directly after a number",
        );
        check_bad("a +", "", "a value is missing", "write a number, a name or a function here");
        check_bad("(a + b", "(", "this parenthesis is never closed", "close the parenthesis");
        let no_operator = "write an operator between two values: `2 * 3`";
        check_bad("2 3", "3", "the formula should end here", no_operator);
        check_bad("5 1 / 2", "1", "the formula should end here", no_operator);
        check_bad("5.5 1/2", "1", "the formula should end here", no_operator);
        check_bad("5 mm 1/2", "1", "the formula should end here", no_operator);
        check_bad("a < b < c", "<", "comparisons cannot be chained", "write `a < b and b < c`");
        check_bad(
            "2 lanes",
            "lanes",
            "`lanes` is not a known unit",
            "write `*` to multiply; after a number may stand a unit such as mm or °C",
        );
        check_bad("5 MM", "MM", "`MM` is not a known unit", "did you mean `mm`?");
        check_bad(
            "min * 2",
            "min",
            "`min` has no value without arguments",
            "write its arguments in parentheses, or choose another name",
        );
        check_bad(
            "1 + round(a)",
            "round(a)",
            "`round` cannot take 1 argument",
            "write `round(x, step)`",
        );
        check_bad(
            "Flat * 2",
            "Flat",
            "`Flat` is not a name",
            "begin with a lower-case letter and use lower-case letters, digits and `_` only",
        );
        check_bad(
            " ",
            " ",
            "there is no formula",
            "write a value, such as `56 mm`, or a formula, such as `2 * fin`",
        );
    }

    #[test]
    fn length_and_depth_are_bounded() {
        let nested = |levels: usize| format!("{}a{}", "(".repeat(levels), ")".repeat(levels));
        assert!(Formula::parse(&nested(63)).is_ok());
        for deep in [nested(64), nested(900), "-".repeat(100) + "a", "not ".repeat(100) + "a"] {
            let error = Formula::parse(&deep).unwrap_err();
            assert_eq!(error.to_string(), "more than 64 levels stand inside each other");
        }
        let long = "1+".repeat(999) + "11";
        assert_eq!(Formula::parse(&long).unwrap().nodes().len(), 1999);
        let error = Formula::parse(&format!("{long}1")).unwrap_err();
        assert_eq!(error.wrong.words().way_out().to_string(), "split it into several settings");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(512))]

        /// A mixed number means in a formula what it means as a quantity, and is wrong where that is.
        #[test]
        fn mixed_numbers_are_those_of_quantities(
            whole in 0..100_i64, above in 0..20_i64, below in 0..20_i64,
            blank in "[ \t\u{a0}]{1,3}",
            unit in prop::sample::select(vec!["", " in", "in", " 1/min", " °C"]),
        ) {
            let text = format!("{whole}{blank}{above}/{below}{unit}");
            match (Formula::parse(&text), Measure::parse(&text)) {
                (Ok(formula), Ok(measure)) => {
                    let whole = [Node { what: What::Measure(measure), range: 0..text.len() }];
                    prop_assert_eq!(formula.nodes(), whole);
                }
                (Err(error), Err(bad)) => {
                    prop_assert_eq!(error.range, bad.range);
                    prop_assert_eq!(error.wrong, Wrong::Number(bad.kind));
                }
                (formula, measure) => prop_assert!(false, "{formula:?}, {measure:?}"),
            }
        }

        #[test]
        fn any_text_is_read_or_refused(text in "[-a-c0-9+*/()., <>=!%°µ²m\u{2212}]{0,40}|.{0,40}") {
            if let Err(error) = Formula::parse(&text) {
                prop_assert!(text.get(error.range).is_some());
            }
        }
    }
}
