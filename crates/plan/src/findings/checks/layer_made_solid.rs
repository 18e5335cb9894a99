//! Layers that were to be rings and can only be boards.

use files::design::LayerMake;
use files::remedy::{Remedy, Way};
use files::say;
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};

/// The cuts pass where the piece has no hole, or one that is too small for a ring's inside.
pub struct LayerMadeSolid;

impl Check for LayerMadeSolid {
    fn key(&self) -> &'static str {
        "layer-made-solid"
    }

    fn asks(&self) -> &'static str {
        "does a layer that is made as a ring leave a hole?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::INSIDE]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let inside = piece.workshop.allowances.inside;
        let found = BandView::each(piece).filter_map(|view| {
            let blank = &view.band.blank;
            if blank.asked == LayerMake::Solid || blank.ring.is_some() {
                return None;
            }
            let hole = blank.hole.unwrap_or(Length::ZERO);
            Some(found(
                self,
                Said {
                    severity: Severity::WorthKnowing,
                    subject: view.subject(),
                    path: view.path().make(),
                    what: say!(
                        "the layers for {loops} cannot be rings and are planned as boards: the finished inside leaves a hole of {hole} from the middle, and {inside} of it is to be turned away",
                        loops = view.name(),
                        hole = hole,
                        inside = *inside,
                    ),
                    remedy: Remedy::from(say!("make the layers of one board")).or(Way::new(say!("make the layers of {loops} of one board", loops = view.name())).set(view.path().make(), "solid")),
                },
                (Amount::Length(hole), Amount::Length(*inside)),
                Working::new(
                    "least distance from the middle of the layer to the finished inner wall, less what is left to turn away inside",
                    "geometry of the cut",
                )
                .with("left to turn away inside", Amount::Length(*inside)),
            ))
        });
        found.collect()
    }
}
