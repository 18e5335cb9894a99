//! Loop bands, settled on the real curved wall.

use geometry::Portable;
use geometry::{Angle, Length, Plane};

use super::Settler;
use crate::band::{
    LayerBlank, LayerNeeds, Loops, ReachError, SledSetting, SledShop, TwoCuts, WallRadius,
    block_places, crossing_rows,
};
use crate::course::Course;
use crate::model::{CutAndRejoin, LayerBody, StepKind, WoodId};
use crate::piece::{Band, ChosenValue, Origin, Split, lost_below};
use crate::symmetry::{common_divisor, loops_repeat};
use files::design::{BandSpec, Board, FLATTEST, LayerMake, STEEPEST};
use files::key::BandPath;
use files::keys::Fixed;
use files::message::{Reading, Value};
use files::remedy::{Remedy, To, Way};
use files::say;

/// What a band is sawn into.
pub(super) struct SawnSection<'a> {
    /// The section's underside above the piece's.
    pub bottom: Length,
    /// The section's height as stacked.
    pub stacked: Length,
    /// Radius that passes the blade.
    pub blank_radius: Length,
    /// Its rings.
    pub rings: &'a [Course],
    /// Its splits.
    pub splits: &'a [Split],
}

/// What a reach is more than what the layer itself shows.
const LITTLE_MORE: Length = Length::mm(0.5);
/// Thinnest slice that comes out in one piece.
pub const WHOLE_SLICE: Length = Length::mm(1.5);

/// What the table of keys holds for a key of a band.
fn usual(key: &str) -> Fixed {
    BandSpec::KEYS.usual(key)
}

/// Loops of a band whose file does not say.
pub(super) fn usual_loops() -> usize {
    usual("loops").count().unwrap_or(1)
}

/// A layer where the file gives neither layer nor spacer.
fn usual_layer() -> Length {
    usual("layer").length().unwrap_or(Length::ZERO)
}

/// How a band's layer follows from its cuts, before the tilt is known.
#[derive(Clone, Copy)]
struct Cutting {
    kerf: Length,
    glue_line: Length,
    layer: Length,
    spacer: Option<Length>,
}

impl Cutting {
    fn at(self, tilt: Angle) -> TwoCuts {
        match self.spacer {
            Some(spacer) => TwoCuts {
                tilt,
                kerf: self.kerf,
                spacer,
            },
            None => TwoCuts::for_layer(self.layer, self.glue_line, self.kerf, tilt),
        }
    }
}

/// What a loop takes of the section's height and blank, apart from its middle.
#[derive(Clone, Copy)]
struct Room {
    /// Lowest section that holds the loops.
    least_section: Length,
    /// As that, with the positioning blocks beside the cuts.
    with_blocks: Length,
}

impl Settler<'_> {
    pub(super) fn band(
        &mut self,
        path: &BandPath,
        spec: &BandSpec,
        ground: &SawnSection<'_>,
    ) -> Band {
        let saw = self.saw(spec.saw.as_deref(), path.saw());
        let cutting = self.cutting(path, spec, saw.kerf);
        let height = self.loop_height(path, spec, ground);
        // The wall that the loops meet: a split below them lets them down by its kerf.
        let form = self.form;
        let lift = (ground.bottom - lost_below(ground.splits, height)).as_mm();
        let outer = |z: f64| form.outside().radius(z + lift);
        let inner = |z: f64| form.inside().radius(z + lift);
        let tilt = self.tilt(path, spec, height, &outer, cutting);
        let cuts = cutting.at(tilt);
        self.slice_is_left(path, &cuts, cutting);
        let (azimuths, order) = self.azimuths(path, spec);
        let loops = Loops {
            height,
            tilt,
            // A nonsense spacer must not turn the model inside out.
            thickness: cuts.removed().max(cutting.kerf),
            azimuths,
        };
        let woods = self.layer_woods(path, spec, loops.azimuths.len());
        let blank = self.layer_blank(path, spec, ground, &loops, &inner);
        let sled = SledSetting::new(
            SledShop {
                blank_radius: ground.blank_radius,
                section_height: ground.stacked,
                loop_height: height,
            },
            &cuts,
            &self.workshop.sled,
        );
        let blocks = block_places(
            &loops,
            ground.blank_radius,
            ground.stacked,
            &sled,
            &self.workshop.sled,
        );
        let room = self.room(ground, &loops, blocks.least_room);
        let cut_at: Vec<usize> = (0..loops.azimuths.len())
            .map(|k| order.iter().position(|&o| o == k).unwrap_or(k))
            .collect();
        Band {
            repeats: repeats(ground.rings, &loops, &woods),
            woods,
            board: spec.board.unwrap_or(Board::FlatSawn),
            saw,
            cuts,
            glue_line: cutting.glue_line,
            layer: cuts.layer(cutting.glue_line),
            tilt_solved: spec.tilt.is_none() && spec.reach.is_some(),
            spacer_solved: spec.spacer.is_none(),
            outside: loops.edges(&outer),
            inside: loops.edges(&inner),
            rows_outside: crossing_rows(&loops, &cut_at, &outer),
            rows_inside: crossing_rows(&loops, &cut_at, &inner),
            sled,
            blank,
            least_section: room.least_section,
            least_section_with_blocks: room.with_blocks,
            blocks,
            order,
            loops,
        }
    }

    /// The kerf, the glue line and the layer or spacer.
    fn cutting(&mut self, path: &BandPath, spec: &BandSpec, kerf: Length) -> Cutting {
        let glue_line = spec.glue_line.unwrap_or_else(|| {
            let usual = self.workshop.allowances.glue_line;
            self.choose(path.glue_line(), ChosenValue::Length(*usual), usual.by);
            *usual
        });
        if spec.layer.is_none() && spec.spacer.is_none() {
            self.choose(
                path.layer(),
                ChosenValue::Length(usual_layer()),
                Origin::CommonPractice,
            );
        }
        Cutting {
            kerf,
            glue_line,
            layer: spec.layer.unwrap_or_else(usual_layer),
            spacer: spec.spacer,
        }
    }

    /// The height of the loops' middle in the section.
    fn loop_height(
        &mut self,
        path: &BandPath,
        spec: &BandSpec,
        ground: &SawnSection<'_>,
    ) -> Length {
        spec.height.unwrap_or_else(|| {
            let middle = ground.stacked / 2.0;
            self.choose(path.height(), ChosenValue::Length(middle), Origin::Form);
            middle
        })
    }

    /// The tilt as given, as the reach asks for, or as is usual.
    fn tilt(
        &mut self,
        path: &BandPath,
        spec: &BandSpec,
        height: Length,
        outer: WallRadius<'_>,
        cutting: Cutting,
    ) -> Angle {
        match (spec.tilt, spec.reach) {
            (Some(tilt), _) => tilt,
            (None, Some(reach)) => {
                let removed = |tilt| cutting.at(tilt).removed();
                let tilt = |reach| Loops::tilt_for_reach(outer, height, reach, STEEPEST, &removed);
                tilt(reach).unwrap_or_else(|why| {
                    self.reach_trouble(path, reach, why, &|reach| tilt(reach).is_ok())
                })
            }
            (None, None) => {
                let usual = usual("tilt").angle().unwrap_or(FLATTEST);
                self.choose(
                    path.tilt(),
                    ChosenValue::Angle(usual),
                    Origin::CommonPractice,
                );
                usual
            }
        }
    }

    /// Says so if the two cuts leave no slice between them.
    fn slice_is_left(&mut self, path: &BandPath, cuts: &TwoCuts, cutting: Cutting) {
        if !cuts.run_together() {
            return;
        }
        // By the same sum as the spacer for a layer.
        let least = TwoCuts {
            spacer: (cutting.kerf + WHOLE_SLICE) / cuts.tilt.as_rad().cosine(),
            ..*cuts
        };
        let spacer = Reading::up_fine(least.spacer);
        let layer = Reading::up_fine(least.layer(cutting.glue_line));
        let (key, way) = if cutting.spacer.is_some() {
            let make = say!("make the spacer {spacer}", spacer = spacer);
            (path.spacer(), Way::new(make).set(path.spacer(), spacer))
        } else {
            let make = say!("make the layer {layer} thick", layer = layer);
            (path.layer(), Way::new(make).set(path.layer(), layer))
        };
        self.trouble(
            key,
            say!(
                "the two cuts run into each other: with a kerf of {kerf} there is no slice between them",
                kerf = Value::fine(cutting.kerf),
            ),
            Remedy::from(say!(
                "a spacer of at least {spacer}, which is a layer of {layer}",
                spacer = spacer,
                layer = layer,
            ))
            .or(way),
        );
    }

    /// The wood of each loop's layer, by loop number from 0.
    fn layer_woods(&mut self, path: &BandPath, spec: &BandSpec, loops: usize) -> Vec<WoodId> {
        let names: Vec<String> = if spec.wood.is_empty() {
            let usual = usual("wood").word().unwrap_or_default();
            self.choose(
                path.wood(),
                ChosenValue::Word(usual.into()),
                Origin::CommonPractice,
            );
            vec![usual.into()]
        } else {
            spec.wood.clone()
        };
        let ids: Vec<WoodId> = names.iter().map(|n| self.wood(n, path.wood())).collect();
        (0..loops).map(|i| ids[i % ids.len()]).collect()
    }

    /// What the layers are glued in as.
    fn layer_blank(
        &mut self,
        path: &BandPath,
        spec: &BandSpec,
        ground: &SawnSection<'_>,
        loops: &Loops,
        inner: WallRadius<'_>,
    ) -> LayerBlank {
        if spec.make.is_none() {
            self.choose(
                path.make(),
                ChosenValue::Word("one board".into()),
                Origin::CommonPractice,
            );
        }
        let segments = spec.segments.unwrap_or_else(|| {
            ground
                .rings
                .first()
                .map_or(*self.workshop.defaults.segments, |r| r.sizes.segments)
        });
        let allow = &self.workshop.allowances;
        LayerBlank::new(&LayerNeeds {
            loops,
            blank_radius: ground.blank_radius,
            inner,
            edge: *allow.layer_edge,
            inside: *allow.inside,
            make: spec.make.unwrap_or(LayerMake::Solid),
            segments,
        })
    }

    /// The room that the loops take up and down the section.
    fn room(&self, ground: &SawnSection<'_>, loops: &Loops, least_room: Length) -> Room {
        let tilt = loops.tilt.as_rad();
        // Straight up and down from the middle, the cut reaches this far on the blank.
        let half = ground.blank_radius * tilt.tangent() + loops.thickness / (2.0 * tilt.cosine());
        let keep_off = *self.workshop.sled.keep_off;
        let least_section = (half + keep_off) * 2.0;
        let short = *self.workshop.sled.block_length + keep_off - least_room;
        Room {
            least_section,
            with_blocks: least_section.max(ground.stacked + short.max(Length::ZERO) * 2.0),
        }
    }

    /// Azimuths and cutting order, both by loop number from 0.
    fn azimuths(&mut self, path: &BandPath, spec: &BandSpec) -> (Vec<Angle>, Vec<usize>) {
        let azimuths = if spec.azimuths.is_empty() {
            let n = spec.loops.unwrap_or_else(usual_loops).max(1);
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
                    path.order(),
                    say!("the order does not name each of the {n} loops once", n = n),
                    Remedy::from(say!("name each loop from 1 to {n} once", n = n)).or(Way::new(
                        say!("cut the loops in the order of their numbers"),
                    )
                    .set(path.order(), To::Usual)),
                );
            }
            order = (0..n).collect();
        }
        (azimuths, order)
    }

    /// What is wrong with a reach, with another one if it is tried with success; the nearest
    /// possible tilt.
    fn reach_trouble(
        &mut self,
        path: &BandPath,
        reach: Length,
        why: ReachError,
        does: &dyn Fn(Length) -> bool,
    ) -> Angle {
        let set = |reach: Reading| {
            let reach = reach.where_each(does)?;
            let what = say!("make the reach {reach}", reach = reach);
            Some(Way::new(what).set(path.reach(), reach))
        };
        let (what, remedy, tilt) = match why {
            ReachError::AtLeast(least) => (
                say!(
                    "a reach of {reach} is less than the layer itself shows",
                    reach = reach,
                ),
                Remedy::from(say!("more than {least}, or a thinner layer", least = least))
                    .or_any(set(Reading::up(least + LITTLE_MORE))),
                FLATTEST,
            ),
            ReachError::AtMost { reach: most, tilt } => (
                say!("a reach of {reach} runs off the wall", reach = reach),
                Remedy::from(say!(
                    "at this height at most {most}, at a tilt of {tilt}; or move the loops' middle",
                    most = Reading::down(most),
                    tilt = Value::tenth(tilt),
                ))
                .or_any(set(Reading::down(most))),
                tilt,
            ),
            ReachError::OffTheWall => (
                say!("the loops' middle is not on the finished wall"),
                say!(
                    "a height at which the section has a wall, below {top}",
                    top = self.form.height(),
                )
                .into(),
                Angle::deg(10.0),
            ),
        };
        self.trouble(path.reach(), what, remedy);
        tilt
    }
}

/// How often a band repeats itself around, without and with its section's rings.
fn repeats(rings: &[Course], loops: &Loops, woods: &[WoodId]) -> (usize, usize) {
    let alone = loops_repeat(&loops.azimuths, woods);
    let with_rings = rings
        .iter()
        .filter_map(Course::repeats)
        .fold(alone, common_divisor);
    (alone, with_rings)
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
