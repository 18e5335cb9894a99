//! How far what holds the piece is used, stage by stage.

use files::message::Message;
use files::say;
use geometry::Portable;
use std::f64::consts::PI;

use files::workshop::{Fixing, Holding};
use geometry::Length;
use piece::piece::Piece;

use super::beam::{Root, along, root};
use super::layer::{Layer, LayerUse};
use super::section::Annulus;
use super::stage::{Stage, stages};
use super::strength::{Strengths, screw_holds, strengths_of_block, strengths_of_wood};

/// Standard gravity, N a gram.
const GRAVITY: f64 = 9.806_65e-3;

/// A stage with what it asks of what holds it.
#[derive(Debug, Clone)]
pub struct Held {
    /// The stage.
    pub stage: Stage,
    /// Moment and shear at the joint.
    pub root: Root,
    /// Every layer, that used furthest first.
    pub layers: Vec<LayerUse>,
}

impl Held {
    /// The layer that is used furthest.
    pub fn weakest(&self) -> Option<&LayerUse> {
        self.layers.first()
    }

    /// How far it is used; above 1 it is not enough.
    pub fn used(&self) -> f64 {
        self.weakest().map_or(0.0, |l| l.used)
    }
}

/// Every stage of a piece as its files hold it.
pub fn study(piece: &Piece) -> Vec<Held> {
    held(
        piece,
        &piece.workshop.holding,
        *piece.workshop.sled.waste_block,
    )
}

/// The same on another holding and block.
pub fn held(piece: &Piece, holding: &Holding, thickness: Length) -> Vec<Held> {
    let block = strengths_of_block(&holding.block, thickness);
    stages(piece, holding)
        .into_iter()
        .map(|stage| one(piece, holding, thickness, &block, stage))
        .collect()
}

fn one(
    piece: &Piece,
    holding: &Holding,
    thickness: Length,
    block: &Strengths,
    stage: Stage,
) -> Held {
    let force = *holding.tool_force * stage.share;
    let weight = (stage.body.grams * GRAVITY, stage.middle.max(0.0));
    let root = root(force, stage.top, weight, stage.support);
    let safety = holding.safety;
    let mut layers = Vec::with_capacity(4);
    let mut joint = |layer: Layer, name: Message, of: &Strengths| {
        let bend = stage.joint.bending(root.moment).map(|s| (s, of.tension));
        let shear = stage.joint.shear(root.shear).map(|s| (s, of.shear));
        let worse = match (bend, shear) {
            (Some(b), Some(s)) if s.0 * b.1 > b.0 * s.1 => Some(s),
            (b, _) => b,
        };
        let (load, bears) = worse.map_or((None, of.tension), |(load, bears)| (Some(load), bears));
        layers.push(LayerUse::new(
            layer,
            name,
            (load, bears),
            *safety,
            of.source.clone(),
        ));
    };
    joint(
        Layer::Block,
        say!("waste block of {block}", block = block.of.clone()),
        block,
    );
    let (section, ring) = stage.lowest;
    let lowest = piece.sections.get(section).and_then(|s| s.rings.get(ring));
    if let Some(id) = lowest.and_then(|r| r.woods.first()) {
        let wood = strengths_of_wood(piece.wood(*id));
        joint(
            Layer::Joint,
            say!("glue joint on {wood}", wood = wood.of.clone()),
            &wood,
        );
    }
    layers.push(fixing(holding, thickness, block, &stage, root));
    if stage.thin {
        layers.extend(weakest_ring(piece, &stage, force, root, *safety));
    }
    layers.sort_by(|a, b| b.used.total_cmp(&a.used));
    Held {
        stage,
        root,
        layers,
    }
}

/// Screws or tenon, a block's thickness further from the tool.
fn fixing(
    holding: &Holding,
    thickness: Length,
    block: &Strengths,
    stage: &Stage,
    root: Root,
) -> LayerUse {
    let moment = root.moment + root.shear * thickness.as_mm();
    match *holding.fixing {
        Fixing::Screws => {
            // Where the recess lies over the screws it takes their wood as well.
            let own = stage.lowest.0 == 0;
            let over = own && holding.recess.exceeds(*holding.screw_circle);
            let left = match (over, *holding.recess_depth) {
                (true, Some(depth)) => thickness - depth,
                (true, None) => Length::ZERO,
                _ => thickness,
            };
            let bite = holding.screw_bite.min(left.max(Length::ZERO));
            // Evenly on a circle: the furthest takes 2 M/(n r) whichever way it bends.
            let radius = (holding.screw_circle.as_mm() / 2.0).max(1e-6);
            let each = 2.0 * moment / (holding.screws.max(2) as f64 * radius);
            LayerUse::new(
                Layer::Screws,
                say!("screws in {block}", block = block.of.clone()),
                (
                    Some(each),
                    screw_holds(&holding.block, *holding.screw_diameter, bite),
                ),
                *holding.safety,
                "Wood Handbook chapter 8 for wood, screw tests for panels; from memory".into(),
            )
        }
        Fixing::Tenon => {
            let tenon = holding.tenon.as_mm().max(1e-6);
            LayerUse::new(
                Layer::Tenon,
                say!("tenon of {block}", block = block.of.clone()),
                (Some(moment * 32.0 / (PI * tenon.to_the(3))), block.tension),
                *holding.safety,
                block.source.clone(),
            )
        }
    }
}

/// The glue line between rings that is used furthest when the wall is thin.
fn weakest_ring(
    piece: &Piece,
    stage: &Stage,
    force: f64,
    root: Root,
    safety: f64,
) -> Option<LayerUse> {
    let mut worst: Option<LayerUse> = None;
    let mut below: Option<(Strengths, piece::model::WoodId)> = None;
    for section in &piece.sections {
        for ring in &section.rings {
            let Some(id) = ring.woods.first() else {
                continue;
            };
            let height = section.bottom + ring.bottom;
            let own = match &below {
                Some((own, of)) if of == id => own.clone(),
                _ => strengths_of_wood(piece.wood(*id)),
            };
            if let Some((under, _)) = &below
                && let Some(left) = wall_section(piece, height)
            {
                let weaker = if under.tension < own.tension {
                    under
                } else {
                    &own
                };
                let z = height.as_mm();
                let moment = along(force, stage.top, stage.support, root.moment, z);
                let load = left.bending(moment);
                let used = load.map_or(0.0, |l| safety * l / weaker.tension);
                if load.is_some() && worst.as_ref().is_none_or(|w| used > w.used) {
                    worst = Some(LayerUse::new(
                        Layer::Ring(height),
                        say!("glue line between rings at {height}", height = height),
                        (load, weaker.tension),
                        safety,
                        weaker.source.clone(),
                    ));
                }
            }
            below = Some((own, *id));
        }
    }
    worst
}

/// The finished wall's section at a height; `None` where there is none.
fn wall_section(piece: &Piece, height: Length) -> Option<Annulus> {
    let (form, z) = (&piece.form, height.as_mm());
    let outside = form.outside().radius(z)?;
    let inside = if height.exceeds(form.floor_top()) {
        form.inside().radius(z).unwrap_or(0.0)
    } else {
        0.0
    };
    Some(Annulus::new(
        Length::mm(outside * 2.0),
        Length::mm(inside * 2.0),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::operations::OperationKind;
    use crate::trial;
    use files::workshop::Block;

    fn used(all: &[Held], kind: OperationKind) -> f64 {
        let at = all.iter().find(|h| h.stage.kind == kind).unwrap();
        at.used()
    }

    #[test]
    fn more_force_a_weaker_block_or_a_recess_is_never_better() {
        let piece = trial::bowl();
        let usual = piece.workshop.holding.clone();
        let thick = piece.workshop.sled.waste_block;
        let base = held(&piece, &usual, *thick);
        let changes: [fn(&mut Holding); 4] = [
            |h| h.tool_force.value *= 2.0,
            |h| h.block.value = Block::Particleboard,
            |h| h.recess.value = Length::mm(70.0),
            |h| h.screws.value = 3,
        ];
        for change in changes {
            let mut other = usual.clone();
            change(&mut other);
            let worse = held(&piece, &other, *thick);
            for (a, b) in base.iter().zip(&worse) {
                assert!(b.used() >= a.used() - 1e-12, "{:?}", a.stage.name);
            }
            assert!(used(&worse, OperationKind::Hollow) > used(&base, OperationKind::Hollow));
        }
    }

    #[test]
    fn every_share_is_a_number_and_worst_comes_first() {
        for piece in [trial::bowl(), trial::tube(), trial::solid(), trial::odd()] {
            for h in study(&piece) {
                assert!(h.layers.iter().all(|l| l.used.is_finite() && l.used >= 0.0));
                assert!(h.layers.windows(2).all(|w| w[0].used >= w[1].used));
            }
        }
    }
}
