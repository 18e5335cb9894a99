//! From a line of points to the slabs that an outline is asked through.

use crate::Portable;
use kurbo::Point;

use super::{HeightIndex, MOST_SPANS, Outline, OutlineError, Slab, SlabEdge};

/// A turn of this much is a corner wherever it stands, radians.
const SHARP: f64 = 0.26;
/// A turn of this much is a corner if its neighbours turn far less, radians.
const NOTABLE: f64 = 0.05;

/// An edge that rises from one level to a higher one.
struct Edge {
    from: usize,
    to: usize,
    r: f64,
    slope: f64,
    z: f64,
}

pub(super) fn build(points: &[Point], extra: &[f64]) -> Result<Outline, OutlineError> {
    if points.iter().any(|p| !p.is_finite()) {
        return Err(OutlineError::NotFinite);
    }
    let size = points
        .iter()
        .fold(0.0_f64, |s, p| s.max(p.x.abs()).max(p.y.abs()));
    let noise = crate::NOISE * size;
    let ring = distinct(points, noise);
    if ring.len() < 3 {
        return Err(OutlineError::NoArea);
    }
    if let Some(p) = ring.iter().min_by(|a, b| a.x.total_cmp(&b.x))
        && p.x < -noise
    {
        return Err(OutlineError::BeyondAxis {
            height: p.y,
            radius: p.x,
        });
    }
    let levels = levels(&ring, noise);
    if levels.len() < 2 {
        return Err(OutlineError::NoArea);
    }
    // Every point is within `noise` of a level, and levels are further apart.
    let level_of = |z: f64| levels.partition_point(|l| *l <= z).max(1) - 1;
    let mut edges = Vec::with_capacity(ring.len());
    let mut flats = Vec::new();
    for (i, a) in ring.iter().enumerate() {
        let b = &ring[(i + 1) % ring.len()];
        let (lo, hi) = if a.y <= b.y { (a, b) } else { (b, a) };
        let (from, to) = (level_of(lo.y), level_of(hi.y));
        if from == to {
            flats.push((from, a.x.min(b.x), a.x.max(b.x)));
            continue;
        }
        let (z, z1) = (levels[from], levels[to]);
        edges.push(Edge {
            from,
            to,
            r: lo.x.max(0.0),
            slope: (hi.x.max(0.0) - lo.x.max(0.0)) / (z1 - z),
            z,
        });
    }
    let by_slab = fill(&edges, &levels)?;
    let mut slabs = Vec::with_capacity(levels.len() - 1);
    let mut kept: Vec<SlabEdge> = Vec::with_capacity(by_slab.iter().map(Vec::len).sum());
    for (k, inside) in by_slab.iter().enumerate() {
        check_order(inside, &edges, levels[k], levels[k + 1], size)?;
        slabs.push(Slab {
            z0: levels[k],
            first: kept.len() as u32,
            count: inside.len() as u32,
        });
        kept.extend(inside.iter().map(|e| {
            let e = &edges[*e as usize];
            SlabEdge {
                r0: e.r + e.slope * (levels[k] - e.z),
                slope: e.slope,
            }
        }));
    }
    check_flats(&flats, &by_slab, &edges, &levels, size)?;
    let top = levels[levels.len() - 1];
    let starts = &levels[..levels.len() - 1];
    Ok(Outline {
        index: HeightIndex::new(starts, top),
        breaks: breaks(&ring, &levels, extra, noise),
        points: points.to_vec(),
        slabs,
        edges: kept,
        top,
    })
}

/// Points with neighbours that coincide merged, the last and the first included.
fn distinct(points: &[Point], noise: f64) -> Vec<Point> {
    let mut ring: Vec<Point> = Vec::with_capacity(points.len());
    for p in points {
        if ring.last().is_none_or(|l| (*l - *p).hypot() > noise) {
            ring.push(*p);
        }
    }
    while ring.len() > 1 && (ring[0] - ring[ring.len() - 1]).hypot() <= noise {
        ring.pop();
    }
    ring
}

/// The different heights of points, ascending.
fn levels(ring: &[Point], noise: f64) -> Vec<f64> {
    let mut levels: Vec<f64> = ring.iter().map(|p| p.y).collect();
    levels.sort_by(f64::total_cmp);
    levels.dedup_by(|b, a| *b - *a <= noise);
    levels
}

/// The edges in each slab, from the axis outwards.
fn fill(edges: &[Edge], levels: &[f64]) -> Result<Vec<Vec<u32>>, OutlineError> {
    // Counted before anything is filled in, so that a wild line costs nothing.
    let mut change = vec![0_i64; levels.len()];
    for e in edges {
        change[e.from] += 1;
        change[e.to] -= 1;
    }
    let mut count = 0;
    for (k, c) in change.iter().enumerate() {
        count += c;
        if count > 2 * MOST_SPANS as i64 {
            return Err(OutlineError::TooManySpans { height: levels[k] });
        }
    }
    let mut by_slab: Vec<Vec<u32>> = vec![Vec::new(); levels.len() - 1];
    for (i, e) in edges.iter().enumerate() {
        for slab in &mut by_slab[e.from..e.to] {
            slab.push(i as u32);
        }
    }
    for (k, slab) in by_slab.iter_mut().enumerate() {
        let mid = 0.5 * (levels[k] + levels[k + 1]);
        let at = |i: &u32| {
            let e = &edges[*i as usize];
            e.r + e.slope * (mid - e.z)
        };
        slab.sort_by(|a, b| at(a).total_cmp(&at(b)));
    }
    Ok(by_slab)
}

/// Edges that change places within a slab cross there.
fn check_order(
    inside: &[u32],
    edges: &[Edge],
    z0: f64,
    z1: f64,
    size: f64,
) -> Result<(), OutlineError> {
    // Radii are found from slopes, so they carry more rounding than the points.
    let noise = 100.0 * crate::NOISE * size;
    let mut lowest: Option<f64> = None;
    for w in inside.windows(2) {
        let (a, b) = (&edges[w[0] as usize], &edges[w[1] as usize]);
        let gap = |z: f64| (b.r + b.slope * (z - b.z)) - (a.r + a.slope * (z - a.z));
        let (g0, g1) = (gap(z0), gap(z1));
        if g0 < -noise || g1 < -noise {
            let t = (g0 / (g0 - g1)).clamp(0.0, 1.0);
            let z = z0 + (z1 - z0) * if t.is_finite() { t } else { 0.0 };
            lowest = Some(lowest.map_or(z, |l| l.min(z)));
        }
    }
    lowest.map_or(Ok(()), |height| Err(OutlineError::CrossesItself { height }))
}

/// A level edge that another edge passes through crosses it.
fn check_flats(
    flats: &[(usize, f64, f64)],
    by_slab: &[Vec<u32>],
    edges: &[Edge],
    levels: &[f64],
    size: f64,
) -> Result<(), OutlineError> {
    let noise = 100.0 * crate::NOISE * size;
    for (k, near, far) in flats {
        let Some(slab) = by_slab.get(*k) else {
            continue;
        };
        let z = levels[*k];
        let passes = slab.iter().map(|i| &edges[*i as usize]).any(|e| {
            let r = e.r + e.slope * (z - e.z);
            e.from < *k && r > near + noise && r < far - noise
        });
        if passes {
            return Err(OutlineError::CrossesItself { height: z });
        }
    }
    Ok(())
}

/// Heights where the region's outline is not smooth.
fn breaks(ring: &[Point], levels: &[f64], extra: &[f64], noise: f64) -> Vec<f64> {
    let n = ring.len();
    let step = |i: usize| ring[(i + 1) % n] - ring[i];
    let turns: Vec<f64> = (0..n)
        .map(|i| {
            let (a, b) = (step((i + n - 1) % n), step(i));
            a.cross(b).arctangent2(a.dot(b)).abs()
        })
        .collect();
    let (bottom, top) = (levels[0], levels[levels.len() - 1]);
    let mut out = vec![bottom, top];
    out.extend(extra.iter().filter(|z| **z > bottom && **z < top));
    for i in 0..n {
        let (a, b) = (step((i + n - 1) % n), step(i));
        let beside = turns[(i + n - 1) % n].max(turns[(i + 1) % n]);
        let corner = turns[i] > SHARP || (turns[i] > NOTABLE && turns[i] > 4.0 * beside);
        let level = a.y.abs() <= noise || b.y.abs() <= noise;
        if corner || level || a.y * b.y < 0.0 {
            out.push(ring[i].y);
        }
    }
    out.sort_by(f64::total_cmp);
    out.dedup_by(|b, a| *b - *a <= noise);
    out
}
