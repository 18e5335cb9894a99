//! Units.

/// The unit a maker reads and writes in.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    #[default]
    Mm,
    /// Inches, with fractions to 1/64.
    Inch,
}
