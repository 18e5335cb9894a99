//! How each construction is made: the operations that bring its parts to a flat course, and
//! what is different when it is glued into a stack.

mod closed_ring;
mod disc;
mod floor_panel;
mod open_ring;

use files::message::Message;
use piece::course::Course;

use crate::operation::ShopOperation;
use crate::ring_group::RingGroup;

/// The making of one construction.
pub trait Making: Sync {
    /// The construction's name, as `piece` has it.
    fn word(&self) -> &'static str;

    /// The operations for courses alike, from boards to what is stacked, in order.
    fn operations<'a>(&self, group: &RingGroup<'a>) -> Vec<Box<dyn ShopOperation + 'a>>;

    /// What is done differently when such courses are glued on those below, told of by their
    /// numbers through the piece; nothing where they are glued whole.
    fn stacking(&self, _numbers: &[usize]) -> Option<Message> {
        None
    }

    /// Where docs tell of it: a file of `docs/` and a heading in it.
    fn docs(&self) -> (&'static str, &'static str);
}

/// Every making, in the order of [`piece::course::ALL`].
pub static ALL: [&dyn Making; 4] = [
    &disc::Disc,
    &floor_panel::FloorPanel,
    &open_ring::OpenRing,
    &closed_ring::ClosedRing,
];

/// How a course is made.
pub fn making(course: &Course) -> &'static dyn Making {
    let word = course.construction.word();
    let found = ALL.iter().find(|making| making.word() == word);
    // A test holds the two lists to each other.
    *found.unwrap_or(&ALL[ALL.len() - 1])
}

#[cfg(test)]
mod tests;
