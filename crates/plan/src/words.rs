//! Sentences from numbers, and lines of a given width.

use files::units::Unit;

/// Characters of a text as a terminal counts them. Our texts hold no wide ones.
pub(crate) fn wide(text: &str) -> usize {
    text.chars().count()
}

/// `a`, `a and b`, `a, b and c`.
pub(crate) fn list<S: AsRef<str>>(items: &[S]) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().into(),
        [first @ .., last] => {
            let first: Vec<&str> = first.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", first.join(", "), last.as_ref())
        }
    }
}

/// `1 ring`, `2 rings`.
pub(crate) fn count(n: usize, one: &str) -> String {
    format!("{n} {one}{}", if n == 1 { "" } else { "s" })
}

/// `ring 3`, `rings 3 to 6`, `rings 3, 5 and 7`: numbers in rising order.
pub(crate) fn numbered(one: &str, numbers: &[usize]) -> String {
    let run = numbers.windows(2).all(|w| w[1] == w[0] + 1);
    match numbers {
        [] => format!("no {one}"),
        [n] => format!("{one} {n}"),
        [a, .., b] if run && numbers.len() > 2 => format!("{one}s {a} to {b}"),
        many => {
            let many: Vec<String> = many.iter().map(usize::to_string).collect();
            format!("{one}s {}", list(&many))
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

/// A text on one line, without what would upset a terminal.
pub(crate) fn plain(text: &str) -> String {
    let spaced: String = text
        .chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A text in lines of at most `width` characters, the first after `first`, the
/// others after as many blanks as `indent`. A word longer than a line is broken.
pub(crate) fn wrapped(text: &str, first: &str, indent: usize, width: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::from(first);
    let mut bare = true;
    for word in text.split_whitespace() {
        let mut word = word.to_string();
        loop {
            let gap = usize::from(!bare);
            let room = width.saturating_sub(wide(&line) + gap);
            if wide(&word) <= room {
                if !bare {
                    line.push(' ');
                }
                line.push_str(&word);
                bare = false;
                break;
            }
            if bare {
                // Not even a line of its own is long enough for it.
                let at = room.max(1);
                let head: String = word.chars().take(at).collect();
                word = word.chars().skip(at).collect();
                line.push_str(&head);
            }
            lines.push(std::mem::replace(&mut line, " ".repeat(indent)));
            bare = true;
        }
    }
    if !bare || lines.is_empty() {
        lines.push(line.trim_end().into());
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_said_as_a_turner_would() {
        assert_eq!(numbered("ring", &[4]), "ring 4");
        assert_eq!(numbered("ring", &[4, 5]), "rings 4 and 5");
        assert_eq!(numbered("ring", &[4, 5, 6]), "rings 4 to 6");
        assert_eq!(numbered("ring", &[1, 4, 6]), "rings 1, 4 and 6");
        assert_eq!(numbered("ring", &[]), "no ring");
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
    }

    #[test]
    fn control_characters_do_not_reach_the_terminal() {
        assert_eq!(plain("a\u{1b}[31m\n\tb"), "a [31m b");
    }
}
