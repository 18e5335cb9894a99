//! What is measured otherwise than in lengths and angles: its unit on the page and in the
//! file.

use crate::units::{MM3_PER_FL_OZ, Unit};

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// A temperature: °C, °F.
    Temperature,
    /// A force: N, lbf.
    Force,
    /// A small volume: ml, US fl oz; ml in every file.
    Volume,
    /// Glue on a face: g/m², lb to 1000 ft²; g/m² in every file.
    Spread,
}

/// Cubic millimetres in a millilitre.
const MM3_PER_ML: f64 = 1000.0;
/// g/m² in a pound to 1000 square feet: 453.59237 g / 92.90304 m².
const SPREAD_A_POUND: f64 = 453.592_37 / 92.903_04;

impl Scale {
    /// Its unit as the page writes it.
    pub fn suffix(self, page: Unit) -> &'static str {
        match (self, page) {
            (Scale::Temperature, Unit::Mm) => "°C",
            (Scale::Temperature, Unit::Inch) => "°F",
            (Scale::Force, Unit::Mm) => "N",
            (Scale::Force, Unit::Inch) => "lbf",
            (Scale::Volume, Unit::Mm) => "ml",
            (Scale::Volume, Unit::Inch) => "US fl oz",
            (Scale::Spread, Unit::Mm) => "g/m²",
            (Scale::Spread, Unit::Inch) => "lb/1000 ft²",
        }
    }

    /// A metric figure in the page's unit.
    pub fn on_page(self, metric: f64, page: Unit) -> f64 {
        match (self, page) {
            (Scale::Volume | Scale::Spread, Unit::Mm) => metric,
            (Scale::Temperature, _) => page.temperature(metric),
            (Scale::Force, _) => page.force(metric),
            (Scale::Volume, Unit::Inch) => metric * MM3_PER_ML / MM3_PER_FL_OZ,
            (Scale::Spread, Unit::Inch) => metric / SPREAD_A_POUND,
        }
    }

    /// The page's figure in metric.
    fn metric(self, shown: f64, page: Unit) -> f64 {
        match (self, page) {
            (Scale::Volume | Scale::Spread, Unit::Mm) => shown,
            (Scale::Temperature, _) => page.celsius(shown),
            (Scale::Force, _) => page.newtons(shown),
            (Scale::Volume, Unit::Inch) => shown * MM3_PER_FL_OZ / MM3_PER_ML,
            (Scale::Spread, Unit::Inch) => shown * SPREAD_A_POUND,
        }
    }

    /// A figure of the file in metric.
    pub fn of_file(self, figure: f64, file: Unit) -> f64 {
        self.metric(figure, self.unit_in(file))
    }

    /// A metric figure as the file has it.
    pub fn to_file(self, metric: f64, file: Unit) -> f64 {
        self.on_page(metric, self.unit_in(file))
    }

    /// Volumes and spreads are metric in every file.
    fn unit_in(self, file: Unit) -> Unit {
        match self {
            Scale::Temperature | Scale::Force => file,
            Scale::Volume | Scale::Spread => Unit::Mm,
        }
    }

    /// The page's figure as the file writes it: as it was entered where both have one
    /// unit, else to a thousandth.
    pub fn in_file(self, shown: f64, page: Unit, file: Unit) -> f64 {
        let file = self.unit_in(file);
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
        let to = |q: Scale, shown: f64, page, file| q.in_file(shown, page, file);
        assert_eq!(to(Scale::Temperature, 212.0, Unit::Inch, Unit::Mm), 100.0);
        assert_eq!(to(Scale::Temperature, -40.0, Unit::Mm, Unit::Inch), -40.0);
        assert_eq!(to(Scale::Force, 1.0, Unit::Inch, Unit::Mm), 4.448);
        assert_eq!(to(Scale::Volume, 1.0, Unit::Inch, Unit::Inch), 29.574);
        // 1 lb/ft² is 4.882428 kg/m² there: a thousandth of it for 1000 ft².
        assert_eq!(to(Scale::Spread, 1.0, Unit::Inch, Unit::Mm), 4.882);
        assert_eq!(to(Scale::Force, 22.5, Unit::Inch, Unit::Inch), 22.5);
    }
}
