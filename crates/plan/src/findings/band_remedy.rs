//! What would make a loop band fit: figures that are tried before they are said.

use super::ways::{any_of, one, taller};
use files::remedy::{Remedy, Way};
use geometry::Portable;
use geometry::{Angle, Length};
use piece::band::{Loops, TwoCuts};

use super::band_view::BandView;
use super::limits;
use super::say::tenth_below;
use files::design::{FLATTEST, STEEPEST};
use files::key::KeyPath;
use files::message::{Reading, Value, at_least, at_most};
use files::say;
use files::units::Unit;

impl BandView<'_> {
    /// Is everything that is in order with the present loops in order with others too?
    /// What puts one thing right must not put another wrong.
    pub fn as_good(&self, others: &Loops) -> bool {
        let now = &self.band.loops;
        let largest = self.piece.workshop.sled.largest_tilt;
        let kept = |holds: &dyn Fn(&Loops) -> bool| holds(others) || !holds(now);
        kept(&|l| !self.interrupted(l))
            && kept(&|l| self.fits(l))
            && kept(&|l| self.blocks_fit(l))
            && kept(&|l| !self.merged(l))
            && kept(&|l| self.unbroken(l))
            && kept(&|l| !l.tilt.exceeds(*largest))
    }

    /// The same loops at another tilt: the layer stays if it was given, else the spacer.
    pub fn tilted(&self, tilt: Angle) -> Loops {
        Loops {
            tilt,
            thickness: self.removed_at(tilt),
            ..self.band.loops.clone()
        }
    }

    fn removed_at(&self, tilt: Angle) -> Length {
        let band = self.band;
        if band.spacer_solved {
            return band.cuts.removed();
        }
        TwoCuts { tilt, ..band.cuts }.removed()
    }

    /// The loops that the maker's keys give at another height: with a reach the tilt
    /// follows from the wall there. Nothing if the reach does not fit.
    pub fn moved(&self, height: Length) -> Option<Loops> {
        if !self.band.tilt_solved {
            return Some(Loops {
                height,
                ..self.band.loops.clone()
            });
        }
        let reach = self.band.outside.reach()?;
        self.with_reach(height, reach)
    }

    fn with_reach(&self, height: Length, reach: Length) -> Option<Loops> {
        let tilt = Loops::tilt_for_reach(&|z| self.outer(z), height, reach, STEEPEST, &|t| {
            self.removed_at(t)
        })
        .ok()?;
        Some(Loops {
            height,
            ..self.tilted(tilt)
        })
    }

    /// The key that a flatter loop is written with.
    pub fn tilt_path(&self) -> KeyPath {
        if self.band.tilt_solved {
            self.path().reach()
        } else {
            self.path().tilt()
        }
    }

    /// `a reach of at most 38.2 mm` or `a tilt of at most 21.3°` at which `good` holds,
    /// which is taken to hold for all flatter loops too. Tried before it is said.
    pub fn flatter(&self, good: impl Fn(&Loops) -> bool) -> Option<Remedy> {
        if !good(&self.tilted(FLATTEST)) {
            return None;
        }
        let (mut low, mut high) = (FLATTEST.as_rad(), self.band.loops.tilt.as_rad());
        for _ in 0..40 {
            let mid = 0.5 * (low + high);
            if good(&self.tilted(Angle::rad(mid))) {
                low = mid;
            } else {
                high = mid;
            }
        }
        if !self.band.tilt_solved {
            let tilt = tenth_below(Angle::rad(low));
            let loops = self.tilted(tilt);
            let does = !FLATTEST.exceeds(tilt) && good(&loops) && self.as_good(&loops);
            return does.then(|| {
                one(
                    say!("a tilt of at most {tilt}", tilt = Value::tenth(tilt)),
                    self.tilt_way(tilt),
                )
            });
        }
        let most = self.edges(&self.tilted(Angle::rad(low))).reach()?;
        let does = |l: &Loops| good(l) && self.as_good(l);
        let reach = self.reach_where(|unit| at_most(most, unit.step()), does)?;
        Some(one(
            say!("a reach of at most {reach}", reach = reach),
            self.reach_way(reach),
        ))
    }

    /// As [`BandView::flatter`] for loops that must be steeper: `a tilt of at least
    /// 24.0°`.
    pub fn steeper(&self, good: impl Fn(&Loops) -> bool) -> Option<Remedy> {
        let does = |l: &Loops| good(l) && self.as_good(l);
        let mut low = self.band.loops.tilt.as_rad();
        let mut high = low;
        // Steeper by small steps: past some tilt something else is no longer in order.
        while !does(&self.tilted(Angle::rad(high))) {
            low = high;
            high += Angle::deg(1.0).as_rad();
            if high > STEEPEST.as_rad() {
                return None;
            }
        }
        for _ in 0..40 {
            let mid = 0.5 * (low + high);
            if does(&self.tilted(Angle::rad(mid))) {
                high = mid;
            } else {
                low = mid;
            }
        }
        if !self.band.tilt_solved {
            let tilt = -tenth_below(-Angle::rad(high));
            return does(&self.tilted(tilt)).then(|| {
                one(
                    say!("a tilt of at least {tilt}", tilt = Value::tenth(tilt)),
                    self.tilt_way(tilt),
                )
            });
        }
        let least = self.edges(&self.tilted(Angle::rad(high))).reach()?;
        let reach = self.reach_where(|unit| at_least(least, unit.step()), does)?;
        Some(one(
            say!("a reach of at least {reach}", reach = reach),
            self.reach_way(reach),
        ))
    }

    fn tilt_way(&self, tilt: Angle) -> Way {
        let what = say!(
            "tilt {loops} by {tilt}",
            loops = self.name(),
            tilt = Value::tenth(tilt)
        );
        Way::new(what).set(self.path().tilt(), tilt)
    }

    fn reach_way(&self, reach: Reading) -> Way {
        let what = say!(
            "make the reach of {loops} {reach}",
            loops = self.name(),
            reach = reach
        );
        Way::new(what).set(self.path().reach(), reach)
    }

    /// The loops' middle at another height.
    pub fn height_way(&self, height: Reading) -> Way {
        let what = say!(
            "put the middle of {loops} at {height}",
            loops = self.name(),
            height = height,
        );
        Way::new(what).set(self.path().height(), height)
    }

    /// A layer or spacer of another thickness.
    pub fn layer_way(&self, figure: Reading) -> Way {
        let (path, key) = self.layer_key();
        let what = say!(
            "make the {key} of {loops} {figure}",
            key = key,
            loops = self.name(),
            figure = figure,
        );
        Way::new(what).set(path, figure)
    }

    /// The section so high that it holds the loops, their middle at half of it.
    pub fn taller(&self, tall: Length) -> Remedy {
        let words = say!(
            "a section at least {tall} high with the loops' middle at half of it",
            tall = Value::up(tall),
        );
        let section = self.subject().section.unwrap_or(0);
        Remedy::from(words).or_any(taller(self.piece, section, tall))
    }

    /// A reach as each reader sets it, if the loops with it are good.
    fn reach_where(
        &self,
        reach: impl Fn(Unit) -> Length,
        good: impl Fn(&Loops) -> bool,
    ) -> Option<Reading> {
        let height = self.band.loops.height;
        Reading::tried(false, |unit| {
            let reach = reach(unit);
            good(&self.with_reach(height, reach)?).then_some(reach)
        })
    }

    /// The same loops with less wood removed; with a reach the tilt grows a little.
    pub fn thinned(&self, thickness: Length) -> Option<Loops> {
        let band = self.band;
        let tilt = if band.tilt_solved {
            let (wall, height) = (|z: f64| self.outer(z), band.loops.height);
            Loops::tilt_for_reach(&wall, height, band.outside.reach()?, STEEPEST, &|_| {
                thickness
            })
            .ok()?
        } else {
            band.loops.tilt
        };
        Some(Loops {
            tilt,
            thickness,
            ..band.loops.clone()
        })
    }

    /// `a layer of at most 4.2 mm` (or its spacer) at which `good` holds, with its key;
    /// nothing if the slice would not come out whole. Tried before it is said.
    pub fn thinner(&self, good: impl Fn(&Loops) -> bool) -> Option<(KeyPath, Remedy)> {
        let band = self.band;
        let kerf = band.cuts.kerf;
        let least = (kerf * 2.0 + limits::WHOLE_SLICE).as_mm();
        let (mut low, mut high) = (least, band.loops.thickness.as_mm());
        if low >= high || !good(&self.thinned(Length::mm(low))?) {
            return None;
        }
        for _ in 0..40 {
            let mid = 0.5 * (low + high);
            if self.thinned(Length::mm(mid)).is_some_and(|l| good(&l)) {
                low = mid;
            } else {
                high = mid;
            }
        }
        let cos = self.thinned(Length::mm(low))?.tilt.as_rad().cosine();
        let figure = Reading::tried(true, |unit| {
            let (figure, removed) = if band.spacer_solved {
                let layer = at_most(Length::mm(low) - band.glue_line * 2.0, unit.fine_step());
                (layer, layer + band.glue_line * 2.0)
            } else {
                let spacer = at_most((Length::mm(low) - kerf) / cos, unit.fine_step());
                (spacer, spacer * cos + kerf)
            };
            let loops = self.thinned(removed)?;
            (good(&loops) && self.as_good(&loops)).then_some(figure)
        })?;
        let (path, key) = self.layer_key();
        let words = say!("a {key} of at most {figure}", key = key, figure = figure);
        let remedy = one(words, self.layer_way(figure));
        Some((path, remedy))
    }

    /// What makes the cuts fit on the blank: another height if there is one, else a
    /// flatter loop; and how high a section would hold them.
    pub fn fitting(&self) -> (KeyPath, Remedy) {
        let section = self.taller(self.band.least_section);
        if let Some(height) = self.nearest_height() {
            let text = say!(
                "move the loops' middle to {height} above the section's underside",
                height = height,
            );
            return (self.path().height(), one(text, self.height_way(height)));
        }
        match self.flatter(|l| self.fits(l)) {
            Some(flatter) => (
                self.tilt_path(),
                any_of([flatter, section]).unwrap_or_default(),
            ),
            None => (self.path().height(), section),
        }
    }

    /// The height nearest to the present one at which the cuts fit; tried before it is said.
    fn nearest_height(&self) -> Option<Reading> {
        Reading::tried(false, |unit| self.nearest_height_in(unit))
    }

    fn nearest_height_in(&self, unit: Unit) -> Option<Length> {
        let keep = self.piece.workshop.sled.keep_off;
        let stacked = self.section.stacked;
        let mut loops = self.band.loops.clone();
        // The tilt follows the height where a reach is given: a few rounds settle it.
        for _ in 0..8 {
            let need = self.half_on_blank(&loops) + *keep;
            let low = at_least(need, unit.step());
            let high = at_most(stacked - need, unit.step());
            if low.exceeds(high) {
                return None;
            }
            let height = loops.height.max(low).min(high);
            loops = self.moved(height)?;
            if self.fits(&loops) {
                // Where blocks have no room, the middle may serve both.
                let middle = || self.middle_in(unit).filter(|_| !self.blocks_fit(&loops));
                return middle().or_else(|| self.as_good(&loops).then_some(height));
            }
        }
        None
    }

    /// The height nearest to the present one, by steps of a 32nd of the section, at which
    /// `good` holds.
    pub fn height_where(&self, good: impl Fn(&Loops) -> bool) -> Option<Remedy> {
        let step = self.section.stacked / 32.0;
        let inside = |z: &Length| z.exceeds(Length::ZERO) && self.section.stacked.exceeds(*z);
        let does = |z: &Length| self.moved(*z).is_some_and(|l| good(&l) && self.as_good(&l));
        let height = Reading::tried(false, |unit| {
            let shown = |k| nearest(self.band.loops.height + step * k, unit);
            let heights = (1..32).flat_map(|k| [f64::from(k), -f64::from(k)]);
            heights.map(shown).filter(inside).find(does)
        })?;
        let words = say!("move the loops' middle to {height}", height = height);
        Some(one(words, self.height_way(height)))
    }

    /// Half the section's height, if the cuts fit there and blocks have room.
    pub fn middle(&self) -> Option<Reading> {
        Reading::tried(false, |unit| self.middle_in(unit))
    }

    fn middle_in(&self, unit: Unit) -> Option<Length> {
        let middle = nearest(self.section.stacked / 2.0, unit);
        let loops = self.moved(middle)?;
        (self.fits(&loops) && self.blocks_fit(&loops) && self.as_good(&loops)).then_some(middle)
    }
}

fn nearest(length: Length, unit: Unit) -> Length {
    unit.step() * (length.as_mm() / unit.step().as_mm()).round()
}
