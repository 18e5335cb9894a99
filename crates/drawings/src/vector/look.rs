//! How the woods of a piece are told apart: by letter, by pattern, and by tint.

use files::wood::{Colour, Hatch, letters};
use piece::model::WoodId;
use piece::piece::Piece;

/// A pattern and a tint for one wood of a piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pattern {
    /// The wood's place among the piece's woods: names the pattern in an SVG.
    pub number: usize,
    /// Light tint, for those who print in colour.
    pub tint: Colour,
    /// Kind of pattern.
    pub hatch: Hatch,
    /// How many woods of the piece before it have the same kind: turns the lines.
    pub variant: usize,
}

/// One wood as it is drawn.
#[derive(Debug, Clone)]
pub struct WoodLook {
    /// What the file calls it.
    pub name: String,
    /// Its letter.
    pub letter: char,
    /// Its pattern.
    pub pattern: Pattern,
    /// Its colour in pictures.
    pub colour: Colour,
}

/// All woods of a piece as they are drawn.
#[derive(Debug, Clone)]
pub struct Looks(Vec<WoodLook>);

impl Looks {
    /// The looks of a piece's woods. Letters all differ; so do patterns.
    pub fn new(piece: &Piece) -> Self {
        let letters = letters(&piece.wood_names);
        let mut looks: Vec<WoodLook> = Vec::with_capacity(piece.woods.len());
        for (i, wood) in piece.woods.iter().enumerate() {
            let variant = looks
                .iter()
                .filter(|l| l.pattern.hatch == wood.hatch)
                .count();
            looks.push(WoodLook {
                name: piece.wood_names.get(i).cloned().unwrap_or_default(),
                letter: letters.get(i).copied().unwrap_or('#'),
                pattern: Pattern {
                    number: i,
                    tint: tint(wood.colour),
                    hatch: wood.hatch,
                    variant,
                },
                colour: wood.colour,
            });
        }
        Self(looks)
    }

    /// One wood's look.
    pub fn of(&self, wood: WoodId) -> Option<&WoodLook> {
        self.0.get(wood.0 as usize)
    }

    /// The letters of a ring's woods, one repeat of the pattern: `HHC`.
    pub fn pattern_letters(&self, woods: &[WoodId]) -> String {
        const MOST: usize = 6;
        let repeat = woods.len() / piece::symmetry::ring_repeats(woods).max(1);
        let letters: String = woods[..repeat.min(MOST)]
            .iter()
            .filter_map(|id| self.of(*id))
            .map(|l| l.letter)
            .collect();
        let more = if repeat > MOST { "..." } else { "" };
        format!("{letters}{more}")
    }

    /// All of them, in the piece's order.
    pub fn all(&self) -> &[WoodLook] {
        &self.0
    }
}

/// The colour let down with white, light enough that lines and letters stand on it.
fn tint(colour: Colour) -> Colour {
    let let_down = |c: u8| (255.0 - (255.0 - f64::from(c)) * 0.42).round() as u8;
    Colour {
        red: let_down(colour.red),
        green: let_down(colour.green),
        blue: let_down(colour.blue),
    }
}
