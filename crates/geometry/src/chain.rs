//! A radius for each height: what is left of a curve when only its innermost or
//! outermost radius at each height counts.

use kurbo::Point;

/// Which radius counts where a curve passes a height more than once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Keep {
    /// The smallest radius.
    Innermost,
    /// The largest radius.
    Outermost,
}

/// A straight stretch that rises from `z0` to `z1`, `z1 > z0`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stretch {
    pub z0: f64,
    pub r0: f64,
    pub z1: f64,
    pub r1: f64,
}

impl Stretch {
    /// Radius at a height, held to the stretch's ends.
    pub(crate) fn at(&self, z: f64) -> f64 {
        let t = ((z - self.z0) / (self.z1 - self.z0)).clamp(0.0, 1.0);
        self.r0 + (self.r1 - self.r0) * t
    }

    pub(crate) fn slope(&self) -> f64 {
        (self.r1 - self.r0) / (self.z1 - self.z0)
    }
}

/// The stretches of `points` that count, from the bottom up. Level edges drop out: they
/// are steps between stretches. Cost is in proportion to the points for a curve that
/// rises throughout, and to points times log(folds) for one that does not.
/// Points must be finite.
pub(crate) fn stretches(points: &[Point], keep: Keep) -> Vec<Stretch> {
    let size = points
        .iter()
        .fold(0.0_f64, |s, p| s.max(p.x.abs()).max(p.y.abs()));
    let level = crate::NOISE * size;
    let mut folds: Vec<Vec<Stretch>> = Vec::new();
    let mut rising = None;
    for w in points.windows(2) {
        let (a, b) = (w[0], w[1]);
        let dz = b.y - a.y;
        if dz.abs() <= level {
            continue;
        }
        let up = dz > 0.0;
        if rising != Some(up) {
            folds.push(Vec::new());
            rising = Some(up);
        }
        let (lo, hi) = if up { (a, b) } else { (b, a) };
        if let Some(fold) = folds.last_mut() {
            fold.push(Stretch {
                z0: lo.y,
                r0: lo.x,
                z1: hi.y,
                r1: hi.x,
            });
        }
    }
    for fold in &mut folds {
        if fold.len() > 1 && fold[0].z0 > fold[1].z0 {
            fold.reverse();
        }
    }
    while folds.len() > 1 {
        let mut next = Vec::with_capacity(folds.len().div_ceil(2));
        for pair in folds.chunks(2) {
            next.push(match pair {
                [a, b] => merge(a, b, keep, level),
                [a] => a.clone(),
                _ => Vec::new(),
            });
        }
        folds = next;
    }
    let mut kept = folds.pop().unwrap_or_default();
    // Level edges within the noise may have stepped down a hair.
    let mut reached = f64::NEG_INFINITY;
    kept.retain_mut(|s| {
        s.z0 = s.z0.max(reached);
        reached = reached.max(s.z1);
        s.z1 > s.z0
    });
    kept
}

/// The curve drawn by stretches, with level edges at the steps.
pub(crate) fn drawn(stretches: &[Stretch]) -> Vec<Point> {
    let mut out: Vec<Point> = Vec::with_capacity(stretches.len() + 1);
    let mut push = |p: Point| {
        if out.last().is_none_or(|l| *l != p) {
            out.push(p);
        }
    };
    for s in stretches {
        push(Point::new(s.r0, s.z0));
        push(Point::new(s.r1, s.z1));
    }
    out
}

fn merge(a: &[Stretch], b: &[Stretch], keep: Keep, level: f64) -> Vec<Stretch> {
    let mut heights: Vec<f64> = a.iter().chain(b).flat_map(|s| [s.z0, s.z1]).collect();
    heights.sort_by(f64::total_cmp);
    heights.dedup_by(|b, a| *b - *a <= level);
    let mut out = Vec::with_capacity(heights.len());
    let (mut i, mut j) = (0, 0);
    for w in heights.windows(2) {
        let (z0, z1) = (w[0], w[1]);
        let mid = 0.5 * (z0 + z1);
        while i < a.len() && a[i].z1 <= mid {
            i += 1;
        }
        while j < b.len() && b[j].z1 <= mid {
            j += 1;
        }
        let here = |s: Option<&Stretch>| s.filter(|s| s.z0 <= mid).map(|s| (s.at(z0), s.at(z1)));
        let cut = |(r0, r1)| Stretch { z0, r0, z1, r1 };
        match (here(a.get(i)), here(b.get(j))) {
            (Some(p), Some(q)) => {
                let (d0, d1) = (p.0 - q.0, p.1 - q.1);
                let first_counts = |d: f64| (d <= 0.0) == (keep == Keep::Innermost);
                let at = z0 + (z1 - z0) * (d0 / (d0 - d1));
                if d0 * d1 < 0.0 && at > z0 && at < z1 {
                    let r = p.0 + (p.1 - p.0) * (d0 / (d0 - d1));
                    let (low, high) = if first_counts(d0) {
                        (p.0, q.1)
                    } else {
                        (q.0, p.1)
                    };
                    out.push(Stretch {
                        z0,
                        r0: low,
                        z1: at,
                        r1: r,
                    });
                    out.push(Stretch {
                        z0: at,
                        r0: r,
                        z1,
                        r1: high,
                    });
                } else {
                    out.push(cut(if first_counts(d0 + d1) { p } else { q }));
                }
            }
            (Some(p), None) => out.push(cut(p)),
            (None, Some(q)) => out.push(cut(q)),
            (None, None) => {}
        }
    }
    out
}

/// Finds the entry of a rising list that a height falls in, in constant time for
/// lists whose heights are spread about evenly.
#[derive(Debug, Clone, Default)]
pub(crate) struct HeightIndex {
    lowest: f64,
    per_mm: f64,
    first: Vec<u32>,
}

impl HeightIndex {
    /// An index over `starts`, which must rise.
    pub(crate) fn new(starts: &[f64], highest: f64) -> Self {
        let (Some(&lowest), false) = (starts.first(), starts.len() > u32::MAX as usize / 4) else {
            return Self::default();
        };
        let buckets = 4 * starts.len();
        let per_mm = buckets as f64 / (highest - lowest);
        if !(per_mm.is_finite() && per_mm > 0.0) {
            return Self {
                lowest,
                per_mm: 0.0,
                first: vec![0, 0],
            };
        }
        let mut first = Vec::with_capacity(buckets + 1);
        let mut i = 0;
        for b in 0..=buckets {
            let z = lowest + b as f64 / per_mm;
            while i + 1 < starts.len() && starts[i + 1] <= z {
                i += 1;
            }
            first.push(i as u32);
        }
        Self {
            lowest,
            per_mm,
            first,
        }
    }

    /// The last entry that starts at or below `z`; the first one if none does.
    #[inline]
    pub(crate) fn find<T>(&self, list: &[T], start: impl Fn(&T) -> f64, z: f64) -> Option<usize> {
        let last = self.first.len().checked_sub(2)?;
        // A cast of a negative or NaN is 0.
        let bucket = (((z - self.lowest) * self.per_mm) as usize).min(last);
        let (mut i, end) = (self.first[bucket] as usize, self.first[bucket + 1] as usize);
        if end - i > 16 {
            i += list[i..=end].partition_point(|e| start(e) <= z).max(1) - 1;
        }
        while i + 1 < list.len() && start(&list[i + 1]) <= z {
            i += 1;
        }
        // Rounding may have put z into the next bucket.
        while i > 0 && start(&list[i]) > z {
            i -= 1;
        }
        (i < list.len()).then_some(i)
    }
}
