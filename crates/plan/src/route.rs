//! The route through the shop: every operation in its order.
//!
//! ```text
//!   mill, rip, cut ──► rings ──► section by section: stack, true, knots, splits
//!                                   └──► join ──► turn, hollow, sand, finish, part off
//! ```

use files::units::Unit;
use piece::piece::Piece;

use crate::constructions::making;
use crate::operation::{Operation, ShopOperation};
use crate::operations::cure::Cure;
use crate::operations::finish::Finish;
use crate::operations::first_cut::FirstCut;
use crate::operations::fit_layer::FitLayer;
use crate::operations::glue_layer::GlueLayer;
use crate::operations::hollow::Hollow;
use crate::operations::index::Index;
use crate::operations::join_sections::JoinSections;
use crate::operations::make_layers::MakeLayers;
use crate::operations::measure_slice::MeasureSlice;
use crate::operations::mill::Mill;
use crate::operations::mount::Mount;
use crate::operations::part_off::PartOff;
use crate::operations::position::Position;
use crate::operations::sand::Sand;
use crate::operations::second_cut::SecondCut;
use crate::operations::spacer::Spacer;
use crate::operations::split_turn_glue::SplitTurnGlue;
use crate::operations::stack_section::StackSection;
use crate::operations::true_again::TrueAgain;
use crate::operations::true_section::TrueSection;
use crate::operations::turn_outside::TurnOutside;
use crate::ring_group::RingGroup;
use crate::settings::band::{BandAt, LoopAt};

/// A route under way.
struct Route(Vec<Operation>);

impl Route {
    fn add(&mut self, operation: &dyn ShopOperation) {
        let number = self.0.len() + 1;
        self.0.push(Operation::enter(operation, number));
    }
}

/// Every operation of a piece, in order; what is measured at round heights in a unit.
pub fn route(piece: &Piece, unit: Unit) -> Vec<Operation> {
    let mut route = Route(Vec::new());
    for mill in Mill::of_piece(piece) {
        route.add(&mill);
    }
    for number in 0..piece.sections.len() {
        rings(&mut route, piece, number);
        section(&mut route, piece, number);
    }
    for (number, pair) in piece.sections.windows(2).enumerate() {
        route.add(&JoinSections {
            piece,
            number: number + 1,
            below: &pair[0],
            section: &pair[1],
        });
    }
    route.add(&TurnOutside { piece, unit });
    route.add(&Hollow { piece, unit });
    route.add(&Sand(piece));
    route.add(&Finish(piece));
    route.add(&PartOff(piece));
    route.0
}

/// A section's rings, from strips to flat rings.
fn rings(route: &mut Route, piece: &Piece, section: usize) {
    for group in RingGroup::of_section(piece, section) {
        for operation in making(group.ring).operations(&group) {
            route.add(operation.as_ref());
        }
    }
}

/// A section from its rings to what is joined.
fn section(route: &mut Route, piece: &Piece, number: usize) {
    let section = &piece.sections[number];
    let bands = BandAt::of_section(piece, number);
    // Layers that are glued as rings cure while the section is stacked.
    for at in &bands {
        route.add(&MakeLayers(*at));
    }
    route.add(&StackSection {
        piece,
        number,
        section,
    });
    route.add(&TrueSection {
        piece,
        number,
        section,
    });
    for at in bands {
        for &loop_number in &at.band.order {
            one_loop(
                route,
                LoopAt {
                    at,
                    number: loop_number,
                },
            );
        }
        route.add(&TrueAgain(at));
    }
    for split in &section.splits {
        route.add(&SplitTurnGlue {
            piece,
            number,
            section,
            split,
        });
    }
}

/// One loop. Blocks and dowels are made before the first cut: once the slice is
/// gone, nothing else finds the place again.
fn one_loop(route: &mut Route, at: LoopAt<'_>) {
    route.add(&Mount(at));
    route.add(&Index(at));
    route.add(&Position(at));
    route.add(&FirstCut(at));
    route.add(&Spacer(at));
    route.add(&SecondCut(at));
    route.add(&MeasureSlice(at));
    route.add(&FitLayer(at));
    route.add(&GlueLayer(at));
    route.add(&Cure(at));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::operations::OperationKind;
    use crate::trial;

    #[test]
    fn a_loop_is_ten_operations_in_the_order_that_finds_its_place_again() {
        let route = route(&trial::tube(), Unit::Mm);
        let of_loop: Vec<OperationKind> = route
            .iter()
            .filter(|o| o.subject.loop_number == Some(1))
            .map(|o| o.kind)
            .collect();
        assert_eq!(
            of_loop,
            [
                OperationKind::Mount,
                OperationKind::Index,
                OperationKind::Position,
                OperationKind::FirstCut,
                OperationKind::Spacer,
                OperationKind::SecondCut,
                OperationKind::MeasureSlice,
                OperationKind::FitLayer,
                OperationKind::GlueLayer,
                OperationKind::Cure
            ]
        );
    }

    #[test]
    fn loops_come_in_cutting_order_and_operations_are_numbered_on() {
        let route = route(&trial::ordered(), Unit::Mm);
        let cuts: Vec<Option<usize>> = route
            .iter()
            .filter(|o| o.kind == OperationKind::FirstCut)
            .map(|o| o.subject.loop_number)
            .collect();
        assert_eq!(cuts, [Some(1), Some(2), Some(0)]);
        assert!(route.iter().enumerate().all(|(i, o)| o.number == i + 1));
    }
}
