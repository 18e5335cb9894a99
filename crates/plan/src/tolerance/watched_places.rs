//! Everything that is watched on a piece, and what a making of it comes to.

use geometry::{Angle, Length};
use piece::piece::Piece;

use super::cause::Bears;
use super::crossings::{Crossings, Missed};
use super::errors::Errors;
use super::loop_ends::{LoopEnds, unevenness};
use super::measure::{MEASURES, Measure, Outcome};
use super::ring_joint::ring_gaps;
use super::sample::{Face, Sample};
use super::wall_left::WallLeft;

/// What is watched on a piece: found once, measured on every making.
#[derive(Debug)]
pub struct WatchedPlaces<'a> {
    piece: &'a Piece,
    ends: Vec<LoopEnds>,
    crossings: Vec<Crossings>,
    wall: WallLeft,
    /// The piece as planned, and how many bands or walls share each measure.
    perfect: Outcome,
    groups: [usize; MEASURES],
}

/// A crossing and the step in its earlier loop.
#[derive(Debug, Clone, Copy)]
pub struct WorstCrossing {
    /// Azimuth in the piece.
    pub azimuth: Angle,
    /// Height in the piece.
    pub height: Length,
    /// The step.
    pub step: Length,
}

fn of_ends(face: Face, top: bool) -> Measure {
    match (face, top) {
        (Face::Outside, true) => Measure::TopsOutside,
        (Face::Outside, false) => Measure::BottomsOutside,
        (Face::Inside, true) => Measure::TopsInside,
        (Face::Inside, false) => Measure::BottomsInside,
    }
}

fn of_crossings(face: Face) -> (Measure, Measure) {
    match face {
        Face::Outside => (Measure::StepsOutside, Measure::RowsOutside),
        Face::Inside => (Measure::StepsInside, Measure::RowsInside),
    }
}

impl<'a> WatchedPlaces<'a> {
    /// Finds what there is to watch.
    pub fn new(piece: &'a Piece) -> Self {
        let none = Errors::none(piece);
        let perfect = Sample::new(piece, &none);
        let ends = LoopEnds::of(piece, &perfect);
        let crossings = Crossings::of(piece, &perfect);
        let mut groups = [0; MEASURES];
        for e in &ends {
            groups[of_ends(e.face(), e.top()).at()] += 1;
        }
        for c in &crossings {
            let (steps, rows) = of_crossings(c.face());
            groups[steps.at()] += 1;
            groups[rows.at()] += usize::from(c.has_rows());
        }
        let closes = |r: &piece::course::Course| r.closing_joints() > 0;
        let rings = piece.sections.iter().flat_map(|s| &s.rings);
        groups[Measure::RingGap.at()] = usize::from(rings.clone().any(closes));
        groups[Measure::WallLeft.at()] = 1;
        let mut watch = WatchedPlaces {
            piece,
            ends,
            crossings,
            wall: WallLeft::of(piece, &perfect),
            perfect: Outcome::default(),
            groups,
        };
        watch.perfect = watch.outcome(&none);
        // The wall as planned is what later walls are held against.
        watch.perfect.squares = [0.0; MEASURES];
        watch
    }

    /// The piece.
    pub fn piece(&self) -> &'a Piece {
        self.piece
    }

    /// Is there anything of the sort on this piece?
    pub fn has(&self, measure: Measure) -> bool {
        self.groups[measure.at()] > 0
    }

    /// What the piece as planned comes to.
    pub fn perfect(&self) -> &Outcome {
        &self.perfect
    }

    /// What a making with these errors comes to.
    pub fn outcome(&self, errors: &Errors) -> Outcome {
        self.outcome_of(errors, Bears::ALL)
    }

    /// The same, as far as some errors can bear on it; the rest is left at nothing.
    pub(super) fn outcome_of(&self, errors: &Errors, bears: Bears) -> Outcome {
        let mut out = Outcome::default();
        if bears.gaps {
            out.take(Measure::RingGap, ring_gaps(self.piece, errors), 1.0);
        }
        if !bears.loops && !bears.wall {
            return out;
        }
        let making = Sample::new(self.piece, errors);
        if bears.loops {
            self.loops(&making, &mut out);
        }
        if bears.wall {
            let least = self.wall.least(&making);
            let lost = self.perfect.values[Measure::WallLeft.at()] - least;
            out.take(Measure::WallLeft, (least, lost * lost), 1.0);
        }
        out
    }

    fn loops(&self, making: &Sample<'_>, out: &mut Outcome) {
        let share = |m: Measure| 1.0 / self.groups[m.at()].max(1) as f64;
        for ends in &self.ends {
            let measure = of_ends(ends.face(), ends.top());
            let uneven = unevenness(&ends.off(self.piece, making));
            out.take(measure, uneven, share(measure));
        }
        for crossings in &self.crossings {
            let (steps, rows) = of_crossings(crossings.face());
            let missed = crossings.missed(self.piece, making);
            out.take(steps, missed.step(), share(steps));
            out.take(rows, missed.row(), share(rows));
        }
    }

    /// How far each loop's end is off its height, by band, wall and end, mm.
    pub fn ends_off(&self, errors: &Errors) -> Vec<(Measure, Vec<f64>)> {
        let making = Sample::new(self.piece, errors);
        let off = |e: &LoopEnds| (of_ends(e.face(), e.top()), e.off(self.piece, &making));
        self.ends.iter().map(off).collect()
    }

    /// What the crossings of each band and wall come to.
    pub fn crossings_missed(&self, errors: &Errors) -> Vec<(Face, Missed)> {
        let making = Sample::new(self.piece, errors);
        let missed = |c: &Crossings| (c.face(), c.missed(self.piece, &making));
        self.crossings.iter().map(missed).collect()
    }

    /// The crossing with the largest step on a wall; nothing where no loops cross.
    pub fn worst_crossing(&self, errors: &Errors, face: Face) -> Option<WorstCrossing> {
        let making = Sample::new(self.piece, errors);
        let mut worst: Option<WorstCrossing> = None;
        for crossings in self.crossings.iter().filter(|c| c.face() == face) {
            let section = self.piece.sections.get(crossings.section())?;
            let missed = crossings.missed(self.piece, &making);
            for (step, (azimuth, height)) in missed.steps.iter().zip(&missed.places) {
                let step = Length::mm(step.abs());
                if worst.is_none_or(|w| step.exceeds(w.step)) {
                    worst = Some(WorstCrossing {
                        azimuth: Angle::rad(*azimuth) + section.turn,
                        height: Length::mm(*height) + section.bottom,
                        step,
                    });
                }
            }
        }
        worst
    }
}
