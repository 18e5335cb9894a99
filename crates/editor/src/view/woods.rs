//! Woods that can be chosen.

use files::wood::{self, Hatch, letters};
use piece::piece::Piece;

use crate::open_projects::Revision;
use crate::wire::Wood;

fn entry(name: &str, wood: &wood::Wood, letter: String, used: bool) -> Wood {
    Wood {
        name: name.into(),
        label: wood.plain.clone(),
        colour: wood.colour.to_string(),
        letter,
        hatch: match wood.hatch {
            Hatch::Blank => 0,
            Hatch::Dots => 1,
            Hatch::Lines => 2,
            Hatch::Crossed => 3,
            Hatch::Filled => 4,
        },
        used,
    }
}

/// The piece's woods first, then the maker's own, then the built-in table.
pub fn woods(revision: &Revision, piece: &Piece) -> Vec<Wood> {
    let used = piece.wood_names.iter().zip(&piece.woods);
    let letters = letters(&piece.wood_names);
    let mut out: Vec<Wood> = used
        .zip(letters)
        .map(|((name, wood), letter)| entry(name, wood, letter.to_string(), true))
        .collect();
    for name in revision.design.woods.keys() {
        if let (false, Ok(wood)) = (
            out.iter().any(|w| w.name == *name),
            wood::find_among(name, &revision.design.woods),
        ) {
            let label = name.clone();
            out.push(Wood {
                label,
                ..entry(name, &wood, String::new(), false)
            });
        }
    }
    for wood in wood::all() {
        if !out
            .iter()
            .any(|w| w.name == wood.plain || w.label == wood.plain)
        {
            out.push(entry(&wood.plain, wood, String::new(), false));
        }
    }
    out
}
