//! The shop's operations, one to a file, and the list of them all.

pub mod cure;
pub mod cut_disc;
pub mod cut_segments;
pub mod finish;
pub mod first_cut;
pub mod fit_floor;
pub mod fit_layer;
pub mod flatten;
pub mod glue_layer;
pub mod glue_ring;
pub mod hollow;
pub mod index;
pub mod join_sections;
pub mod make_layers;
pub mod measure_slice;
pub mod mill;
pub mod mount;
pub mod part_off;
pub mod position;
pub mod rip;
pub mod sand;
pub mod second_cut;
pub mod space_segments;
pub mod spacer;
pub mod split_turn_glue;
pub mod stack_section;
pub mod true_again;
pub mod true_section;
pub mod turn_outside;

use geometry::{Angle, Length};
use piece::course::Course;
use piece::piece::{Piece, Section};
use serde::Serialize;

use crate::caution::Caution;
use crate::operation::{Card, Subject};
use crate::ring_group::RingGroup;

/// What an operation on rings alike is about: the first of them.
fn group_subject(group: &RingGroup<'_>) -> Subject {
    Subject {
        section: Some(group.section),
        ring: group.rings.first().copied(),
        ..Subject::default()
    }
}

/// A card's cautions, and what gaps in the wall ask for where courses have any.
fn with_gaps<'a>(
    card: &'static Card,
    mut courses: impl Iterator<Item = &'a Course>,
) -> Vec<Caution> {
    let gaps = courses.any(|course| course.gap().exceeds(Angle::ZERO));
    let more = gaps.then_some(Caution::Gaps);
    card.cautions.iter().copied().chain(more).collect()
}

/// Every course of a piece.
fn courses(piece: &Piece) -> impl Iterator<Item = &Course> {
    piece.sections.iter().flat_map(|s| &s.rings)
}

/// The widest that a section swings before it is round.
fn section_diameter(section: &Section) -> Length {
    let corners = section.rings.iter().map(|r| r.sizes.corner_out() * 2.0);
    corners.reduce(Length::max).unwrap_or(Length::ZERO)
}

/// Every kind of operation, in the order they come in a route.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum OperationKind {
    /// Boards to thickness.
    Mill,
    /// Boards to strips.
    Rip,
    /// Strips to segments.
    CutSegments,
    /// Segments to a ring.
    GlueRing,
    /// Marks for segments that do not meet.
    SpaceSegments,
    /// A solid disc.
    CutDisc,
    /// A floor panel into its ring.
    FitFloor,
    /// A ring to its height.
    Flatten,
    /// Rings to a section.
    StackSection,
    /// A section round and square to its axis.
    TrueSection,
    /// Blanks for a band's layers.
    MakeLayers,
    /// A section on the sled.
    Mount,
    /// A section turned to a loop's mark.
    Index,
    /// Positioning blocks across the coming cut.
    Position,
    /// The first cut of a loop.
    FirstCut,
    /// The spacer under the faceplate.
    Spacer,
    /// The second cut of a loop.
    SecondCut,
    /// Kerf and slice as they came out.
    MeasureSlice,
    /// A layer to its thickness.
    FitLayer,
    /// A layer into its place.
    GlueLayer,
    /// Waiting, and clearing up after it.
    Cure,
    /// A section with its knot, round again.
    TrueAgain,
    /// A section sawn across, turned and glued again.
    SplitTurnGlue,
    /// A section on the one below.
    JoinSections,
    /// The outer side.
    TurnOutside,
    /// The inner side.
    Hollow,
    /// Both sides sanded.
    Sand,
    /// The finish.
    Finish,
    /// Off the waste block; the foot.
    PartOff,
}

impl OperationKind {
    /// What is done to rings before they are stacked, in the order of their sheet.
    pub const OF_RINGS: [OperationKind; 7] = [
        OperationKind::Rip,
        OperationKind::CutSegments,
        OperationKind::GlueRing,
        OperationKind::SpaceSegments,
        OperationKind::CutDisc,
        OperationKind::FitFloor,
        OperationKind::Flatten,
    ];

    /// Every kind.
    pub const ALL: [OperationKind; 29] = [
        OperationKind::Mill,
        OperationKind::Rip,
        OperationKind::CutSegments,
        OperationKind::GlueRing,
        OperationKind::SpaceSegments,
        OperationKind::CutDisc,
        OperationKind::FitFloor,
        OperationKind::Flatten,
        OperationKind::StackSection,
        OperationKind::TrueSection,
        OperationKind::MakeLayers,
        OperationKind::Mount,
        OperationKind::Index,
        OperationKind::Position,
        OperationKind::FirstCut,
        OperationKind::Spacer,
        OperationKind::SecondCut,
        OperationKind::MeasureSlice,
        OperationKind::FitLayer,
        OperationKind::GlueLayer,
        OperationKind::Cure,
        OperationKind::TrueAgain,
        OperationKind::SplitTurnGlue,
        OperationKind::JoinSections,
        OperationKind::TurnOutside,
        OperationKind::Hollow,
        OperationKind::Sand,
        OperationKind::Finish,
        OperationKind::PartOff,
    ];

    /// What holds for every operation of this kind.
    pub const fn card(self) -> &'static Card {
        match self {
            OperationKind::Mill => &mill::CARD,
            OperationKind::Rip => &rip::CARD,
            OperationKind::CutSegments => &cut_segments::CARD,
            OperationKind::GlueRing => &glue_ring::CARD,
            OperationKind::SpaceSegments => &space_segments::CARD,
            OperationKind::CutDisc => &cut_disc::CARD,
            OperationKind::FitFloor => &fit_floor::CARD,
            OperationKind::Flatten => &flatten::CARD,
            OperationKind::StackSection => &stack_section::CARD,
            OperationKind::TrueSection => &true_section::CARD,
            OperationKind::MakeLayers => &make_layers::CARD,
            OperationKind::Mount => &mount::CARD,
            OperationKind::Index => &index::CARD,
            OperationKind::Position => &position::CARD,
            OperationKind::FirstCut => &first_cut::CARD,
            OperationKind::Spacer => &spacer::CARD,
            OperationKind::SecondCut => &second_cut::CARD,
            OperationKind::MeasureSlice => &measure_slice::CARD,
            OperationKind::FitLayer => &fit_layer::CARD,
            OperationKind::GlueLayer => &glue_layer::CARD,
            OperationKind::Cure => &cure::CARD,
            OperationKind::TrueAgain => &true_again::CARD,
            OperationKind::SplitTurnGlue => &split_turn_glue::CARD,
            OperationKind::JoinSections => &join_sections::CARD,
            OperationKind::TurnOutside => &turn_outside::CARD,
            OperationKind::Hollow => &hollow::CARD,
            OperationKind::Sand => &sand::CARD,
            OperationKind::Finish => &finish::CARD,
            OperationKind::PartOff => &part_off::CARD,
        }
    }

    /// What the trade calls it.
    pub const fn name(self) -> &'static str {
        self.card().name
    }
}

#[cfg(test)]
mod tests {
    use super::OperationKind;

    #[test]
    fn every_kind_is_wired_to_its_own_card() {
        for (i, kind) in OperationKind::ALL.into_iter().enumerate() {
            assert_eq!(kind as usize, i, "{kind:?} is out of order");
            let card = kind.card();
            assert_eq!(card.kind, kind);
            assert!(
                !card.name.is_empty() && card.wording.ends_with('.'),
                "{kind:?}"
            );
            let mut cautions = card.cautions.to_vec();
            cautions.sort_unstable();
            cautions.dedup();
            assert_eq!(
                cautions.len(),
                card.cautions.len(),
                "{kind:?} cautions twice"
            );
        }
    }

    #[test]
    fn no_two_kinds_go_by_one_name() {
        let mut names: Vec<_> = OperationKind::ALL.iter().map(|k| k.name()).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), OperationKind::ALL.len());
    }
}
