//! What may be off, and what a maker does about it.

use files::keys::Given;
use files::workshop::Exactness;
use serde::Serialize;

use crate::figure::Amount;

/// One sort of error.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Cause {
    /// Setting of the mitre, shared by a ring.
    Mitre,
    /// One mitre against the next.
    MitreScatter,
    /// Length of a segment.
    SegmentLength,
    /// A ring glued off the centre.
    RingCentring,
    /// A ring's faces out of parallel.
    RingFlatness,
    /// Index mark.
    Index,
    /// Tilt of the sled.
    Tilt,
    /// Place of the first cut along the axis.
    Height,
    /// Second cut not parallel to the first.
    SliceWedge,
    /// Layer too thick or too thin for its room.
    Layer,
    /// Wedge-shaped layer.
    LayerWedge,
    /// Glue line.
    GlueLine,
    /// Slip in the clamps.
    Slip,
    /// Run-out when mounted again.
    RunOut,
}

/// How many causes there are.
pub const CAUSES: usize = Cause::ALL.len();

/// 19 of 20 draws of a normal distribution lie within so many standard deviations
/// either way (the 0.975 quantile; JCGM 100:2008, table G.1, rounded there to 1.960).
const WITHIN: f64 = 1.959_963_984_540_054;
/// 19 of 20 draws of two equal normal errors at right angles lie within a circle of so
/// many standard deviations: sqrt(−2 ln 0.05), the Rayleigh distribution's quantile.
const WITHIN_CIRCLE: f64 = 2.447_746_830_680_816;

impl Cause {
    /// Every cause, in the order in which the work meets them.
    pub const ALL: [Cause; 14] = [
        Cause::Mitre,
        Cause::MitreScatter,
        Cause::SegmentLength,
        Cause::RingCentring,
        Cause::RingFlatness,
        Cause::Index,
        Cause::Tilt,
        Cause::Height,
        Cause::SliceWedge,
        Cause::Layer,
        Cause::LayerWedge,
        Cause::GlueLine,
        Cause::Slip,
        Cause::RunOut,
    ];

    /// Its place in [`Cause::ALL`].
    pub const fn at(self) -> usize {
        self as usize
    }

    /// Its key under `[exactness]` in the workshop's file.
    pub const fn key(self) -> &'static str {
        match self {
            Cause::Mitre => "mitre",
            Cause::MitreScatter => "mitre_scatter",
            Cause::SegmentLength => "segment_length",
            Cause::RingCentring => "ring_centring",
            Cause::RingFlatness => "ring_flatness",
            Cause::Index => "index",
            Cause::Tilt => "tilt",
            Cause::Height => "height",
            Cause::SliceWedge => "slice_wedge",
            Cause::Layer => "layer",
            Cause::LayerWedge => "layer_wedge",
            Cause::GlueLine => "glue_line",
            Cause::Slip => "slip",
            Cause::RunOut => "run_out",
        }
    }

    /// What it is, as a turner says it.
    pub const fn words(self) -> &'static str {
        match self {
            Cause::Mitre => "mitre, setting of a ring",
            Cause::MitreScatter => "mitre, cut to cut",
            Cause::SegmentLength => "segment's length, piece to piece",
            Cause::RingCentring => "ring off the centre",
            Cause::RingFlatness => "ring's thickness, side to side",
            Cause::Index => "index mark",
            Cause::Tilt => "tilt of the sled",
            Cause::Height => "place of the first cut",
            Cause::SliceWedge => "slice's thickness, side to side",
            Cause::Layer => "layer's thickness against its room",
            Cause::LayerWedge => "layer's thickness, side to side",
            Cause::GlueLine => "one glue line",
            Cause::Slip => "slip in the clamps",
            Cause::RunOut => "run-out when mounted again (dial)",
        }
    }

    /// What to do where it matters.
    pub const fn advice(self) -> &'static str {
        match self {
            Cause::Mitre => {
                "Cut a whole test ring from scrap and close it dry before the good wood; set the \
                 mitre until no light shows."
            }
            Cause::MitreScatter => {
                "Clamp each piece against the fence, with no chip between, and keep the feed even."
            }
            Cause::SegmentLength => {
                "Clear the stop of dust before each piece, and measure every fifth with a calliper."
            }
            Cause::RingCentring => {
                "Glue each ring to a drawn circle or with the lathe's own centring, and turn it \
                 once by hand before the glue takes."
            }
            Cause::RingFlatness => {
                "Measure each ring at four places with a calliper before it is glued; turn or sand \
                 until they agree."
            }
            Cause::Index => {
                "Draw the marks with a divided plate or a printed strip, sharp, and sight each one \
                 twice after clamping."
            }
            Cause::Tilt => {
                "Lock the sled and leave it set until the last loop; check it against one set-up \
                 block each time."
            }
            Cause::Height => {
                "Set every loop against one fixed stop, swept clean; measure the first cut twice."
            }
            Cause::SliceWedge => {
                "Measure each slice at eight places; if it is a wedge, look for a chip under the \
                 spacer or the faceplate, or a blade that wanders."
            }
            Cause::Layer => {
                "Measure the room and the layer with the same calliper, twice, at eight places, \
                 and sand the layer to the mean."
            }
            Cause::LayerWedge => {
                "Measure the layer at eight places and sand the thick side until they agree."
            }
            Cause::GlueLine => {
                "Use the same amount of glue, spread alike, and the same clamping for every layer."
            }
            Cause::Slip => {
                "Fit the dowels tight, clamp lightly, look along the loops, then clamp fully."
            }
            Cause::RunOut => {
                "Put a dial on the work each time it is mounted and shift it until the needle \
                 stands still."
            }
        }
    }

    /// The maker's own figure, or common practice.
    pub fn amount(self, exactness: &Exactness) -> Given<Amount> {
        let e = exactness;
        match self {
            Cause::Mitre => e.mitre.map(Amount::Angle),
            Cause::MitreScatter => e.mitre_scatter.map(Amount::Angle),
            Cause::SegmentLength => e.segment_length.map(Amount::Fine),
            Cause::RingCentring => e.ring_centring.map(Amount::Fine),
            Cause::RingFlatness => e.ring_flatness.map(Amount::Fine),
            Cause::Index => e.index.map(Amount::Angle),
            Cause::Tilt => e.tilt.map(Amount::Angle),
            Cause::Height => e.height.map(Amount::Fine),
            Cause::SliceWedge => e.slice_wedge.map(Amount::Fine),
            Cause::Layer => e.layer.map(Amount::Fine),
            Cause::LayerWedge => e.layer_wedge.map(Amount::Fine),
            Cause::GlueLine => e.glue_line.map(Amount::Fine),
            Cause::Slip => e.slip.map(Amount::Fine),
            Cause::RunOut => e.run_out.map(Amount::Fine),
        }
    }

    /// Does it come about where a loop is cut and glued?
    pub const fn of_a_loop(self) -> bool {
        matches!(
            self,
            Cause::Index
                | Cause::Tilt
                | Cause::Height
                | Cause::SliceWedge
                | Cause::Layer
                | Cause::LayerWedge
                | Cause::GlueLine
                | Cause::Slip
        )
    }

    /// Has it a direction as well, such as the side on which a layer is thicker?
    const fn has_direction(self) -> bool {
        matches!(
            self,
            Cause::RingCentring
                | Cause::RingFlatness
                | Cause::SliceWedge
                | Cause::LayerWedge
                | Cause::Slip
                | Cause::RunOut
        )
    }

    /// The standard deviation of one draw, mm or radians; where the error has a
    /// direction, of each of its two parts.
    fn deviation(self, exactness: &Exactness) -> f64 {
        let figure = match self.amount(exactness).value {
            Amount::Angle(a) => a.as_rad(),
            Amount::Fine(l) => l.as_mm(),
            // `amount` gives no other kind.
            _ => 0.0,
        };
        // A dial swings by twice what the axis is off.
        let figure = if self == Cause::RunOut {
            figure / 2.0
        } else {
            figure
        };
        let within = if self.has_direction() {
            WITHIN_CIRCLE
        } else {
            WITHIN
        };
        figure.max(0.0) / within
    }
}

/// What a cause can bear on at all.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bears {
    /// Loops' ends and crossings.
    pub loops: bool,
    /// Rings' last joints.
    pub gaps: bool,
    /// The wall that is left.
    pub wall: bool,
}

impl Bears {
    pub const ALL: Bears = Bears {
        loops: true,
        gaps: true,
        wall: true,
    };
}

impl Cause {
    /// What it can bear on: mitres and lengths on a ring's own joints, a ring's place on
    /// the wall that it covers, everything that moves a section or a part of it on loops
    /// and wall.
    pub(super) const fn bears(self) -> Bears {
        let (loops, gaps, wall) = match self {
            Cause::Mitre | Cause::MitreScatter => (false, true, false),
            Cause::SegmentLength => (false, true, true),
            Cause::RingCentring => (false, false, true),
            _ => (true, false, true),
        };
        Bears { loops, gaps, wall }
    }
}

/// The standard deviation of each cause's draws, mm or radians.
#[derive(Debug, Clone, Copy)]
pub struct Spread {
    deviations: [f64; CAUSES],
    /// Loops of a band share the errors of tilt and height.
    pub sled_stays_set: bool,
}

impl Spread {
    /// A maker's exactness as standard deviations.
    pub fn of(exactness: &Exactness) -> Self {
        Spread {
            deviations: Cause::ALL.map(|c| c.deviation(exactness)),
            sled_stays_set: *exactness.sled_stays_set,
        }
    }

    /// Of one cause.
    pub fn deviation(&self, cause: Cause) -> f64 {
        self.deviations[cause.at()]
    }

    /// Does it do anything at all?
    pub fn has(&self, cause: Cause) -> bool {
        self.deviation(cause) > 0.0
    }

    /// The same with one cause alone.
    pub fn only(&self, cause: Cause) -> Self {
        let mut deviations = [0.0; CAUSES];
        deviations[cause.at()] = self.deviation(cause);
        Spread {
            deviations,
            ..*self
        }
    }

    /// The same but for one cause, which is made perfect.
    pub fn without(&self, cause: Cause) -> Self {
        let mut out = *self;
        out.deviations[cause.at()] = 0.0;
        out
    }

    /// The errors that loops are cut and glued with so many times as large; a ring that
    /// far off would not cover the wall, so rings and mounting stay as they are.
    pub fn loops_times(&self, factor: f64) -> Self {
        let mut out = *self;
        for cause in Cause::ALL.into_iter().filter(|c| c.of_a_loop()) {
            out.deviations[cause.at()] *= factor;
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use files::keys::{Key, Quantity};
    use geometry::Portable;

    #[test]
    fn nineteen_in_twenty_lie_within_the_figure() {
        // Rayleigh: P(r > x) = exp(-x²/2).
        assert!(((-WITHIN_CIRCLE * WITHIN_CIRCLE / 2.0).exponential() - 0.05).abs() < 1e-12);
        for (i, cause) in Cause::ALL.into_iter().enumerate() {
            assert_eq!(cause.at(), i);
        }
    }

    #[test]
    fn every_cause_has_a_key_of_the_file_and_advice() {
        let exactness = Exactness::default();
        let measured = |key: &&Key| !matches!(key.quantity, Quantity::Flag);
        let keys = Exactness::KEYS.keys.iter().filter(measured);
        let mut keys: Vec<&str> = keys.map(|key| key.name).collect();
        let mut own: Vec<&str> = Cause::ALL.iter().map(|c| c.key()).collect();
        keys.sort_unstable();
        own.sort_unstable();
        assert_eq!(keys, own);
        for cause in Cause::ALL {
            assert!(cause.advice().ends_with('.') && !cause.advice().contains("  "));
            assert!(Spread::of(&exactness).has(cause));
            assert!(!Spread::of(&Exactness::none()).has(cause));
        }
    }

    #[test]
    fn what_a_cause_is_said_not_to_bear_on_it_leaves_alone() {
        use super::super::errors::{Errors, count};
        use super::super::measure::Measure;
        use super::super::watched_places::WatchedPlaces;
        let piece = crate::trial::bowl();
        let watch = WatchedPlaces::new(&piece);
        let planned = watch.perfect().values;
        let normals: Vec<f64> = (0..count(&piece))
            .map(|i| (i as f64).sine() * 3.0)
            .collect();
        for cause in Cause::ALL {
            let spread = Spread::of(&Exactness::default()).only(cause);
            let outcome = watch.outcome(&Errors::drawn(&piece, &spread, &normals));
            for measure in Measure::ALL {
                let bears = match measure {
                    Measure::RingGap => cause.bears().gaps,
                    Measure::WallLeft => cause.bears().wall,
                    _ => cause.bears().loops,
                };
                let moved = (outcome.values[measure.at()] - planned[measure.at()]).abs();
                assert!(bears || moved < 1e-9, "{cause:?} {measure:?}: {moved}");
            }
        }
    }

    #[test]
    fn a_dials_swing_is_twice_the_axis() {
        let exactness = Exactness::default();
        let spread = Spread::of(&exactness);
        let half = exactness.run_out.as_mm() / 2.0;
        assert!((spread.deviation(Cause::RunOut) * WITHIN_CIRCLE - half).abs() < 1e-12);
    }
}
