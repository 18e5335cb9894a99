//! Blade left bare above the blank for the sake of positioning blocks.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use files::key;
use files::say;

/// The guide has to stand far above the blank.
pub struct BladeExposed;

impl Check for BladeExposed {
    fn key(&self) -> &'static str {
        "blade-exposed"
    }

    fn asks(&self) -> &'static str {
        "is little of the blade bare above the blank?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::EXPOSED]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let limit = limits::BARE_BLADE;
        let found = BandView::each(piece).filter_map(|view| {
            let sled = &view.band.sled;
            let top = sled.blade_height.max(view.band.blocks.blade_height);
            let bare = top - sled.centre_height - view.section.blank_radius;
            if !bare.exceeds(limit) {
                return None;
            }
            Some(found(
                self,
                Said {
                    severity: Severity::WorthKnowing,
                    subject: view.subject(),
                    path: key::shop().sled().block_height(),
                    what: say!(
                        "cutting {loops}, the guide clears positioning blocks and leaves {bare} of the blade bare above the blank",
                        loops = view.name(),
                        bare = bare,
                    ),
                    remedy: say!("blocks that stand out by at most {limit}", limit = limit).into(),
                },
                (Amount::Length(bare), Amount::Length(limit)),
                Working::new("top of the highest block - (axis over the table + radius)", limits::EXPOSED.source)
                    .with("axis over the table", Amount::Length(sled.centre_height))
                    .with("radius", Amount::Length(view.section.blank_radius)),
            ))
        });
        found.collect()
    }
}
