//! Slices so thin that they break between the cuts.

use crate::findings::ways::{any_of, one};
use geometry::Length;
use geometry::Portable;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use files::message::{Reading, Value};
use files::say;

/// Finer blades than this are not to be had for such work.
const FINEST_KERF: Length = Length::mm(0.4);

/// The slice does not come out in one piece.
pub struct SliceFragile;

impl Check for SliceFragile {
    fn key(&self) -> &'static str {
        "slice-fragile"
    }

    fn asks(&self) -> &'static str {
        "is the slice between the two cuts thick enough to come out whole?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::SLICE]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let found = BandView::each(piece).filter_map(|view| {
            let cuts = &view.band.cuts;
            let slice = cuts.slice();
            // A slice of nothing stops the work and is told as such.
            if cuts.run_together() || !limits::WHOLE_SLICE.exceeds(slice + Length::mm(1e-6)) {
                return None;
            }
            let (path, key) = view.layer_key();
            let removed = limits::WHOLE_SLICE + cuts.kerf * 2.0;
            let would_do = if view.band.spacer_solved {
                removed - view.band.glue_line * 2.0
            } else {
                (limits::WHOLE_SLICE + cuts.kerf) / cuts.tilt.as_rad().cosine()
            };
            let mut ways = Vec::new();
            if view.thinned(removed).is_some_and(|l| view.as_good(&l)) {
                let would_do = Reading::up_fine(would_do);
                let words = say!(
                    "a {key} of at least {would_do}",
                    key = key,
                    would_do = would_do
                );
                ways.push(one(words, view.layer_way(would_do)));
            }
            // The layer's room stays; with the spacer kept both kerfs count as one.
            let kerf = if view.band.spacer_solved {
                (cuts.removed() - limits::WHOLE_SLICE) / 2.0
            } else {
                cuts.apart() - limits::WHOLE_SLICE
            };
            if kerf.exceeds(FINEST_KERF) {
                let kerf = Value::down_fine(kerf);
                ways.push(say!("a blade with a kerf of at most {kerf}", kerf = kerf).into());
            }
            let remedy = any_of(ways).unwrap_or_else(|| {
                say!("fewer or flatter loops that leave room for a thicker layer").into()
            });
            Some(found(
                self,
                Said {
                    severity: Severity::WorthKnowing,
                    subject: view.subject(),
                    path,
                    what: say!(
                        "the slice that is sawn out for {loops} is {slice} thick and may break",
                        loops = view.name(),
                        slice = Value::fine(slice),
                    ),
                    remedy,
                },
                (Amount::Fine(slice), Amount::Fine(limits::WHOLE_SLICE)),
                Working::new("spacer x cos(tilt) - kerf", limits::SLICE.source)
                    .with("spacer", Amount::Fine(cuts.spacer))
                    .with("tilt", Amount::Angle(cuts.tilt))
                    .with("kerf", Amount::Fine(cuts.kerf)),
            ))
        });
        found.collect()
    }
}
