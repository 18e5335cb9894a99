//! The layers that hold, each with what it bears.

use files::message::Message;
use geometry::Length;
use geometry::Portable;

use super::beam::Root;
use super::section::Annulus;
use super::strength::{ScrewHold, Strengths};

/// A layer between the spindle and the tool.
#[derive(Debug, Clone)]
pub enum Layer {
    /// The wood at the glue joint on the block.
    Joint,
    /// The waste block.
    Block,
    /// Screws into the block.
    Screws,
    /// The block's tenon.
    Tenon,
    /// A glue line between rings, at that height above the foot.
    Ring(Length),
    /// The loops' layers, at that height above the foot.
    Loops(Length),
}

/// How far a layer is used.
#[derive(Debug, Clone)]
pub struct LayerUse {
    /// The layer.
    pub layer: Layer,
    /// What it is, in words: `waste block of particleboard`.
    pub name: Message,
    /// What it has to bear and bears.
    pub needs: Needs,
    /// How far that goes, with the safety; above 1 it is not enough.
    pub used: f64,
    /// Where the strength comes from.
    pub source: Message,
}

/// What nothing bears: more than any share that is written.
pub(super) const NOTHING: f64 = 99.0;

/// What a layer has to bear, and what it bears.
#[derive(Debug, Clone, Copy)]
pub enum Needs {
    /// Stresses in a section that is left, N/mm².
    Stress {
        /// The section.
        section: Annulus,
        /// What is put on it.
        root: Root,
        /// Strength square to the joint.
        tension: f64,
        /// Strength along it.
        shear: f64,
    },
    /// A force on one screw, N.
    Screw {
        /// What is put on the fixing.
        root: Root,
        /// What is put on one screw.
        load: f64,
        /// What draws it out.
        ultimate: f64,
        /// What a design may count on for short loads, if that is known.
        design: Option<f64>,
    },
    /// Nothing is left of it.
    Nothing,
}

/// How far what is left of a section is used: safety · √((pull/tension)² +
/// (shear/strength)²), the quadratic interaction that is taken for wood (after Norris, from
/// memory).
pub(super) fn share(section: &Annulus, root: &Root, of: &Strengths, safety: f64) -> f64 {
    match section.stress(root) {
        Some(stress) if of.tension > 0.0 && of.shear > 0.0 => {
            let both = (stress.pull / of.tension).hypotenuse(stress.shear / of.shear);
            (safety * both).min(NOTHING)
        }
        _ => NOTHING,
    }
}

impl LayerUse {
    /// A joint, block or tenon of which `section` is left.
    pub(super) fn of_section(
        (layer, name): (Layer, Message),
        section: Annulus,
        root: Root,
        of: &Strengths,
        safety: f64,
    ) -> Self {
        let used = share(&section, &root, of, safety);
        let needs = if used < NOTHING {
            Needs::Stress {
                section,
                root,
                tension: of.tension,
                shear: of.shear,
            }
        } else {
            Needs::Nothing
        };
        Self {
            layer,
            name,
            needs,
            used,
            source: of.source.clone(),
        }
    }

    /// Screws, each with so much to bear: the safety's share of what draws one out, or what a
    /// design may count on, whichever is less.
    pub(super) fn of_screws(
        name: Message,
        (root, load): (Root, f64),
        hold: ScrewHold,
        safety: f64,
    ) -> Self {
        let may = hold.ultimate / safety;
        let may = hold.design.map_or(may, |design| design.min(may));
        let (needs, used) = if may > 0.0 {
            let (ultimate, design) = (hold.ultimate, hold.design);
            let needs = Needs::Screw {
                root,
                load,
                ultimate,
                design,
            };
            (needs, (load / may).min(NOTHING))
        } else {
            (Needs::Nothing, NOTHING)
        };
        Self {
            layer: Layer::Screws,
            name,
            needs,
            used,
            source: hold.source,
        }
    }
}
