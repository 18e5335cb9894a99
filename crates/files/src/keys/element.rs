//! Values of which a key takes several: woods, angles, points of a curve.

use std::borrow::Cow;

use geometry::{Angle, Length};

use super::slot::Around;
use super::{Fixed, Giver, Key, Points, Quantity, Setting, Value};
use crate::design::{FormPoint, WallPoint};
use crate::key::KeyPath;
use crate::reader::Item;
use crate::units::Unit;
use crate::write::{Text, degrees, number, quoted};

/// A value of which a key takes several.
pub(crate) trait Element: Sized {
    /// The values of the file; what is wrong with one is told, and the others are read.
    fn read_all(item: &Item<'_>, key: &Key, around: &Around<'_>) -> Vec<Self>;
    /// Writes values that there are.
    fn write_all(all: &[Self], key: &Key, out: &mut Text);
    /// The values for whoever shows them.
    fn settings_of(all: &[Self], path: KeyPath, key: &'static Key, out: &mut Vec<Setting>);
    /// The values that stand in the table.
    fn usual(_fixed: Fixed) -> Vec<Self> {
        Vec::new()
    }
}

/// The one setting of a list that is shown as a whole.
fn whole(path: KeyPath, key: &'static Key, value: Option<Value>, out: &mut Vec<Setting>) {
    let by = value.is_some().then_some(Giver::File);
    out.push(Setting::new(path, key, value, by));
}

impl Element for String {
    fn read_all(item: &Item<'_>, key: &Key, around: &Around<'_>) -> Vec<Self> {
        let Quantity::Woods(most) = key.quantity else {
            return Vec::new();
        };
        let items = item.texts(most).unwrap_or_default();
        if items.is_empty() && item.is_list() {
            item.trouble("this list is empty", "name one wood at least");
        }
        let known = |item: &Item<'_>| item.known_wood(around.woods);
        items.iter().filter_map(known).collect()
    }

    fn write_all(all: &[Self], key: &Key, out: &mut Text) {
        match all {
            [one] => out.raw(key.name, &quoted(one)),
            many => out.list(key.name, many.iter().map(|v| quoted(v))),
        }
    }

    fn settings_of(all: &[Self], path: KeyPath, key: &'static Key, out: &mut Vec<Setting>) {
        let value = (!all.is_empty()).then(|| Value::Words(all.to_vec()));
        whole(path, key, value, out);
    }
}

impl Element for Length {
    fn read_all(item: &Item<'_>, key: &Key, _around: &Around<'_>) -> Vec<Self> {
        let Quantity::Lengths(range, most) = key.quantity else {
            return Vec::new();
        };
        let items = item.list("board", most).unwrap_or_default();
        if items.is_empty() && item.is_list() {
            item.trouble("this list is empty", "name one board's thickness at least");
        }
        items.iter().filter_map(|i| i.length(&range)).collect()
    }

    fn write_all(all: &[Self], key: &Key, out: &mut Text) {
        let unit = out.unit();
        out.list(key.name, all.iter().map(|l| number(unit, *l)));
    }

    fn settings_of(all: &[Self], path: KeyPath, key: &'static Key, out: &mut Vec<Setting>) {
        whole(path, key, Some(Value::Lengths(all.to_vec())), out);
    }

    fn usual(fixed: Fixed) -> Vec<Self> {
        match fixed {
            Fixed::Lengths(all) => all.to_vec(),
            _ => Vec::new(),
        }
    }
}

impl Element for Angle {
    fn read_all(item: &Item<'_>, key: &Key, _around: &Around<'_>) -> Vec<Self> {
        let Quantity::Angles(many, range) = key.quantity else {
            return Vec::new();
        };
        let Some(items) = item.list("azimuth", many.most) else {
            return Vec::new();
        };
        if items.len() < many.least {
            item.trouble(many.rule, "write an azimuth for each loop, as in [0, 90]");
        }
        items.iter().filter_map(|i| i.angle(&range)).collect()
    }

    fn write_all(all: &[Self], key: &Key, out: &mut Text) {
        out.list(key.name, all.iter().map(|a| degrees(*a)));
    }

    fn settings_of(all: &[Self], path: KeyPath, key: &'static Key, out: &mut Vec<Setting>) {
        let value = (!all.is_empty()).then(|| Value::Angles(all.to_vec()));
        whole(path, key, value, out);
    }
}

impl Element for usize {
    fn read_all(item: &Item<'_>, key: &Key, _around: &Around<'_>) -> Vec<Self> {
        let Quantity::Counts(range, most) = key.quantity else {
            return Vec::new();
        };
        let items = item.list("entry", most).unwrap_or_default();
        let numbers: Vec<Option<usize>> = items.iter().map(|i| i.whole(&range)).collect();
        numbers
            .into_iter()
            .collect::<Option<_>>()
            .unwrap_or_default()
    }

    fn write_all(all: &[Self], key: &Key, out: &mut Text) {
        out.list(key.name, all.iter().map(usize::to_string));
    }

    fn settings_of(all: &[Self], path: KeyPath, key: &'static Key, out: &mut Vec<Setting>) {
        let value = (!all.is_empty()).then(|| Value::Counts(all.to_vec()));
        whole(path, key, value, out);
    }
}

impl Element for FormPoint {
    fn read_all(item: &Item<'_>, key: &Key, _around: &Around<'_>) -> Vec<Self> {
        let Quantity::Points(of) = key.quantity else {
            return Vec::new();
        };
        let Some(items) = item.list("point", of.most) else {
            return Vec::new();
        };
        let points: Vec<Option<FormPoint>> = items.iter().map(|i| point(i, of)).collect();
        if items.len() < of.least {
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
        points
            .into_iter()
            .collect::<Option<_>>()
            .unwrap_or_default()
    }

    fn write_all(all: &[Self], key: &Key, out: &mut Text) {
        let unit = out.unit();
        let point = |p: &FormPoint| {
            let corner = if p.corner { ", \"corner\"" } else { "" };
            pair(unit, p.height, p.radius, corner)
        };
        out.list(key.name, all.iter().map(point));
    }

    fn settings_of(all: &[Self], path: KeyPath, key: &'static Key, out: &mut Vec<Setting>) {
        let Quantity::Points(of) = key.quantity else {
            return;
        };
        for (at, point) in all.iter().enumerate() {
            let path = path.entry(at);
            let name = format!("point {} of {}", at + 1, of.of);
            let figures = [
                Value::Length(point.height),
                Value::Length(point.radius),
                Value::Word(if point.corner { "corner" } else { "smooth" }.into()),
            ];
            entry_settings(&path, key, Quantity::Point(of), &name, figures, out);
        }
    }
}

impl Element for WallPoint {
    fn read_all(item: &Item<'_>, key: &Key, _around: &Around<'_>) -> Vec<Self> {
        let Quantity::Wall(of) = key.quantity else {
            return Vec::new();
        };
        if !item.is_list() {
            let wall = item.length(&of.across);
            let everywhere = |thickness| WallPoint {
                height: Length::ZERO,
                thickness,
            };
            return wall.map(everywhere).into_iter().collect();
        }
        let items = item.list("entry", of.most).unwrap_or_default();
        if items.is_empty() {
            item.trouble(
                "this list is empty",
                "write wall = thickness, or [[height, thickness], ...]",
            );
        }
        let mut walls: Vec<WallPoint> = Vec::new();
        for entry in &items {
            let Some(point) = wall_point(entry, of) else {
                continue;
            };
            if walls
                .last()
                .is_some_and(|below| !point.height.exceeds(below.height))
            {
                entry.trouble(
                    "this entry is no higher than the one before it",
                    "write the heights from the bottom up, each once",
                );
            }
            walls.push(point);
        }
        walls
    }

    fn write_all(all: &[Self], key: &Key, out: &mut Text) {
        let unit = out.unit();
        match all {
            // One entry holds for the whole wall, whatever its height.
            [one] => out.raw(key.name, &number(unit, one.thickness)),
            walls => {
                let entry = |w: &WallPoint| pair(unit, w.height, w.thickness, "");
                out.list(key.name, walls.iter().map(entry));
            }
        }
    }

    fn settings_of(all: &[Self], path: KeyPath, key: &'static Key, out: &mut Vec<Setting>) {
        let Quantity::Wall(of) = key.quantity else {
            return;
        };
        if let [] | [_] = all {
            let value = all.first().map(|w| Value::Length(w.thickness));
            let by = value.is_some().then_some(Giver::File);
            let mut one = Setting::new(path, key, value, by);
            one.quantity = Quantity::Length(of.across);
            out.push(one);
            return;
        }
        for (at, wall) in all.iter().enumerate() {
            let name = format!("{} {}", of.of, at + 1);
            let figures = [Value::Length(wall.height), Value::Length(wall.thickness)];
            entry_settings(
                &path.entry(at),
                key,
                Quantity::Point(of),
                &name,
                figures,
                out,
            );
        }
    }
}

/// `[height, radius]` as text.
fn pair(unit: Unit, height: Length, across: Length, rest: &str) -> String {
    format!("[{}, {}{rest}]", number(unit, height), number(unit, across))
}

/// The figures of one entry of a curve as settings.
fn entry_settings(
    path: &KeyPath,
    key: &'static Key,
    point: Quantity,
    name: &str,
    figures: impl IntoIterator<Item = Value>,
    out: &mut Vec<Setting>,
) {
    for (at, value) in figures.into_iter().enumerate() {
        let (Some(quantity), Quantity::Point(of)) = (point.entry(at), point) else {
            continue;
        };
        let label = match at {
            0 => format!("height of {name}"),
            1 if !of.across_label.is_empty() => format!("{} of {name}", of.across_label),
            _ => name.into(),
        };
        out.push(Setting {
            path: path.entry(at),
            key,
            quantity,
            label: Cow::Owned(label),
            value: Some(value),
            by: Some(Giver::File),
        });
    }
}

fn point(item: &Item<'_>, of: &Points) -> Option<FormPoint> {
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
        named(height, "height", item).length(&of.height),
        named(radius, "radius", item).length(&of.across),
    );
    Some(FormPoint {
        height: height?,
        radius: radius?,
        corner,
    })
}

fn wall_point(entry: &Item<'_>, of: &Points) -> Option<WallPoint> {
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
        return None;
    };
    let (height, thickness) = (
        named(height, "height", entry).length(&of.height),
        named(thickness, "thickness", entry).length(&of.across),
    );
    Some(WallPoint {
        height: height?,
        thickness: thickness?,
    })
}

/// The same value under a name that a maker knows: `height of point 3 of outer`.
fn named<'a>(part: &Item<'a>, name: &str, whole: &Item<'a>) -> Item<'a> {
    part.relabelled(format!("{name} of {}", whole.label))
}
