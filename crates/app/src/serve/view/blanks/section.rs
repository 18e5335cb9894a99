//! Blanks of a section: its rings, loop bands and splits.

use files::design::{BandSpec, BlankShape, LayerMake, RingSpec, RingsGiven, SectionSpec};
use geometry::{Angle, Length};
use piece::piece::{Band, Piece, Ring, RingMake};

use super::{ChosenBy, Range, Sheet};
use crate::serve::desk::Made;
use crate::serve::view::paths::entries;
use crate::serve::wire::Origin;

const BOARD: Range = Range(0.5, 300.0);
const RING_HEIGHT: Range = Range(0.5, 300.0);
const SEGMENTS: Range = Range(3.0, 144.0);
const TURN: Range = Range(-360.0, 360.0);

/// What all sections need.
pub(super) struct Shared<'a> {
    pub made: &'a Made,
    pub piece: &'a Piece,
    pub chosen: ChosenBy<'a>,
}

fn origin<T>(value: &Option<T>, otherwise: Origin) -> Origin {
    if value.is_some() {
        Origin::Maker
    } else {
        otherwise
    }
}

pub(super) fn blanks(sheet: &mut Sheet, shared: &Shared<'_>, number: usize) {
    let (Some(spec), Some(section)) = (
        shared.made.design.sections.get(number),
        shared.piece.sections.get(number),
    ) else {
        return;
    };
    let path = |key: &str| format!("section[{number}].{key}");
    let of = |what: &str| format!("{what} of {}", section.name);
    let chosen = |given: bool, key: &str| shared.chosen.origin(given, &path(key));
    let first = section.rings.first();
    sheet.text(
        &path("name"),
        "name of the section",
        &section.name,
        Origin::Maker,
    );
    let woods = if spec.wood.is_empty() {
        default_wood(shared)
    } else {
        spec.wood.clone()
    };
    sheet.woods(
        &path("wood"),
        &of("wood"),
        &woods,
        chosen(!spec.wood.is_empty(), "wood"),
    );
    let segments = spec.segments.or(first.map(|r| r.sizes.segments));
    let by = chosen(spec.segments.is_some(), "segments");
    sheet.whole(
        &path("segments"),
        &of("segments in a ring"),
        segments,
        by,
        SEGMENTS,
    );
    let stock = spec.stock.or(first.map(|r| r.stock));
    let by = chosen(spec.stock.is_some(), "stock");
    sheet.length(&path("stock"), &of("board thickness"), stock, by, BOARD);
    let height = spec.ring_height.or(first.map(|r| r.height));
    let by = origin(&spec.ring_height, Origin::Form);
    sheet.length(
        &path("ring_height"),
        &of("ring height"),
        height,
        by,
        RING_HEIGHT,
    );
    sheet.angle(
        &path("turn"),
        &of("turn against the section below"),
        Some(own_turn(shared.piece, number)),
        chosen(spec.turn.is_some(), "turn"),
        TURN,
    );
    let usual = first.map(|r| Angle::full().divided_by(2 * r.sizes.segments));
    sheet.angle(
        &path("joint_turn"),
        &of("turn of each ring against the ring below"),
        spec.joint_turn.or(usual),
        origin(&spec.joint_turn, Origin::Default),
        TURN,
    );
    rings_count(sheet, spec, section.rings.len(), number, &section.name);
    let entries = entries(&shared.made.design, number);
    let none = RingSpec::default();
    for (k, ring) in section.rings.iter().enumerate() {
        let own = match (spec.rings_given(), &entries) {
            (RingsGiven::Listed(list), Some(entries)) => {
                entries.get(k).and_then(|e| list.get(*e)).unwrap_or(&none)
            }
            _ => &none,
        };
        let count = shared.piece.ring_number(number, k);
        ring_blanks(
            sheet,
            shared,
            (spec, own),
            ring,
            &format!("section[{number}].ring#{k}"),
            count,
        );
    }
    for (k, (own, band)) in spec.bands.iter().zip(&section.bands).enumerate() {
        let name = if spec.bands.len() > 1 {
            format!("the loops of {}, band {}", section.name, k + 1)
        } else {
            format!("the loops of {}", section.name)
        };
        band_blanks(
            sheet,
            shared,
            (own, band),
            &format!("section[{number}].band[{k}]"),
            &name,
        );
    }
    for (k, split) in section.splits.iter().enumerate() {
        let path = |key: &str| format!("section[{number}].split[{k}].{key}");
        let of = |what: &str| format!("{what} of the split of {}", section.name);
        sheet.length(
            &path("height"),
            &of("height"),
            Some(split.spec.height),
            Origin::Maker,
            Range(0.5, 3000.0),
        );
        sheet.angle(
            &path("turn"),
            &of("turn"),
            Some(split.spec.turn),
            Origin::Maker,
            TURN,
        );
        let by = shared.chosen.origin(split.spec.saw.is_some(), &path("saw"));
        saws(sheet, shared, &path("saw"), &of("saw"), &split.saw.name, by);
    }
}

/// The section's turn against the one below it.
fn own_turn(piece: &Piece, number: usize) -> Angle {
    let turn = |i: usize| piece.sections.get(i).map_or(Angle::ZERO, |s| s.turn);
    match number {
        0 => turn(0),
        n => turn(n) - turn(n - 1),
    }
}

fn default_wood(shared: &Shared<'_>) -> Vec<String> {
    vec![shared.piece.workshop.defaults.wood.value.clone()]
}

fn rings_count(sheet: &mut Sheet, spec: &SectionSpec, rings: usize, number: usize, name: &str) {
    let path = format!("section[{number}].rings");
    let by = match spec.rings_given() {
        RingsGiven::Auto(_) => Origin::Form,
        _ => Origin::Maker,
    };
    sheet.whole(
        &path,
        &format!("rings in {name}"),
        Some(rings),
        by,
        Range(1.0, 500.0),
    );
    if let RingsGiven::Auto(height) = spec.rings_given() {
        let by = origin(&height, Origin::Form);
        let path = format!("section[{number}].height");
        sheet.length(
            &path,
            &format!("height of {name}"),
            height,
            by,
            Range(1.0, 3000.0),
        );
    }
}

fn ring_blanks(
    sheet: &mut Sheet,
    shared: &Shared<'_>,
    (section, own): (&SectionSpec, &RingSpec),
    ring: &Ring,
    at: &str,
    count: usize,
) {
    let path = |key: &str| format!("{at}.{key}");
    let of = |what: &str| format!("{what} of ring {count}");
    // What a ring does not say itself, its section, the workshop or the form says.
    let above = |given: bool| {
        if given {
            Origin::Maker
        } else {
            Origin::Default
        }
    };
    let names = if own.wood.is_empty() {
        &section.wood
    } else {
        &own.wood
    };
    let names = if names.is_empty() {
        default_wood(shared)
    } else {
        names.clone()
    };
    let by = if own.wood.is_empty() {
        above(!section.wood.is_empty())
    } else {
        Origin::Maker
    };
    sheet.woods(&path("wood"), &of("wood"), &names, by);
    let solid = matches!(ring.make, RingMake::Disc);
    sheet.flag(
        &path("solid"),
        &format!("ring {count} is one disc"),
        solid,
        above(own.solid),
    );
    if !solid {
        let by = above(own.segments.or(section.segments).is_some());
        sheet.whole(
            &path("segments"),
            &of("segments"),
            Some(ring.sizes.segments),
            by,
            SEGMENTS,
        );
        let by = origin(&own.width, Origin::Form);
        sheet.length(
            &path("width"),
            &of("board width"),
            Some(ring.sizes.board_width()),
            by,
            Range(1.0, 1500.0),
        );
    }
    let by = above(own.stock.or(section.stock).is_some());
    sheet.length(
        &path("stock"),
        &of("board thickness"),
        Some(ring.stock),
        by,
        BOARD,
    );
    let by = origin(&own.height.or(section.ring_height), Origin::Form);
    sheet.length(
        &path("height"),
        &of("height"),
        Some(ring.height),
        by,
        RING_HEIGHT,
    );
    sheet.angle(
        &path("turn"),
        &of("turn against the ring below"),
        Some(ring.turn),
        origin(&own.turn, Origin::Default),
        TURN,
    );
    let by = origin(&own.outside, Origin::Form);
    sheet.length(
        &path("outside"),
        &of("diameter across flats"),
        Some(ring.sizes.flat_out * 2.0),
        by,
        Range(2.0, 3000.0),
    );
    let panel = match &ring.make {
        RingMake::Panel(panel) => Some(panel),
        _ => None,
    };
    let wood = panel.map_or("", |p| shared.piece.wood_name(p.wood));
    sheet.wood(
        &path("floor"),
        &format!("wood of the floor panel in ring {count}"),
        wood,
        above(panel.is_some()),
    );
    if let (Some(panel), Some(spec)) = (panel, &own.floor) {
        let lengths = [
            (
                "thickness",
                spec.thickness,
                panel.thickness,
                Range(0.5, 100.0),
            ),
            ("above", spec.above, panel.above, Range(0.0, 300.0)),
            ("groove", spec.groove, panel.groove, Range(0.0, 100.0)),
            ("gap", spec.gap, panel.gap, Range(0.0, 20.0)),
        ];
        for (key, given, value, range) in lengths {
            let label = format!("floor panel's {key} in ring {count}");
            sheet.length(
                &path(&format!("floor.{key}")),
                &label,
                Some(value),
                origin(&given, Origin::Form),
                range,
            );
        }
        let label = format!("floor panel in ring {count} floats in its groove");
        sheet.flag(
            &path("floor.floating"),
            &label,
            panel.floating,
            Origin::Maker,
        );
    }
}

fn band_blanks(
    sheet: &mut Sheet,
    shared: &Shared<'_>,
    (own, band): (&BandSpec, &Band),
    at: &str,
    name: &str,
) {
    let path = |key: &str| format!("{at}.{key}");
    let of = |what: &str| format!("{what} of {name}");
    let chosen = |given: bool, key: &str| shared.chosen.origin(given, &path(key));
    let loops = &band.loops;
    let count = loops.azimuths.len();
    sheet.whole(
        &path("loops"),
        &of("number"),
        Some(count),
        origin(&own.loops, Origin::Form),
        Range(2.0, 16.0),
    );
    if own.azimuths.is_empty() {
        let start = own.start.unwrap_or(Angle::ZERO);
        sheet.angle(
            &path("start"),
            &of("azimuth of the first"),
            Some(start),
            origin(&own.start, Origin::Default),
            TURN,
        );
    }
    let degrees = |a: &Angle| super::trimmed(&files::units::fixed(a.as_deg(), 2));
    let azimuths: Vec<String> = loops.azimuths.iter().map(degrees).collect();
    let by = if own.azimuths.is_empty() {
        Origin::Form
    } else {
        Origin::Maker
    };
    sheet.list(&path("azimuths"), &of("azimuths"), azimuths.join(", "), by);
    let order: Vec<String> = band.order.iter().map(|k| (k + 1).to_string()).collect();
    let by = if own.order.is_empty() {
        Origin::Default
    } else {
        Origin::Maker
    };
    sheet.list(&path("order"), &of("cutting order"), order.join(", "), by);
    let by = chosen(own.height.is_some(), "height");
    sheet.length(
        &path("height"),
        &of("middle's height above the section's underside"),
        Some(loops.height),
        by,
        Range(0.5, 3000.0),
    );
    let reach: Option<Length> = band.outside.reach();
    sheet.length(
        &path("reach"),
        &of("reach"),
        reach,
        origin(&own.reach, Origin::Form),
        Range(1.0, 2000.0),
    );
    let by = shared
        .chosen
        .origin_or(own.tilt.is_some(), &path("tilt"), Origin::Form);
    sheet.angle(
        &path("tilt"),
        &of("tilt"),
        Some(loops.tilt),
        by,
        Range(1.0, 75.0),
    );
    let by = chosen(own.layer.is_some(), "layer");
    sheet.length(
        &path("layer"),
        &of("layer thickness"),
        Some(band.layer),
        by,
        Range(0.2, 100.0),
    );
    let by = origin(&own.spacer, Origin::Form);
    sheet.fine(
        &path("spacer"),
        &of("spacer"),
        Some(band.cuts.spacer),
        by,
        Range(0.2, 200.0),
    );
    let by = chosen(own.glue_line.is_some(), "glue_line");
    sheet.fine(
        &path("glue_line"),
        &of("glue line"),
        Some(band.glue_line),
        by,
        Range(0.0, 1.0),
    );
    let by = chosen(!own.wood.is_empty(), "wood");
    let woods = if own.wood.is_empty() {
        vec!["padauk".to_string()]
    } else {
        own.wood.clone()
    };
    sheet.woods(&path("wood"), &of("wood"), &woods, by);
    saws(
        sheet,
        shared,
        &path("saw"),
        &of("saw"),
        &band.saw.name,
        chosen(own.saw.is_some(), "saw"),
    );
    let make = match band.blank.make {
        LayerMake::Solid => "solid",
        LayerMake::RoundRing => "round ring",
        LayerMake::LongRing => "long ring",
    };
    let makes = [
        ("solid", "from one board"),
        ("round ring", "as a round ring"),
        ("long ring", "as a long ring"),
    ];
    sheet.choice(
        &path("make"),
        &of("layers made"),
        make,
        chosen(own.make.is_some(), "make"),
        &makes,
    );
    if band.blank.make != LayerMake::Solid {
        let segments = band.blank.ring.map(|r| r.segments);
        let by = origin(&own.segments, Origin::Form);
        sheet.whole(
            &path("segments"),
            &of("segments in a layer"),
            segments,
            by,
            SEGMENTS,
        );
    }
    let shape = match own.blank {
        Some(BlankShape::Polygon) => "polygon",
        _ => "cylinder",
    };
    let shapes = [
        ("cylinder", "trued to a cylinder first"),
        ("polygon", "as it left the glue"),
    ];
    sheet.choice(
        &path("blank"),
        &of("blank as sawn"),
        shape,
        origin(&own.blank, Origin::Default),
        &shapes,
    );
}

fn saws(sheet: &mut Sheet, shared: &Shared<'_>, path: &str, label: &str, now: &str, by: Origin) {
    let all = &shared.piece.workshop.saws;
    let choices: Vec<(&str, &str)> = all
        .iter()
        .map(|s| (s.name.as_str(), s.name.as_str()))
        .collect();
    sheet.choice(path, label, now, by, &choices);
}
