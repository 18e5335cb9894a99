//! The ways out of a finding that can be taken: each was tried.

use ::plan::finding::Finding;
use files::message::{Language, Said};

use crate::open_projects::{OpenProject, Revision};
use crate::wire::Way;

/// Most trials for one view.
pub const TRIALS: usize = 12;
/// Most ways of one finding that are tried.
const EACH: usize = 3;

/// The ways with which the finding is gone and nothing as bad has come.
pub fn ways(
    revision: &Revision,
    finding: &Finding<Said>,
    language: Language,
    trials: &mut usize,
) -> Vec<Way> {
    let unit = language.unit;
    let before = revision.shown(language).findings();
    let all = finding.remedy.ways.iter().take(EACH);
    all.filter_map(|way| {
        *trials = trials.checked_sub(1)?;
        let edits = way.edits(unit);
        let text = OpenProject::edited(revision, &edits, unit).ok()?;
        let after = Revision::new("trial", &text, &revision.shop).ok()?;
        finding
            .is_done_by(before, after.shown(language).findings())
            .then(|| Way {
                what: way.what.clone(),
                edits,
            })
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use files::units::Unit;

    use super::*;
    use crate::open_projects::Shop;

    const MM: &str = "ringwright = 1\nunit = \"mm\"\n";
    use crate::starter::{NewPiece, PieceKind, write};
    use files::edit::{Edit, Words};

    /// A new vase with three loops whose body has four rings: the finding asks for a higher
    /// section, and that is what its way sets.
    #[test]
    fn a_section_that_is_too_low_for_its_loops_is_made_higher() {
        let shop = Arc::new(Shop::from_text(MM));
        let (height, diameter) = PieceKind::Vase.usual_size(Unit::Mm);
        let vase = NewPiece {
            kind: PieceKind::Vase,
            title: "Vase".into(),
            height,
            diameter,
            loops: 3,
            segments: 12,
            unit: Unit::Mm,
        };
        let text = write(&vase, &shop.workshop).unwrap();
        let low = text.replace("rings = \"auto\"", "rings = 4");
        assert_ne!(low, text);
        let revision = Revision::new("vase", &low, &shop).unwrap();
        let found = revision.shown(Unit::Mm.into()).findings();
        let finding = found.iter().find(|f| f.key == "loop-interrupted").unwrap();
        assert!(
            finding
                .remedy
                .words
                .contains("a section at least 203.3 mm high")
        );
        let ways = ways(&revision, finding, Unit::Mm.into(), &mut 3);
        assert_eq!(ways[0].what, "make body of 12 rings, 216.0 mm high");
        let set = |edit: &Edit| match edit {
            Edit::Set { path, value } => (path.to_string(), value.clone()),
            other => panic!("{other:?}"),
        };
        let set: Vec<_> = ways[0].edits.iter().map(set).collect();
        assert_eq!(set[0], ("section[1].rings".into(), Words::Number(12.0)));
        let middle = Words::Text("108.0 mm".into());
        assert_eq!(set[1], ("section[1].band[0].height".into(), middle));
    }
}
