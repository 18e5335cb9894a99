//! Paper sizes and what of them a printer reaches.

use std::str::FromStr;

use files::report::on_one_line;

/// A sheet of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paper {
    /// ISO A4, 210 × 297 mm.
    #[default]
    A4,
    /// US Letter, 8 1/2 × 11 in.
    Letter,
    /// ISO A3, 297 × 420 mm.
    A3,
    /// US Tabloid, 11 × 17 in.
    Tabloid,
}

/// Margins round what is printed, mm: left and right; top; bottom. Printers reach
/// to 6 mm or nearer; the furniture stands in the upper and lower margin.
pub const MARGINS: (f64, f64, f64) = (13.0, 22.0, 22.0);

impl Paper {
    /// Every size.
    pub const ALL: [Paper; 4] = [Paper::A4, Paper::Letter, Paper::A3, Paper::Tabloid];

    /// Width and height upright, mm (ISO 216; ANSI/ASME Y14.1).
    pub const fn size(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
            Paper::A3 => (297.0, 420.0),
            Paper::Tabloid => (279.4, 431.8),
        }
    }

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Paper::A4 => "A4",
            Paper::Letter => "Letter",
            Paper::A3 => "A3",
            Paper::Tabloid => "Tabloid",
        }
    }

    /// Its word in a call.
    pub const fn word(self) -> &'static str {
        match self {
            Paper::A4 => "a4",
            Paper::Letter => "letter",
            Paper::A3 => "a3",
            Paper::Tabloid => "tabloid",
        }
    }

    /// Room inside the margins, mm, upright or lying.
    pub fn room(self, lying: bool) -> (f64, f64) {
        let (w, h) = self.size();
        let (w, h) = if lying { (h, w) } else { (w, h) };
        (w - 2.0 * MARGINS.0, h - MARGINS.1 - MARGINS.2)
    }
}

impl FromStr for Paper {
    type Err = String;

    fn from_str(word: &str) -> Result<Self, String> {
        let words = Self::ALL.map(Self::word).join(", ");
        Self::ALL
            .into_iter()
            .find(|paper| paper.word() == word)
            .ok_or_else(|| {
                let word = on_one_line(word);
                format!("there is no paper \"{word}\"; there are {words}")
            })
    }
}
