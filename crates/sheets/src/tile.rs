//! Templates on paper: those that are too large are parted into tiles that overlap,
//! small ones share a page.

use serde::Serialize;

use crate::full_size::Template;
use crate::paper::Paper;

/// How far neighbouring tiles overlap, mm.
pub const OVERLAP: f64 = 12.0;
/// Room above each tile for its caption, mm.
pub const CAPTION: f64 = 14.0;
/// Room between neighbours on a page, mm.
const GAP: f64 = 5.0;
/// Room at the foot of a page for the check bars, mm.
pub const BARS: f64 = 13.0;
/// How near a cross stands to the tile's edge, mm.
const CROSS_IN: f64 = 9.0;
/// Farthest apart that crosses stand along an edge, mm.
const CROSS_APART: f64 = 120.0;

/// A part of a template, as large as the paper allows. Millimetres.
#[derive(Debug, Clone, Serialize)]
pub struct Tile {
    /// Which template.
    pub template: usize,
    /// Left edge in the template's drawing.
    pub left: f64,
    /// Upper edge in the template's drawing.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
    /// Its column and how many there are, from 1.
    pub column: (usize, usize),
    /// Its row and how many there are, from 1.
    pub row: (usize, usize),
    /// Crosses that neighbours share, in the drawing's coordinates.
    pub crosses: Vec<(f64, f64)>,
    /// Upright lines to trim along, in the drawing's coordinates.
    pub trim_x: Vec<f64>,
    /// Level lines to trim along, in the drawing's coordinates.
    pub trim_y: Vec<f64>,
}

/// A tile on its page; the place is that of its caption, from the corner of the room.
#[derive(Debug, Clone, Serialize)]
pub struct Placed {
    /// The tile.
    pub tile: Tile,
    /// From the left of the room, mm.
    pub x: f64,
    /// From the top of the room, mm; the tile stands a caption below.
    pub y: f64,
}

/// A page of templates.
#[derive(Debug, Clone, Serialize)]
pub struct Page {
    /// Longer side level.
    pub lying: bool,
    /// What is on it.
    pub tiles: Vec<Placed>,
    #[serde(skip)]
    shelves: Vec<Shelf>,
}

/// A row of tiles across a page.
#[derive(Debug, Clone)]
struct Shelf {
    y: f64,
    height: f64,
    used: f64,
}

/// Room for tiles on a page, captions not counted.
fn room(paper: Paper, lying: bool) -> (f64, f64) {
    let (w, h) = paper.room(lying);
    (w, h - CAPTION - BARS)
}

/// All templates on pages: first those that are whole, the highest first, so that
/// they fill their rows; then the parted ones, each in its order.
pub fn lay_out(templates: &[Template], paper: Paper) -> Vec<Page> {
    let mut pages: Vec<Page> = Vec::new();
    let mut parted: Vec<(bool, Vec<Tile>)> = templates
        .iter()
        .enumerate()
        .map(|(number, template)| {
            let size = (template.drawing.width, template.drawing.height);
            let on = |lying| tiles(number, size, room(paper, lying));
            let (upright, lying) = (on(false), on(true));
            // Upright pages bind and read better; lying ones must save a tile.
            let lies = lying.len() < upright.len();
            (lies, if lies { lying } else { upright })
        })
        .collect();
    let place = |(_, tiles): &(bool, Vec<Tile>)| match tiles.as_slice() {
        [whole] => (false, -whole.height),
        _ => (true, 0.0),
    };
    parted.sort_by(|a, b| {
        let (a, b) = (place(a), place(b));
        a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
    });
    for (lies, tiles) in parted {
        for tile in tiles {
            put(&mut pages, tile, lies, paper.room(lies));
        }
    }
    pages
}

/// The first place where a tile fits, or a new page.
fn put(pages: &mut Vec<Page>, tile: Tile, lying: bool, (wide, high): (f64, f64)) {
    let (w, h) = (tile.width, tile.height + CAPTION);
    let high = high - BARS;
    for page in pages.iter_mut().filter(|p| p.lying == lying) {
        for shelf in &mut page.shelves {
            if shelf.used + GAP + w <= wide && h <= shelf.height + 1e-6 {
                let (x, y) = (shelf.used + GAP, shelf.y);
                shelf.used = x + w;
                page.tiles.push(Placed { tile, x, y });
                return;
            }
        }
        let y = page.shelves.last().map_or(0.0, |s| s.y + s.height + GAP);
        if y + h <= high + 1e-6 {
            page.shelves.push(Shelf {
                y,
                height: h,
                used: w,
            });
            page.tiles.push(Placed { tile, x: 0.0, y });
            return;
        }
    }
    pages.push(Page {
        lying,
        tiles: vec![Placed {
            tile,
            x: 0.0,
            y: 0.0,
        }],
        shelves: vec![Shelf {
            y: 0.0,
            height: h,
            used: w,
        }],
    });
}

/// A drawing in equal tiles, row by row from the upper left.
fn tiles(template: usize, size: (f64, f64), room: (f64, f64)) -> Vec<Tile> {
    let (across, down) = (parts(size.0, room.0), parts(size.1, room.1));
    let mut out = Vec::with_capacity(across.len() * down.len());
    for (r, (top, height)) in down.iter().copied().enumerate() {
        for (c, (left, width)) in across.iter().copied().enumerate() {
            let shared = |all: &[(f64, f64)], i: usize| {
                let mut lines = Vec::new();
                if i > 0 {
                    lines.push(all[i].0 + OVERLAP / 2.0);
                }
                if i + 1 < all.len() {
                    lines.push(all[i].0 + all[i].1 - OVERLAP / 2.0);
                }
                lines
            };
            let (trim_x, trim_y) = (shared(&across, c), shared(&down, r));
            let mut crosses = Vec::new();
            for x in &trim_x {
                crosses.extend(along(top, height).into_iter().map(|y| (*x, y)));
            }
            for y in &trim_y {
                crosses.extend(along(left, width).into_iter().map(|x| (x, *y)));
            }
            out.push(Tile {
                template,
                left,
                top,
                width,
                height,
                column: (c + 1, across.len()),
                row: (r + 1, down.len()),
                crosses,
                trim_x,
                trim_y,
            });
        }
    }
    out
}

/// Where crosses stand along an edge.
fn along(from: f64, long: f64) -> Vec<f64> {
    let inset = CROSS_IN.min(long / 3.0);
    let between = long - 2.0 * inset;
    let steps = (between / CROSS_APART).ceil().max(1.0);
    // A handful: paper is never longer than a metre.
    (0..=steps as usize)
        .map(|k| from + inset + between * k as f64 / steps)
        .collect()
}

/// A length in the fewest equal parts that fit and overlap: start and length of each.
fn parts(long: f64, room: f64) -> Vec<(f64, f64)> {
    if !(long.is_finite() && room > 2.0 * OVERLAP) || long <= room {
        return vec![(0.0, long.max(0.0))];
    }
    // The count is small: no drawing is longer than some metres.
    let count = ((long - OVERLAP) / (room - OVERLAP)).ceil().min(200.0) as usize;
    let each = (long + (count - 1) as f64 * OVERLAP) / count as f64;
    (0..count)
        .map(|k| (k as f64 * (each - OVERLAP), each))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::Portable;

    #[test]
    fn parts_cover_the_whole_and_share_an_overlap() {
        for long in [1.0, 184.0, 184.1, 190.0, 610.3, 1250.0] {
            let all = parts(long, 184.0);
            assert!(all.iter().all(|p| p.1 <= 184.0 + 1e-9), "{long}: {all:?}");
            let end = all.last().map(|p| p.0 + p.1).unwrap();
            assert!((end - long).abs() < 1e-9);
            for w in all.windows(2) {
                assert!((w[0].0 + w[0].1 - w[1].0 - OVERLAP).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn neighbours_share_their_crosses() {
        let all = tiles(0, (400.0, 300.0), (180.0, 200.0));
        assert_eq!(all.len(), 6);
        let near = |a: &(f64, f64), b: &(f64, f64)| (a.0 - b.0).hypotenuse(a.1 - b.1) < 1e-9;
        let common = |a: &Tile, b: &Tile| {
            a.crosses
                .iter()
                .filter(|p| b.crosses.iter().any(|q| near(p, q)))
                .count()
        };
        assert!(common(&all[0], &all[1]) >= 2, "side by side");
        assert!(common(&all[0], &all[3]) >= 2, "one below the other");
        assert_eq!(common(&all[0], &all[2]), 0);
    }

    #[test]
    fn nothing_on_a_page_overlaps_or_leaves_it() {
        let template = |w: f64, h: f64| Template {
            key: String::new(),
            title: String::new(),
            how: String::new(),
            drawing: drawings::Drawing {
                width: w,
                height: h,
                ..Default::default()
            },
        };
        let all: Vec<Template> = [
            (80.0, 40.0),
            (90.0, 30.0),
            (640.0, 90.0),
            (300.0, 280.0),
            (1.0, 1.0),
        ]
        .map(|(w, h)| template(w, h))
        .into();
        for paper in Paper::ALL {
            for page in lay_out(&all, paper) {
                let (w, h) = paper.room(page.lying);
                let boxes: Vec<[f64; 4]> = page
                    .tiles
                    .iter()
                    .map(|p| [p.x, p.y, p.x + p.tile.width, p.y + p.tile.height + CAPTION])
                    .collect();
                for (i, a) in boxes.iter().enumerate() {
                    assert!(
                        a[2] <= w + 1e-6 && a[3] <= h - BARS + 1e-6,
                        "{paper:?} {a:?}"
                    );
                    for b in &boxes[i + 1..] {
                        let apart = a[2] <= b[0] || b[2] <= a[0] || a[3] <= b[1] || b[3] <= a[1];
                        assert!(apart, "{paper:?}: {a:?} and {b:?}");
                    }
                }
            }
        }
    }
}
