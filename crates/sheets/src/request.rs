//! Which papers, on what.

use std::str::FromStr;

use files::report::on_one_line;

use crate::date::Date;
use crate::paper::Paper;

/// What is asked for.
#[derive(Debug, Clone, Default)]
pub struct Request {
    /// The paper.
    pub paper: Paper,
    /// Only these sheets; all if empty.
    pub only: Vec<Sheet>,
    /// The day to print; without one, room to write it is left.
    pub date: Option<Date>,
}

/// The sheets in the order of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sheet {
    /// The piece, its sizes and woods, what to watch for.
    Front,
    /// What to buy and mill.
    Wood,
    /// A card for each ring.
    Rings,
    /// Sections and how they are joined.
    Stacking,
    /// Loop bands.
    Knot,
    /// Heights, diameters, speeds.
    Turning,
    /// Sanding, finish, what waits for what.
    Finishing,
    /// Templates at full size.
    Templates,
}

impl Sheet {
    /// Every sheet.
    pub const ALL: [Sheet; 8] = [
        Sheet::Front,
        Sheet::Wood,
        Sheet::Rings,
        Sheet::Stacking,
        Sheet::Knot,
        Sheet::Turning,
        Sheet::Finishing,
        Sheet::Templates,
    ];

    /// Its word in a call.
    pub const fn word(self) -> &'static str {
        match self {
            Sheet::Front => "front",
            Sheet::Wood => "wood",
            Sheet::Rings => "rings",
            Sheet::Stacking => "stacking",
            Sheet::Knot => "knot",
            Sheet::Turning => "turning",
            Sheet::Finishing => "finishing",
            Sheet::Templates => "templates",
        }
    }

    /// Its name on paper.
    pub const fn name(self) -> &'static str {
        match self {
            Sheet::Front => "The piece",
            Sheet::Wood => "Wood",
            Sheet::Rings => "Rings",
            Sheet::Stacking => "Stacking",
            Sheet::Knot => "Loops",
            Sheet::Turning => "Turning",
            Sheet::Finishing => "Finishing",
            Sheet::Templates => "Full-size templates",
        }
    }
}

impl FromStr for Sheet {
    type Err = String;

    fn from_str(word: &str) -> Result<Self, String> {
        let words: Vec<&str> = Self::ALL.iter().map(|s| s.word()).collect();
        Self::ALL
            .into_iter()
            .find(|s| s.word() == word)
            .ok_or_else(|| {
                format!(
                    "there is no sheet \"{}\"; there are {}",
                    on_one_line(word),
                    words.join(", ")
                )
            })
    }
}
