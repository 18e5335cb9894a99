//! Wood that hangs over the edge of the saw's table, or tips the sled.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::holding::{Body, Cut};
use files::message::Value;
use files::say;
use geometry::Portable;

/// The blank reaches past the table on one side of the blade.
pub struct SledOverhang;

impl Check for SledOverhang {
    fn key(&self) -> &'static str {
        "sled-overhang"
    }

    fn asks(&self) -> &'static str {
        "does the blank lie on the saw's table on both sides of the blade?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::TABLE_HALF]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let found = BandView::each(piece).filter_map(|view| {
            let (saw, sled) = (&view.band.saw, &view.band.sled);
            let half = saw.table_width / 2.0;
            let (free, held) = (sled.free_side, sled.faceplate_side);
            let side = free.max(held);
            if !side.exceeds(half) {
                return None;
            }
            // The middle of the weight past the table's edge tips the sled.
            let number = view.subject().section.unwrap_or(0);
            let lump = Body::of_section(piece, number, Cut::Rough);
            let middle = geometry::Length::mm(lump.height()) - view.section.bottom - view.band.loops.height;
            let tips = (middle * sled.tilt.as_rad().cosine()).abs().exceeds(half);
            let severity = if tips { Severity::Risky } else { Severity::WorthKnowing };
            let which = if free.exceeds(held) { "free end" } else { "faceplate" };
            Some(found(
                self,
                Said {
                    severity,
                    subject: view.subject(),
                    path: view.path().saw(),
                    what: say!(
                        "cutting {loops}, the {which} hangs {half} over the edge of the {saw}'s table{else}",
                        loops = view.name(),
                        which = which,
                        half = side - half,
                        saw = Value::name(saw.name.as_str()),
                        else = if tips { ", and the weight with it: the sled tips" } else { "" },
                    ),
                    remedy: say!(
                        "a table at least {side} wide, or a stand beside it as high as the table",
                        side = Value::up(side * 2.0),
                    ).into(),
                },
                (Amount::Length(side), Amount::Length(half)),
                Working::new(
                    "height from the cut to the end x cos(tilt) + radius x sin(tilt), against half the table's width",
                    limits::TABLE_HALF.source,
                )
                .with("tilt", Amount::Angle(sled.tilt))
                .with("weight of the section", Amount::Weight(lump.grams)),
            ))
        });
        found.collect()
    }
}
