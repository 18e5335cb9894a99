//! The scale of a drawing.

use geometry::Length;

/// Size on paper against size in wood, one of the usual scales (ISO 5455, from
/// memory; and 1 : 2.5, which it leaves out and workshops use).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    paper: f64,
    wood: f64,
}

impl Scale {
    /// True to size.
    pub const FULL: Scale = Scale {
        paper: 1.0,
        wood: 1.0,
    };

    /// The largest usual scale, at most true to size, at which `wood` fits into `room`.
    ///
    /// ```
    /// use drawings::Scale;
    /// use geometry::Length;
    /// let scale = Scale::fitting(Length::mm(640.0), Length::mm(180.0));
    /// assert_eq!(scale.words(), "1 : 5");
    /// assert_eq!(scale.factor(), 0.2);
    /// ```
    pub fn fitting(wood: Length, room: Length) -> Scale {
        const STEPS: [f64; 10] = [1.0, 2.0, 2.5, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0];
        let by = STEPS
            .into_iter()
            .find(|by| wood.as_mm() <= room.as_mm() * by * (1.0 + 1e-9))
            .unwrap_or(1000.0);
        Scale {
            paper: 1.0,
            wood: by,
        }
    }

    /// Millimetres of paper for one of wood.
    pub fn factor(self) -> f64 {
        self.paper / self.wood
    }

    /// As written on a drawing: `1 : 2`.
    pub fn words(self) -> String {
        format!("{} : {}", self.paper, self.wood)
    }
}
