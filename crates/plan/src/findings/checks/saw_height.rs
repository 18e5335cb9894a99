//! A blank taller than the saw's guide.

use crate::findings::ways::one;
use files::design::BlankShape;
use files::key::KeyPath;
use files::message::Value;
use files::remedy::{Remedy, Way};
use files::say;
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};

/// The blank on its sled, or its positioning blocks, does not pass under the guide.
pub struct SawHeight;

impl Check for SawHeight {
    fn key(&self) -> &'static str {
        "saw-height"
    }

    fn asks(&self) -> &'static str {
        "does the blank on its sled pass under the saw's guide?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::CUTTING_HEIGHT]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        BandView::each(piece)
            .filter_map(|v| self.finding(&v))
            .collect()
    }
}

impl SawHeight {
    fn finding(&self, view: &BandView<'_>) -> Option<Finding> {
        let (band, sled) = (view.band, &view.piece.workshop.sled);
        let saw = &band.saw;
        let with_blocks = band.sled.blade_height.max(band.blocks.blade_height);
        if !with_blocks.exceeds(saw.cutting_height) {
            return None;
        }
        let blank_passes = !band.sled.blade_height.exceeds(saw.cutting_height);
        let needed = if blank_passes {
            with_blocks
        } else {
            band.sled.blade_height
        };
        let (severity, what) = if blank_passes {
            (Severity::Risky, "its highest positioning block")
        } else {
            (Severity::Stops, "the blank")
        };
        let (path, remedy) = self.remedy(view, needed, with_blocks);
        Some(found(self, Said {
severity,
subject: view.subject(),
path,
what: say!(
                "cutting {loops}, {what} stands {needed} over the table; the {saw} cuts {cutting_height} high",
                loops = view.name(),
                what = what,
                needed = needed,
                saw = Value::name(saw.name.as_str()),
                cutting_height = saw.cutting_height,
            ),
remedy,
},
(Amount::Length(needed), Amount::Length(saw.cutting_height)),
Working::new(
                    "sled's base + clearance + 2 x radius of the blank, or to the top of the highest block",
                    limits::CUTTING_HEIGHT.source,
                )
                .with("sled's base", Amount::Length(*sled.base))
                .with("clearance", Amount::Length(*sled.clearance))
                .with("radius of the blank", Amount::Length(view.section.blank_radius))
                .with("block stands out", Amount::Length(*sled.block_height)),
))
    }

    fn remedy(
        &self,
        view: &BandView<'_>,
        needed: Length,
        with_blocks: Length,
    ) -> (KeyPath, Remedy) {
        if let Some(saw) = view.other_saw() {
            return (
                view.path().saw(),
                one(
                    say!(
                        "the {saw}, which cuts {high} high",
                        saw = Value::name(saw.name.as_str()),
                        high = saw.cutting_height,
                    ),
                    view.saw_way(saw),
                ),
            );
        }
        let higher = say!(
            "a saw that cuts at least {with_blocks} high",
            with_blocks = Value::up(with_blocks),
        );
        let sled = &view.piece.workshop.sled;
        let passes = view.band.saw.cutting_height - *sled.base - *sled.clearance;
        let flats = view.section.rings.iter().map(|r| r.sizes.flat_out * 2.0);
        let trued = flats.reduce(Length::max).unwrap_or(Length::ZERO);
        if view.section.blank == BlankShape::Polygon && !trued.exceeds(passes) {
            let blank = view.section_path().blank();
            return (
                blank.clone(),
                one(
                    say!(
                        "true the section to a cylinder first; or {higher}",
                        higher = higher,
                    ),
                    Way::new(say!("true the section to a cylinder first")).set(blank, "cylinder"),
                ),
            );
        }
        if needed.exceeds(view.band.saw.cutting_height)
            && passes.exceeds(Length::ZERO)
            && view
                .band
                .sled
                .blade_height
                .exceeds(view.band.saw.cutting_height)
        {
            return (
                view.path().saw(),
                Remedy::from(say!(
                    "{higher}; or a blank at most {passes} across",
                    higher = higher,
                    passes = Value::down(passes),
                )),
            );
        }
        (
            view.path().saw(),
            Remedy::from(say!(
                "{higher}; or blocks glued on where they pass lower",
                higher = higher
            )),
        )
    }
}
