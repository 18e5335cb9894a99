//! A ring's figures.

use files::message::{Message, Value};
use files::say;
use geometry::Portable;
use geometry::{Angle, Length};
use piece::ring::RingSizes;

use super::{POLYGON, PRACTICE, SUM};
use crate::figure::{Amount, Figure, Working};

fn with_count(working: Working, sizes: &RingSizes) -> Working {
    let working = working.with("segments", Amount::Count(sizes.segments));
    if sizes.filled < 1.0 {
        working.with("share filled", Amount::Percent(sizes.filled * 100.0))
    } else {
        working
    }
}

/// The formula of a closed ring, or that of one whose segments fill a share of it.
fn of_ring(sizes: &RingSizes, closed: &'static str, open: &'static str) -> &'static str {
    if sizes.filled < 1.0 { open } else { closed }
}

/// The angle that each end is cut from square.
pub fn mitre(sizes: &RingSizes) -> Figure {
    Figure::setting(
        "mitre",
        "mitre, from square",
        Amount::Angle(sizes.mitre()),
        with_count(
            Working::new(
                of_ring(
                    sizes,
                    "mitre = 180° / segments",
                    "mitre = share filled · 180° / segments",
                ),
                POLYGON,
            ),
            sizes,
        ),
    )
}

/// A segment's outer edge.
pub fn long_edge(sizes: &RingSizes) -> Figure {
    Figure::setting(
        "long_edge",
        edge_label("segment's long edge", sizes),
        edge(sizes, sizes.long_edge()),
        with_count(
            Working::new(
                of_ring(
                    sizes,
                    "long edge = 2 · flat radius outside · tan(180° / segments)",
                    "long edge = 2 · flat radius outside · tan(share filled · 180° / segments)",
                ),
                POLYGON,
            ),
            sizes,
        )
        .with("flat radius outside", Amount::Length(sizes.flat_out)),
    )
}

/// Half of the coarsest step that an edge is read off: 1/128 in.
const HALF_STEP: f64 = 25.4 / 128.0;
/// What a ring's radius may lose to that: a quarter of the wood that is usually left outside
/// (common practice).
const LOST: f64 = 0.75;

/// Is an edge multiplied by so many segments that a rule is too coarse for it? An edge that is
/// off by e moves the ring's flats by e / (2 tan(180° / segments)).
fn needs_fine(sizes: &RingSizes) -> bool {
    HALF_STEP / (2.0 * sizes.mitre().as_rad().tangent()) > LOST
}

fn edge(sizes: &RingSizes, length: Length) -> Amount {
    if needs_fine(sizes) {
        Amount::Fine(length)
    } else {
        Amount::Length(length)
    }
}

fn edge_label(label: &'static str, sizes: &RingSizes) -> Message {
    if needs_fine(sizes) {
        say!(
            "{label}, by calliper: {segments} of them add up",
            label = label,
            segments = sizes.segments,
        )
    } else {
        Message::plain(label)
    }
}

/// A segment's inner edge.
pub fn short_edge(sizes: &RingSizes) -> Figure {
    Figure::setting(
        "short_edge",
        edge_label("segment's short edge", sizes),
        edge(sizes, sizes.short_edge()),
        with_count(
            Working::new(
                of_ring(
                    sizes,
                    "short edge = 2 · corner radius inside · sin(180° / segments)",
                    "short edge = 2 · corner radius inside · sin(share filled · 180° / segments)",
                ),
                POLYGON,
            ),
            sizes,
        )
        .with("corner radius inside", Amount::Length(sizes.corner_in)),
    )
}

/// Width of the strip when it is mitred.
pub fn board_width(sizes: &RingSizes) -> Figure {
    Figure::setting(
        "board_width",
        "strip's width, jointed",
        Amount::Length(sizes.board_width()),
        with_count(
            Working::new(
                of_ring(sizes, "width = flat radius outside − corner radius inside · cos(180° / segments)", "width = flat radius outside − corner radius inside · cos(share filled · 180° / segments)"),
                POLYGON,
            ),
            sizes,
        )
        .with("flat radius outside", Amount::Length(sizes.flat_out))
        .with("corner radius inside", Amount::Length(sizes.corner_in)),
    )
}

/// Width of the strip as it comes from the rip fence.
pub fn rip_width(sizes: &RingSizes, jointing: Length) -> Figure {
    Figure::setting(
        "rip_width",
        "rip strips to",
        Amount::Length(sizes.board_width() + jointing * 2.0),
        Working::new("rip width = strip's width + 2 · loss to jointing", SUM)
            .with("strip's width", Amount::Length(sizes.board_width()))
            .with("loss to jointing", Amount::Length(jointing)),
    )
}

/// Strip that `count` of a ring's segments take: their pitches, the first trimming
/// cut, and the slant lost at the end.
pub fn strip_for(sizes: &RingSizes, count: usize, kerf: Length) -> Length {
    sizes.pitch(kerf) * count as f64
        + kerf / sizes.mitre().as_rad().cosine()
        + (sizes.long_edge() - sizes.short_edge()) / 2.0
}

/// Length of strip for `rings` rings alike with `count` segments of one wood each,
/// a strip for each ring.
pub fn strip_length(
    key: String,
    wood: String,
    sizes: &RingSizes,
    (rings, count): (usize, usize),
    kerf: Length,
) -> Figure {
    Figure::setting(
        key,
        if rings == 1 {
            say!("strip of {wood}", wood = Value::name(wood))
        } else {
            say!("strip of {wood}, for each ring", wood = Value::name(wood))
        },
        Amount::Length(strip_for(sizes, count, kerf)),
        Working::new(
            "strip = segments · pitch + kerf / cos(mitre) + (long edge − short edge) / 2, with \
             pitch = (long edge + short edge) / 2 + kerf / cos(mitre), segments flipped end \
             for end",
            POLYGON,
        )
        .with("segments of this wood", Amount::Count(count))
        .with("long edge", Amount::Length(sizes.long_edge()))
        .with("short edge", Amount::Length(sizes.short_edge()))
        .with("mitre", Amount::Angle(sizes.mitre()))
        .with("kerf", Amount::Fine(kerf)),
    )
}

/// Both diameters outside: flat to flat and corner to corner.
pub fn outside(sizes: &RingSizes) -> [Figure; 2] {
    [
        Figure::note(
            "outside_flats",
            "outside, flat to flat",
            Amount::Length(sizes.flat_out * 2.0),
        )
        .worked(
            Working::new(
                "2 · (largest finished radius over the ring's height + allowance outside), or \
                 as given",
                POLYGON,
            )
            .with("flat radius", Amount::Length(sizes.flat_out)),
        ),
        Figure::note(
            "outside_corners",
            "outside, corner to corner",
            Amount::Length(sizes.corner_out() * 2.0),
        )
        .worked(with_count(
            Working::new(
                of_ring(
                    sizes,
                    "flat to flat / cos(180° / segments)",
                    "flat to flat / cos(share filled · 180° / segments)",
                ),
                POLYGON,
            )
            .with("flat to flat", Amount::Length(sizes.flat_out * 2.0)),
            sizes,
        )),
    ]
}

/// Both diameters inside.
pub fn inside(sizes: &RingSizes) -> [Figure; 2] {
    [
        Figure::note(
            "inside_corners",
            "inside, corner to corner",
            Amount::Length(sizes.corner_in * 2.0),
        )
        .worked(
            Working::new(
                "2 · (smallest finished radius over the ring's height − allowance inside), or \
                 as given",
                POLYGON,
            )
            .with("corner radius", Amount::Length(sizes.corner_in)),
        ),
        Figure::note(
            "inside_flats",
            "inside, flat to flat",
            Amount::Length(sizes.flat_in() * 2.0),
        )
        .worked(with_count(
            Working::new(
                of_ring(
                    sizes,
                    "corner to corner · cos(180° / segments)",
                    "corner to corner · cos(share filled · 180° / segments)",
                ),
                POLYGON,
            )
            .with("corner to corner", Amount::Length(sizes.corner_in * 2.0)),
            sizes,
        )),
    ]
}

/// An error that a good mitre gauge may still have.
pub const SMALL_ERROR: Angle = Angle::deg(0.1);

/// What a small error of every mitre adds up to when the ring closes: a wedge at a
/// half-ring's joint, or with an odd count the gap at the last joint.
pub fn closing(sizes: &RingSizes) -> Figure {
    let even = sizes.segments.is_multiple_of(2);
    let working = |formula: &'static str| {
        with_count(Working::new(formula, POLYGON), sizes)
            .with("error of each mitre", Amount::Angle(SMALL_ERROR))
            .with("corner radius outside", Amount::Length(sizes.corner_out()))
    };
    if even {
        Figure::note(
            "half_ring_wedge",
            "wedge at a half-ring's joint for 0.1° at each cut",
            Amount::Fine(sizes.half_ring_wedge(SMALL_ERROR)),
        )
        .worked(working(
            "wedge = 2 · corner radius outside · sin(cuts in the half · error / 2)",
        ))
    } else {
        Figure::note(
            "closing_gap",
            "gap at the last joint for 0.1° at each cut",
            Amount::Fine(sizes.corner_out() * (2.0 * sizes.segments as f64 * SMALL_ERROR.as_rad())),
        )
        .worked(working(
            "gap = 2 · segments · error (in radians) · corner radius outside",
        ))
    }
}

/// Ring height after flattening.
pub fn height(height: Length, stock: Length, loss: Length) -> Figure {
    Figure::setting(
        "height",
        "ring's height, flattened",
        Amount::Fine(height),
        Working::new(
            "height = board thickness − 2 · flattening loss, or as given",
            PRACTICE,
        )
        .with("board thickness", Amount::Length(stock))
        .with("flattening loss", Amount::Fine(loss)),
    )
}

/// How far a ring's joints are turned against the ring below, and that as an arc
/// round its outside.
pub fn joint_turn(number: usize, turn: Angle, radius: Length) -> [Figure; 2] {
    let working = || {
        Working::new(
            "turn as given, or half a segment = 180° / segments to and fro",
            PRACTICE,
        )
    };
    [
        Figure::setting(
            format!("joint_turn_{number}"),
            say!("ring {number}: joints turned", number = number),
            Amount::Angle(turn),
            working(),
        ),
        Figure::setting(
            format!("joint_turn_arc_{number}"),
            "the same round the outside, at the flats",
            Amount::Length(arc(radius, turn)),
            Working::new("arc = flat radius outside · turn (in radians)", POLYGON)
                .with("flat radius outside", Amount::Length(radius))
                .with("turn", Amount::Angle(turn)),
        ),
    ]
}

/// An angle as a length round a circle.
pub fn arc(radius: Length, angle: Angle) -> Length {
    radius * angle.as_rad()
}

#[cfg(test)]
mod tests {
    use super::*;
    use files::units::{Unit, parse_length};

    /// How far a ring's flats are off when its edges are cut as they are printed:
    /// e / (2 tan(180°/n)).
    fn lost(segments: usize, radius: Length, unit: Unit) -> f64 {
        let sizes = RingSizes {
            segments,
            flat_out: radius,
            corner_in: Length::ZERO,
            filled: 1.0,
        };
        let shown = long_edge(&sizes).amount.show(unit);
        let cut = parse_length(&shown, unit).expect("a length");
        let half = std::f64::consts::PI / segments as f64;
        ((cut - sizes.long_edge()).as_mm() / (2.0 * half.tan())).abs()
    }

    /// 144 edges of 0.2889 in, printed as 9/32 in, end a ring 4.5 mm short; in thousandths it
    /// is covered.
    #[test]
    fn edges_are_printed_as_exactly_as_their_number_needs() {
        let radius = Length::inches(0.2889 / (2.0 * (std::f64::consts::PI / 144.0).tan()));
        let rough = parse_length("9/32 in", Unit::Inch).expect("a length");
        let short =
            (Length::inches(0.2889) - rough).as_mm() / (2.0 * (std::f64::consts::PI / 144.0).tan());
        assert!(short > 1.4, "{short}");
        for unit in [Unit::Mm, Unit::Inch] {
            for segments in [3, 6, 8, 12, 16, 24, 36, 48, 72, 144] {
                for step in 0..50 {
                    let radius = radius + Length::mm(f64::from(step) * 0.37);
                    let lost = lost(segments, radius, unit);
                    assert!(lost < 0.8, "{segments} {unit:?}: {lost}");
                }
            }
        }
        // A fraction stays a fraction where it is exact enough.
        let twelve = RingSizes {
            segments: 12,
            flat_out: radius,
            corner_in: Length::ZERO,
            filled: 1.0,
        };
        assert!(matches!(long_edge(&twelve).amount, Amount::Length(_)));
    }
}
