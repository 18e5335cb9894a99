//! Volumes by part and by wood, before and after turning.

use std::collections::BTreeMap;

use geometry::{Turned, VolumeMoments, turned_volume};

use super::{Part, Stack, StackCell, WoodId};

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

/// Each cell's volume: whole when `form` is `None`, else what turning leaves.
///
/// `tolerance` is the relative error wanted in the sum. The result is the same to
/// the last bit whatever the number of cores.
pub fn volumes_by_part(
    stack: &Stack,
    form: Option<&dyn Turned>,
    tolerance: f64,
) -> Vec<PartVolume> {
    let cells = stack.cells();
    let measure = |c: &StackCell| {
        let moments = match form {
            None => VolumeMoments::of_cell(&c.cell),
            Some(form) => {
                let size = c.cell.volume();
                turned_volume(&c.cell, form, tolerance * size)
            }
        };
        PartVolume {
            section: c.section,
            part: c.part,
            wood: c.wood,
            moments,
        }
    };
    #[cfg(feature = "parallel")]
    let each: Vec<PartVolume> = {
        use rayon::prelude::*;
        cells.par_iter().map(measure).collect()
    };
    #[cfg(not(feature = "parallel"))]
    let each: Vec<PartVolume> = cells.iter().map(measure).collect();
    let mut sums: BTreeMap<(u16, Part), PartVolume> = BTreeMap::new();
    for v in each {
        sums.entry((v.section, v.part))
            .and_modify(|s| s.moments += v.moments)
            .or_insert(v);
    }
    sums.into_values().collect()
}

/// The same, summed by wood.
pub fn volumes_by_wood(parts: &[PartVolume]) -> BTreeMap<WoodId, VolumeMoments> {
    let mut sums: BTreeMap<WoodId, VolumeMoments> = BTreeMap::new();
    for p in parts {
        *sums.entry(p.wood).or_default() += p.moments;
    }
    sums
}
