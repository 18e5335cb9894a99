//! The sled from above, set for the second cut.

use geometry::Portable;
use std::f64::consts::FRAC_PI_2;

use files::units::{Unit, degrees};
use geometry::Length;
use glam::DVec2;
use piece::piece::{Band, Piece, Section};

use super::Options;
use crate::vector::pen::FIGURES;
use crate::vector::{Anchor, Drawing, Fill, LineKind, Pen, Text};

/// Thickness at which a faceplate and a fence are drawn, mm; figures do not hang on it.
const PLATE: f64 = 12.0;

/// Said where a slice cannot come out.
const TOGETHER: &str = "The two cuts run into each other: there is no slice, no spacer and no \
                        second cut to set.";

/// The sled from above for one band: blade, line of travel, fence, spacer, faceplate,
/// waste block and blank, both cuts, the tilt between the blank's axis and a line
/// square to the travel. `None` if there is no such band; numbers count from 0.
pub fn sled_from_above(
    piece: &Piece,
    section: usize,
    band: usize,
    options: &Options,
) -> Option<Drawing> {
    let place = piece.sections.get(section)?;
    let set = place.bands.get(band)?;
    let unit = options.unit;
    let sled = &set.sled;
    let size = sled.travel.max(sled.free_side + sled.faceplate_side);
    let scale = options.scale(size);
    let view = View::new(piece, place, set, scale.factor());
    let title = format!("Sled for the loops, section {}", place.name);
    let tilt = degrees(sled.tilt, 2);
    let mut pen = Pen::new(
        format!("{}: {title}", piece.title),
        if set.cuts.run_together() {
            format!(
                "The sled from above. The blank's axis stands {tilt} from square to the line of \
                 travel. {TOGETHER}"
            )
        } else {
            format!(
                "The sled from above, set for the second cut, spacer in place. The blank's axis stands {tilt} \
                 from square to the line of travel. First cut {} from the faceplate's face along the axis, \
                 second cut {}.",
                unit.length(sled.first_cut),
                unit.length(sled.second_cut)
            )
        },
        unit,
    );
    let bounds = board(&mut pen, set, &view);
    bodies(&mut pen, place, set, &view);
    cuts(&mut pen, set, &view, bounds);
    if !set.cuts.run_together() {
        distances(&mut pen, set, &view, bounds);
    }
    column(&mut pen, set, &view, bounds);

    let notes = [
        format!(
            "{} Tilt is measured from a cut square to the axis (0° is straight across).",
            options.note(scale)
        ),
        format!(
            "Saw: {}, kerf {}. {}",
            set.saw.name,
            unit.fine(set.cuts.kerf),
            what_comes_out(set, unit)
        ),
        format!(
            "Axis {} over the table; blade height needed {}.",
            unit.length(sled.centre_height),
            unit.length(sled.blade_height)
        ),
    ];
    pen.heading(DVec2::new(bounds.0.x, bounds.1.y + 16.0), &title, &notes);
    Some(pen.finish(5.0))
}

/// Slice, wood removed and spacer in words, or why there are none.
fn what_comes_out(band: &Band, unit: Unit) -> String {
    let cuts = &band.cuts;
    if cuts.run_together() {
        return TOGETHER.into();
    }
    format!(
        "Slice {}, removed {}, spacer {}.",
        unit.fine(cuts.slice()),
        unit.fine(cuts.removed()),
        unit.fine(cuts.spacer)
    )
}

/// The paper's x runs across the travel, y against it; the blade cuts along x = 0.
struct View {
    k: f64,
    along: DVec2,
    across: DVec2,
    second: f64,
    waste: f64,
    stacked: f64,
    radius: f64,
    spacer: f64,
}

impl View {
    fn new(piece: &Piece, section: &Section, band: &Band, k: f64) -> Self {
        let (s, c) = band.sled.tilt.as_rad().sine_cosine();
        // Where there are no two cuts, the sled is shown at the loops' middle.
        let (second, spacer) = if band.cuts.run_together() {
            (
                *piece.workshop.sled.waste_block + band.loops.height,
                Length::ZERO,
            )
        } else {
            (band.sled.second_cut, band.cuts.spacer)
        };
        View {
            k,
            // y runs down the paper.
            along: DVec2::new(c, -s),
            across: DVec2::new(-s, -c),
            second: second.as_mm(),
            waste: piece.workshop.sled.waste_block.as_mm(),
            stacked: section.stacked.as_mm(),
            radius: section.blank_radius.as_mm(),
            spacer: spacer.as_mm(),
        }
    }

    /// A point `a` mm from the faceplate's face along the axis and `v` mm beside it.
    fn at(&self, a: f64, v: f64) -> DVec2 {
        (self.along * (a - self.second) + self.across * v) * self.k
    }

    fn block(&self, a: (f64, f64), v: f64) -> Vec<DVec2> {
        vec![
            self.at(a.0, -v),
            self.at(a.1, -v),
            self.at(a.1, v),
            self.at(a.0, v),
        ]
    }

    fn fence(&self) -> (f64, f64) {
        let face = -PLATE - self.spacer;
        (face - PLATE, face)
    }
}

/// The sled's board, and its corners on paper.
fn board(pen: &mut Pen, band: &Band, view: &View) -> (DVec2, DVec2) {
    let k = view.k;
    let mut low = DVec2::splat(f64::MAX);
    let mut high = DVec2::splat(f64::MIN);
    let fence = view.block(view.fence(), view.radius * 1.15);
    for p in fence
        .into_iter()
        .chain(view.block((view.waste, view.waste + view.stacked), view.radius))
    {
        low = low.min(p);
        high = high.max(p);
    }
    let half = band.sled.cut_length.as_mm() * k / 2.0 + 8.0;
    low = DVec2::new(low.x - 8.0, low.y.min(-half) - 4.0);
    // To the right there must be room for the tilt.
    high = DVec2::new(high.x + 26.0, high.y.max(half) + 4.0);
    pen.layer("board");
    let corners = crate::vector::pen::rectangle(low, high);
    pen.round(corners, LineKind::Thin);
    (low, high)
}

fn bodies(pen: &mut Pen, section: &Section, band: &Band, view: &View) {
    let r = view.radius;
    pen.layer("jig");
    let parts = [
        (view.fence(), r * 1.15, Fill::Shade),
        ((-PLATE - view.spacer, -PLATE), r * 0.75, Fill::Mark),
        ((-PLATE, 0.0), r * 0.75, Fill::Shade),
        ((0.0, view.waste), r * 0.9, Fill::Paper),
        ((view.waste, view.waste + view.stacked), r, Fill::Paper),
    ];
    for (a, v, fill) in parts.into_iter().filter(|(a, ..)| a.1 > a.0) {
        let shape = view.block(a, v);
        pen.area(vec![shape.clone()], fill);
        let kind = if a.0 >= view.waste - 1e-9 {
            LineKind::Outline
        } else {
            LineKind::Thin
        };
        pen.round(shape, kind);
    }
    pen.layer("rings");
    for ring in section.rings.iter().skip(1) {
        let a = view.waste + ring.bottom.as_mm();
        pen.line(view.at(a, -r), view.at(a, r), LineKind::Guide);
    }
    pen.layer("axis");
    let ends = (
        view.fence().0 - 14.0 / view.k,
        view.waste + view.stacked + 26.0 / view.k,
    );
    pen.line(view.at(ends.0, 0.0), view.at(ends.1, 0.0), LineKind::Centre);
    pen.layer("names");
    // Names stand along their parts, on the side away from the figures.
    let turn = band.sled.tilt.as_rad();
    let words = [
        ("fence", 0.5 * (view.fence().0 + view.fence().1), r * 1.15),
        ("faceplate", -PLATE / 2.0, r * 0.75),
    ];
    for (name, a, v) in words {
        let at = view.at(a, v) + view.across * 2.0;
        pen.text(Text {
            turn: turn + FRAC_PI_2,
            ..Text::new(
                at + view.along * FIGURES * 0.3,
                name,
                Anchor::Start,
                FIGURES,
            )
        });
    }
    for (name, a, v) in [
        ("waste block", view.waste / 2.0, 0.55),
        ("blank", view.waste + last_ring(section), 0.55),
    ] {
        pen.text(Text {
            turn: turn + FRAC_PI_2,
            ..Text::centred(view.at(a, r * v), name, FIGURES).with_halo()
        });
    }
}

/// The middle of a section's last ring: between lines, so that words fit.
fn last_ring(section: &Section) -> f64 {
    section
        .rings
        .last()
        .map_or(0.0, |r| (r.bottom + r.height / 2.0).as_mm())
}

/// Blade, line of travel, both cuts and the tilt.
fn cuts(pen: &mut Pen, band: &Band, view: &View, bounds: (DVec2, DVec2)) {
    let k = view.k;
    // Along a line parallel to the travel the blank is this long on either side of the axis.
    let half = band.sled.cut_length.as_mm() * k / 2.0;
    pen.layer("travel");
    let (top, bottom) = (bounds.0.y - 16.0, bounds.1.y + 5.0);
    pen.line(
        DVec2::new(0.0, top),
        DVec2::new(0.0, bottom),
        LineKind::Centre,
    );
    pen.layer("blade");
    let blade = DVec2::new(0.0, bounds.0.y - 3.0);
    pen.line(blade, blade - DVec2::Y * 7.0, LineKind::Heavy);
    pen.words(blade + DVec2::new(2.0, -1.5), "blade", Anchor::Start);
    pen.layer("way");
    let tail = DVec2::new(bounds.1.x + 7.0, 12.0);
    let tip = tail - DVec2::Y * 24.0;
    pen.line(tail, tip, LineKind::Thin);
    pen.arrow_head(tip, -DVec2::Y);
    pen.text(Text {
        turn: FRAC_PI_2,
        ..Text::new(
            DVec2::new(tail.x + 4.5, 0.0),
            "travel",
            Anchor::Middle,
            FIGURES,
        )
    });
    pen.layer("cuts");
    let axis_second = view.at(view.second, 0.0);
    let axis_first = view.at(band.sled.first_cut.as_mm(), 0.0);
    pen.line(
        axis_second - DVec2::Y * half,
        axis_second + DVec2::Y * half,
        LineKind::Cut,
    );
    if !band.cuts.run_together() {
        pen.line(
            axis_first - DVec2::Y * half,
            axis_first + DVec2::Y * half,
            LineKind::Hidden,
        );
    }
    pen.layer("tilt");
    // Beyond the blank's free end, where nothing else is drawn.
    let reach = (view.stacked - (view.second - view.waste)) * k + 8.0;
    let square = DVec2::X * (reach + 14.0);
    pen.line(axis_second, axis_second + square, LineKind::Dimension);
    let tilt = band.sled.tilt.as_rad();
    pen.angle(axis_second, reach, 0.0, tilt, &degrees(band.sled.tilt, 2));
}

/// Distances along the axis from the faceplate's face, and the spacer.
fn distances(pen: &mut Pen, band: &Band, view: &View, bounds: (DVec2, DVec2)) {
    pen.layer("distances");
    let k = view.k;
    let r = view.radius;
    for (name, cut, row) in [
        ("first cut", band.sled.first_cut, 1.0),
        ("second cut", band.sled.second_cut, 2.0),
    ] {
        let v = -(r + row * 8.0 / k);
        let (from, to) = (view.at(0.0, v), view.at(cut.as_mm(), v));
        let over = view.across * -1.5;
        pen.line(
            view.at(0.0, -r * 0.9) - view.across * 0.8,
            from + over,
            LineKind::Dimension,
        );
        pen.line(view.at(cut.as_mm(), 0.0), to + over, LineKind::Dimension);
        let figure = format!("{name} {}", pen.figure(cut));
        pen.dimension_line(from, to, &figure);
    }
    let spacer = view.at(-PLATE - view.spacer / 2.0, -r * 0.75);
    let words = format!(
        "spacer {}, second cut only",
        pen.unit.fine_bare(band.cuts.spacer)
    );
    let target = DVec2::new(bounds.0.x - 4.0, spacer.y + 10.0);
    pen.leader(spacer, target, &words);
}

/// Which side faces the saw's column, and how much room it takes.
fn column(pen: &mut Pen, band: &Band, _view: &View, bounds: (DVec2, DVec2)) {
    let (free, width) = band.sled.narrower_side();
    pen.layer("column");
    let unit = pen.unit;
    let wide = |w: Length| unit.length_bare(w);
    let y = bounds.0.y - 13.0;
    let words = format!(
        "on this side, to the saw's column, {} of {}",
        wide(width),
        wide(band.saw.room_beside)
    );
    let other = if free {
        band.sled.faceplate_side
    } else {
        band.sled.free_side
    };
    let others = format!("on this side {}", wide(other));
    let (right, left) = if free {
        (words, others)
    } else {
        (others, words)
    };
    pen.words(DVec2::new(4.0, y), right, Anchor::Start);
    pen.words(DVec2::new(-4.0, y), left, Anchor::End);
}
