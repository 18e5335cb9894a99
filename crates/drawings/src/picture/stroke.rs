//! Thin lines drawn over a picture, row by row, with soft edges.

use glam::DVec2;

/// Straight strokes, ready to be asked for one row of pixels at a time.
#[derive(Debug)]
pub struct Strokes {
    lines: Vec<Stroke>,
    /// Strokes that reach each row.
    rows: Vec<Vec<u32>>,
    width: usize,
}

/// A straight stroke in pixels.
#[derive(Debug, Clone, Copy)]
struct Stroke {
    from: DVec2,
    to: DVec2,
    /// Half its width, pixels.
    half: f64,
    /// How dark at most, 0 to 1.
    dark: f32,
}

impl Strokes {
    /// No strokes yet, on a picture of a size.
    pub fn new(width: u32, height: u32) -> Self {
        Strokes {
            lines: Vec::new(),
            rows: vec![Vec::new(); height as usize],
            width: width as usize,
        }
    }

    /// A line through points in pixels, `wide` pixels wide.
    pub fn draw(&mut self, points: &[DVec2], wide: f64, dark: f32) {
        let half = 0.5 * wide;
        for w in points.windows(2) {
            if !(w[0].is_finite() && w[1].is_finite()) {
                continue;
            }
            let number = self.lines.len() as u32;
            self.lines.push(Stroke {
                from: w[0],
                to: w[1],
                half,
                dark,
            });
            let reach = half + 1.0;
            let low = (w[0].y.min(w[1].y) - reach).floor().max(0.0) as usize;
            let high = (w[0].y.max(w[1].y) + reach).ceil().max(0.0) as usize;
            for row in self.rows.iter_mut().take(high).skip(low) {
                row.push(number);
            }
        }
    }

    /// How dark each pixel of a row is, into `out`.
    pub fn row(&self, y: usize, out: &mut [f32]) {
        out.fill(0.0);
        let Some(row) = self.rows.get(y) else {
            return;
        };
        let centre = y as f64 + 0.5;
        for &number in row {
            let s = &self.lines[number as usize];
            let reach = s.half + 1.0;
            let way = s.to - s.from;
            // Only where the stroke is near this row.
            let (mut t0, mut t1) = (0.0, 1.0);
            if way.y.abs() > 1e-9 {
                let a = (centre - reach - s.from.y) / way.y;
                let b = (centre + reach - s.from.y) / way.y;
                t0 = a.min(b).clamp(0.0, 1.0);
                t1 = a.max(b).clamp(0.0, 1.0);
            }
            let (xa, xb) = (s.from.x + way.x * t0, s.from.x + way.x * t1);
            let first = (xa.min(xb) - reach).floor().max(0.0) as usize;
            let last = ((xa.max(xb) + reach).ceil().max(0.0) as usize).min(self.width);
            let length2 = way.length_squared().max(1e-18);
            // A line thinner than a pixel is fainter, not thinner.
            let most = (2.0 * s.half).min(1.0);
            for (x, dark) in out.iter_mut().enumerate().take(last).skip(first) {
                let p = DVec2::new(x as f64 + 0.5, centre);
                let t = ((p - s.from).dot(way) / length2).clamp(0.0, 1.0);
                let d = (s.from + way * t - p).length();
                let cover = (s.half.max(0.5) + 0.5 - d).clamp(0.0, 1.0) * most;
                *dark = dark.max(cover as f32 * s.dark);
            }
        }
    }
}
