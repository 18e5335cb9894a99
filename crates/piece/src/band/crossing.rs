//! Where loops cross, and which passes over which.

use geometry::Portable;
use geometry::{Angle, Length};

use super::loops::{Loops, WallRadius};

/// One crossing of two loops' middles on a wall.
#[derive(Debug, Clone, Copy)]
pub struct Crossing {
    /// The loop that was cut later: its layer runs through, whole.
    pub over: usize,
    /// The loop that was cut earlier and is interrupted.
    pub under: usize,
    /// Azimuth on the wall.
    pub azimuth: Angle,
    /// Height above the section's underside; `None` where the wall has ended.
    pub height: Option<Length>,
}

/// Crossings at one height.
#[derive(Debug, Clone)]
pub struct CrossingRow {
    /// Height above the section's underside; `None` where the wall has ended.
    pub height: Option<Length>,
    /// Its crossings, by azimuth.
    pub crossings: Vec<Crossing>,
}

/// All crossings on a wall, in rows from the top down.
///
/// Two planes of equal tilt and height meet the wall together half way between
/// their climbs, at azimuth (a + b)/2 and opposite, at the height where
/// z − height = R(z) tan(tilt) cos((a − b)/2).
/// `cut_at[i]` is loop i's place in the cutting order.
pub fn crossing_rows(loops: &Loops, cut_at: &[usize], wall: WallRadius<'_>) -> Vec<CrossingRow> {
    let n = loops.azimuths.len();
    let slope = loops.tilt.as_rad().tangent();
    // One share cos((a-b)/2) is one row; equal shares differ only by rounding.
    let mut rows: Vec<(f64, CrossingRow)> = Vec::new();
    for i in 0..n {
        for j in i + 1..n {
            let (a, b) = (loops.azimuths[i].as_rad(), loops.azimuths[j].as_rad());
            for opposite in [false, true] {
                let mid = 0.5 * (a + b) + if opposite { std::f64::consts::PI } else { 0.0 };
                let share = (a - mid).cosine();
                let late = |k: usize| cut_at.get(k).copied().unwrap_or(k);
                let (over, under) = if late(i) > late(j) { (i, j) } else { (j, i) };
                let at = rows.iter().position(|(s, _)| (s - share).abs() < 1e-9);
                let at = at.unwrap_or_else(|| {
                    let height = Loops::height_on(wall, loops.height.as_mm(), slope * share);
                    rows.push((
                        share,
                        CrossingRow {
                            height: height.map(Length::mm),
                            crossings: Vec::new(),
                        },
                    ));
                    rows.len() - 1
                });
                let row = &mut rows[at].1;
                row.crossings.push(Crossing {
                    over,
                    under,
                    azimuth: Angle::rad(mid).wrapped(),
                    height: row.height,
                });
            }
        }
    }
    rows.sort_by(|a, b| b.0.total_cmp(&a.0));
    for (_, row) in &mut rows {
        row.crossings
            .sort_by(|a, b| a.azimuth.as_rad().total_cmp(&b.azimuth.as_rad()));
    }
    rows.into_iter().map(|(_, row)| row).collect()
}

/// How many rows n evenly spaced loops cross in: n − 1.
pub fn even_rows(loops: usize) -> usize {
    loops.saturating_sub(1)
}
