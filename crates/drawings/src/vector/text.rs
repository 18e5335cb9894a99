//! Words on paper, and how much room they take.

use glam::DVec2;

/// Where on its line a text is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Anchor {
    /// At its beginning.
    #[default]
    Start,
    /// In its middle.
    Middle,
    /// At its end.
    End,
}

/// Words on one line.
#[derive(Debug, Clone)]
pub struct Text {
    /// The words.
    pub words: String,
    /// Where the anchor stands: on the base line.
    pub at: DVec2,
    /// Size of the type (the height of a line set solid), mm.
    pub size: f64,
    /// Where on the line it is held.
    pub anchor: Anchor,
    /// Turn about `at`, radians, anticlockwise as seen on paper.
    pub turn: f64,
    /// Semibold.
    pub strong: bool,
    /// A rim of paper round the letters, to be read over lines.
    pub halo: bool,
}

/// Height of capitals and figures as a share of the size, Libertinus Serif.
pub const CAPITALS: f64 = 0.658;
/// Depth of descenders as a share of the size.
const DESCENT: f64 = 0.22;

/// Advance widths of U+0020 to U+007E in thousandths of the size, Libertinus Serif
/// Regular 7.051 (read from the font).
const WIDTHS: [u16; 95] = [
    250, 288, 336, 465, 465, 637, 705, 190, 298, 298, 369, 550, 220, 338, 220, 323, 465, 465, 465,
    465, 465, 465, 465, 465, 465, 465, 236, 236, 550, 550, 550, 435, 895, 695, 588, 646, 701, 557,
    485, 685, 730, 297, 322, 637, 528, 839, 699, 702, 541, 702, 587, 485, 597, 661, 652, 951, 660,
    575, 604, 356, 287, 356, 518, 486, 392, 457, 493, 428, 506, 447, 310, 500, 538, 271, 272, 512,
    264, 790, 542, 504, 519, 503, 372, 390, 316, 531, 497, 747, 490, 515, 424, 277, 205, 277, 449,
];

/// Width of words set in one line at a size, mm. Letters outside the table are taken
/// as wide as an `n`, semibold as a tenth wider.
pub fn width_of(words: &str, size: f64, strong: bool) -> f64 {
    let thousandths: f64 = words
        .chars()
        .map(|c| match c {
            ' '..='~' => f64::from(WIDTHS[c as usize - 32]),
            '°' => 267.0,
            '⌀' => 566.0,
            '·' => 250.0,
            '×' | '−' => 550.0,
            _ => 542.0,
        })
        .sum();
    thousandths * size / 1000.0 * if strong { 1.1 } else { 1.0 }
}

impl Text {
    /// Width of its words, mm.
    pub fn width(&self) -> f64 {
        width_of(&self.words, self.size, self.strong)
    }

    /// The corners of the box round it, as it is turned.
    pub fn corners(&self) -> [DVec2; 4] {
        let w = self.width();
        let left = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -w / 2.0,
            Anchor::End => -w,
        };
        let (up, down) = (-CAPITALS * 1.08 * self.size, DESCENT * self.size);
        let turn = DVec2::from_angle(-self.turn);
        [(left, up), (left + w, up), (left + w, down), (left, down)]
            .map(|(x, y)| self.at + turn.rotate(DVec2::new(x, y)))
    }
}
