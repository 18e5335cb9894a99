//! How far the settings of a band go, and what stops them there.

use files::design::{FLATTEST, STEEPEST};
use files::message::{Message, Value};
use files::say;
use geometry::Portable;
use geometry::{Angle, Length};
use piece::band::{LoopEdges, Loops, TwoCuts};
use piece::parallel::both;
use piece::piece::{Band, Piece, Section};
use piece::settle::WHOLE_SLICE;

/// How far one setting goes, all else as it is.
#[derive(Debug, Clone)]
pub struct BandLimit {
    /// Least.
    pub least: Length,
    /// Most.
    pub most: Length,
    /// What stops it at the least, with its figure.
    pub why_least: Message,
    /// What stops it at the most, with its figure.
    pub why_most: Message,
}

/// How far the settings of a band go.
#[derive(Debug, Clone)]
pub struct BandLimits {
    /// Of the reach from lowest to highest edge.
    pub reach: BandLimit,
    /// Of the height of the loops' middle above the section's underside.
    pub height: BandLimit,
    /// Of the layer.
    pub layer: BandLimit,
}

/// Halvings of a range: a few hundredths of a millimetre, finer than a hand drags. What
/// comes out is on the good side. They are asked for with every movement of a hand.
const HALVINGS: usize = 12;

/// A length; none where a wall that turns back leaves no figure.
fn finite(mm: f64) -> Length {
    Length::mm(if mm.is_finite() { mm } else { 0.0 })
}

struct At<'a> {
    piece: &'a Piece,
    section: &'a Section,
    band: &'a Band,
}

/// What stops a loop.
enum Obstacle {
    Wall,
    Lower,
    Upper,
    Tilt,
}

impl At<'_> {
    fn loops(&self, height: Length, tilt: Angle, cuts: &TwoCuts) -> Loops {
        let cuts = if self.band.spacer_solved {
            *cuts
        } else {
            TwoCuts { tilt, ..*cuts }
        };
        Loops {
            height,
            tilt,
            thickness: cuts.removed().max(cuts.kerf),
            azimuths: Vec::new(),
        }
    }

    fn edges(&self, loops: &Loops) -> LoopEdges {
        let lift = self.section.base_of(self.band).as_mm();
        loops.edges(&|z| self.piece.form.outside().radius(z + lift))
    }

    /// What is in the way of these loops: the finished wall, the ends of the section on
    /// the blank, the sled.
    fn stop(&self, loops: &Loops) -> Option<Obstacle> {
        let edges = self.edges(loops);
        let (Some(top), Some(bottom)) = (edges.top, edges.bottom) else {
            return Some(Obstacle::Wall);
        };
        let keep = self.piece.workshop.sled.keep_off;
        let half = self.section.blank_radius * loops.tilt.as_rad().tangent()
            + loops.thickness / (2.0 * loops.tilt.as_rad().cosine());
        if keep.exceeds(loops.height - half) || Length::ZERO.exceeds(bottom) {
            return Some(Obstacle::Lower);
        }
        let stacked = self.section.stacked;
        if (loops.height + half + *keep).exceeds(stacked) || top.exceeds(stacked) {
            return Some(Obstacle::Upper);
        }
        loops
            .tilt
            .exceeds(*self.piece.workshop.sled.largest_tilt)
            .then_some(Obstacle::Tilt)
    }

    fn why(&self, stop: &Obstacle) -> Message {
        let sled = &self.piece.workshop.sled;
        let name = || Value::name(&self.section.name);
        match stop {
            Obstacle::Wall => say!("the wall ends here"),
            Obstacle::Lower => say!(
                "the cut must stay {keep} above the bottom of {name}",
                keep = *sled.keep_off,
                name = name(),
            ),
            Obstacle::Upper => say!(
                "the cut must stay {keep} below the top of {name}",
                keep = *sled.keep_off,
                name = name(),
            ),
            Obstacle::Tilt => say!(
                "the sled tilts to {tilt} at most",
                tilt = Value::tenth(*sled.largest_tilt),
            ),
        }
    }

    /// The furthest from `good` towards `bad` that nothing stops, and what stops it there.
    fn furthest(
        &self,
        good: f64,
        bad: f64,
        loops: &impl Fn(f64) -> Option<Loops>,
    ) -> (f64, Message) {
        let stop = |v: f64| loops(v).map_or(Some(Obstacle::Wall), |l| self.stop(&l));
        let Some(mut why) = stop(bad) else {
            return (bad, Message::default());
        };
        let (mut good, mut bad) = (good, bad);
        for _ in 0..HALVINGS {
            let mid = 0.5 * (good + bad);
            match stop(mid) {
                None => good = mid,
                Some(stop) => (bad, why) = (mid, stop),
            }
        }
        (good, self.why(&why))
    }

    fn reach(&self) -> BandLimit {
        let height = self.band.loops.height;
        let at = |tilt: f64| Some(self.loops(height, Angle::rad(tilt), &self.band.cuts));
        let reach = |tilt: f64| {
            let loops = self.loops(height, Angle::rad(tilt), &self.band.cuts);
            self.edges(&loops).reach().map_or(0.0, Length::as_mm)
        };
        let flattest = FLATTEST.as_rad();
        let (steepest, why_most) = self.furthest(flattest, STEEPEST.as_rad(), &at);
        BandLimit {
            least: finite(reach(flattest)),
            most: finite(reach(steepest).max(reach(flattest))),
            why_least: say!("a flatter loop would be level"),
            why_most,
        }
    }

    fn height(&self) -> BandLimit {
        let now = self.band.loops.height.as_mm();
        let reach = self.band.outside.reach();
        let lift = self.section.base_of(self.band).as_mm();
        let at = |height: f64| {
            let height = Length::mm(height);
            let tilt = match reach {
                Some(reach) if self.band.tilt_solved => {
                    let wall = |z: f64| self.piece.form.outside().radius(z + lift);
                    let thick = |t: Angle| self.loops(height, t, &self.band.cuts).thickness;
                    Loops::tilt_for_reach(&wall, height, reach, STEEPEST, &thick).ok()?
                }
                _ => self.band.loops.tilt,
            };
            Some(self.loops(height, tilt, &self.band.cuts))
        };
        let stacked = self.section.stacked.as_mm();
        // Where the loops do not fit as they are, the handle may go anywhere to find out.
        if at(now).is_none_or(|l| self.stop(&l).is_some()) {
            let why = say!("the section ends here");
            return BandLimit {
                least: Length::ZERO,
                most: finite(stacked),
                why_least: why.clone(),
                why_most: why,
            };
        }
        let ((least, why_least), (most, why_most)) = both(
            || self.furthest(now, 0.0, &at),
            || self.furthest(now, stacked, &at),
        );
        BandLimit {
            least: finite(least),
            most: finite(most),
            why_least,
            why_most,
        }
    }

    fn layer(&self) -> BandLimit {
        let band = self.band;
        let tilt = band.loops.tilt;
        let cuts = |layer: f64| {
            TwoCuts::for_layer(Length::mm(layer), band.glue_line, band.cuts.kerf, tilt)
        };
        let least = (band.cuts.kerf * 2.0 + WHOLE_SLICE - band.glue_line * 2.0).as_mm();
        let at = |layer: f64| {
            let cuts = cuts(layer);
            Some(Loops {
                thickness: cuts.removed(),
                ..self.loops(band.loops.height, tilt, &cuts)
            })
        };
        let (most, why_most) = self.furthest(least, 100.0, &at);
        BandLimit {
            least: finite(least),
            most: finite(most),
            why_least: say!(
                "the slice that comes out would be thinner than {least}",
                least = Value::fine(WHOLE_SLICE),
            ),
            why_most,
        }
    }
}

/// How far a band's reach, height and layer go with all else as it is: until the cut leaves
/// the finished wall or comes nearer to an end of the section than the saw allows, the sled
/// tilts no further, or the slice that comes out is no longer whole. What is said to go, goes:
/// the figures are found by halving, from the side that does.
pub fn band_limits(piece: &Piece, section: &Section, band: &Band) -> BandLimits {
    let at = At {
        piece,
        section,
        band,
    };
    BandLimits {
        reach: at.reach(),
        height: at.height(),
        layer: at.layer(),
    }
}
