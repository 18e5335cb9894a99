//! What is measured on every making.

use serde::Serialize;

/// One thing that the eye or a gauge finds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Measure {
    /// Highest loop top less lowest, outside.
    TopsOutside,
    /// Highest loop bottom less lowest, outside.
    BottomsOutside,
    /// Highest loop top less lowest, inside.
    TopsInside,
    /// Highest loop bottom less lowest, inside.
    BottomsInside,
    /// Largest step in an earlier loop at a crossing, outside.
    StepsOutside,
    /// Largest step at a crossing, inside.
    StepsInside,
    /// Highest crossing of a row less lowest, outside.
    RowsOutside,
    /// Highest crossing of a row less lowest, inside.
    RowsInside,
    /// Widest gap left in the last joint of a ring.
    RingGap,
    /// Least wall left anywhere.
    WallLeft,
}

/// How many measures there are.
pub const MEASURES: usize = Measure::ALL.len();

impl Measure {
    /// Every measure.
    pub const ALL: [Measure; 10] = [
        Measure::TopsOutside,
        Measure::BottomsOutside,
        Measure::TopsInside,
        Measure::BottomsInside,
        Measure::StepsOutside,
        Measure::StepsInside,
        Measure::RowsOutside,
        Measure::RowsInside,
        Measure::RingGap,
        Measure::WallLeft,
    ];

    /// Its place in [`Measure::ALL`].
    pub const fn at(self) -> usize {
        self as usize
    }

    /// A few words, for a table.
    pub const fn words(self) -> &'static str {
        match self {
            Measure::TopsOutside => "loop tops, outside",
            Measure::BottomsOutside => "loop bottoms, outside",
            Measure::TopsInside => "loop tops, inside",
            Measure::BottomsInside => "loop bottoms, inside",
            Measure::StepsOutside => "step at a crossing, outside",
            Measure::StepsInside => "step at a crossing, inside",
            Measure::RowsOutside => "row of crossings, outside",
            Measure::RowsInside => "row of crossings, inside",
            Measure::RingGap => "last joint of a ring",
            Measure::WallLeft => "least wall left",
        }
    }

    /// How it is measured.
    pub const fn formula(self) -> &'static str {
        match self {
            Measure::TopsOutside | Measure::TopsInside => {
                "height of the highest loop top − height of the lowest, where each layer's upper \
                 face meets the finished wall"
            }
            Measure::BottomsOutside | Measure::BottomsInside => {
                "height of the highest loop bottom − height of the lowest, where each layer's \
                 lower face meets the finished wall"
            }
            Measure::StepsOutside | Measure::StepsInside => {
                "largest of all crossings: how far the earlier loop's two halves miss each other \
                 across the later layer, along the wall and square to the loop"
            }
            Measure::RowsOutside | Measure::RowsInside => {
                "height of a row's highest crossing − height of its lowest, the row in which they \
                 differ most"
            }
            Measure::RingGap => {
                "largest of all rings: what stands open at a corner of the last joint when the \
                 others are glued close and nothing has been trued"
            }
            Measure::WallLeft => {
                "wall as drawn − shift of the hollow against the outside − wood that a ring off \
                 its place does not cover, square to the outside"
            }
        }
    }

    /// Is a small value the bad one?
    pub const fn least_counts(self) -> bool {
        matches!(self, Measure::WallLeft)
    }

    /// Does it show on the finished outside wall, so that a picture can show it?
    pub const fn shows_outside(self) -> bool {
        matches!(
            self,
            Measure::TopsOutside
                | Measure::BottomsOutside
                | Measure::StepsOutside
                | Measure::RowsOutside
        )
    }
}

/// What one making came to, by [`Measure::at`], mm.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Outcome {
    /// The figure itself.
    pub values: [f64; MEASURES],
    /// The mean square of the single deviations behind it, mm²: of each top from the
    /// mean of the tops, of each crossing's step, of each ring's gap.
    pub squares: [f64; MEASURES],
}

impl Outcome {
    /// Takes in what one band or wall came to: of several the worst counts, and the
    /// mean of their squares.
    pub(super) fn take(&mut self, measure: Measure, (value, square): (f64, f64), share: f64) {
        let at = measure.at();
        self.values[at] = self.values[at].max(value);
        self.squares[at] += square * share;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_measure_is_at_its_place_and_says_what_it_is() {
        for (i, measure) in Measure::ALL.into_iter().enumerate() {
            assert_eq!(measure.at(), i);
            assert!(!measure.formula().is_empty() && measure.words().len() <= 27);
        }
    }
}
