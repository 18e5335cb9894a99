//! Sentences from numbers, and lines of a given width.

use files::design::Board;
use files::message::{Message, Value};
use files::report::is_control;
use files::say;
use files::units::Unit;
use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};

/// Columns of a text in a terminal.
pub(crate) fn wide(text: &str) -> usize {
    textwrap::core::display_width(text)
}

/// `a`, `a and b`, `a, b and c`.
pub(crate) fn list(items: impl IntoIterator<Item = String>) -> Value {
    Value::list(items.into_iter().map(Message::name))
}

/// `1 ring`, `2 rings`.
pub(crate) fn count(n: usize, one: &'static str) -> Message {
    if n == 1 {
        say!("1 {one}", one = one)
    } else {
        say!("{n} {one}s", n = n, one = one)
    }
}

/// `ring 3`, `rings 3 to 6`, `rings 3, 5 and 7`: numbers in rising order.
pub(crate) fn numbered(one: &'static str, numbers: &[usize]) -> Message {
    let run = numbers.windows(2).all(|w| w[1] == w[0] + 1);
    match numbers {
        [] => say!("no {one}", one = one),
        [n] => say!("{one} {n}", one = one, n = *n),
        [a, .., b] if run && numbers.len() > 2 => {
            say!("{one}s {a} to {b}", one = one, a = *a, b = *b)
        }
        many => {
            let many = list(many.iter().map(usize::to_string));
            say!("{one}s {many}", one = one, many = many)
        }
    }
}

/// The unit's name for a table's head: `mm`, `inches`.
pub(crate) const fn unit_name(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "mm",
        Unit::Inch => "inches",
    }
}

/// The same in a message, for whoever reads it.
pub(crate) fn unit_named() -> Value {
    Value::per_unit(|unit| Message::plain(unit_name(unit)))
}

/// A wood in a sentence with how its boards were sawn, where that is not as usual: `ash`,
/// `ash, quarter-sawn`.
pub(crate) fn of_board(wood: &str, board: Board) -> String {
    match board {
        Board::FlatSawn => plain(wood),
        Board::QuarterSawn | Board::Plywood => format!("{}, {}", plain(wood), board.label()),
    }
}

/// A text on one line, without what would upset a terminal or hide a part of it.
pub(crate) fn plain(text: &str) -> String {
    let spaced: String = text
        .chars()
        .filter_map(|c| match c {
            c if c.is_control() || c.is_whitespace() => Some(' '),
            c if is_control(c) => None,
            c => Some(c),
        })
        .collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A text in lines of at most `width` characters, the first after `first`, the
/// others after as many blanks as `indent`. A word longer than a line is broken.
pub(crate) fn wrapped(text: &str, first: &str, indent: usize, width: usize) -> Vec<String> {
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let under = " ".repeat(indent);
    let options = Options::new(width)
        .initial_indent(first)
        .subsequent_indent(&under)
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation)
        .wrap_algorithm(WrapAlgorithm::FirstFit);
    let lines = textwrap::wrap(&text, options);
    lines.iter().map(|l| l.trim_end().to_string()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_said_as_a_turner_would() {
        let said = |numbers: &[usize]| numbered("ring", numbers).said(Unit::Mm);
        assert_eq!(said(&[4]), "ring 4");
        assert_eq!(said(&[4, 5]), "rings 4 and 5");
        assert_eq!(said(&[4, 5, 6]), "rings 4 to 6");
        assert_eq!(said(&[1, 4, 6]), "rings 1, 4 and 6");
        assert_eq!(said(&[]), "no ring");
    }

    #[test]
    fn no_line_is_wider_than_asked_whatever_the_words() {
        let text = format!("a {} b{}", "x".repeat(300), " word".repeat(40));
        for width in [1, 10, 80] {
            for line in wrapped(&text, "", 4.min(width - 1), width) {
                assert!(wide(&line) <= width, "{line}");
            }
        }
        assert_eq!(wrapped("", "  ", 2, 80), [""]);
        // Wide letters take two columns each.
        assert_eq!(wrapped("木の器木の器", "", 0, 6), ["木の器", "木の器"]);
    }

    #[test]
    fn a_text_is_wrapped_in_linear_time() {
        let seconds = |letters: usize| {
            let text = "x".repeat(letters);
            let from = std::time::Instant::now();
            assert_eq!(wrapped(&text, "  ", 2, 80).len(), letters.div_ceil(78));
            from.elapsed().as_secs_f64()
        };
        seconds(10_000);
        let (short, long) = (seconds(50_000), seconds(800_000));
        assert!(long < 16.0 * 8.0 * short.max(1e-3), "{short} s, {long} s");
    }

    #[test]
    fn control_characters_do_not_reach_the_terminal() {
        assert_eq!(plain("a\u{1b}[31m\n\tb"), "a [31m b");
        assert_eq!(plain("a\u{202e}b\u{200b}c \u{2028} d\u{feff}"), "abc d");
    }
}
