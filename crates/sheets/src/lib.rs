//! The printed plan: the papers that a maker takes to the saw.
//!
//! ```text
//!   Piece, Plan ──► content (values, drawings) ──┐
//!                   templates (.typ, embedded) ──┼──► typesetter ──► tagged PDF
//!                   the serif (embedded) ────────┘
//!   Piece ──► full-size templates ──► SVG and DXF
//! ```
//!
//! Nothing here reads or writes files, asks a clock, or goes to the network: the same
//! piece, plan and request give the same bytes.

mod content;
mod date;
mod dxf;
pub mod full_size;
mod paper;
mod request;
pub mod tile;
mod typeset;

use files::message::Language;
use piece::piece::Piece;
use piece::work::Cancel;
use plan::Plan;

pub use date::{Date, NoDate};
pub use dxf::to_dxf;
pub use paper::{MARGINS, Paper};
pub use request::{Request, Sheet};
pub use typeset::TypesetError;

/// The templates by name: they are part of the program.
const TEMPLATES: [(&str, &str); 10] = [
    ("main.typ", include_str!("../templates/main.typ")),
    ("look.typ", include_str!("../templates/look.typ")),
    ("front.typ", include_str!("../templates/front.typ")),
    ("wood.typ", include_str!("../templates/wood.typ")),
    ("rings.typ", include_str!("../templates/rings.typ")),
    ("stacking.typ", include_str!("../templates/stacking.typ")),
    ("knot.typ", include_str!("../templates/knot.typ")),
    ("turning.typ", include_str!("../templates/turning.typ")),
    ("finishing.typ", include_str!("../templates/finishing.typ")),
    ("full_size.typ", include_str!("../templates/full_size.typ")),
];

/// The papers as a tagged PDF (PDF/UA-1 as far as the typesetter can check it).
///
/// # Errors
/// It was given up by `cancel`, or the typesetter's complaint, naming the template: a
/// fault in this program.
pub fn pdf(
    piece: &Piece,
    plan: &Plan,
    request: &Request,
    cancel: &Cancel,
) -> Result<Vec<u8>, TypesetError> {
    let (data, art) = content::content(piece, plan, request, cancel)?;
    let mut files = art.into_files();
    files.put("data.json", data);
    for (name, text) in TEMPLATES {
        files.put(name, text.as_bytes());
    }
    typeset::pdf(&files, request.date, cancel)
}

/// The full-size templates as files, each written when it is asked for: as SVG and as
/// DXF, with check bars.
pub fn template_files(
    piece: &Piece,
    language: Language,
) -> impl Iterator<Item = (String, Vec<u8>)> + use<> {
    full_size::templates(piece, language)
        .into_iter()
        .flat_map(|template| {
            let drawing = full_size::with_check_bars(template.drawing);
            [
                (
                    format!("{}.svg", template.key),
                    drawings::to_svg(&drawing).into_bytes(),
                ),
                (
                    format!("{}.dxf", template.key),
                    to_dxf(&drawing).into_bytes(),
                ),
            ]
        })
}
