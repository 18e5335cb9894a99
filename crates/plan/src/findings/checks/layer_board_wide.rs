//! Layers made of one board that is wider than boards are.

use crate::findings::ways::{any_of, one};
use files::design::LayerMake;
use files::message::Value;
use files::remedy::Way;
use files::say;
use geometry::Length;
use piece::band::{LayerBlank, LayerNeeds};

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};

/// The board has to be glued up, or the layer made as a ring.
pub struct LayerBoardWide;

impl Check for LayerBoardWide {
    fn key(&self) -> &'static str {
        "layer-board-wide"
    }

    fn asks(&self) -> &'static str {
        "is a board to be had that is wide enough for a solid layer?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::BOARD]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let found = BandView::each(piece).filter_map(|view| {
            let blank = &view.band.blank;
            let width = blank.width + blank.edge * 2.0;
            let length = blank.length + blank.edge * 2.0;
            if blank.ring.is_some() || !width.exceeds(limits::BROAD_BOARD) {
                return None;
            }
            let boards = (width.as_mm() / limits::BROAD_BOARD.as_mm()).ceil();
            let glued = say!(
                "glue each up from {boards} boards of at least {boards_2}",
                boards = Value::Number(boards, 0),
                boards_2 = Value::up(width / boards),
            );
            let ring = narrow_ring(&view).map(|(make, strip)| {
                one(
                    say!(
                        "a {make}, from boards {strip} wide",
                        make = make,
                        strip = Value::up(strip),
                    ),
                    make_way(&view, make),
                )
            });
            let remedy = any_of(ring.into_iter().chain([glued.into()])).unwrap_or_default();
            Some(found(
                self,
                Said {
                    severity: Severity::WorthKnowing,
                    subject: view.subject(),
                    path: view.path().make(),
                    what: say!(
                        "each layer for {loops} is one board {width} wide and {value} long",
                        loops = view.name(),
                        width = width,
                        value = length,
                    ),
                    remedy,
                },
                (Amount::Length(width), Amount::Length(limits::BROAD_BOARD)),
                Working::new(
                    "2 x radius of the blank + 2 x wood left round the oval",
                    limits::BOARD.source,
                )
                .with(
                    "radius of the blank",
                    Amount::Length(view.section.blank_radius),
                )
                .with("wood left round the oval", Amount::Length(blank.edge)),
            ))
        });
        found.collect()
    }
}

fn make_way(view: &BandView<'_>, make: &'static str) -> Way {
    let what = say!(
        "make the layers of {loops} as a {make}",
        loops = view.name(),
        make = make,
    );
    Way::new(what).set(view.path().make(), make)
}

/// The ring that would do, and its board's width, if it is narrower than a broad board.
fn narrow_ring(view: &BandView<'_>) -> Option<(&'static str, Length)> {
    let allow = &view.piece.workshop.allowances;
    let makes = [
        ("long ring", LayerMake::LongRing),
        ("round ring", LayerMake::RoundRing),
    ];
    makes.into_iter().find_map(|(name, make)| {
        let blank = LayerBlank::new(&LayerNeeds {
            loops: &view.band.loops,
            blank_radius: view.section.blank_radius,
            inner: &|z| view.inner(z),
            edge: *allow.layer_edge,
            inside: *allow.inside,
            make,
            segments: view.section.rings.first().map_or(12, |r| r.sizes.segments),
        });
        let width = blank.ring?.board_width();
        (!width.exceeds(limits::BROAD_BOARD)).then_some((name, width))
    })
}
