//! Dimensions and leaders.

use geometry::Portable;
use std::f64::consts::{FRAC_PI_2, PI};

use geometry::Length;
use glam::DVec2;

use super::drawing::LineKind;
use super::pen::{FIGURES, Pen};
use super::text::{Anchor, Text, width_of};

/// Room that a pair of arrow heads takes, mm.
const HEADS: f64 = 6.0;

impl Pen {
    /// A length between two points, its line `off` mm to the left of the way from
    /// `from` to `to` (to the right if negative), the figure above it.
    pub fn dimension(&mut self, from: DVec2, to: DVec2, off: f64, figure: &str) {
        let way = (to - from).normalize_or_zero();
        // Left of the way as seen on paper, where y runs down.
        let left = DVec2::new(way.y, -way.x);
        let (a, b) = (from + left * off, to + left * off);
        let over = left * (1.5 * off.signum());
        for (p, q) in [(from, a), (to, b)] {
            if (q - p).length() > 1.0 {
                let gap = (q - p).normalize_or_zero() * 0.8;
                self.line(p + gap, q + over, LineKind::Dimension);
            }
        }
        self.dimension_line(a, b, figure);
    }

    /// A dimension line without extension lines, from arrow to arrow.
    pub fn dimension_line(&mut self, a: DVec2, b: DVec2, figure: &str) {
        let way = (b - a).normalize_or_zero();
        let long = (b - a).length();
        let wide = width_of(figure, FIGURES, false);
        let heads_inside = long >= HEADS;
        if heads_inside {
            self.line(a, b, LineKind::Dimension);
            self.arrow_head(a, -way);
            self.arrow_head(b, way);
        } else {
            self.line(a - way * 5.0, b + way * 5.0, LineKind::Dimension);
            self.arrow_head(a, way);
            self.arrow_head(b, -way);
        }
        let (turn, up) = reading(way);
        let lift = up * 1.0;
        let inside = long >= wide + if heads_inside { 2.0 } else { 0.0 };
        if inside {
            self.text(Text {
                turn,
                ..Text::new((a + b) / 2.0 + lift, figure, Anchor::Middle, FIGURES).with_halo()
            });
        } else {
            // Past the second arrow, on a longer line.
            let start = b + way * if heads_inside { 1.0 } else { 5.5 };
            let end = start + way * (wide + 1.0);
            self.line(b, end, LineKind::Dimension);
            let (at, anchor) = if way.dot(DVec2::from_angle(-turn)) >= 0.0 {
                (start, Anchor::Start)
            } else {
                (start, Anchor::End)
            };
            self.text(Text {
                turn,
                ..Text::new(at + lift, figure, anchor, FIGURES).with_halo()
            });
        }
    }

    /// An angle at `at` between two directions (radians, anticlockwise as seen on
    /// paper), its arc at `radius`.
    pub fn angle(&mut self, at: DVec2, radius: f64, from: f64, to: f64, figure: &str) {
        self.arc(at, radius, from, to - from, LineKind::Dimension);
        let on = |a: f64| at + DVec2::new(a.cosine(), -a.sine()) * radius;
        let along = |a: f64| DVec2::new(-a.sine(), -a.cosine()) * (to - from).signum();
        if radius * (to - from).abs() > HEADS {
            self.arrow_head(on(from), -along(from));
            self.arrow_head(on(to), along(to));
        }
        let mid = (from + to) / 2.0;
        let way = DVec2::new(mid.cosine(), -mid.sine());
        let wide = width_of(figure, FIGURES, false);
        let out = radius + 2.0 + (way.x.abs() * wide + way.y.abs() * FIGURES * 0.66) / 2.0;
        self.text(Text::centred(at + way * out, figure, FIGURES).with_halo());
    }

    /// A leader from a point on the drawing to words beside it. The words stand to the
    /// right of `to` if that lies to the right of `from`, else to the left.
    pub fn leader(&mut self, from: DVec2, to: DVec2, words: &str) {
        let right = to.x >= from.x;
        let foot = if right { 2.5 } else { -2.5 };
        let knee = to - DVec2::new(foot, 0.0);
        self.through(vec![from, knee, to], LineKind::Dimension);
        self.arrow_head(from, from - knee);
        let anchor = if right { Anchor::Start } else { Anchor::End };
        let at = to + DVec2::new(0.8 * foot.signum(), FIGURES * 0.32);
        self.text(Text::new(at, words, anchor, FIGURES).with_halo());
    }

    /// A length as a bare figure of the drawing's unit.
    pub fn figure(&self, length: Length) -> String {
        self.unit.length_bare(length)
    }
}

/// The turn at which words along `way` are read from below or from the right, and
/// the direction that is up for them.
fn reading(way: DVec2) -> (f64, DVec2) {
    let mut turn = -way.y.arctangent2(way.x);
    if turn > FRAC_PI_2 + 1e-9 {
        turn -= PI;
    } else if turn <= -FRAC_PI_2 + 1e-9 {
        turn += PI;
    }
    (turn, DVec2::new(-turn.sine(), -turn.cosine()))
}

/// Heights (or any places along a line) moved apart so that none is nearer to the next
/// than `gap`, each as near as may be to where it was. The order stays.
pub fn spread(places: &[f64], gap: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..places.len()).collect();
    order.sort_by(|&a, &b| places[a].total_cmp(&places[b]));
    // Neighbours that touch form a block that stands on its members' mean.
    let mut blocks: Vec<(f64, usize)> = Vec::new();
    for &i in &order {
        let mut block = (places[i], 1usize);
        while let Some(&(mean, count)) = blocks.last() {
            let apart = (count + block.1) as f64 * gap / 2.0;
            if block.0 - mean >= apart {
                break;
            }
            let all = count + block.1;
            block = (
                (mean * count as f64 + block.0 * block.1 as f64) / all as f64,
                all,
            );
            blocks.pop();
        }
        blocks.push(block);
    }
    let mut out = vec![0.0; places.len()];
    let mut at = order.into_iter();
    for (mean, count) in blocks {
        for k in 0..count {
            if let Some(i) = at.next() {
                out[i] = mean + (k as f64 - (count as f64 - 1.0) / 2.0) * gap;
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spread_keeps_order_and_gap_and_what_is_free() {
        let got = spread(&[10.0, 10.5, 30.0, 9.0], 4.0);
        assert_eq!(got[2], 30.0);
        assert!(got[3] < got[0] && got[0] < got[1]);
        assert!((got[0] - got[3] - 4.0).abs() < 1e-12 && (got[1] - got[0] - 4.0).abs() < 1e-12);
    }

    #[test]
    fn words_are_read_from_below_or_from_the_right() {
        for k in 0..24 {
            let a = PI * f64::from(k) / 12.0;
            let (turn, up) = reading(DVec2::new(a.cosine(), -a.sine()));
            assert!(turn <= FRAC_PI_2 + 1e-6 && turn > -FRAC_PI_2 - 1e-6);
            // Up is a quarter turn anticlockwise from along.
            assert!(up.dot(DVec2::new(turn.cosine(), -turn.sine())).abs() < 1e-12);
        }
    }
}
