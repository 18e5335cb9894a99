//! The examples, planned, and a road through their figures.

use files::design::{BandSpec, Design, RingSpec, RingsGiven, SectionSpec};
use files::message::Said;
use files::read::read_design;
use files::workshop::Workshop;
use piece::piece::Piece;
use piece::settle::{Settled, settle};
use plan::figure::Figure;
use plan::operation::Operation;
use plan::operations::OperationKind;
use plan::{Plan, plan};

/// The plain shop's quantities, mm, written down once more: common practice.
pub const KERF_TABLE: f64 = 3.0;
pub const KERF_BAND: f64 = 1.2;
pub const BOARD: f64 = 19.0;
pub const OUTSIDE: f64 = 3.0;
pub const FLATTENING: f64 = 0.5;
pub const JOINTING: f64 = 0.5;
pub const GLUE_LINE: f64 = 0.05;
pub const EDGE: f64 = 3.0;
pub const WASTE_BLOCK: f64 = 38.0;
pub const SLED_BASE: f64 = 18.0;
pub const CLEARANCE: f64 = 20.0;
pub const RUN_OUT: f64 = 25.0;
pub const BLOCK_STANDS_OUT: f64 = 18.0;
pub const FASTEST: f64 = 3200.0;

/// One example.
pub struct Example {
    pub name: &'static str,
    pub design: Design,
    pub settled: Settled,
    pub plan: Plan,
}

impl Example {
    pub fn piece(&self) -> &Piece {
        self.settled.piece.as_ref().unwrap()
    }

    pub fn of(name: &'static str, file: &str) -> Example {
        let (design, _, problems) = read_design(name, file);
        assert!(problems.is_empty(), "{name}: {problems:?}");
        let design = design.unwrap();
        let settled = settle(&design, &Workshop::default());
        assert!(
            settled.troubles.is_empty(),
            "{name}: {:?}",
            settled.troubles
        );
        let plan = plan(&settled, design.unit);
        Example {
            name,
            design,
            settled,
            plan,
        }
    }
}

/// A section's rings as its file gives them, repeats written out.
pub fn ring_specs(section: &SectionSpec, count: usize) -> Vec<RingSpec> {
    match section.rings_given() {
        RingsGiven::Listed(rings) => rings
            .iter()
            .flat_map(|r| vec![r.clone(); r.repeat.unwrap_or(1)])
            .collect(),
        _ => vec![RingSpec::default(); count],
    }
}

/// Bowl, vase, box, lantern.
pub fn examples() -> [Example; 4] {
    [
        Example::of(
            "bowl",
            include_str!("../../../../examples/sandpiper-bowl.toml"),
        ),
        Example::of(
            "vase",
            include_str!("../../../../examples/dunlin-vase.toml"),
        ),
        Example::of(
            "box",
            include_str!("../../../../examples/turnstone-box.toml"),
        ),
        Example::of(
            "lantern",
            include_str!("../../../../examples/avocet-lantern.toml"),
        ),
    ]
}

/// Where a figure stands.
pub struct At<'a> {
    pub example: &'a Example,
    pub operation: &'a Operation<Said>,
    pub figure: &'a Figure<Said>,
}

impl At<'_> {
    pub fn piece(&self) -> &Piece {
        self.example.piece()
    }

    pub fn value(&self) -> f64 {
        self.figure.amount.number().unwrap()
    }

    /// The number at the end of its key.
    pub fn number(&self) -> usize {
        self.figure.key.rsplit('_').next().unwrap().parse().unwrap()
    }

    /// Another figure of the same operation.
    pub fn beside(&self, key: &str) -> f64 {
        let found = self.operation.figures.iter().find(|f| f.key == key);
        found.unwrap().amount.number().unwrap()
    }

    pub fn section(&self) -> &piece::piece::Section {
        &self.piece().sections[self.operation.subject.section.unwrap()]
    }

    pub fn ring(&self) -> &piece::course::Course {
        &self.section().rings[self.operation.subject.ring.unwrap()]
    }

    /// The section as the file gives it.
    pub fn section_spec(&self) -> &SectionSpec {
        &self.example.design.sections[self.operation.subject.section.unwrap()]
    }

    /// The ring as the file gives it.
    pub fn ring_spec(&self) -> RingSpec {
        let specs = ring_specs(self.section_spec(), self.section().rings.len());
        specs[self.operation.subject.ring.unwrap()].clone()
    }

    /// The board that a ring is sawn from, as the file or the plain shop gives it, mm.
    pub fn board(&self) -> f64 {
        let stock = self.ring_spec().stock.or(self.section_spec().stock);
        stock.map_or(BOARD, |s| s.as_mm())
    }

    /// The band as the file gives it.
    pub fn band_spec(&self) -> &BandSpec {
        &self.section_spec().bands[self.operation.subject.band.unwrap()]
    }

    pub fn band(&self) -> &piece::piece::Band {
        &self.section().bands[self.operation.subject.band.unwrap()]
    }
}

/// Holds every figure of a kind and sort against what another road gives; there must
/// be one at least.
pub fn each(kind: OperationKind, sort: &str, tolerance: f64, wanted: impl Fn(&At<'_>) -> f64) {
    let all = examples();
    let (mut seen, mut most) = (0, 0.0_f64);
    for example in &all {
        for operation in example.plan.operations.iter().filter(|o| o.kind == kind) {
            for figure in operation.figures.iter().filter(|f| f.sort() == sort) {
                let at = At {
                    example,
                    operation,
                    figure,
                };
                let (got, want) = (at.value(), wanted(&at));
                let off = (got - want).abs();
                assert!(
                    off <= tolerance,
                    "{} {} {}: {got}, by the other road {want}",
                    example.name,
                    operation.title,
                    figure.key
                );
                seen += 1;
                most = most.max(off);
            }
        }
    }
    assert!(seen > 0, "no example has {kind:?} {sort}");
    println!("deviation {kind:?} {sort}: {most:.2e} of {seen}");
}
