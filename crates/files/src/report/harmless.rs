//! Text that may come from a file, a file's name or a call, safe to show.

use unicode_properties::{GeneralCategory, UnicodeGeneralCategory};

/// Would a character move the cursor, colour or hide what a terminal shows, or turn the
/// direction of a line? Those are Unicode's control and format characters and its line
/// and paragraph separators, line feed among them.
///
/// ```
/// use files::report::is_control;
/// assert!(is_control('\u{1b}') && is_control('\u{202e}') && is_control('\u{200b}'));
/// assert!(!is_control('é') && !is_control('−') && !is_control('木'));
/// ```
pub fn is_control(c: char) -> bool {
    // Most text by far.
    if (' '..='~').contains(&c) {
        return false;
    }
    matches!(
        c.general_category(),
        GeneralCategory::Control
            | GeneralCategory::Format
            | GeneralCategory::LineSeparator
            | GeneralCategory::ParagraphSeparator
    )
}

/// A text for a terminal: its lines stay, a tab is a blank, and what [`is_control`] is
/// seen as `·`.
///
/// ```
/// use files::report::harmless;
/// assert_eq!(harmless("bowl\u{1b}[2J\n\tdone"), "bowl·[2J\n done");
/// ```
pub fn harmless(text: &str) -> String {
    text.chars()
        .map(|c| if c == '\n' { c } else { visible(c) })
        .collect()
}

/// A text that is quoted in a line: as [`harmless`], and it cannot begin a line of its own.
///
/// ```
/// use files::report::on_one_line;
/// assert_eq!(on_one_line("bowl\nall is well"), "bowl·all is well");
/// ```
pub fn on_one_line(text: &str) -> String {
    text.chars().map(visible).collect()
}

/// One column wide and harmless in a terminal.
pub(super) fn visible(c: char) -> char {
    match c {
        '\t' => ' ',
        c if is_control(c) => '·',
        c => c,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every character that a terminal obeys, or that hides or turns others.
    const OBEYED: &str = "\u{0}\u{7}\u{8}\r\u{b}\u{c}\u{1b}\u{7f}\u{80}\u{85}\u{9b}\u{9f}\u{ad}\
        \u{61c}\u{180e}\u{200b}\u{200c}\u{200d}\u{200e}\u{200f}\u{2028}\u{2029}\u{202a}\u{202b}\
        \u{202c}\u{202d}\u{202e}\u{2060}\u{2061}\u{2066}\u{2067}\u{2068}\u{2069}\u{206f}\u{feff}\
        \u{fff9}\u{fffb}\u{e0001}\u{e0041}\u{e007f}";

    #[test]
    fn nothing_that_a_terminal_obeys_is_left() {
        for c in OBEYED.chars() {
            assert!(is_control(c), "{:x}", u32::from(c));
        }
        let dots = "·".repeat(OBEYED.chars().count());
        assert_eq!(harmless(OBEYED), dots);
        assert_eq!(on_one_line(OBEYED), dots);
        assert_eq!(on_one_line("\n"), "·");
    }

    #[test]
    fn the_programs_own_signs_stay() {
        let own = "± − · ≤ ≥ × ° ² ³ … – — ’ “ ” é ß 木 🪵 \u{fe0f}";
        assert_eq!(harmless(own), own);
    }
}
