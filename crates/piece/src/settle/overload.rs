//! A piece that is more work than the program takes on, and what of it would fit.

use files::design::Design;
use files::key::{self, KeyPath};
use files::workshop::Workshop;

use super::settled;
use crate::work::Load;

/// A piece that is too much work.
#[derive(Debug, Clone)]
pub struct Overload {
    /// What it comes to.
    pub load: Load,
    /// The key of its largest count: `section[2].band[0].loops`.
    pub path: KeyPath,
    /// What would fit.
    pub fits: Option<Fits>,
}

/// A change with which a piece fits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fits {
    /// Every band kept, with at most so many loops.
    Loops(usize),
    /// One band in a section, with at most so many loops.
    OneBandOf(usize),
    /// At most so many splits in a section.
    Splits(usize),
}

impl Overload {
    /// Looks for what fits. Only pieces that are far from any sensible one come here.
    pub(super) fn of(design: &Design, workshop: &Workshop, load: Load) -> Overload {
        let most_loops = bands(design).map(loops).max().unwrap_or(0);
        let most_splits = design.sections.iter().map(|s| s.splits.len()).max();
        let fits = |change: Fits| change.made(design).is_some_and(|d| fitting(&d, workshop));
        // Fewer loops are fewer cuts and cells: the largest that fits is found by halving.
        let largest = |least: usize, most: usize, change: fn(usize) -> Fits| {
            let sizes: Vec<usize> = (least..=most).collect();
            let at = sizes.partition_point(|&n| fits(change(n)));
            at.checked_sub(1).map(|i| change(sizes[i]))
        };
        let fits = largest(LEAST_LOOPS, most_loops.saturating_sub(1), Fits::Loops)
            .or_else(|| largest(LEAST_LOOPS, most_loops, Fits::OneBandOf))
            .or_else(|| largest(0, most_splits.unwrap_or(0).saturating_sub(1), Fits::Splits));
        Overload {
            load,
            path: largest_count(design, fits),
            fits,
        }
    }
}

/// Fewer loops make no knot.
const LEAST_LOOPS: usize = 2;

fn bands(design: &Design) -> impl Iterator<Item = &files::design::BandSpec> {
    design.sections.iter().flat_map(|s| &s.bands)
}

fn loops(band: &files::design::BandSpec) -> usize {
    match band.azimuths.len() {
        0 => band.loops.unwrap_or(super::bands::usual_loops()),
        n => n,
    }
}

/// Does a design come to a piece that fits? Cuts are added up before anything is settled.
fn fitting(design: &Design, workshop: &Workshop) -> bool {
    let cuts: usize = design.sections.iter().map(|s| s.splits.len()).sum();
    if cuts + bands(design).map(loops).sum::<usize>() > Load::MOST_CUTS {
        return false;
    }
    let piece = settled(design, workshop).piece;
    piece.is_none_or(|p| Load::of(&p.stack).fits())
}

impl Fits {
    /// The design with the change made; nothing where it changes nothing.
    fn made(self, design: &Design) -> Option<Design> {
        let mut changed = design.clone();
        let mut any = false;
        for section in &mut changed.sections {
            if let Fits::OneBandOf(_) = self {
                any |= section.bands.len() > 1;
                section.bands.truncate(1);
            }
            match self {
                Fits::Loops(most) | Fits::OneBandOf(most) => {
                    for band in &mut section.bands {
                        if loops(band) > most {
                            any = true;
                            band.loops = Some(most);
                            band.azimuths.truncate(most);
                            band.order.clear();
                        }
                    }
                }
                Fits::Splits(most) => {
                    any |= section.splits.len() > most;
                    section.splits.truncate(most);
                }
            }
        }
        any.then_some(changed)
    }
}

/// The key that a maker would look at first: the first of the largest bands, or of the
/// sections with most splits.
fn largest_count(design: &Design, fits: Option<Fits>) -> KeyPath {
    let splits = matches!(fits, Some(Fits::Splits(_)));
    let mut best = (0, key::section(0).path().list());
    for (s, section) in design.sections.iter().enumerate() {
        if splits && section.splits.len() > best.0 {
            let list = key::section(s).split(0).path().list();
            best = (section.splits.len(), list);
        }
        for (b, band) in section.bands.iter().enumerate() {
            if !splits && loops(band) > best.0 {
                let path = key::section(s).band(b);
                let key = if band.azimuths.is_empty() {
                    path.loops()
                } else {
                    path.azimuths()
                };
                best = (loops(band), key);
            }
        }
    }
    best.1
}
