//! Sizes on paper, measured in pages rendered at 600 dots to the inch.

use drawings::vector::{Drawing, Item, Shape};
use files::units::Unit;
use glam::DVec2;
use sheets::full_size::{Template, templates};
use sheets::tile::{CAPTION, Page as Layout, Placed, lay_out};
use sheets::{MARGINS, Paper, Sheet};

use crate::bench::{Job, Scratch, example, poppler};
use crate::raster::{Line, Page};

/// What may be off on paper: mm and degrees.
const LENGTH: f64 = 0.1;
const ANGLE: f64 = 0.05;

/// Template pages of a piece, rendered on demand.
struct Papers {
    _scratch: Scratch,
    pdf: std::path::PathBuf,
    all: Vec<Template>,
    pages: Vec<Layout>,
    /// Pages before the first page of templates.
    before: usize,
}

impl Papers {
    fn of(job: &Job, paper: Paper) -> Papers {
        let (scratch, pdf) = Scratch::with(&job.pdf(paper, &[Sheet::Templates]));
        let all = templates(job.piece(), job.language);
        let pages = lay_out(&all, paper);
        let path = pdf.to_string_lossy().into_owned();
        let info = poppler("pdfinfo", &[&path]).stdout;
        let info = String::from_utf8_lossy(&info).into_owned();
        let count: usize = info
            .lines()
            .find_map(|l| l.strip_prefix("Pages:")?.trim().parse().ok())
            .expect("a count of pages");
        Papers {
            _scratch: scratch,
            before: count - pages.len(),
            pdf,
            all,
            pages,
        }
    }

    fn page(&self, number: usize) -> Page {
        Page::of(&self.pdf, self.before + number + 1)
    }

    fn template(&self, key: &str) -> (usize, &Template) {
        let found = self
            .all
            .iter()
            .enumerate()
            .find(|(_, t)| t.key.starts_with(key));
        found.unwrap_or_else(|| panic!("no template {key}"))
    }

    /// The pages and places of a template's tiles, in their order.
    fn placed(&self, template: usize) -> Vec<(usize, &Placed)> {
        let on = |(n, page): (usize, &'_ Layout)| -> Vec<(usize, usize)> {
            (0..page.tiles.len())
                .filter(|i| page.tiles[*i].tile.template == template)
                .map(|i| (n, i))
                .collect()
        };
        self.pages
            .iter()
            .enumerate()
            .flat_map(on)
            .map(|(n, i)| (n, &self.pages[n].tiles[i]))
            .collect()
    }
}

/// A point of a drawing on its page, mm.
fn on_page(placed: &Placed, p: DVec2) -> DVec2 {
    DVec2::new(
        MARGINS.0 + placed.x + p.x - placed.tile.left,
        MARGINS.1 + placed.y + CAPTION + p.y - placed.tile.top,
    )
}

/// The corners of the one outline on a layer.
fn corners(drawing: &Drawing, layer: &str) -> Vec<DVec2> {
    let layer = drawing.layers.iter().find(|l| l.name == layer);
    let items = layer.map_or(&[][..], |l| &l.items);
    let outline = items.iter().find_map(|item| match item {
        Item::Line(
            Shape::Polyline {
                points,
                closed: true,
            },
            _,
        ) => Some(points.clone()),
        _ => None,
    });
    outline.expect("an outline on the layer")
}

/// The edges of a printed outline, in their order.
fn edges(page: &Page, placed: &Placed, corners: &[DVec2]) -> Vec<Line> {
    (0..corners.len())
        .map(|i| {
            let (a, b) = (corners[i], corners[(i + 1) % corners.len()]);
            page.line(on_page(placed, a), on_page(placed, b))
        })
        .collect()
}

/// Lengths of an outline's edges, from where they meet.
fn lengths(edges: &[Line]) -> Vec<f64> {
    let n = edges.len();
    let corner = |i: usize| edges[(i + n - 1) % n].meets(&edges[i % n]);
    (0..n)
        .map(|i| (corner(i + 1) - corner(i)).length())
        .collect()
}

fn report(what: &str, errors: &[f64], unit: &str) -> f64 {
    let most = errors.iter().fold(0.0_f64, |m, e| m.max(e.abs()));
    println!(
        "{what}: {} measured, largest error {most:.4} {unit}",
        errors.len()
    );
    most
}

#[test]
fn check_bars_are_as_long_as_they_say() {
    for (paper, unit) in [(Paper::A4, Unit::Mm), (Paper::Letter, Unit::Inch)] {
        let papers = Papers::of(&example("box", unit), paper);
        let layout = &papers.pages[0];
        let (_, room) = paper.room(layout.lying);
        let page = papers.page(0);
        let foot = MARGINS.1 + room;
        let mut errors = Vec::new();
        // Both stand on the left margin, the inch bar 6 mm above the other; the end
        // marks are alone below the bar's line.
        for (long, lift) in [(100.0, 5.0), (101.6, 11.0)] {
            let mark = |x: f64| {
                let top = DVec2::new(MARGINS.0 + x, foot - lift + 2.4);
                page.line(top, top + DVec2::new(0.0, 1.6))
            };
            errors.push(mark(0.0).distance(mark(long).from) - long);
        }
        assert!(report(&format!("check bars, {}", paper.name()), &errors, "mm") <= LENGTH);
    }
}

#[test]
fn a_wrap_round_strip_is_as_long_as_the_section_is_round() {
    let job = example("vase", Unit::Inch);
    let piece = job.piece();
    let section = piece.sections.iter().find(|s| !s.bands.is_empty());
    let section = section.expect("the vase has a knot");
    let wanted = section.blank_radius.as_mm() * std::f64::consts::TAU;
    let papers = Papers::of(&job, Paper::A4);
    let (number, template) = papers.template("wrap-strip");
    let edge = corners(&template.drawing, "edge");
    let (left, right) = (edge[0].x.min(edge[1].x), edge[0].x.max(edge[1].x));
    let (top, bottom) = (edge[0].y, edge[2].y);
    let tiles = papers.placed(number);
    assert!(tiles.len() > 1, "the strip is longer than the paper");
    let mut sum = 0.0;
    let mut rendered: Option<(usize, Page)> = None;
    for (n, placed) in tiles {
        if rendered.as_ref().is_none_or(|r| r.0 != n) {
            rendered = Some((n, papers.page(n)));
        }
        let page = &rendered.as_ref().expect("just rendered").1;
        let tile = &placed.tile;
        let upright = |x: f64, from: f64, to: f64| {
            page.line(
                on_page(placed, DVec2::new(x, from)),
                on_page(placed, DVec2::new(x, to)),
            )
        };
        // From the strip's end or the cross at one side to those at the other.
        let cross = |x: f64| {
            let at = tile.crosses.iter().find(|c| (c.0 - x).abs() < 1e-6);
            let y = at.expect("a cross on the trim line").1;
            upright(x, y - 3.6, y + 3.6)
        };
        let mut trims = tile.trim_x.iter().copied();
        let start = if tile.column.0 == 1 {
            upright(left, top, bottom)
        } else {
            cross(trims.next().expect("a trim line on the left"))
        };
        let end = if tile.column.0 == tile.column.1 {
            upright(right, top, bottom)
        } else {
            cross(trims.next().expect("a trim line on the right"))
        };
        sum += start.distance(end.from + end.way * (end.way.dot(start.from - end.from)));
    }
    assert!(report("wrap-round circumference", &[sum - wanted], "mm") <= LENGTH);
}

#[test]
fn the_wedge_has_the_tilt() {
    let mut errors = Vec::new();
    for (word, unit, paper) in [
        ("bowl", Unit::Mm, Paper::A4),
        ("vase", Unit::Inch, Paper::Letter),
        ("box", Unit::Mm, Paper::Letter),
    ] {
        let job = example(word, unit);
        let band = job.piece().sections.iter().find_map(|s| s.bands.first());
        let tilt = band.expect("every example has a knot").cuts.tilt;
        let papers = Papers::of(&job, paper);
        let (number, template) = papers.template("wedge");
        let tiles = papers.placed(number);
        assert_eq!(tiles.len(), 1, "a wedge fits on a page");
        let (n, placed) = tiles[0];
        let triangle = corners(&template.drawing, "wedge");
        let edges = edges(&papers.page(n), placed, &triangle);
        // The first corner is the sharp one: between the first and the last edge.
        errors.push(edges[0].angle(&edges[2]) - tilt.as_deg());
        errors.push(edges[0].angle(&edges[1]) - 90.0);
    }
    assert!(report("wedge", &errors, "°") <= ANGLE);
}

#[test]
fn segments_are_as_they_are_cut() {
    let (mut sides, mut ends) = (Vec::new(), Vec::new());
    for (word, unit, paper) in [
        ("vase", Unit::Inch, Paper::Letter),
        ("bowl", Unit::Mm, Paper::A4),
    ] {
        let job = example(word, unit);
        let piece = job.piece();
        let papers = Papers::of(&job, paper);
        let mut rendered: Option<(usize, Page)> = None;
        for s in 0..piece.sections.len() {
            for group in plan::ring_group::RingGroup::of_section(piece, s) {
                if !group.segmented() {
                    continue;
                }
                let sizes = group.sizes();
                let title = format!("Segment of {}", group.name().said(job.language));
                let number = papers.all.iter().position(|t| t.title == title);
                let number = number.expect("a template for each ring");
                let tiles = papers.placed(number);
                assert_eq!(tiles.len(), 1, "{title} fits on a page");
                let (n, placed) = tiles[0];
                if rendered.as_ref().is_none_or(|r| r.0 != n) {
                    rendered = Some((n, papers.page(n)));
                }
                let page = &rendered.as_ref().expect("just rendered").1;
                let outline = corners(&papers.all[number].drawing, "segment");
                let edges = edges(page, placed, &outline);
                let long = lengths(&edges);
                sides.push(long[0] - sizes.long_edge().as_mm());
                sides.push(long[2] - sizes.short_edge().as_mm());
                sides.push(
                    edges[0].distance(edges[2].meets(&edges[1])) - sizes.board_width().as_mm(),
                );
                // The closed form of a mitre, 180°/n.
                let mitre = 180.0 / sizes.segments as f64;
                ends.push(90.0 - edges[0].angle(&edges[1]) - mitre);
                ends.push(90.0 - edges[0].angle(&edges[3]) - mitre);
            }
        }
    }
    assert!(report("segments' edges and widths", &sides, "mm") <= LENGTH);
    assert!(report("segments' mitres", &ends, "°") <= ANGLE);
}
