//! The workshop's settings for the page.

use geometry::Length;
use piece::units::Unit;
use piece::workshop::{SawKind, Workshop};

use super::blanks::{Range, Sheet};
use super::page_unit;
use crate::serve::desk::Shop;
use crate::serve::file::{Ground, Units};
use crate::serve::wire::{Group, Origin, WorkshopView};

/// What edits of the workshop have to know.
pub fn workshop_ground(shop: &Shop, page: Unit) -> Ground {
    Ground {
        units: Units {
            page,
            file: shop.workshop.unit,
        },
        workshop: true,
        sections: Vec::new(),
    }
}

const ALLOWANCE: Range = Range(0.0, 50.0);
const LOSS: Range = Range(0.0, 10.0);
const MACHINE: Range = Range(5.0, 5000.0);
const SLED: Range = Range(0.0, 500.0);

/// The workshop's view.
pub fn workshop_view(shop: &Shop, unit: Unit) -> WorkshopView {
    let mut sheet = Sheet::new(unit);
    let w = &shop.workshop;
    let by = |path: &str| {
        if w.gives(path) {
            Origin::Workshop
        } else {
            Origin::Default
        }
    };
    let mut groups: Vec<Group> = Vec::new();
    for (k, saw) in w.saws.iter().enumerate() {
        let path = |key: &str| format!("saw[{k}].{key}");
        let of = |what: &str| format!("{what} of {}", saw.name);
        let given = by("saw");
        sheet.text(&path("name"), "name of the saw", &saw.name, given);
        let kind = match saw.kind {
            SawKind::Band => "band",
            SawKind::Table => "table",
            SawKind::Mitre => "mitre",
        };
        let kinds = [
            ("band", "band saw"),
            ("table", "table saw"),
            ("mitre", "mitre saw"),
        ];
        sheet.choice(&path("kind"), &of("kind"), kind, given, &kinds);
        sheet.fine(
            &path("kerf"),
            &of("kerf"),
            Some(saw.kerf),
            given,
            Range(0.2, 10.0),
        );
        for (key, what, value) in [
            ("cutting_height", "cutting height", saw.cutting_height),
            ("room_beside", "room beside the blade", saw.room_beside),
            (
                "table_length",
                "table length along the cut",
                saw.table_length,
            ),
            ("table_width", "table width", saw.table_width),
        ] {
            sheet.length(&path(key), &of(what), Some(value), given, MACHINE);
        }
        let keys = [
            "name",
            "kind",
            "kerf",
            "cutting_height",
            "room_beside",
            "table_length",
            "table_width",
        ];
        groups.push(Group {
            title: saw.name.clone(),
            paths: keys.iter().map(|k| path(k)).collect(),
        });
    }
    for (title, table, lengths) in lengths(w) {
        let mut paths = Vec::new();
        for (key, label, value, range, fine) in lengths {
            let path = format!("{table}.{key}");
            if fine {
                sheet.fine(&path, label, Some(value), by(&path), range);
            } else {
                sheet.length(&path, label, Some(value), by(&path), range);
            }
            paths.push(path);
        }
        groups.push(Group {
            title: title.into(),
            paths,
        });
    }
    let mut more = |group: &str, path: &str| {
        if let Some(found) = groups.iter_mut().find(|g| g.title == group) {
            found.paths.push(path.into());
        } else {
            groups.push(Group {
                title: group.into(),
                paths: vec![path.into()],
            });
        }
    };
    sheet.number(
        "lathe.fastest",
        "fastest spindle speed",
        w.lathe.fastest,
        "rpm",
        by("lathe.fastest"),
        Range(50.0, 20_000.0),
    );
    more("Lathe", "lathe.fastest");
    sheet.angle(
        "sled.largest_tilt",
        "largest tilt of the sled",
        Some(w.sled.largest_tilt),
        by("sled.largest_tilt"),
        Range(1.0, 80.0),
    );
    more("Sled", "sled.largest_tilt");
    let glue = &w.glue;
    for (path, label, value, unit, most) in [
        (
            "glue.clamp_minutes",
            "time in clamps",
            glue.clamp_minutes,
            "min",
            10_000.0,
        ),
        (
            "glue.cure_hours",
            "cure before the next cut",
            glue.cure_hours,
            "h",
            1000.0,
        ),
        (
            "glue.epoxy_cure_hours",
            "cure of epoxy",
            glue.epoxy_cure_hours,
            "h",
            1000.0,
        ),
    ] {
        sheet.number(path, label, value, unit, by(path), Range(0.0, most));
        more("Glue", path);
    }
    sheet.flag(
        "glue.epoxy_for_layers",
        "layers are glued with epoxy",
        glue.epoxy_for_layers,
        by("glue.epoxy_for_layers"),
    );
    more("Glue", "glue.epoxy_for_layers");
    sheet.whole(
        "defaults.segments",
        "segments where a project does not say",
        Some(w.defaults.segments),
        by("defaults.segments"),
        Range(3.0, 144.0),
    );
    more("Where a project does not say", "defaults.segments");
    sheet.wood(
        "defaults.wood",
        "wood where a project does not say",
        &w.defaults.wood,
        by("defaults.wood"),
    );
    more("Where a project does not say", "defaults.wood");
    let stock: Vec<String> = w.stock.iter().map(|l| unit.length(*l)).collect();
    sheet.list(
        "stock",
        "board thicknesses in stock",
        stock.join(", "),
        by("stock"),
    );
    more("Where a project does not say", "stock");
    WorkshopView {
        version: shop.version.clone(),
        unit: page_unit(unit),
        blanks: sheet.blanks,
        groups,
        problems: shop.problems.clone(),
    }
}

type Entry = (&'static str, &'static str, Length, Range, bool);

fn lengths(w: &Workshop) -> [(&'static str, &'static str, Vec<Entry>); 4] {
    let (a, s) = (&w.allowances, &w.sled);
    [
        (
            "Allowances",
            "allowances",
            vec![
                (
                    "outside",
                    "wood left outside the wall, at a flat",
                    a.outside,
                    ALLOWANCE,
                    false,
                ),
                (
                    "inside",
                    "wood left inside the wall, at a corner",
                    a.inside,
                    ALLOWANCE,
                    false,
                ),
                (
                    "flattening",
                    "loss to each face of a ring",
                    a.flattening,
                    LOSS,
                    true,
                ),
                (
                    "glue_line",
                    "one glue line in a loop",
                    a.glue_line,
                    Range(0.0, 1.0),
                    true,
                ),
                (
                    "layer_edge",
                    "wood left round a layer's oval",
                    a.layer_edge,
                    ALLOWANCE,
                    false,
                ),
                (
                    "jointing",
                    "loss to each edge of a strip",
                    a.jointing,
                    LOSS,
                    true,
                ),
            ],
        ),
        (
            "Lathe",
            "lathe",
            vec![
                ("swing", "swing over the bed", w.lathe.swing, MACHINE, false),
                (
                    "length",
                    "length between centres",
                    w.lathe.length,
                    MACHINE,
                    false,
                ),
            ],
        ),
        (
            "Sled",
            "sled",
            vec![
                ("base", "thickness of the base", s.base, SLED, false),
                (
                    "clearance",
                    "room between blank and base",
                    s.clearance,
                    SLED,
                    false,
                ),
                (
                    "run_out",
                    "travel before and after the cut",
                    s.run_out,
                    SLED,
                    false,
                ),
                (
                    "waste_block",
                    "faceplate to the section's underside",
                    s.waste_block,
                    SLED,
                    false,
                ),
                (
                    "keep_off",
                    "wood kept between a cut and an end",
                    s.keep_off,
                    SLED,
                    false,
                ),
                (
                    "block_length",
                    "length of a positioning block",
                    s.block_length,
                    SLED,
                    false,
                ),
                (
                    "block_height",
                    "height of a positioning block",
                    s.block_height,
                    SLED,
                    false,
                ),
                (
                    "dowel",
                    "dowel through a pair of blocks",
                    s.dowel,
                    SLED,
                    false,
                ),
            ],
        ),
        (
            "Where a project does not say",
            "defaults",
            vec![(
                "board",
                "board thickness",
                w.defaults.board,
                Range(0.5, 300.0),
                false,
            )],
        ),
    ]
}
