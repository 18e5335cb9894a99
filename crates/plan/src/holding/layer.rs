//! The layers that hold, each with what it bears.

use files::message::Message;
use geometry::Length;

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
}

/// How far a layer is used.
#[derive(Debug, Clone)]
pub struct LayerUse {
    /// The layer.
    pub layer: Layer,
    /// What it is, in words: `waste block of particleboard`.
    pub name: Message,
    /// What it has to bear: N/mm², or N for a screw; `None` where nothing is left of it.
    pub load: Option<f64>,
    /// What it bears, alike.
    pub bears: f64,
    /// Safety · load / bears; above 1 it is not enough.
    pub used: f64,
    /// Where the strength comes from.
    pub source: Message,
}

/// What nothing bears: more than any share that is written.
pub(super) const NOTHING: f64 = 99.0;

impl LayerUse {
    pub(super) fn new(
        layer: Layer,
        name: Message,
        (load, bears): (Option<f64>, f64),
        safety: f64,
        source: Message,
    ) -> Self {
        let used = match load {
            Some(load) if bears > 0.0 => (safety * load / bears).min(NOTHING),
            _ => NOTHING,
        };
        Self {
            layer,
            name,
            load,
            bears,
            used,
            source,
        }
    }
}
