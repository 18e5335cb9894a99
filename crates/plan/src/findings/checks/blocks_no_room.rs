//! No wood to glue positioning blocks to.

use geometry::Length;
use piece::band::{BlockPlaces, Loops, block_places};

use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::say::Say;
use crate::findings::{Check, Limit, Survey, limits};

/// The three pairs of blocks do not fit above and below the cut.
pub struct BlocksNoRoom;

impl Check for BlocksNoRoom {
    fn key(&self) -> &'static str {
        "blocks-no-room"
    }

    fn asks(&self) -> &'static str {
        "is there wood above and below each cut for three positioning blocks?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::BLOCK_ROOM]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let views = BandView::each_placed(survey);
        let found = views.iter().filter_map(|view| {
            let sled = &view.piece.workshop.sled;
            let need = sled.block_length + sled.keep_off;
            let room = view.band.blocks.least_room;
            if !need.exceeds(room + Length::mm(1e-6)) {
                return None;
            }
            let say = Say::of(view.piece);
            let (path, remedy) = self.remedy(view, say, need);
            Some(Finding {
                key: self.key().into(),
                severity: Severity::Risky,
                subject: view.subject(),
                path,
                what: format!(
                    "the cuts for {} leave {} of wood where positioning blocks fit best; a block takes {}",
                    view.name(),
                    say.length(room.max(Length::ZERO)),
                    say.length(need)
                ),
                remedy,
                against: Some(Against {
                    figure: Amount::Length(room),
                    limit: Amount::Length(need),
                    working: Working::new(
                        "least wood above or below the cut at the three best places >= block + keep-off",
                        limits::BLOCK_ROOM.source,
                    )
                    .with("block", Amount::Length(sled.block_length))
                    .with("keep-off", Amount::Length(sled.keep_off)),
                }),
            })
        });
        found.collect()
    }
}

impl BlocksNoRoom {
    fn remedy(&self, view: &BandView<'_>, say: Say, need: Length) -> (String, String) {
        let half = view.section.stacked / 2.0;
        let does = |l: &Loops| !need.exceeds(places(view, l).least_room + Length::mm(1e-6));
        let middle = say.at_least(half - Length::mm(0.5) * 0.1);
        if view
            .moved(middle)
            .is_some_and(|l| does(&l) && view.fits(&l))
        {
            return (
                view.path("height"),
                format!(
                    "move the loops' middle to {} above the section's underside",
                    say.length(middle)
                ),
            );
        }
        // With the loops' middle at half height, every millimetre of section gives half
        // of one to each side of every cut.
        let centred = Loops {
            height: half,
            ..view.band.loops.clone()
        };
        let short = (need - places(view, &centred).least_room).max(Length::ZERO);
        let tall = (view.section.stacked + short * 2.0).max(view.band.least_section);
        let section = format!(
            "a section at least {} high with the loops' middle at half of it",
            say.length(say.at_least(tall))
        );
        match view.flatter(say, does) {
            Some(flatter) => (view.tilt_path(), format!("{section}; or {flatter}")),
            None => (view.path("height"), section),
        }
    }
}

fn places(view: &BandView<'_>, loops: &Loops) -> BlockPlaces {
    block_places(
        loops,
        view.section.blank_radius,
        view.section.stacked,
        &view.band.sled,
        &view.piece.workshop.sled,
    )
}
