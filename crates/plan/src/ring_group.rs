//! Rings alike, made together.

use files::message::Message;
use piece::course::Course;
use piece::model::WoodId;
use piece::piece::{Piece, Section};
use piece::ring::RingSizes;

/// Lengths nearer than this are set alike on any machine, mm.
const ALIKE: f64 = 1e-6;

/// Rings of one section that are made alike; only their turn may differ.
#[derive(Debug, Clone)]
pub struct RingGroup<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// Their section.
    pub section: usize,
    /// Which rings of it, rising.
    pub rings: Vec<usize>,
    /// The first of them.
    pub ring: &'a Course,
}

impl<'a> RingGroup<'a> {
    /// A section's rings in groups, in the order of each group's first ring.
    pub fn of_section(piece: &'a Piece, section: usize) -> Vec<RingGroup<'a>> {
        let mut groups: Vec<RingGroup<'a>> = Vec::new();
        let Some(Section { rings, .. }) = piece.sections.get(section) else {
            return groups;
        };
        for (i, ring) in rings.iter().enumerate() {
            match groups.iter_mut().find(|g| alike(g.ring, ring)) {
                Some(group) => group.rings.push(i),
                None => groups.push(RingGroup {
                    piece,
                    section,
                    rings: vec![i],
                    ring,
                }),
            }
        }
        groups
    }

    /// Their sizes.
    pub fn sizes(&self) -> &'a RingSizes {
        &self.ring.sizes
    }

    /// How many.
    pub fn count(&self) -> usize {
        self.rings.len()
    }

    /// Their numbers through the whole piece, from 1.
    pub fn numbers(&self) -> Vec<usize> {
        let number = |r: &usize| self.piece.ring_number(self.section, *r);
        self.rings.iter().map(number).collect()
    }

    /// `ring 3`, `rings 4 to 7`.
    pub fn name(&self) -> Message {
        crate::words::numbered("ring", &self.numbers())
    }

    /// Woods of one ring in the order they first appear, with how many segments each.
    pub fn woods(&self) -> Vec<(WoodId, usize)> {
        let round = self.ring.cuts.iter().filter(|cut| !cut.let_in);
        round.map(|cut| (cut.wood, cut.count)).collect()
    }

    /// One repeat of the pattern round a ring, in words.
    pub fn pattern(&self) -> String {
        let repeats = piece::symmetry::ring_repeats(&self.ring.woods).max(1);
        let names: Vec<String> = self
            .ring
            .woods
            .iter()
            .take(self.ring.woods.len() / repeats)
            .map(|w| crate::words::plain(self.piece.wood_name(*w)))
            .collect();
        names.join(", ")
    }

    /// Made of mitred segments?
    pub fn segmented(&self) -> bool {
        self.ring.cuts.iter().any(|cut| cut.mitre.is_some())
    }
}

fn alike(a: &Course, b: &Course) -> bool {
    let near = |a: geometry::Length, b: geometry::Length| (a - b).as_mm().abs() <= ALIKE;
    // Each panel is fitted to its own ring.
    let fitted = a.let_in.is_some() || b.let_in.is_some();
    !fitted
        && a.construction.word() == b.construction.word()
        && a.sizes.filled == b.sizes.filled
        && a.woods == b.woods
        && a.board == b.board
        && near(a.sizes.flat_out, b.sizes.flat_out)
        && near(a.sizes.corner_in, b.sizes.corner_in)
        && near(a.stock, b.stock)
        && near(a.height, b.height)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    #[test]
    fn rings_alike_are_one_group_and_no_ring_is_lost() {
        let piece = trial::bowl();
        for section in 0..piece.sections.len() {
            let groups = RingGroup::of_section(&piece, section);
            let mut all: Vec<usize> = groups.iter().flat_map(|g| g.rings.clone()).collect();
            all.sort_unstable();
            let wanted: Vec<usize> = (0..piece.sections[section].rings.len()).collect();
            assert_eq!(all, wanted);
        }
        // A straight tube's rings are all alike.
        let tube = trial::tube();
        let groups = RingGroup::of_section(&tube, 1);
        assert_eq!(groups.len(), 1);
        assert_eq!(groups[0].count(), tube.sections[1].rings.len());
    }

    #[test]
    fn a_section_that_is_not_there_has_no_groups() {
        assert!(RingGroup::of_section(&trial::bowl(), 99).is_empty());
    }
}
