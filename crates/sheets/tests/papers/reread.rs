//! SVG and DXF templates, read again and compared with the drawings: SVG by a library
//! that is not ours, DXF as plain pairs of group codes and values. `cargo xtask test`
//! has both read by other libraries, too (`crates/sheets/tests/reread/reread.py`).

use drawings::vector::{Drawing, Item, Shape};
use files::units::Unit;
use glam::DVec2;
use sheets::full_size::{INCHES_BAR, MM_BAR, templates};

use crate::bench::example;
use crate::dxf::Dxf;

/// How exact a length is kept in a file, mm.
const EXACT: f64 = 0.01;

/// Straight lines of a file as corner points, by layer where the format has them.
type Lines = Vec<(String, Vec<DVec2>)>;

fn from_dxf(bytes: &[u8]) -> Lines {
    Dxf::read(bytes).lines()
}

/// usvg's user units are CSS pixels, 96 to the inch.
fn from_svg(bytes: &[u8]) -> Lines {
    let tree = usvg::Tree::from_data(bytes, &usvg::Options::default()).expect("an SVG");
    let mut out = Vec::new();
    gather(tree.root(), &mut out);
    out
}

fn gather(group: &usvg::Group, out: &mut Lines) {
    let mm = 25.4 / 96.0;
    for node in group.children() {
        match node {
            usvg::Node::Group(inner) => gather(inner, out),
            usvg::Node::Path(path) if path.stroke().is_some() => {
                let at = path.abs_transform();
                let mut points = Vec::new();
                let mut first = None;
                for segment in path.data().segments() {
                    use usvg::tiny_skia_path::PathSegment;
                    match segment {
                        PathSegment::MoveTo(p) | PathSegment::LineTo(p) => {
                            let mut p = p;
                            at.map_point(&mut p);
                            let p = DVec2::new(f64::from(p.x), f64::from(p.y)) * mm;
                            first.get_or_insert(p);
                            points.push(p);
                        }
                        PathSegment::Close => points.extend(first),
                        _ => {}
                    }
                }
                out.push((String::new(), points));
            }
            _ => {}
        }
    }
}

/// Lengths of all straight pieces, sorted.
fn lengths(lines: &Lines, layer: Option<&str>) -> Vec<f64> {
    let mut all: Vec<f64> = lines
        .iter()
        .filter(|(name, _)| layer.is_none_or(|l| name == l))
        .flat_map(|(_, points)| points.windows(2).map(|w| (w[1] - w[0]).length()))
        .filter(|l| *l > 0.0)
        .collect();
    all.sort_by(f64::total_cmp);
    all
}

/// The same of the drawing itself.
fn drawn(drawing: &Drawing, layer: Option<&str>) -> Lines {
    drawing
        .layers
        .iter()
        .filter(|l| layer.is_none_or(|name| l.name == name))
        .flat_map(|l| &l.items)
        .filter_map(|item| match item {
            Item::Line(shape @ Shape::Polyline { .. }, _) => {
                Some((String::new(), shape.points(0.01)))
            }
            _ => None,
        })
        .collect()
}

/// Every wanted length is there, as near as a file must keep it.
fn compare(what: &str, wanted: &[f64], found: &[f64]) -> f64 {
    let mut most: f64 = 0.0;
    for length in wanted {
        let nearest = found
            .iter()
            .map(|f| (f - length).abs())
            .fold(f64::MAX, f64::min);
        assert!(nearest <= EXACT, "{what}: nothing is {length:.4} long");
        most = most.max(nearest);
    }
    most
}

#[test]
fn files_keep_every_length() {
    let (mut svg_most, mut dxf_most, mut count) = (0.0_f64, 0.0_f64, 0);
    for (word, unit) in [("bowl", Unit::Mm), ("vase", Unit::Inch), ("box", Unit::Mm)] {
        let job = example(word, unit);
        let files: Vec<_> = sheets::template_files(job.piece(), job.language).collect();
        for template in templates(job.piece(), job.language) {
            let bytes = |ending: &str| {
                let name = format!("{}.{ending}", template.key);
                let file = files.iter().find(|f| f.0 == name);
                &file.unwrap_or_else(|| panic!("no {name}")).1
            };
            // Below a tenth of a millimetre the pieces of curves are as good as equal.
            let wanted: Vec<f64> = lengths(&drawn(&template.drawing, None), None)
                .into_iter()
                .filter(|l| *l > 0.5)
                .collect();
            let (dxf, svg) = (from_dxf(bytes("dxf")), from_svg(bytes("svg")));
            dxf_most = dxf_most.max(compare(&template.key, &wanted, &lengths(&dxf, None)));
            svg_most = svg_most.max(compare(&template.key, &wanted, &lengths(&svg, None)));
            for bar in [MM_BAR, INCHES_BAR] {
                compare("check bar", &[bar], &lengths(&svg, None));
                compare("check bar", &[bar], &lengths(&dxf, Some("CHECK-BARS")));
            }
            count += wanted.len();
        }
    }
    println!("{count} lengths: SVG to {svg_most:.5} mm, DXF to {dxf_most:.6} mm");
}

#[test]
fn figures_that_are_cut_to_are_in_the_dxf() {
    let job = example("vase", Unit::Inch);
    let files: Vec<_> = sheets::template_files(job.piece(), job.language).collect();
    let read = |start: &str| {
        let file = files
            .iter()
            .find(|f| f.0.starts_with(start) && f.0.ends_with(".dxf"));
        from_dxf(&file.expect("a file").1)
    };
    let section = job.piece().sections.iter().find(|s| !s.bands.is_empty());
    let section = section.expect("the vase has a knot");
    // The strip: 2πR long, as high as the section is stacked.
    let round = section.blank_radius.as_mm() * std::f64::consts::TAU;
    let edge = lengths(&read("wrap-strip"), Some("EDGE"));
    compare("wrap-round strip", &[round, section.stacked.as_mm()], &edge);
    // The wedge: its sharp corner by its two long edges.
    let tilt = section.bands[0].cuts.tilt.as_rad();
    let wedge = read("wedge");
    let corners = &wedge.iter().find(|l| l.0 == "WEDGE").expect("a wedge").1;
    let (a, b) = (corners[1] - corners[0], corners[2] - corners[0]);
    assert!((a.perp_dot(b).atan2(a.dot(b)).abs() - tilt).abs() < 1e-6);
    // One segment: closed forms of a regular polygon.
    let ring = &section.rings[0];
    let half = std::f64::consts::PI / ring.sizes.segments as f64;
    let long = 2.0 * ring.sizes.flat_out.as_mm() * half.tan();
    let number = job
        .piece()
        .sections
        .iter()
        .position(|s| s.name == section.name);
    let group = plan::ring_group::RingGroup::of_section(job.piece(), number.unwrap_or(0)).remove(0);
    let title = format!("Segment of {}", group.name().said(job.language));
    let template = templates(job.piece(), job.language)
        .into_iter()
        .find(|t| t.title == title);
    let segment = lengths(&read(&template.expect("its template").key), Some("SEGMENT"));
    compare("segment", &[long], &segment);
}

#[test]
fn layers_have_names_that_release_12_allows() {
    let job = example("box", Unit::Mm);
    for (name, bytes) in sheets::template_files(job.piece(), job.language) {
        if !name.ends_with(".dxf") {
            continue;
        }
        assert!(bytes.is_ascii(), "{name}");
        let file = Dxf::read(&bytes);
        assert_eq!(file.release(), "AC1009");
        let layers = file.layers();
        assert!(layers.contains(&"CHECK-BARS".to_string()), "{layers:?}");
        for layer in layers {
            let right = |c: char| c.is_ascii_uppercase() || c.is_ascii_digit() || "-_$".contains(c);
            assert!(layer.chars().all(right) && layer.len() <= 31, "{layer}");
        }
    }
}

#[test]
fn no_template_has_words_on_words() {
    for (word, unit) in [
        ("bowl", Unit::Mm),
        ("vase", Unit::Inch),
        ("box", Unit::Inch),
    ] {
        for template in templates(example(word, unit).piece(), unit.into()) {
            let over = drawings::vector::overlapping_words(&template.drawing);
            assert!(over.is_empty(), "{}: {over:?}", template.title);
        }
    }
}
