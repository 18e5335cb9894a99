//! Rings from the form: each over its whole height.

use geometry::{Angle, Length};

use super::Settler;
use crate::course::{self, Asked, Course, GrainWay, Panel, RingNeeds};
use crate::model::WoodId;
use crate::piece::{ChosenValue, Origin, Split, lost_below};
use crate::ring::RingSizes;
use files::design::{
    BlankShape, Board, FloorSpec, MOST_RINGS_IN_SECTION, RingSpec, RingsGiven, SectionSpec,
};
use files::key::{KeyPath, RingPath, SectionPath};
use files::keys::Given;

impl Settler<'_> {
    pub(super) fn rings(
        &mut self,
        path: &SectionPath,
        spec: &SectionSpec,
        bottom: Length,
        splits: &[Split],
        blank: BlankShape,
    ) -> Vec<Course> {
        let specs = self.ring_specs(path, spec, bottom, splits);
        let mut rings: Vec<Course> = Vec::with_capacity(specs.len());
        let mut at = Length::ZERO;
        let mut rotation = Angle::ZERO;
        for (i, (ring, own)) in specs.iter().enumerate() {
            let ring = &RingSpec {
                filled: ring.filled.or(spec.filled),
                ..ring.clone()
            };
            let n = self.segments(ring, spec, path);
            let (stock, height) = self.stock(ring, spec, path);
            let given_turn = ring.turn.or(spec.joint_turn);
            let turn = if i == 0 {
                ring.turn.unwrap_or(Angle::ZERO)
            } else {
                // Half a segment, to and fro, so that every second ring stands alike.
                given_turn.unwrap_or_else(|| {
                    let half = Angle::full().divided_by(2 * n);
                    if i % 2 == 1 { half } else { -half }
                })
            };
            rotation += turn;
            let spans = spans(bottom, at, at + height, splits);
            // A ring that is only counted has no key yet; written out it would be this one.
            let key = own.clone().unwrap_or_else(|| path.ring(i));
            let wood = own.as_ref().map_or_else(|| path.wood(), |own| own.wood());
            let settled = self.ring((key, wood), ring, spec, n, spans);
            rings.push(Course {
                bottom: at,
                height,
                stock,
                rotation,
                turn,
                ..settled
            });
            at += height;
        }
        if !spec.bands.is_empty() && blank == BlankShape::Cylinder {
            one_outside(&mut rings, &specs);
        }
        rings.iter_mut().for_each(Course::settle_parts);
        rings
    }

    /// Each ring's own wishes and its key, repeats and counts written out.
    fn ring_specs(
        &mut self,
        path: &SectionPath,
        spec: &SectionSpec,
        bottom: Length,
        splits: &[Split],
    ) -> Vec<(RingSpec, Option<RingPath>)> {
        let plain =
            |count: usize| vec![(RingSpec::default(), None); count.clamp(1, MOST_RINGS_IN_SECTION)];
        match spec.rings_given() {
            RingsGiven::Count(count) => plain(count),
            RingsGiven::Listed(list) => {
                let mut out = Vec::new();
                for (k, ring) in list.iter().enumerate() {
                    let repeat = ring.repeat.unwrap_or(1).clamp(1, MOST_RINGS_IN_SECTION);
                    let own = (ring.clone(), Some(path.ring(k)));
                    out.extend(std::iter::repeat_n(own, repeat));
                }
                out.truncate(MOST_RINGS_IN_SECTION);
                out
            }
            RingsGiven::Auto(height) => {
                let lost: Length = splits.iter().map(|s| s.saw.kerf).sum();
                let wanted = height.unwrap_or(self.form.height() - bottom) + lost;
                let (_, each) = self.stock(&RingSpec::default(), spec, path);
                // A ring for a hair's breadth more would be wood for nothing.
                let count = (wanted.as_mm() / each.as_mm() - 1e-6).ceil();
                let count = if count.is_finite() {
                    count.clamp(1.0, MOST_RINGS_IN_SECTION as f64) as usize
                } else {
                    1
                };
                self.choose(path.rings(), ChosenValue::Count(count), Origin::Form);
                plain(count)
            }
        }
    }

    fn segments(&mut self, ring: &RingSpec, spec: &SectionSpec, path: &SectionPath) -> usize {
        if let Some(n) = ring.segments.or(spec.segments) {
            return n.clamp(3, 144);
        }
        let n = self.workshop.defaults.segments.map(|n| n.clamp(3, 144));
        self.choose_once(path.segments(), n.map(ChosenValue::Count));
        n.value
    }

    /// Board thickness and finished height: either gives the other.
    fn stock(
        &mut self,
        ring: &RingSpec,
        spec: &SectionSpec,
        path: &SectionPath,
    ) -> (Length, Length) {
        let loss = *self.workshop.allowances.flattening * 2.0;
        let stock = ring.stock.or(spec.stock);
        let height = ring.height.or(spec.ring_height);
        let least = Length::mm(0.5);
        match (stock, height) {
            (Some(stock), Some(height)) => (stock, height.max(least)),
            (Some(stock), None) => (stock, (stock - loss).max(least)),
            (None, Some(height)) => {
                let height = height.max(least);
                let needed = height + loss;
                let kept = self
                    .workshop
                    .stock
                    .iter()
                    .copied()
                    .filter(|s| !needed.exceeds(*s + Length::mm(1e-6)))
                    .reduce(Length::min);
                let stock = kept.unwrap_or(needed);
                self.choose_once(
                    path.stock(),
                    Given {
                        value: ChosenValue::Length(stock),
                        by: self.workshop.stock.by,
                    },
                );
                (stock, height)
            }
            (None, None) => {
                let stock = self.workshop.defaults.board;
                self.choose_once(path.stock(), stock.map(ChosenValue::Length));
                (*stock, (*stock - loss).max(least))
            }
        }
    }

    fn choose_once(&mut self, path: KeyPath, chosen: Given<ChosenValue>) {
        if !self.chosen.iter().any(|c| c.path == path) {
            self.choose(path, chosen.value, chosen.by);
        }
    }

    fn ring(
        &mut self,
        (path, wood): (RingPath, KeyPath),
        ring: &RingSpec,
        spec: &SectionSpec,
        n: usize,
        spans: (Length, Length),
    ) -> Course {
        let construction = course::construction(ring);
        let needs = self.needs(spans);
        let allow = &self.workshop.allowances;
        let (outside, inside) = (*allow.outside, *allow.inside);
        let outer = needs.outside.map_or_else(
            // Above the form: as the rim.
            || {
                let top = self.form.outside();
                Length::mm(top.radius(top.highest()).unwrap_or(10.0))
            },
            |(r, _)| r,
        );
        let flat_out = ring.outside.map_or(outer + outside, |d| d / 2.0);
        let mut asked = RingAsked {
            settler: self,
            path,
            spec: ring,
            needs,
            spans,
        };
        let inner = construction.inner(&asked);
        let corner_in = inner.map_or(Length::ZERO, |r| r - inside).max(Length::ZERO);
        let mut sizes = RingSizes::closed(n, flat_out, corner_in.min(flat_out * 0.999));
        if let Some(width) = ring.width {
            sizes = sizes.with_board_width(width);
        }
        let names = if ring.wood.is_empty() {
            &spec.wood
        } else {
            &ring.wood
        };
        let mut course = Course {
            path: asked.path.clone(),
            construction,
            sizes,
            woods: asked.settler.pattern(names, n, wood),
            grain: GrainWay::Round,
            board: ring.board.or(spec.board).unwrap_or(Board::FlatSawn),
            let_in: None,
            bottom: Length::ZERO,
            height: Length::ZERO,
            stock: Length::ZERO,
            rotation: Angle::ZERO,
            turn: Angle::ZERO,
            spans,
            needs,
            to_a_point: inner.is_none() && needs.outside.is_some(),
            joints: Vec::new(),
            cuts: Vec::new(),
            openings: Vec::new(),
        };
        construction.shape(&mut asked, &mut course);
        course
    }

    fn pattern(&mut self, names: &[String], n: usize, path: KeyPath) -> Vec<WoodId> {
        let names = if names.is_empty() {
            let usual = self.workshop.defaults.wood.clone();
            self.choose_once(path.clone(), usual.clone().map(ChosenValue::Word));
            vec![usual.value]
        } else {
            names.to_vec()
        };
        let ids: Vec<WoodId> = names
            .iter()
            .map(|name| self.wood(name, path.clone()))
            .collect();
        (0..n).map(|i| ids[i % ids.len()]).collect()
    }

    /// What the form asks between two heights.
    fn needs(&self, spans: (Length, Length)) -> RingNeeds {
        let (low, high) = (spans.0.as_mm(), spans.1.as_mm());
        let outer = self.form.outside();
        let outside = outer.max_between(low, high).map(|r| {
            let at = height_of(low, high, |z| outer.radius(z).map(|x| x - r));
            (Length::mm(r), Length::mm(at))
        });
        let inner = self.form.inside();
        let solid = low < self.form.floor_top().as_mm() - 1e-9;
        let inside = if solid {
            None
        } else {
            inner.min_between(low, high).map(|r| {
                let at = height_of(low, high, |z| inner.radius(z).map(|x| r - x));
                (Length::mm(r), Length::mm(at))
            })
        };
        RingNeeds { outside, inside }
    }
}

/// What is asked of a ring, with what is at hand to settle it.
struct RingAsked<'a, 's> {
    settler: &'a mut Settler<'s>,
    path: RingPath,
    spec: &'a RingSpec,
    needs: RingNeeds,
    spans: (Length, Length),
}

impl Asked for RingAsked<'_, '_> {
    fn spec(&self) -> &RingSpec {
        self.spec
    }

    fn inner(&self) -> Option<Length> {
        if self.needs.outside.is_none() {
            // Above the form: as the rim.
            let top = self.settler.form.inside();
            return top.radius(top.highest()).map(Length::mm);
        }
        self.needs.inside.map(|(r, _)| r)
    }

    fn inner_at_floor(&self) -> Option<Length> {
        let side = self.settler.form.inside();
        let floor_top = self.settler.form.floor_top();
        let low = self.spans.0.as_mm().max(side.lowest());
        let from = floor_top.as_mm().max(low);
        let to = self.spans.1.as_mm().max(from);
        side.min_between(from, to).map(Length::mm)
    }

    fn panel(&mut self, floor: &FloorSpec, finished_inside: Length) -> Panel {
        let (path, spans) = (self.path.floor(), self.spans);
        let form = self.settler.form;
        let wood = self.settler.wood(&floor.wood, path.wood());
        let recess = form.foot_recess();
        let above = floor.above.unwrap_or((recess - spans.0).max(Length::ZERO));
        let thickness = floor
            .thickness
            .unwrap_or((form.floor_top() - recess).max(Length::mm(1.0)));
        // A groove as deep as half the wall leaves half of it outside.
        let wall = form.wall_at(form.floor_top()).unwrap_or(Length::mm(6.0));
        let groove = floor.groove.unwrap_or(wall / 2.0);
        let gap = match (floor.floating, floor.gap) {
            (false, _) => Length::ZERO,
            (true, Some(gap)) => gap,
            (true, None) => FloorSpec::KEYS.usual("gap").length().unwrap_or_default(),
        };
        let (form, practice) = (Origin::Form, Origin::CommonPractice);
        let given_gap = floor.gap.is_some() || !floor.floating;
        for (key, given, value, origin) in [
            (path.above(), floor.above.is_some(), above, form),
            (path.thickness(), floor.thickness.is_some(), thickness, form),
            (path.groove(), floor.groove.is_some(), groove, practice),
            (path.gap(), given_gap, gap, practice),
        ] {
            if !given {
                self.settler.choose(key, ChosenValue::Length(value), origin);
            }
        }
        Panel {
            wood,
            board: floor.board.unwrap_or(Board::FlatSawn),
            thickness,
            above,
            diameter: (finished_inside + groove) * 2.0,
            groove,
            floating: floor.floating,
            gap,
        }
    }
}

/// The height between two at which a value is largest, to a 256th of the span: for
/// saying where, not for cutting to.
fn height_of(low: f64, high: f64, value: impl Fn(f64) -> Option<f64>) -> f64 {
    let mut best = (f64::MIN, low);
    for k in 0..=256 {
        let z = low + (high - low) * f64::from(k) / 256.0;
        if let Some(v) = value(z)
            && v > best.0
        {
            best = (v, z);
        }
    }
    best.1
}

/// A ring's lowest and highest point in the finished piece: splits below or in it
/// have let what is above them down by a kerf.
fn spans(bottom: Length, low: Length, high: Length, splits: &[Split]) -> (Length, Length) {
    let lost = |z: Length| lost_below(splits, z);
    (bottom + low - lost(low), bottom + high - lost(high))
}

/// Rings of a section that is trued to a cylinder share the largest outside.
fn one_outside(rings: &mut [Course], specs: &[(RingSpec, Option<RingPath>)]) {
    let widest = rings
        .iter()
        .map(|r| r.sizes.flat_out)
        .reduce(Length::max)
        .unwrap_or(Length::ZERO);
    for (ring, (spec, _)) in rings.iter_mut().zip(specs) {
        if spec.outside.is_none() {
            ring.sizes.flat_out = widest;
            if let Some(width) = spec.width {
                ring.sizes = ring.sizes.with_board_width(width);
            }
        }
    }
}
