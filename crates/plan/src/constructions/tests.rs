//! The registry is whole.

use super::*;
use crate::operations::OperationKind;
use crate::trial;

/// No construction ships half-wired: each that `piece` has is made by one of these, with
/// operations that say what is done and carry cautions, and is told of in the docs.
#[test]
fn every_construction_is_made_and_told_of() {
    let words: Vec<&str> = piece::course::ALL.iter().map(|c| c.word()).collect();
    assert_eq!(words, ALL.map(|making| making.word()));
    let pieces = [trial::solid(), trial::tube(), trial::open()];
    for known in ALL {
        let groups = pieces.iter().flat_map(|piece| {
            let sections = 0..piece.sections.len();
            sections.flat_map(|s| RingGroup::of_section(piece, s))
        });
        let of_kind = |g: &RingGroup<'_>| g.ring.construction.word() == known.word();
        let group = groups.into_iter().find(of_kind);
        let group = group.unwrap_or_else(|| panic!("no trial has a {}", known.word()));
        let operations = making(group.ring).operations(&group);
        assert!(!operations.is_empty(), "{}", known.word());
        for operation in operations {
            let card = operation.card();
            assert!(!operation.cautions().is_empty(), "{}", card.name);
            assert!(!operation.doing().is_empty() && operation.minutes() > 0.0);
            assert!(
                OperationKind::OF_RINGS.contains(&card.kind),
                "{}",
                card.name
            );
        }
        let (file, heading) = known.docs();
        let path = format!("{}/../../docs/{file}", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).unwrap_or_default();
        let told = text
            .lines()
            .any(|l| l.starts_with('#') && l.contains(heading));
        assert!(told, "docs/{file} has no \"{heading}\"");
    }
}
