//! The drawing that shows an operation.

use drawings::views::{
    Options, half_section, layer_blank, ring_from_above, sled_from_above, unrolled_wall,
};
use drawings::{Drawing, WallSide};
use files::message::Language;
use files::message::Said;
use geometry::Length;
use piece::piece::Piece;
use plan::operation::{Operation, Picture};

/// Room for what is drawn, mm. With the words beside it that is about as wide as the page's
/// column, so that strokes and words come out near the size they have on paper.
const ROOM: f64 = 65.0;

/// Whether an operation is about something that its drawing can show.
pub fn shows(operation: &Operation<Said>) -> bool {
    let subject = &operation.subject;
    match operation.picture {
        Picture::Ring => subject.section.and(subject.ring).is_some(),
        Picture::Sled | Picture::Layer => subject.section.and(subject.band).is_some(),
        Picture::HalfSection | Picture::OutsideWall | Picture::InsideWall => true,
    }
}

/// The drawing of an operation; `None` when it is about nothing that can be drawn.
pub fn drawing(piece: &Piece, operation: &Operation<Said>, language: Language) -> Option<Drawing> {
    let options = Options::within(language, Length::mm(ROOM));
    let subject = &operation.subject;
    let band = subject.section.zip(subject.band);
    match operation.picture {
        Picture::Ring => ring_from_above(piece, subject.section?, subject.ring?, &options),
        Picture::Sled => band.and_then(|(s, b)| sled_from_above(piece, s, b, &options)),
        Picture::Layer => band.and_then(|(s, b)| layer_blank(piece, s, b, &options)),
        Picture::HalfSection => Some(half_section(piece, &options)),
        Picture::OutsideWall => Some(unrolled_wall(piece, WallSide::Outside, &options)),
        Picture::InsideWall => Some(unrolled_wall(piece, WallSide::Inside, &options)),
    }
}
