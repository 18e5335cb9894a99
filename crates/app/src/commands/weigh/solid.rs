//! The model as plain numbers, for an outside mesh kernel (`benches/peer/volumes.py`
//! documents the layout).

use geometry::{Angle, kurbo::Point};
use piece::model::StepKind;
use piece::piece::{Piece, Section};
use serde_json::{Value, json};

/// The outline is given to this many mm: 1e-5 of a thin wall's volume.
const OUTLINE: f64 = 0.001;

/// The piece in the peer's layout. Floor panels and gaps are left out; the program's
/// own volumes are compared on pieces without them.
pub fn solid(piece: &Piece) -> Value {
    let polygon: Vec<[f64; 2]> = thinned(piece.form.outline().points(), OUTLINE)
        .iter()
        .map(|p| [p.x, p.y])
        .collect();
    json!({
        "sections": piece.sections.iter().enumerate()
            .map(|(i, s)| section(piece, i, s)).collect::<Vec<_>>(),
        "turned": { "polygon_r_z": polygon },
    })
}

fn section(piece: &Piece, index: usize, section: &Section) -> Value {
    let body = &piece.stack.sections()[index].body;
    let name = |id: &piece::model::WoodId| piece.wood_name(*id).to_string();
    let rings: Vec<Value> = body
        .rings()
        .iter()
        .map(|r| {
            let woods: Vec<String> = r.woods().iter().map(name).collect();
            let let_in = r.let_in().map(|(sides, first, panel)| {
                json!({
                    "segments": sides,
                    "rotation": Angle::rad(first).as_deg(),
                    "apothem": panel.flat,
                    "apothem_groove": panel.groove,
                    "bottom": panel.bottom,
                    "top": panel.top,
                    "wood": name(&panel.wood),
                })
            });
            json!({
                "segments": r.sides(),
                "filled": r.filled(),
                "let_in": let_in,
                "rotation": Angle::rad(r.rotation).as_deg(),
                "apothem_out": r.flat_out(),
                "apothem_in": r.flat_in(),
                "bottom": r.bottom,
                "top": r.top,
                "woods": woods,
            })
        })
        .collect();
    let steps: Vec<Value> = body
        .steps()
        .iter()
        .map(|step| {
            let removed = step.upper.offset - step.lower.offset;
            let middle = step.lower.shifted(removed / 2.0);
            match step.kind {
                StepKind::Loop { band, number } => {
                    let band = &section.bands[usize::from(band)];
                    json!({
                        "tilt": band.loops.tilt.as_deg(),
                        "azimuth": band.loops.azimuths[usize::from(number)].as_deg(),
                        "height": middle.height_on_axis(),
                        "removed": removed,
                        "insert": removed,
                        "wood": name(&band.woods[usize::from(number)]),
                    })
                }
                // Only a piece with errors in it has such steps.
                StepKind::Joint { .. } => Value::Null,
                StepKind::Split { number } => json!({
                    "tilt": 0.0,
                    "azimuth": 0.0,
                    "height": middle.height_on_axis(),
                    "removed": removed,
                    "insert": 0.0,
                    "turn": section.splits[usize::from(number)].spec.turn.as_deg(),
                    // Nothing is glued in, so no wood bears this name.
                    "wood": format!("split {}", number + 1),
                }),
            }
        })
        .collect();
    json!({
        "bottom": section.bottom.as_mm(),
        "turn": section.turn.as_deg(),
        "rings": rings,
        "loops": steps,
    })
}

/// The line with as few points as stay within `tolerance` of it (Douglas and Peucker 1973).
fn thinned(points: &[Point], tolerance: f64) -> Vec<Point> {
    if points.len() < 3 {
        return points.to_vec();
    }
    let mut keep = vec![false; points.len()];
    let last = points.len() - 1;
    (keep[0], keep[last]) = (true, true);
    let mut todo = vec![(0, last)];
    while let Some((a, b)) = todo.pop() {
        let way = points[b] - points[a];
        let far = (a + 1..b)
            .map(|i| {
                let d = points[i] - points[a];
                let off = if way.hypot() > 0.0 {
                    (way.cross(d) / way.hypot()).abs()
                } else {
                    d.hypot()
                };
                (off, i)
            })
            .max_by(|x, y| x.0.total_cmp(&y.0));
        if let Some((off, i)) = far
            && off > tolerance
        {
            keep[i] = true;
            todo.extend([(a, i), (i, b)]);
        }
    }
    (0..points.len())
        .filter(|&i| keep[i])
        .map(|i| points[i])
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thinning_keeps_corners_and_drops_what_is_in_line() {
        let line: Vec<Point> = [(0.0, 0.0), (1.0, 0.0), (2.0, 0.0), (2.0, 1.0), (2.0, 5.0)]
            .map(|(x, y)| Point::new(x, y))
            .to_vec();
        let thin = thinned(&line, 0.01);
        assert_eq!(thin.len(), 3);
        assert_eq!(thin[1], Point::new(2.0, 0.0));
    }
}
