//! A loop's edges on a wall, as lines in closed form: for a page that draws them at every
//! movement of a hand. What later cuts cover is not left out, as [`super::traces`] does.

use geometry::Portable;
use geometry::{Angle, Profile};
use piece::band::Loops;
use piece::piece::{Band, Section};

/// Points once round.
const STEPS: u32 = 120;

/// Lines of points: azimuth in degrees, height in mm.
pub type Lines = Vec<Vec<(f64, f64)>>;

/// The edges of one loop. Azimuths of a band's are counted from the loop's climb.
#[derive(Debug, Clone)]
pub struct LoopLines {
    /// The upper edge, in parts where a split went through it.
    pub upper: Lines,
    /// The lower edge.
    pub lower: Lines,
}

/// A part of the section between two splits: from and to (above the section's underside,
/// as it was before the splits), how far it was turned and let down since, mm and degrees.
struct Storey {
    from: f64,
    to: f64,
    turn: f64,
    down: f64,
}

fn storeys(section: &Section) -> Vec<Storey> {
    let mut splits: Vec<(f64, f64, f64)> = section
        .splits
        .iter()
        .map(|s| {
            (
                s.spec.height.as_mm(),
                s.spec.turn.as_deg(),
                s.saw.kerf.as_mm(),
            )
        })
        .collect();
    splits.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut out = Vec::new();
    let (mut from, mut turn, mut down) = (f64::NEG_INFINITY, 0.0, 0.0);
    for (height, by, kerf) in splits {
        out.push(Storey {
            from,
            to: height - kerf / 2.0,
            turn,
            down,
        });
        from = height + kerf / 2.0;
        turn += by;
        down += kerf;
    }
    out.push(Storey {
        from,
        to: f64::INFINITY,
        turn,
        down,
    });
    out
}

/// The edges of a band's loops on a side of the form.
pub fn loop_lines(section: &Section, band: &Band, side: &Profile) -> LoopLines {
    let lift = section.bottom.as_mm();
    let wall = |z: f64| side.radius(z + lift);
    let storeys = storeys(section);
    let loops = &band.loops;
    let half = loops.thickness.as_mm() / (2.0 * loops.tilt.as_rad().cosine());
    let edge = |offset: f64| {
        let mut runs: Vec<Vec<(f64, f64)>> = Vec::new();
        for storey in &storeys {
            let mut run: Vec<(f64, f64)> = Vec::new();
            for k in 0..=STEPS {
                let from_climb = 360.0 * f64::from(k) / f64::from(STEPS);
                let slope =
                    loops.tilt.as_rad().tangent() * Angle::deg(from_climb).as_rad().cosine();
                let on_axis = loops.height.as_mm() + offset - storey.down;
                let z = Loops::height_on(&wall, on_axis, slope)
                    .filter(|z| (storey.from..=storey.to).contains(&(z + storey.down)))
                    .filter(|z| z.is_finite());
                match z {
                    Some(z) => run.push((from_climb + storey.turn, z + lift)),
                    None if run.is_empty() => {}
                    None => runs.push(std::mem::take(&mut run)),
                }
            }
            runs.push(run);
        }
        runs.retain(|r| r.len() > 1);
        runs
    };
    LoopLines {
        upper: edge(half),
        lower: edge(-half),
    }
}

impl LoopLines {
    /// The edges of the loop that climbs towards an azimuth of the piece, degrees. A line
    /// that passes 360° is parted there.
    pub fn turned(&self, azimuth: f64) -> LoopLines {
        let place =
            |runs: &[Vec<(f64, f64)>]| runs.iter().flat_map(|r| wrapped(r, azimuth)).collect();
        LoopLines {
            upper: place(&self.upper),
            lower: place(&self.lower),
        }
    }
}

/// A run turned into place and parted where it passes 360°.
fn wrapped(run: &[(f64, f64)], azimuth: f64) -> Lines {
    let mut out: Lines = vec![Vec::new()];
    let mut last: Option<(f64, f64)> = None;
    for &(az, z) in run {
        let az = az + azimuth;
        if let Some((before, z_before)) = last {
            let (turn_before, turn) = ((before / 360.0).floor(), (az / 360.0).floor());
            if turn != turn_before {
                // The seam's own point ends one line and begins the next.
                let seam = 360.0 * turn;
                let t = ((seam - before) / (az - before)).clamp(0.0, 1.0);
                let z_seam = z_before + (z - z_before) * t;
                if let Some(line) = out.last_mut() {
                    line.push((360.0, z_seam));
                }
                out.push(vec![(0.0, z_seam)]);
            }
        }
        last = Some((az, z));
        if let Some(line) = out.last_mut() {
            line.push((az.rem_euclid(360.0), z));
        }
    }
    out.retain(|line| line.len() > 1);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_parted_at_the_seam() {
        let run: Vec<(f64, f64)> = (0..=12)
            .map(|k| (f64::from(k) * 30.0, f64::from(k)))
            .collect();
        let lines = wrapped(&run, 45.0);
        assert_eq!(lines.len(), 2);
        assert_eq!(lines[0].first(), Some(&(45.0, 0.0)));
        assert_eq!(lines[0].last(), Some(&(360.0, 10.5)));
        assert_eq!(lines[1].first(), Some(&(0.0, 10.5)));
        assert_eq!(lines[1].last(), Some(&(45.0, 12.0)));
        for line in lines {
            assert!(line.windows(2).all(|w| w[0].0 <= w[1].0));
        }
    }
}
