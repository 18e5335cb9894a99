//! A page as dots, and where its lines run.

use std::path::Path;

use glam::DVec2;

use crate::bench::poppler;

/// Dots to the inch: fine enough that a line's middle is found to some micrometres.
const DPI: f64 = 600.0;

/// A page in grey, 0 black to 255 white.
pub struct Page {
    wide: usize,
    high: usize,
    dots: Vec<u8>,
}

impl Page {
    /// A page of a PDF, from 1, as poppler's pdftoppm renders it.
    pub fn of(pdf: &Path, number: usize) -> Page {
        Page::at(pdf, number, DPI)
    }

    /// The same at another fineness.
    pub fn at(pdf: &Path, number: usize, dpi: f64) -> Page {
        let n = number.to_string();
        let r = dpi.to_string();
        let path = pdf.to_string_lossy();
        let out = poppler("pdftoppm", &["-gray", "-r", &r, "-f", &n, "-l", &n, &path]);
        Page::read(&out.stdout)
    }

    /// A binary greymap (PGM, P5).
    fn read(bytes: &[u8]) -> Page {
        let mut at = 0;
        let mut words = Vec::new();
        while words.len() < 4 {
            while bytes[at].is_ascii_whitespace() {
                at += 1;
            }
            let start = at;
            while !bytes[at].is_ascii_whitespace() {
                at += 1;
            }
            words.push(String::from_utf8_lossy(&bytes[start..at]).into_owned());
        }
        assert_eq!(words[0], "P5");
        let size = |i: usize| words[i].parse::<usize>().expect("a size");
        let (wide, high) = (size(1), size(2));
        let dots = bytes[at + 1..].to_vec();
        assert_eq!(dots.len(), wide * high);
        Page { wide, high, dots }
    }

    /// How dark it is at a point, mm from the upper left corner: 0 white to 1 black.
    fn dark(&self, p: DVec2) -> f64 {
        // A dot's middle lies half a dot in.
        let at = p * (DPI / 25.4) - 0.5;
        let (x, y) = (at.x.floor(), at.y.floor());
        let (u, v) = (at.x - x, at.y - y);
        let dot = |x: f64, y: f64| {
            let inside = x >= 0.0 && y >= 0.0 && x < self.wide as f64 && y < self.high as f64;
            if inside {
                1.0 - f64::from(self.dots[y as usize * self.wide + x as usize]) / 255.0
            } else {
                0.0
            }
        };
        let (a, b) = (dot(x, y), dot(x + 1.0, y));
        let (c, d) = (dot(x, y + 1.0), dot(x + 1.0, y + 1.0));
        (a * (1.0 - u) + b * u) * (1.0 - v) + (c * (1.0 - u) + d * u) * v
    }

    /// The share of the page's height from `top` to `bottom` mm, in rows of a millimetre,
    /// that has any ink; for pages rendered at 25.4 dots to the inch.
    pub fn inked_rows(&self, top: usize, bottom: usize) -> f64 {
        let rows = top..bottom.min(self.high);
        let inked = rows
            .clone()
            .filter(|y| {
                self.dots[y * self.wide..(y + 1) * self.wide]
                    .iter()
                    .any(|d| *d < 235)
            })
            .count();
        inked as f64 / rows.len().max(1) as f64
    }

    /// Height of the page, mm, where it was rendered at 25.4 dots to the inch.
    pub fn high(&self) -> usize {
        self.high
    }

    /// The straight line that is printed near the way from `a` to `b`, mm.
    ///
    /// Its middle is found across the way at many places; places where other ink
    /// disturbs are outvoted.
    pub fn line(&self, a: DVec2, b: DVec2) -> Line {
        const PLACES: usize = 80;
        const REACH: f64 = 0.9;
        const STEP: f64 = 0.01;
        let way = (b - a).normalize();
        let across = way.perp();
        let mut found: Vec<(f64, f64)> = Vec::new();
        for k in 0..PLACES {
            let s = (0.06 + 0.88 * k as f64 / (PLACES - 1) as f64) * (b - a).length();
            let (mut ink, mut moment) = (0.0, 0.0);
            let steps = (REACH / STEP) as i32;
            for i in -steps..=steps {
                let d = f64::from(i) * STEP;
                let dark = self.dark(a + way * s + across * d);
                ink += dark;
                moment += dark * d;
            }
            // Less than a twentieth of a millimetre of black is no line.
            if ink * STEP > 0.05 {
                found.push((s, moment / ink));
            }
        }
        assert!(
            found.len() >= PLACES / 3,
            "no line from {a} to {b}: {} places",
            found.len()
        );
        let (slope, offset) = theil_sen(&found);
        Line {
            from: a + across * offset,
            way: (way + across * slope).normalize(),
        }
    }
}

/// Median of all slopes, and the median offset at that slope: a line through most
/// points whatever the rest do.
fn theil_sen(points: &[(f64, f64)]) -> (f64, f64) {
    let median = |mut all: Vec<f64>| {
        all.sort_by(f64::total_cmp);
        all[all.len() / 2]
    };
    let mut slopes = Vec::new();
    for (i, p) in points.iter().enumerate() {
        for q in &points[i + 1..] {
            slopes.push((q.1 - p.1) / (q.0 - p.0));
        }
    }
    let slope = if slopes.is_empty() {
        0.0
    } else {
        median(slopes)
    };
    (
        slope,
        median(points.iter().map(|p| p.1 - slope * p.0).collect()),
    )
}

/// A straight line as it was found.
#[derive(Debug, Clone, Copy)]
pub struct Line {
    pub from: DVec2,
    pub way: DVec2,
}

impl Line {
    /// Where two lines meet.
    pub fn meets(&self, other: &Line) -> DVec2 {
        let across = self.way.perp_dot(other.way);
        self.from + self.way * ((other.from - self.from).perp_dot(other.way) / across)
    }

    /// Distance of a point.
    pub fn distance(&self, p: DVec2) -> f64 {
        self.way.perp_dot(p - self.from).abs()
    }

    /// Angle to another line, degrees, 0 to 90.
    pub fn angle(&self, other: &Line) -> f64 {
        let (s, c) = (self.way.perp_dot(other.way), self.way.dot(other.way));
        s.abs().atan2(c.abs()).to_degrees()
    }
}
