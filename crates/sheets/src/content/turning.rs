//! Sheet 6: heights, diameters and walls, speeds, and how far a tool reaches.

use drawings::views::{Options, half_section};
use files::message::Said;
use geometry::Length;
use piece::form::WallSide;
use plan::operations::OperationKind;
use serde::Serialize;

use super::art::{Art, Picture};
use super::steps::Steps;
use super::{Setting, Source};

/// Room for the half-section.
const ROOM: Length = Length::mm(136.0);
/// Steps in which a vessel is hollowed.
const STAGES: usize = 4;

/// The turning sheet.
#[derive(Debug, Serialize)]
pub struct Turning {
    picture: Picture,
    /// The picture is true to size.
    full_size: bool,
    rows: Vec<Row>,
    gauge: Vec<Gauge>,
    speeds: Vec<Setting>,
    depth: Vec<Setting>,
    stages: Vec<Stage>,
    steps: Steps,
}

/// One height.
#[derive(Debug, Serialize)]
struct Row {
    height: String,
    below_rim: String,
    outside: String,
    inside: String,
    wall: String,
}

/// A point that a turner checks by itself.
#[derive(Debug, Serialize)]
struct Gauge {
    what: String,
    height: String,
    across: String,
}

/// One stage of hollowing.
#[derive(Debug, Serialize)]
struct Stage {
    name: String,
    from: String,
    to: String,
    opening: String,
    overhang: String,
}

/// The turning sheet of a piece.
pub fn turning(source: &Source<'_>, art: &mut Art) -> Turning {
    let form = &source.piece.form;
    let unit = source.unit;
    let say = |l: Length| unit.length_bare(l);
    let rows = heights(source)
        .into_iter()
        .rev()
        .map(|z| {
            let at = z.as_mm();
            let across = |r: Option<f64>| r.map_or(String::new(), |r| say(Length::mm(r * 2.0)));
            let hollow =
                z.exceeds(form.floor_top()) || z.within(form.floor_top(), Length::mm(1e-9));
            Row {
                height: say(z),
                below_rim: say(form.height() - z),
                outside: across(form.turned(WallSide::Outside).radius(at)),
                inside: if hollow {
                    across(form.turned(WallSide::Inside).radius(at))
                } else {
                    String::new()
                },
                wall: form.wall_at(z).map_or(String::new(), say),
            }
        })
        .collect();
    let (picture, full_size) = picture(source, art);
    let ops = || source.plan.operations.iter();
    let depth = ops()
        .filter(|o| o.kind == OperationKind::Hollow)
        .flat_map(|o| &o.figures)
        .filter(|f| f.key == "depth")
        .map(Setting::from)
        .collect();
    let speeds = ops()
        .filter(|o| {
            matches!(
                o.kind,
                OperationKind::TurnOutside
                    | OperationKind::Hollow
                    | OperationKind::Sand
                    | OperationKind::PartOff
            )
        })
        .flat_map(|o| {
            let of = |f: &plan::figure::Figure<Said>| Setting {
                label: format!("{}: {}", o.kind.name(), f.label),
                value: f.shown.clone(),
            };
            o.figures
                .iter()
                .filter(|f| f.key.starts_with("speed"))
                .map(of)
                .collect::<Vec<_>>()
        })
        .collect();
    Turning {
        picture,
        full_size,
        rows,
        gauge: gauge(source),
        speeds,
        depth,
        stages: stages(source),
        steps: Steps::of(
            ops().filter(|o| matches!(o.kind, OperationKind::TurnOutside | OperationKind::Hollow)),
            &OperationKind::ALL,
            source.plan.spelling,
        ),
    }
}

/// Most that a half-section at full size may take of the sheet, mm.
const FULL: (f64, f64) = (183.0, 160.0);

/// The half-section at full size where the paper has room for it, else to scale.
fn picture(source: &Source<'_>, art: &mut Art) -> (Picture, bool) {
    let full = crate::full_size::half_section(source.piece, source.plan.language()).drawing;
    if full.width <= FULL.0 && full.height <= FULL.1 {
        return (art.drawing(&full), true);
    }
    let drawing = half_section(source.piece, &Options::within(source.plan.language(), ROOM));
    (art.without(drawing, &["heading"]), false)
}

/// Heights every 10 mm or 1/2 in from the foot, and the rim.
fn heights(source: &Source<'_>) -> Vec<Length> {
    let step = crate::full_size::step(source.unit);
    let top = source.piece.form.height();
    let mut out = Vec::new();
    let mut at = Length::ZERO;
    // A step that would come to a hair below the rim is the rim; no table has more rows than this.
    while (top - at).exceeds(step * 0.3) && out.len() < 400 {
        out.push(at);
        at += step;
    }
    out.push(top);
    out
}

/// Foot, floor, widest and narrowest, rim, and the loops' own heights.
fn gauge(source: &Source<'_>) -> Vec<Gauge> {
    let piece = source.piece;
    let form = &piece.form;
    let unit = source.unit;
    let say = |l: Length| unit.length_bare(l);
    let outside = |z: Length| {
        form.turned(WallSide::Outside)
            .radius(z.as_mm())
            .map_or(String::new(), |r| say(Length::mm(r * 2.0)))
    };
    let mut out: Vec<(Length, Gauge)> = Vec::new();
    let mut add = |z: Length, what: String, across: String| {
        out.push((
            z,
            Gauge {
                what,
                height: say(z),
                across,
            },
        ));
    };
    add(Length::ZERO, "foot".into(), say(form.foot_radius() * 2.0));
    add(form.floor_top(), "floor, inside".into(), String::new());
    let (widest, at) = form.largest_radius();
    add(at, "widest".into(), say(widest * 2.0));
    let (thin, at) = form.thinnest_wall();
    add(at, format!("thinnest wall, {}", say(thin)), outside(at));
    if let Some((at, r)) = neck(form) {
        add(at, "neck".into(), say(r * 2.0));
    }
    for section in &piece.sections {
        for band in &section.bands {
            let raised = |z: Option<Length>| z.map(|z| z + section.base_of(band));
            for (what, z) in [
                ("loops' tops, upper edge", raised(band.outside.top)),
                ("loops' bottoms, lower edge", raised(band.outside.bottom)),
            ] {
                if let Some(z) = z {
                    add(z, format!("{what}, {}", section.name), outside(z));
                }
            }
            for (k, row) in band.rows_outside.iter().enumerate() {
                if let Some(z) = raised(row.height) {
                    add(
                        z,
                        format!("crossings, row {}, {}", k + 1, section.name),
                        outside(z),
                    );
                }
            }
        }
    }
    let top = form.height();
    let eased = form.rim_easing();
    let rim = if eased.exceeds(Length::ZERO) {
        format!("rim, before it is eased by {}", unit.length(eased))
    } else {
        "rim".into()
    };
    add(top, rim, outside(top));
    out.sort_by(|a, b| b.0.as_mm().total_cmp(&a.0.as_mm()));
    out.into_iter().map(|(_, g)| g).collect()
}

/// The narrowest place between two wider ones, if there is one: height and radius.
fn neck(form: &piece::form::Form) -> Option<(Length, Length)> {
    let side = form.outside();
    let top = form.height().as_mm();
    const STEPS: usize = 512;
    let at = |k: usize| top * k as f64 / STEPS as f64;
    let radius = |k: usize| side.radius(at(k));
    (1..STEPS)
        .filter_map(|k| {
            let (a, r, b) = (radius(k - 1)?, radius(k)?, radius(k + 1)?);
            (r < a && r <= b).then_some((k, r))
        })
        .min_by(|x, y| x.1.total_cmp(&y.1))
        .map(|(k, r)| (Length::mm(at(k)), Length::mm(r)))
}

/// From the rim down in equal stages. The tool rest stands across the rim: what a tool
/// overhangs is the depth that it has reached.
fn stages(source: &Source<'_>) -> Vec<Stage> {
    let form = &source.piece.form;
    let unit = source.unit;
    let say = |l: Length| unit.length_bare(l);
    let depth = form.height() - form.floor_top();
    if !depth.exceeds(Length::ZERO) {
        return Vec::new();
    }
    (0..STAGES)
        .map(|k| {
            let share = |k: usize| depth * (k as f64 / STAGES as f64);
            let (from, to) = (share(k), share(k + 1));
            let (high, low) = (form.height() - from, form.height() - to);
            let opening = form
                .turned(WallSide::Inside)
                .min_between(high.as_mm(), form.height().as_mm());
            Stage {
                name: match k {
                    0 => "rim to finished size".into(),
                    k if k + 1 == STAGES => "floor, and blend".into(),
                    _ => format!("{} stage", ["first", "second", "third", "fourth"][k.min(3)]),
                },
                from: say(from),
                to: say(form.height() - low),
                opening: opening.map_or(String::new(), |r| say(Length::mm(r * 2.0))),
                overhang: say(to),
            }
        })
        .collect()
}
