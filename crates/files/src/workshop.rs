//! What the maker has: saws, stock, lathe, sled, and the losses they reckon with.

mod climate;
mod holding;

use std::collections::BTreeSet;

use geometry::{Angle, Length};

use crate::exactness::Exactness;
use crate::units::Unit;

pub use climate::{Air, Climate};
pub use holding::{Block, Fixing, Holding, HoldingSpec};

/// A workshop file's contents. `Workshop::default()` is a plain small shop, each
/// figure of it common practice; the plan shows which figures came from it.
#[derive(Debug, Clone)]
pub struct Workshop {
    /// The unit that bare numbers in the file are in.
    pub unit: Unit,
    /// Saws, the first of a kind being the one used where none is named.
    pub saws: Vec<Saw>,
    /// Board thicknesses kept in stock.
    pub stock: Vec<Length>,
    /// Losses and allowances.
    pub allowances: Allowances,
    /// The lathe.
    pub lathe: Lathe,
    /// The sliding jig that carries the faceplate past the blade.
    pub sled: Sled,
    /// What holds the piece on the lathe.
    pub holding: Holding,
    /// Glue.
    pub glue: Glue,
    /// How exactly the maker works.
    pub exactness: Exactness,
    /// The air of shop and home.
    pub climate: Climate,
    /// What a project gets where it does not say.
    pub defaults: ShopDefaults,
    /// Keys that the workshop's file gives, `allowances.outside`; all others are
    /// common practice.
    pub given: BTreeSet<String>,
}

impl Workshop {
    /// Does the workshop's file give this key, or anything below it?
    pub fn gives(&self, key: &str) -> bool {
        self.given.iter().any(|g| {
            g.strip_prefix(key)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
        })
    }
}

impl Workshop {
    /// The saw that segments are cut with: the first table saw, else the first mitre
    /// saw, else whichever there is, else a usual table saw.
    pub fn segment_saw(&self) -> Saw {
        let first = |kind| self.saws.iter().find(|s| s.kind == kind);
        first(SawKind::Table)
            .or(first(SawKind::Mitre))
            .or(self.saws.first())
            .cloned()
            .unwrap_or_else(usual_table_saw)
    }
}

fn usual_table_saw() -> Saw {
    Saw {
        name: "table saw".into(),
        kind: SawKind::Table,
        kerf: Length::mm(3.0),
        cutting_height: Length::mm(75.0),
        room_beside: Length::mm(600.0),
        table_length: Length::mm(650.0),
        table_width: Length::mm(900.0),
    }
}

/// A saw.
#[derive(Debug, Clone)]
pub struct Saw {
    /// The maker's name for it.
    pub name: String,
    /// What kind it is.
    pub kind: SawKind,
    /// Width of the cut.
    pub kerf: Length,
    /// Tallest piece that passes under the guide or over the table.
    pub cutting_height: Length,
    /// Room beside the blade, blade to column.
    pub room_beside: Length,
    /// Table length along the cut.
    pub table_length: Length,
    /// Table width across the cut.
    pub table_width: Length,
}

/// Kinds of saw.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SawKind {
    /// Band saw.
    Band,
    /// Table saw.
    Table,
    /// Mitre saw.
    Mitre,
}

/// Losses and allowances, all shop quantities.
#[derive(Debug, Clone)]
pub struct Allowances {
    /// Wood left outside the finished wall, measured at a flat.
    pub outside: Length,
    /// Wood left inside the finished wall, measured at a corner.
    pub inside: Length,
    /// Loss to each face of a ring when it is flattened.
    pub flattening: Length,
    /// Thickness of one glue line in a loop.
    pub glue_line: Length,
    /// Wood left round a layer's oval.
    pub layer_edge: Length,
    /// Loss to each edge of a strip when it is jointed.
    pub jointing: Length,
}

/// The lathe.
#[derive(Debug, Clone)]
pub struct Lathe {
    /// Largest diameter over the bed.
    pub swing: Length,
    /// Longest piece between centres.
    pub length: Length,
    /// Fastest spindle speed, turns a minute.
    pub fastest: f64,
    /// Fastest that the chuck's jaws or the faceplate may turn, where the maker says.
    pub jaws_fastest: Option<f64>,
}

/// The sliding jig and how a section stands on it.
#[derive(Debug, Clone)]
pub struct Sled {
    /// Thickness of the sled's base.
    pub base: Length,
    /// Room between the blank and the base.
    pub clearance: Length,
    /// Travel before and after the cut.
    pub run_out: Length,
    /// Faceplate's face to the section's underside: the waste block.
    pub waste_block: Length,
    /// Least wood that must stay between a cut and a waste block or faceplate.
    pub keep_off: Length,
    /// Length along the axis of one positioning block.
    pub block_length: Length,
    /// How far a positioning block stands out from the blank.
    pub block_height: Length,
    /// Dowel through a pair of positioning blocks.
    pub dowel: Length,
    /// Largest tilt the sled can be set to.
    pub largest_tilt: Angle,
}

/// Glue, as the maker uses it.
#[derive(Debug, Clone)]
pub struct Glue {
    /// In clamps, minutes.
    pub clamp_minutes: f64,
    /// Before the next cut, hours.
    pub cure_hours: f64,
    /// Layers are glued with epoxy (true) or with the glue of the rings.
    pub epoxy_for_layers: bool,
    /// Epoxy's cure before the next cut, hours.
    pub epoxy_cure_hours: f64,
    /// From the first face spread to the joint closed, minutes.
    pub open_minutes: f64,
    /// The same for epoxy, mixing included.
    pub epoxy_open_minutes: f64,
    /// Spread on a joint, g/m².
    pub spread: f64,
    /// Lost in the pot, on the brush and pressed out, percent of what stays.
    pub waste: f64,
    /// To spread one small face, seconds.
    pub face_seconds: f64,
    /// Smallest batch of epoxy that can be measured and mixed well, ml.
    pub smallest_batch: f64,
    /// Coldest that the glue may be used at, °C.
    pub coldest: f64,
}

/// What a project gets where it does not say.
#[derive(Debug, Clone)]
pub struct ShopDefaults {
    /// Segments in a ring.
    pub segments: usize,
    /// Wood of a ring.
    pub wood: String,
    /// Board thickness before flattening.
    pub board: Length,
    /// Hours of work in a day in the shop, for the calendar.
    pub hours_a_day: f64,
}

impl Default for Workshop {
    fn default() -> Self {
        let mm = Length::mm;
        Workshop {
            unit: Unit::Mm,
            saws: vec![
                Saw {
                    name: "band saw".into(),
                    kind: SawKind::Band,
                    kerf: mm(1.2),
                    cutting_height: mm(300.0),
                    room_beside: mm(340.0),
                    table_length: mm(400.0),
                    table_width: mm(550.0),
                },
                usual_table_saw(),
            ],
            stock: vec![mm(19.0), mm(25.4), mm(38.0)],
            allowances: Allowances {
                outside: mm(3.0),
                inside: mm(3.0),
                flattening: mm(0.5),
                glue_line: mm(0.05),
                layer_edge: mm(3.0),
                jointing: mm(0.5),
            },
            lathe: Lathe {
                swing: mm(400.0),
                length: mm(600.0),
                fastest: 3200.0,
                jaws_fastest: None,
            },
            sled: Sled {
                base: mm(18.0),
                clearance: mm(20.0),
                run_out: mm(25.0),
                waste_block: mm(38.0),
                keep_off: mm(5.0),
                block_length: mm(16.0),
                block_height: mm(18.0),
                dowel: mm(8.0),
                largest_tilt: Angle::deg(50.0),
            },
            holding: Holding::default(),
            climate: Climate::default(),
            glue: Glue {
                clamp_minutes: 45.0,
                cure_hours: 24.0,
                epoxy_for_layers: true,
                epoxy_cure_hours: 24.0,
                open_minutes: 5.0,
                epoxy_open_minutes: 25.0,
                spread: 200.0,
                waste: 25.0,
                face_seconds: 6.0,
                smallest_batch: 10.0,
                coldest: 10.0,
            },
            exactness: Exactness::default(),
            defaults: ShopDefaults {
                segments: 12,
                wood: "hard maple".into(),
                board: mm(19.0),
                hours_a_day: 4.0,
            },
            given: BTreeSet::new(),
        }
    }
}
