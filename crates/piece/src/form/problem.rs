//! What is wrong with a form, told to the maker.

use geometry::Length;

use files::units::Unit;

/// The part of the form that a problem lies in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FormPart {
    /// The outer curve.
    Outer,
    /// The inner side's own points.
    Inner,
    /// The wall thickness.
    Wall,
    /// The floor.
    Floor,
    /// Depth of the recess under the foot.
    FootRecess,
    /// Width of the foot's ring.
    FootWidth,
    /// The rim's easing.
    RimEasing,
}

/// What is wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FormProblemKind {
    /// A curve of fewer than two different points.
    TooFewPoints,
    /// A measure that is no number, or beyond 10 m.
    OutOfRange,
    /// The outer curve does not begin at height 0.
    NotOnTheFoot,
    /// A curve that comes down again on its way up.
    DoublesBack,
    /// A curve that crosses itself.
    CrossesItself,
    /// A radius below zero, or zero where the form must hold together.
    RadiusNegative,
    /// A wall of no thickness or less.
    WallNotPositive,
    /// Wall thicknesses whose heights do not rise.
    WallOutOfOrder,
    /// A wall so thick that nothing is hollow there.
    WallFillsUp,
    /// An inner side outside of the outer one, or touching it.
    InnerOutside,
    /// A floor of no thickness or less.
    FloorNotPositive,
    /// A floor, with the recess under it, as high as the form.
    FloorTooThick,
    /// A floor that ends below the inner side's lowest point.
    FloorDisagrees,
    /// A foot's ring that leaves no room for the recess.
    FootTooWide,
    /// A recess that comes out through the outer side.
    RecessBreaksOut,
    /// A recess as deep as the form is high.
    RecessTooDeep,
    /// A rim easing that the rim has no room for.
    RimEasingTooLarge,
    /// A recess, foot width or easing below zero.
    Negative,
}

/// One problem of a form.
#[derive(Debug, Clone)]
pub struct FormProblem {
    /// What is wrong.
    pub kind: FormProblemKind,
    /// The part it lies in.
    pub part: FormPart,
    /// Which of the part's entries in the file, from 0, where it is one of them.
    pub entry: Option<usize>,
    /// Height above the foot's underside.
    pub height: Length,
    /// The measure that would do, where one is known.
    pub amount: Option<Length>,
    /// What is wrong, in a sentence.
    pub what: String,
    /// What to change, in a sentence.
    pub remedy: String,
}

/// Collects problems in the maker's unit.
pub(super) struct Report {
    pub(super) unit: Unit,
    pub(super) problems: Vec<FormProblem>,
}

impl Report {
    pub(super) fn new(unit: Unit) -> Self {
        Self {
            unit,
            problems: Vec::new(),
        }
    }

    /// Millimetres in the maker's unit.
    pub(super) fn say(&self, mm: f64) -> String {
        self.unit.length(Length::mm(mm))
    }

    /// The largest figure the maker can set that stays below `mm`; nothing if that is zero.
    pub(super) fn below(&self, mm: f64) -> Option<f64> {
        let step = self.unit.step().as_mm();
        let steps = (mm / step - 1e-6).floor();
        (steps >= 1.0 && steps.is_finite()).then_some(steps * step)
    }

    /// The smallest figure the maker can set that is above `mm`.
    pub(super) fn above(&self, mm: f64) -> f64 {
        let step = self.unit.step().as_mm();
        ((mm / step + 1e-6).floor() + 1.0) * step
    }

    pub(super) fn add(
        &mut self,
        (kind, part, entry): (FormProblemKind, FormPart, Option<usize>),
        height: f64,
        amount: Option<f64>,
        what: String,
        remedy: String,
    ) {
        self.problems.push(FormProblem {
            kind,
            part,
            entry,
            height: Length::mm(height),
            amount: amount.map(Length::mm),
            what,
            remedy,
        });
    }
}
