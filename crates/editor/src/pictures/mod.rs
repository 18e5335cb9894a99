//! Pictures of a piece as PNG: each pixel asks the model which wood is there. And the
//! drawings of operations.
//!
//! ```text
//!   Asked (which, width, azimuth, height, grain, stage)
//!     ─► Canvas: a point of the piece for each pixel ─► wood_at ─► colour, grain, joints
//!     ─► PNG
//! ```
//! Colours and grain are for looks only.

mod canvas;
mod drawn;
mod kept;
mod maps;
mod stage;
mod surface;

use drawings::{Camera, portrait};
use piece::form::WallSide;
use piece::piece::Piece;

pub use drawn::{drawing, shows};
pub use kept::Portraits;
use stage::piece_at;
pub use surface::surface;

/// Which picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// A wall unrolled, height upwards.
    Wall(WallSide),
    /// A part of the surface along its own line.
    Skin(Part),
    /// A part of the surface from above.
    Disc(Part),
    /// The face of the half-section at an azimuth.
    Section,
    /// A level cut.
    Level,
    /// The piece from the side.
    Portrait,
}

/// Parts of the surface.
pub use crate::wire::PartName as Part;

impl What {
    /// The picture of a file's name without `.png`.
    pub fn named(name: &str) -> Option<What> {
        Some(match name {
            "outside" => What::Wall(WallSide::Outside),
            "inside" => What::Wall(WallSide::Inside),
            "section" => What::Section,
            "level" => What::Level,
            "portrait" => What::Portrait,
            "skin-outside" => What::Skin(Part::Outside),
            "skin-rim" => What::Skin(Part::Rim),
            "skin-inside" => What::Skin(Part::Inside),
            "disc-floor" => What::Disc(Part::Floor),
            "disc-foot" => What::Disc(Part::Foot),
            _ => return None,
        })
    }
}

/// A picture as it is asked for.
#[derive(Debug, Clone, Copy)]
pub struct Asked {
    /// Which.
    pub what: What,
    /// Width in pixels.
    pub width: u32,
    /// Azimuth of a half-section, degrees.
    pub azimuth: f64,
    /// Height of a level cut, mm.
    pub height: f64,
    /// With grain.
    pub grain: bool,
    /// As it would look with only the loops of the first stages sawn.
    pub upto: Option<usize>,
}

/// Widest picture.
pub const WIDEST: u32 = 4096;
/// Most pixels.
const MOST: u64 = 16 << 20;

/// Paints a picture, as the bytes of a PNG; nothing should it not be encodable.
pub fn paint(piece: &Piece, upto: Option<&[(usize, usize)]>, asked: &Asked) -> Option<Vec<u8>> {
    let staged = upto.map(|done| piece_at(piece, done));
    let piece = staged.as_ref().unwrap_or(piece);
    let width = asked.width.clamp(16, WIDEST);
    let image = match asked.what {
        What::Wall(side) => maps::wall(piece, side, width, asked.grain),
        What::Skin(part) => maps::skin(piece, part, width, asked.grain),
        What::Disc(part) => maps::disc(piece, part, width, asked.grain),
        What::Section => maps::section(piece, asked.azimuth, width, asked.grain),
        What::Level => maps::level(piece, asked.height, width, asked.grain),
        What::Portrait => {
            let width = width.min(LARGEST_PORTRAIT);
            return Some(portrait(piece, width, width, &Camera::default()).to_png());
        }
    };
    image.png().ok()
}

/// Largest portrait, pixels: its light takes longer than its wood.
const LARGEST_PORTRAIT: u32 = 1200;

/// The height of a picture of a width and a shape (height over width).
fn tall(width: u32, shape: f64) -> u32 {
    let most = (MOST / u64::from(width.max(1))).min(u64::from(WIDEST)) as f64;
    let tall = f64::from(width) * shape;
    if tall.is_finite() {
        tall.round().clamp(8.0, most) as u32
    } else {
        8
    }
}
