//! What is wrong with a form, told to the maker.

use geometry::Length;

use files::message::{Message, Reading, Value};
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
    pub amount: Option<Reading>,
    /// What is wrong: a sentence without its capital and full stop, as findings are written.
    pub what: Message,
    /// What to change.
    pub remedy: Message,
}

/// Collects problems.
#[derive(Default)]
pub(super) struct Report {
    pub(super) problems: Vec<FormProblem>,
}

/// The largest figure that can be set in a unit and stays below `mm`; nothing if that is zero.
pub(super) fn below(mm: f64, unit: Unit) -> Option<f64> {
    let step = unit.step().as_mm();
    let steps = (mm / step - 1e-6).floor();
    (steps >= 1.0 && steps.is_finite()).then_some(steps * step)
}

/// The smallest figure that can be set in a unit and is above `mm`.
pub(super) fn above(mm: f64, unit: Unit) -> f64 {
    let step = unit.step().as_mm();
    ((mm / step + 1e-6).floor() + 1.0) * step
}

/// The measure that does, read in each unit.
pub(super) fn read(figure: impl Fn(Unit) -> Option<f64>) -> Option<Reading> {
    Reading::tried(false, |unit| figure(unit).map(Length::mm))
}

/// The measure itself, on a rule.
pub(super) fn on_a_rule(mm: f64) -> Option<Reading> {
    Some(Reading::nearest(Length::mm(mm)))
}

/// A remedy with the figure that does in the reader's unit, or without where none does.
pub(super) fn with_figure(
    figure: impl Fn(Unit) -> Option<f64>,
    remedy: impl Fn(Option<Length>) -> Message,
) -> Message {
    Value::per_unit(|unit| remedy(figure(unit).map(Length::mm))).into()
}

impl Report {
    pub(super) fn add(
        &mut self,
        (kind, part, entry): (FormProblemKind, FormPart, Option<usize>),
        height: f64,
        amount: Option<Reading>,
        what: Message,
        remedy: Message,
    ) {
        self.problems.push(FormProblem {
            kind,
            part,
            entry,
            height: Length::mm(height),
            amount,
            what,
            remedy,
        });
    }
}
