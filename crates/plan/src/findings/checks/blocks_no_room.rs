//! No wood to glue positioning blocks to.

use crate::findings::ways::{any_of, one};
use files::remedy::Remedy;
use geometry::Length;
use piece::band::Loops;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use files::key::KeyPath;
use files::say;

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
            let need = *sled.block_length + *sled.keep_off;
            let room = view.band.blocks.least_room;
            if !need.exceeds(room + Length::mm(1e-6)) {
                return None;
            }
            let (path, remedy) = self.remedy(view, need);
            Some(found(self, Said {
severity: Severity::Risky,
subject: view.subject(),
path,
what: say!(
                    "the cuts for {loops} leave {ength} of wood where positioning blocks fit best; a block takes {need}",
                    loops = view.name(),
                    ength = room.max(Length::ZERO),
                    need = need,
                ),
remedy,
},
(Amount::Length(room), Amount::Length(need)),
Working::new(
                        "least wood above or below the cut at the three best places >= block + keep-off",
                        limits::BLOCK_ROOM.source,
                    )
                    .with("block", Amount::Length(*sled.block_length))
                    .with("keep-off", Amount::Length(*sled.keep_off)),
))
        });
        found.collect()
    }
}

impl BlocksNoRoom {
    fn remedy(&self, view: &BandView<'_>, need: Length) -> (KeyPath, Remedy) {
        if let Some(middle) = view.middle() {
            let words = say!(
                "move the loops' middle to {height} above the section's underside",
                height = middle,
            );
            return (view.path().height(), one(words, view.height_way(middle)));
        }
        // With the loops' middle at half height, every millimetre of section gives half
        // of one to each side of every cut.
        let centred = Loops {
            height: view.section.stacked / 2.0,
            ..view.band.loops.clone()
        };
        let short = (need - view.block_room(&centred)).max(Length::ZERO);
        let tall = (view.section.stacked + short * 2.0).max(view.band.least_section);
        let section = view.taller(tall);
        match view.flatter(|l| view.blocks_fit(l)) {
            Some(flatter) => (
                view.tilt_path(),
                any_of([section, flatter]).unwrap_or_default(),
            ),
            None => (view.path().height(), section),
        }
    }
}
