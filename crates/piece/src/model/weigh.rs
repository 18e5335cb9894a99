//! Volumes by part and by wood, before and after turning.

use std::collections::{BTreeMap, HashMap};

use geometry::{ConvexCell, Turned, VolumeMoments, turned_volume};
use glam::DVec2;

use super::{Part, Stack, StackCell, WoodId};
use crate::parallel::map_each;

/// A part's volume.
#[derive(Debug, Clone, Copy)]
pub struct PartVolume {
    /// The section.
    pub section: u16,
    /// The part.
    pub part: Part,
    /// Its wood.
    pub wood: WoodId,
    /// Volume (mm³) and first moments (mm⁴).
    pub moments: VolumeMoments,
}

/// Each part's volume: whole when `form` is `None`, else what turning leaves.
///
/// `tolerance` is the relative error wanted in the sum. The result is the same to
/// the last bit whatever the number of cores.
///
/// A turned form looks the same from every azimuth, so of cells that differ only by
/// a turn round the axis (most of them, in a piece of equal segments and even loops)
/// one is measured. The cells of one section at a time are in memory.
pub fn volumes_by_part(
    stack: &Stack,
    form: Option<&dyn Turned>,
    tolerance: f64,
) -> Vec<PartVolume> {
    let mut sums = Sums::default();
    let mut models = Models::default();
    for section in 0..stack.sections().len() {
        let cells = stack.section_cells(section);
        match form {
            None => sums.add(&cells, |i| VolumeMoments::of_cell(&cells[i].cell)),
            Some(form) => {
                let like = models.learn(&cells, form, tolerance);
                sums.add(&cells, |i| models.moments(like[i]));
            }
        }
    }
    sums.0.into_values().collect()
}

/// Cells that were measured, each standing for all that differ from it by a turn.
#[derive(Default)]
struct Models {
    by_shape: HashMap<Vec<[i64; 3]>, usize>,
    /// What turning leaves of each, and its azimuth.
    measured: Vec<(VolumeMoments, f64)>,
}

impl Models {
    /// Measures those of a section's cells that are like none before, and tells of each
    /// cell its model and its azimuth.
    fn learn(
        &mut self,
        cells: &[StackCell],
        form: &dyn Turned,
        tolerance: f64,
    ) -> Vec<(usize, f64)> {
        let known = self.measured.len();
        let mut new: Vec<(usize, f64)> = Vec::new();
        let like: Vec<(usize, f64)> = cells
            .iter()
            .enumerate()
            .map(|(i, c)| {
                let (shape, azimuth) = shape(&c.cell);
                let model = *self.by_shape.entry(shape).or_insert_with(|| {
                    new.push((i, azimuth));
                    known + new.len() - 1
                });
                (model, azimuth)
            })
            .collect();
        self.measured.extend(map_each(new.len(), |k| {
            let (i, azimuth) = new[k];
            let cell = &cells[i].cell;
            let moments = turned_volume(cell, form, tolerance * cell.volume());
            (moments, azimuth)
        }));
        like
    }

    /// What turning leaves of a cell like a model, at an azimuth of its own.
    fn moments(&self, (model, azimuth): (usize, f64)) -> VolumeMoments {
        let (moments, its_azimuth) = self.measured[model];
        let turn = DVec2::from_angle(azimuth - its_azimuth);
        let flat = turn.rotate(moments.first.truncate());
        VolumeMoments {
            volume: moments.volume,
            first: flat.extend(moments.first.z),
        }
    }
}

/// A cell's corners as seen from its own azimuth, to 1e-6 mm and in a fixed order,
/// and that azimuth: two cells with the same corners differ by a turn only.
fn shape(cell: &ConvexCell) -> (Vec<[i64; 3]>, f64) {
    let centre = cell.centroid().truncate();
    let azimuth = if centre.length() > 1e-3 {
        centre.to_angle()
    } else {
        0.0
    };
    let back = DVec2::from_angle(-azimuth);
    let mut corners: Vec<[i64; 3]> = cell
        .corners()
        .iter()
        .map(|p| {
            let flat = back.rotate(p.truncate());
            [flat.x, flat.y, p.z].map(|v| (v * 1e6).round() as i64)
        })
        .collect();
    corners.sort_unstable();
    (corners, azimuth)
}

/// Each part's sum, by section and part.
#[derive(Default)]
struct Sums(BTreeMap<(u16, Part), PartVolume>);

impl Sums {
    fn add(&mut self, cells: &[StackCell], moments: impl Fn(usize) -> VolumeMoments) {
        for (i, c) in cells.iter().enumerate() {
            let moments = moments(i);
            self.0
                .entry((c.section, c.part))
                .and_modify(|s| s.moments += moments)
                .or_insert(PartVolume {
                    section: c.section,
                    part: c.part,
                    wood: c.wood,
                    moments,
                });
        }
    }
}

/// The same, summed by wood.
pub fn volumes_by_wood(parts: &[PartVolume]) -> BTreeMap<WoodId, VolumeMoments> {
    let mut sums: BTreeMap<WoodId, VolumeMoments> = BTreeMap::new();
    for p in parts {
        *sums.entry(p.wood).or_default() += p.moments;
    }
    sums
}
