//! A ring's last joint: what is left open when all others are glued close.

use geometry::Portable;
use std::f64::consts::TAU;

use glam::DVec2;
use piece::piece::Piece;
use piece::ring::RingSizes;

use super::errors::{Errors, SegmentErrors};

/// The widest gap of all rings, either sign taken off, and the mean square of all, mm.
pub fn ring_gaps(piece: &Piece, errors: &Errors) -> (f64, f64) {
    let (mut widest, mut sum, mut count) = (0.0_f64, 0.0, 0);
    for (section, own) in piece.sections.iter().zip(&errors.sections) {
        for (ring, e) in section.rings.iter().zip(&own.rings) {
            if ring.closing_joints() == 0 {
                continue;
            }
            let gap = closing_gap(&ring.sizes, &e.segments);
            widest = widest.max(gap.abs());
            sum += gap * gap;
            count += 1;
        }
    }
    (widest, sum / f64::from(count.max(1)))
}

/// The wedge that stands open in a ring's last joint when all others are glued close.
///
/// Segments are laid on corner to corner with their mitres flush; what is left between
/// the last face and the first is measured square to the first, at the outer or the
/// inner corner, whichever is wider, mm. Negative where there is too much wood.
///
/// With every mitre off by e and n segments the faces stand 2·n·e apart, and the gap at
/// the outer corner is radius · 2·n·e.
pub fn closing_gap(sizes: &RingSizes, segments: &[SegmentErrors]) -> f64 {
    let n = segments.len();
    if n < 3 {
        return 0.0;
    }
    let (mitre, long) = (sizes.mitre().as_rad(), sizes.long_edge().as_mm());
    // Sideways from the outer corner to the inner along the first joint.
    let depth = sizes.board_width().as_mm() / mitre.cosine();
    let mut at = DVec2::ZERO;
    // Direction of the outer edge; the joint leans by the mitre from square to it.
    let mut heading = mitre + segments[0].mitres[0];
    for (i, s) in segments.iter().enumerate() {
        at += DVec2::from_angle(heading) * (long + s.length);
        let next = segments[(i + 1) % n].mitres[0];
        heading += mitre + s.mitres[1];
        if i + 1 < n {
            heading += mitre + next;
        }
    }
    // The first joint's face runs inwards along +y from the origin, square to +x; the
    // last one's is turned by what the mitres lack of a full turn.
    let lack = TAU - heading;
    let outer = -at.x;
    let inner = outer - depth * lack.sine();
    if outer.abs() > inner.abs() {
        outer
    } else {
        inner
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::{Angle, Length};

    fn ring(segments: usize) -> RingSizes {
        RingSizes {
            segments,
            flat_out: Length::mm(80.0),
            corner_in: Length::mm(60.0),
            filled: 1.0,
        }
    }

    fn all(n: usize, error: SegmentErrors) -> Vec<SegmentErrors> {
        vec![error; n]
    }

    #[test]
    fn a_true_ring_closes() {
        for n in [3, 4, 12, 15, 64, 144] {
            let gap = closing_gap(&ring(n), &all(n, SegmentErrors::default()));
            assert!(gap.abs() < 1e-9, "{n}: {gap}");
        }
    }

    #[test]
    fn mitres_all_off_leave_twice_their_number_times_the_error() {
        // Closed form: n equal edges that each turn by 2(m - e) lie on a circle; the
        // ends are R sin(2 n e) sin(m) / sin(m - e) apart, which is R · 2 n e to first order.
        for (n, degrees) in [(12, 0.02), (15, 0.05), (24, 0.01)] {
            let e = Angle::deg(degrees).as_rad();
            let sizes = ring(n);
            let (m, r) = (sizes.mitre().as_rad(), sizes.corner_out().as_mm());
            let too_small = SegmentErrors {
                mitres: [-e; 2],
                length: 0.0,
            };
            let gap = closing_gap(&sizes, &all(n, too_small));
            let angle = 2.0 * n as f64 * e;
            assert!((gap - r * angle.sine() * m.sine() / (m - e).sine()).abs() < 1e-9);
            assert!((gap / (r * angle) - 1.0).abs() < 0.01, "{n}: {gap}");
            // Too large, and there is as much wood too much.
            let too_large = SegmentErrors {
                mitres: [e; 2],
                length: 0.0,
            };
            let more = closing_gap(&sizes, &all(n, too_large));
            assert!((more + gap).abs() < 0.02 * gap, "{n}: {more}");
        }
    }

    #[test]
    fn the_gap_at_the_outer_corner_does_not_hang_on_the_boards_width() {
        let off = all(
            12,
            SegmentErrors {
                mitres: [-3e-4; 2],
                length: 0.0,
            },
        );
        let wide = closing_gap(&ring(12), &off);
        let narrow = closing_gap(&ring(12).with_board_width(Length::mm(1.0)), &off);
        assert!(wide > 0.5 && (wide - narrow).abs() < 1e-9);
    }

    #[test]
    fn segments_all_too_long_make_a_larger_ring_that_closes() {
        let longer = SegmentErrors {
            mitres: [0.0; 2],
            length: 0.3,
        };
        assert!(closing_gap(&ring(15), &all(15, longer)).abs() < 1e-9);
    }

    #[test]
    fn one_segment_too_long_next_to_the_joint_is_its_own_gap() {
        // A regular polygon's closing vector: the last edge lies at one mitre from
        // square to the joint, so it closes by its length's cosine.
        let sizes = ring(12);
        let mut segments = all(12, SegmentErrors::default());
        segments[11].length = 0.2;
        let gap = closing_gap(&sizes, &segments);
        assert!(
            (gap + 0.2 * sizes.mitre().as_rad().cosine()).abs() < 1e-9,
            "{gap}"
        );
    }
}
