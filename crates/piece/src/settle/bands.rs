//! Loop bands, settled on the real curved wall.

use geometry::{Angle, Length, Plane};

use super::Settler;
use crate::band::{
    LayerBlank, LayerNeeds, Loops, ReachError, SledSetting, SledShop, TwoCuts, block_places,
    crossing_rows,
};
use crate::model::{CutAndRejoin, LayerBody, StepKind, WoodId};
use crate::piece::{Band, ChosenValue, Origin, Ring, Split, lost_below};
use crate::symmetry::{common_divisor, loops_repeat, ring_repeats};
use files::design::{BandSpec, LayerMake};
use files::units::degrees;

/// What a band is sawn into.
pub(super) struct Ground<'a> {
    /// The section's underside above the piece's.
    pub bottom: Length,
    /// The section's height as stacked.
    pub stacked: Length,
    /// Radius that passes the blade.
    pub blank_radius: Length,
    /// Its rings.
    pub rings: &'a [Ring],
    /// Its splits.
    pub splits: &'a [Split],
}

/// Loops of a band whose file does not say.
pub(super) const USUAL_LOOPS: usize = 4;
/// A layer where the file gives neither layer nor spacer.
const USUAL_LAYER: Length = Length::mm(6.0);

impl Settler<'_> {
    pub(super) fn band(&mut self, path: &str, spec: &BandSpec, ground: &Ground<'_>) -> Band {
        let unit = self.design.unit;
        let saw = self.saw(spec.saw.as_deref(), &format!("{path}.saw"));
        let kerf = saw.kerf;
        let glue_line = spec.glue_line.unwrap_or_else(|| {
            let usual = self.workshop.allowances.glue_line;
            self.choose(
                format!("{path}.glue_line"),
                "one glue line",
                ChosenValue::Length(*usual),
                usual.by,
            );
            *usual
        });
        if spec.layer.is_none() && spec.spacer.is_none() {
            self.choose(
                format!("{path}.layer"),
                "layer's thickness",
                ChosenValue::Length(USUAL_LAYER),
                Origin::CommonPractice,
            );
        }
        let cuts_at = |tilt: Angle| match spec.spacer {
            Some(spacer) => TwoCuts { tilt, kerf, spacer },
            None => TwoCuts::for_layer(spec.layer.unwrap_or(USUAL_LAYER), glue_line, kerf, tilt),
        };
        let form = self.form;
        let height = spec.height.unwrap_or_else(|| {
            let middle = ground.stacked / 2.0;
            self.choose(
                format!("{path}.height"),
                "height of the loops' middle",
                ChosenValue::Length(middle),
                Origin::Form,
            );
            middle
        });
        // The wall that the loops meet: a split below them lets them down by its kerf.
        let lift = (ground.bottom - lost_below(ground.splits, height)).as_mm();
        let outer = |z: f64| form.outside().radius(z + lift);
        let inner = |z: f64| form.inside().radius(z + lift);
        let tilt = match (spec.tilt, spec.reach) {
            (Some(tilt), _) => tilt,
            (None, Some(reach)) => {
                let steepest = Angle::deg(80.0);
                match Loops::tilt_for_reach(&outer, height, reach, steepest, &|t| {
                    cuts_at(t).removed()
                }) {
                    Ok(tilt) => tilt,
                    Err(why) => self.reach_trouble(path, reach, why),
                }
            }
            (None, None) => {
                let usual = Angle::deg(20.0);
                self.choose(
                    format!("{path}.tilt"),
                    "tilt of the cuts",
                    ChosenValue::Angle(usual),
                    Origin::CommonPractice,
                );
                usual
            }
        };
        let cuts = cuts_at(tilt);
        if cuts.run_together() {
            // The thinnest slice that still comes out in one piece, by the same sum.
            let thin = Length::mm(1.0);
            let least = TwoCuts {
                spacer: (kerf + thin) / tilt.as_rad().cos(),
                ..cuts
            };
            self.trouble(
                format!("{path}.{}", if spec.spacer.is_some() { "spacer" } else { "layer" }),
                format!(
                    "the two cuts run into each other: with a kerf of {} there is no slice between them",
                    unit.fine(kerf)
                ),
                format!(
                    "a spacer of at least {}, which is a layer of {}; or one cut only, with a layer as thick as the kerf",
                    unit.fine(least.spacer),
                    unit.fine(least.layer(glue_line))
                ),
            );
        }
        let (azimuths, order) = self.azimuths(path, spec);
        let loops = Loops {
            height,
            tilt,
            // A nonsense spacer must not turn the model inside out.
            thickness: cuts.removed().max(kerf),
            azimuths,
        };
        let names: Vec<String> = if spec.wood.is_empty() {
            let usual = "padauk".to_string();
            self.choose(
                format!("{path}.wood"),
                "wood of the layers",
                ChosenValue::Word(usual.clone()),
                Origin::CommonPractice,
            );
            vec![usual]
        } else {
            spec.wood.clone()
        };
        let ids: Vec<WoodId> = names
            .iter()
            .map(|n| self.wood(n, &format!("{path}.wood")))
            .collect();
        let count = loops.azimuths.len();
        let woods: Vec<WoodId> = (0..count).map(|i| ids[i % ids.len()]).collect();
        let sled = SledSetting::new(
            SledShop {
                blank_radius: ground.blank_radius,
                section_height: ground.stacked,
                loop_height: height,
            },
            &cuts,
            &self.workshop.sled,
        );
        let make = spec.make.unwrap_or(LayerMake::Solid);
        if spec.make.is_none() {
            self.choose(
                format!("{path}.make"),
                "how a layer is made",
                ChosenValue::Word("one board".into()),
                Origin::CommonPractice,
            );
        }
        let segments = spec
            .segments
            .unwrap_or_else(|| ground.rings.first().map_or(12, |r| r.sizes.segments));
        let allow = &self.workshop.allowances;
        let blank = LayerBlank::new(&LayerNeeds {
            loops: &loops,
            blank_radius: ground.blank_radius,
            inner: &inner,
            edge: *allow.layer_edge,
            inside: *allow.inside,
            make,
            segments,
        });
        let blocks = block_places(
            &loops,
            ground.blank_radius,
            ground.stacked,
            &sled,
            &self.workshop.sled,
        );
        let cut_at: Vec<usize> = (0..count)
            .map(|k| order.iter().position(|&o| o == k).unwrap_or(k))
            .collect();
        // Straight up and down from the middle, the cut reaches this far on the blank.
        let half = ground.blank_radius * tilt.as_rad().tan()
            + loops.thickness / (2.0 * tilt.as_rad().cos());
        let keep_off = self.workshop.sled.keep_off;
        let least_section = (half + *keep_off) * 2.0;
        let short = *self.workshop.sled.block_length + *keep_off - blocks.least_room;
        let repeats = loops_repeat(&loops.azimuths, &woods);
        let with_rings = ground.rings.iter().fold(repeats, |all, r| match r.make {
            crate::piece::RingMake::Disc => all,
            _ => common_divisor(all, ring_repeats(&r.woods)),
        });
        Band {
            woods,
            saw,
            cuts,
            glue_line,
            layer: cuts.layer(glue_line),
            tilt_solved: spec.tilt.is_none() && spec.reach.is_some(),
            spacer_solved: spec.spacer.is_none(),
            outside: loops.edges(&outer),
            inside: loops.edges(&inner),
            rows_outside: crossing_rows(&loops, &cut_at, &outer),
            rows_inside: crossing_rows(&loops, &cut_at, &inner),
            sled,
            blank,
            least_section,
            least_section_with_blocks: least_section
                .max(ground.stacked + short.max(Length::ZERO) * 2.0),
            blocks,
            order,
            loops,
            repeats: (repeats, with_rings),
        }
    }

    /// Azimuths and cutting order, both by loop number from 0.
    fn azimuths(&mut self, path: &str, spec: &BandSpec) -> (Vec<Angle>, Vec<usize>) {
        let azimuths = if spec.azimuths.is_empty() {
            let n = spec.loops.unwrap_or(USUAL_LOOPS).clamp(1, 16);
            let start = spec.start.unwrap_or(Angle::ZERO);
            (0..n)
                .map(|i| (start + Angle::full().divided_by(n) * i as f64).wrapped())
                .collect()
        } else {
            spec.azimuths
                .iter()
                .map(|a| a.wrapped())
                .collect::<Vec<_>>()
        };
        let n = azimuths.len();
        let mut order: Vec<usize> = spec.order.iter().filter_map(|o| o.checked_sub(1)).collect();
        let mut sorted = order.clone();
        sorted.sort_unstable();
        if sorted != (0..n).collect::<Vec<_>>() {
            if !spec.order.is_empty() {
                self.trouble(
                    format!("{path}.order"),
                    format!("the order does not name each of the {n} loops once"),
                    format!("name each loop from 1 to {n} once"),
                );
            }
            order = (0..n).collect();
        }
        (azimuths, order)
    }

    fn reach_trouble(&mut self, path: &str, reach: Length, why: ReachError) -> Angle {
        let unit = self.design.unit;
        let (what, remedy, tilt) = match why {
            ReachError::AtLeast(least) => (
                format!(
                    "a reach of {} is less than the layer itself shows",
                    unit.length(reach)
                ),
                format!("more than {}, or a thinner layer", unit.length(least)),
                Angle::deg(1.0),
            ),
            ReachError::AtMost { reach: most, tilt } => (
                format!("a reach of {} runs off the wall", unit.length(reach)),
                format!(
                    "at this height at most {}, at a tilt of {}; or move the loops' middle",
                    unit.length(most),
                    degrees(tilt, 1)
                ),
                tilt,
            ),
            ReachError::OffTheWall => (
                "the loops' middle is not on the finished wall".to_string(),
                format!(
                    "a height at which the section has a wall, below {}",
                    unit.length(self.form.height())
                ),
                Angle::deg(10.0),
            ),
        };
        self.trouble(format!("{path}.reach"), what, remedy);
        tilt
    }
}

/// The band's steps, in cutting order.
pub(super) fn steps(number: u16, band: &Band, out: &mut Vec<CutAndRejoin>) {
    let thickness = band.loops.thickness.as_mm();
    for &k in &band.order {
        let climb = band.loops.azimuths[k].as_rad();
        let plane = Plane::tilted(band.loops.height.as_mm(), band.loops.tilt.as_rad(), climb);
        out.push(CutAndRejoin::sawn_loop(
            StepKind::Loop {
                band: number,
                number: k as u16,
            },
            &plane,
            thickness,
            thickness,
            |lower| LayerBody::new(band.blank.shape(), vec![band.woods[k]], lower, climb),
        ));
    }
}
