//! What is measured otherwise than in lengths and angles: its unit on the page and in the
//! file.

use crate::units::{MM3_PER_FL_OZ, Unit};

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// A temperature: °C, °F.
    Warmth,
    /// A force: N, lbf.
    Force,
    /// A small volume: ml, US fl oz; ml in every file.
    Batch,
    /// Glue on a face: g/m², lb to 1000 ft²; g/m² in every file.
    Spread,
}

/// Cubic millimetres in a millilitre.
const MM3_PER_ML: f64 = 1000.0;
/// g/m² in a pound to 1000 square feet: 453.59237 g / 92.90304 m².
const SPREAD_A_POUND: f64 = 453.592_37 / 92.903_04;

impl Quantity {
    /// Its unit as the page writes it.
    pub fn suffix(self, page: Unit) -> &'static str {
        match (self, page) {
            (Quantity::Warmth, Unit::Mm) => "°C",
            (Quantity::Warmth, Unit::Inch) => "°F",
            (Quantity::Force, Unit::Mm) => "N",
            (Quantity::Force, Unit::Inch) => "lbf",
            (Quantity::Batch, Unit::Mm) => "ml",
            (Quantity::Batch, Unit::Inch) => "US fl oz",
            (Quantity::Spread, Unit::Mm) => "g/m²",
            (Quantity::Spread, Unit::Inch) => "lb/1000 ft²",
        }
    }

    /// A metric figure in the page's unit.
    pub fn on_page(self, metric: f64, page: Unit) -> f64 {
        match (self, page) {
            (Quantity::Batch | Quantity::Spread, Unit::Mm) => metric,
            (Quantity::Warmth, _) => page.temperature(metric),
            (Quantity::Force, _) => page.force(metric),
            (Quantity::Batch, Unit::Inch) => metric * MM3_PER_ML / MM3_PER_FL_OZ,
            (Quantity::Spread, Unit::Inch) => metric / SPREAD_A_POUND,
        }
    }

    /// The page's figure in metric.
    fn metric(self, shown: f64, page: Unit) -> f64 {
        match (self, page) {
            (Quantity::Batch | Quantity::Spread, Unit::Mm) => shown,
            (Quantity::Warmth, _) => page.celsius(shown),
            (Quantity::Force, _) => page.newtons(shown),
            (Quantity::Batch, Unit::Inch) => shown * MM3_PER_FL_OZ / MM3_PER_ML,
            (Quantity::Spread, Unit::Inch) => shown * SPREAD_A_POUND,
        }
    }

    /// The page's figure as the file writes it: as it was entered where both have one
    /// unit, else to a thousandth.
    pub fn in_file(self, shown: f64, page: Unit, file: Unit) -> f64 {
        let file = match self {
            Quantity::Warmth | Quantity::Force => file,
            Quantity::Batch | Quantity::Spread => Unit::Mm,
        };
        if page == file {
            return shown;
        }
        let there = self.on_page(self.metric(shown, page), file);
        (there * 1000.0).round() / 1000.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_go_to_the_files_unit_and_back() {
        // Fixed points of the two scales; NIST SP 811, appendix B.8, for the others.
        let to = |q: Quantity, shown: f64, page, file| q.in_file(shown, page, file);
        assert_eq!(to(Quantity::Warmth, 212.0, Unit::Inch, Unit::Mm), 100.0);
        assert_eq!(to(Quantity::Warmth, -40.0, Unit::Mm, Unit::Inch), -40.0);
        assert_eq!(to(Quantity::Force, 1.0, Unit::Inch, Unit::Mm), 4.448);
        assert_eq!(to(Quantity::Batch, 1.0, Unit::Inch, Unit::Inch), 29.574);
        // 1 lb/ft² is 4.882428 kg/m² there: a thousandth of it for 1000 ft².
        assert_eq!(to(Quantity::Spread, 1.0, Unit::Inch, Unit::Mm), 4.882);
        assert_eq!(to(Quantity::Force, 22.5, Unit::Inch, Unit::Inch), 22.5);
    }
}
