//! `[form]`: the finished outside and inside.

use geometry::Length;

use crate::form::{FormPoint, FormSpec, InnerSpec};
use crate::reader::{Item, Lengths, Table};

const HEIGHT: Lengths = Lengths::new("a height", 0.0, 3000.0);
const RADIUS: Lengths = Lengths::new("a radius", 0.0, 1500.0);
const WALL: Lengths = Lengths::new("a wall", 0.2, 100.0);
const FLOOR: Lengths = Lengths::new("a floor", 0.2, 200.0);
const RECESS: Lengths = Lengths::new("a foot's recess", 0.0, 100.0);
const FOOT: Lengths = Lengths::new("the width of a foot's ring", 0.5, 500.0);
const EASING: Lengths = Lengths::new("an eased rim", 0.0, 50.0);

/// Most points on one side of a form.
const MOST_POINTS: usize = 500;

pub(super) fn read(top: &Table<'_>) -> FormSpec {
    top.need(
        "form",
        "it gives the shape that the rings are turned to",
        "add [form] with outer = [[height, radius], ...] and wall = thickness",
    );
    let Some(table) = top.get("form").and_then(|item| item.table()) else {
        return FormSpec::default();
    };
    let outer = points(&table, "outer");
    table.need(
        "outer",
        "it is the finished outside from the foot up",
        "write outer = [[height, radius], [height, radius], ...]",
    );
    let wall = table.get("wall").map(|item| walls(&item));
    let inner = points(&table, "inner");
    table.both("wall", "inner", "each alone gives the inside");
    table.need_any(
        &["wall", "inner"],
        "wall is missing: nothing says how thick the wall is".into(),
        "write wall = thickness, or the inside as inner = [[height, radius], ...]",
    );
    let spec = FormSpec {
        outer: outer.unwrap_or_default(),
        straight: table.flag("straight").unwrap_or(false),
        inner: match (inner, wall) {
            (Some(points), _) => InnerSpec::Points(points),
            (None, walls) => InnerSpec::Wall(walls.unwrap_or_default()),
        },
        floor: table.length("floor", &FLOOR),
        foot_recess: table.length("foot_recess", &RECESS),
        foot_width: table.length("foot_width", &FOOT),
        rim_easing: table.length("rim_easing", &EASING),
    };
    table.finish(&[]);
    spec
}

fn points(table: &Table<'_>, key: &'static str) -> Option<Vec<FormPoint>> {
    let item = table.get(key)?;
    let items = item.list("point", MOST_POINTS)?;
    let points: Vec<Option<FormPoint>> = items.iter().map(point).collect();
    if items.len() < 2 {
        item.trouble(
            "a curve needs two points at least",
            "write it from the bottom up, as in [[0, 40], [60, 75]]",
        );
    }
    for (at, pair) in points.windows(2).enumerate() {
        let [Some(a), Some(b)] = pair else { continue };
        let same = Length::mm(1e-6);
        if a.height.within(b.height, same) && a.radius.within(b.radius, same) {
            items[at + 1].trouble("this point is the one before it again", "take it out");
        }
    }
    let ends = points.first().zip(points.last());
    if let (true, Some((Some(first), Some(last)))) = (points.len() > 1, ends)
        && !last.height.exceeds(first.height)
    {
        item.trouble(
            "the last point is no higher than the first",
            "write the points from the bottom up",
        );
    }
    points.into_iter().collect()
}

fn point(item: &Item<'_>) -> Option<FormPoint> {
    const SHAPE: &str = "write a point as [height, radius], or [height, radius, \"corner\"]";
    if !item.is_list() {
        item.trouble("a point is a height and a radius", SHAPE);
        return None;
    }
    let parts = item.list("value", 100)?;
    let (height, radius, corner) = match parts.as_slice() {
        [height, radius] => (height, radius, false),
        [height, radius, word] if word.is_word("corner") => (height, radius, true),
        [_, _, third] if third.plain_whole().is_some() => {
            item.trouble(
                "a point is a height and a radius, and these are three numbers",
                "write decimals with a point, as in 62.5, not with a comma",
            );
            return None;
        }
        _ => {
            item.trouble("a point is a height and a radius", SHAPE);
            return None;
        }
    };
    // Both are read before either is given up, so that both troubles are told.
    let (height, radius) = (
        named(height, "height", item).length(&HEIGHT),
        named(radius, "radius", item).length(&RADIUS),
    );
    Some(FormPoint {
        height: height?,
        radius: radius?,
        corner,
    })
}

fn walls(item: &Item<'_>) -> Vec<(Length, Length)> {
    if !item.is_list() {
        let wall = item.length(&WALL);
        return wall.map(|w| (Length::ZERO, w)).into_iter().collect();
    }
    let items = item.list("entry", MOST_POINTS).unwrap_or_default();
    if items.is_empty() {
        item.trouble(
            "this list is empty",
            "write wall = thickness, or [[height, thickness], ...]",
        );
    }
    let mut walls: Vec<(Length, Length)> = Vec::new();
    for entry in &items {
        let parts = if entry.is_list() {
            entry.list("value", 100).unwrap_or_default()
        } else {
            Vec::new()
        };
        let [height, thickness] = parts.as_slice() else {
            entry.trouble(
                "an entry is a height and the wall's thickness there",
                "write it as [height, thickness]",
            );
            continue;
        };
        let (height, thickness) = (
            named(height, "height", entry).length(&HEIGHT),
            named(thickness, "thickness", entry).length(&WALL),
        );
        let (Some(height), Some(thickness)) = (height, thickness) else {
            continue;
        };
        if walls
            .last()
            .is_some_and(|(below, _)| !height.exceeds(*below))
        {
            entry.trouble(
                "this entry is no higher than the one before it",
                "write the heights from the bottom up, each once",
            );
        }
        walls.push((height, thickness));
    }
    walls
}

/// The same value under a name that a maker knows: `height of point 3 of outer`.
fn named<'a>(part: &Item<'a>, name: &str, whole: &Item<'a>) -> Item<'a> {
    part.relabelled(format!("{name} of {}", whole.label))
}
