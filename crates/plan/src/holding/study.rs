//! How far what holds the piece is used, stage by stage.

use files::message::Message;
use files::say;
use std::collections::BTreeSet;

use files::workshop::{Fixing, Holding};
use geometry::{Angle, Length};
use piece::course::Course;
use piece::model::{WoodId, joint_area};
use piece::piece::Piece;

use crate::glue::turn_below;

use super::beam::{Place, Press, Root, along, root};
use super::layer::{Layer, LayerUse, share};
use super::section::Annulus;
use super::stage::{Stage, stages};
use super::strength::{ScrewHold, Strengths, screw_holds, strengths_of_block, weakest_of};

/// Standard gravity, N a gram.
const GRAVITY: f64 = 9.806_65e-3;

/// A stage with what it asks of what holds it.
#[derive(Debug, Clone)]
pub struct Held {
    /// The stage.
    pub stage: Stage,
    /// Where the tool presses that asks the most, how, and what the joint bears of it.
    pub worst: (Place, Press, Root),
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
    let safety = *holding.safety;
    let (section, ring) = stage.lowest;
    let lowest = piece.sections.get(section).and_then(|s| s.rings.get(ring));
    let wood = lowest.and_then(|r| strengths_of_ring(piece, r));
    // Every layer is asked where it is asked the most.
    let loads = loads(&stage, force, weight);
    let mut layers: Vec<(LayerUse, Load)> = Vec::with_capacity(4);
    let section = |of: &Strengths, layer: Layer, name: Message| {
        let most = worst(&loads, |root| share(&stage.joint, root, of, safety))?;
        let used = LayerUse::of_section((layer, name), stage.joint, most.2, of, safety);
        Some((used, most))
    };
    layers.extend(section(
        block,
        Layer::Block,
        say!("waste block of {block}", block = block.of.clone()),
    ));
    layers.extend(wood.as_ref().and_then(|wood| {
        let name = say!("glue joint on {wood}", wood = wood.of.clone());
        section(wood, Layer::Joint, name)
    }));
    let fixing = Fixed::of(holding, thickness, block, &stage);
    layers.extend(worst(&loads, |root| fixing.used(root)).map(|most| (fixing.layer(most.2), most)));
    if stage.thin {
        layers.extend(weakest_in_wall(piece, &stage, (force, safety), &loads));
    }
    layers.sort_by(|a, b| b.0.used.total_cmp(&a.0.used));
    let worst = layers.first().map(|l| l.1);
    Held {
        stage,
        worst: worst.unwrap_or((Place::default(), Press::Around, Root::default())),
        layers: layers.into_iter().map(|l| l.0).collect(),
    }
}

/// The least diameter of the joint on the block, its hole as it is, that would bear a stage;
/// nothing where no block as wide as the piece would.
pub(crate) fn least_block(piece: &Piece, held: &Held) -> Option<Length> {
    let (holding, thickness) = (&piece.workshop.holding, *piece.workshop.sled.waste_block);
    let block = strengths_of_block(&holding.block, thickness);
    let stage = &held.stage;
    let (section, ring) = stage.lowest;
    let lowest = piece.sections.get(section)?.rings.get(ring)?;
    let wood = strengths_of_ring(piece, lowest)?;
    let weight = (stage.body.grams * GRAVITY, stage.middle.max(0.0));
    let loads = loads(stage, *holding.tool_force * stage.share, weight);
    let enough = |diameter: f64| {
        let joint = Annulus {
            outside: diameter,
            inside: stage.joint.inside.min(diameter),
            glued: stage.joint.glued,
        };
        let bears = |of: &Strengths| {
            let mut all = loads.iter();
            all.all(|load| share(&joint, &load.2, of, *holding.safety) <= 1.0)
        };
        bears(&block) && bears(&wood)
    };
    let (mut small, mut large) = (0.0, held.stage.swings);
    if !enough(large) {
        return None;
    }
    // Finer than a rule.
    for _ in 0..14 {
        let middle = 0.5 * (small + large);
        if enough(middle) {
            large = middle;
        } else {
            small = middle;
        }
    }
    Some(Length::mm(large))
}

/// The weakest of a ring's woods, each way.
fn strengths_of_ring(piece: &Piece, ring: &Course) -> Option<Strengths> {
    weakest_of(different(&ring.woods).map(|id| piece.wood(id)))
}

/// Each wood once.
fn different(woods: &[WoodId]) -> impl Iterator<Item = WoodId> {
    woods.iter().copied().collect::<BTreeSet<_>>().into_iter()
}

/// A place, how the tool presses there, and what that puts on the joint.
type Load = (Place, Press, Root);

/// Everything that a tool can put on the joint at a stage.
fn loads(stage: &Stage, force: f64, weight: (f64, f64)) -> Vec<Load> {
    let at = |place: &Place| {
        let place = *place;
        root(force, place, stage.top, weight, stage.support)
            .map(|(press, at_root)| (place, press, at_root))
    };
    stage.places.iter().flat_map(at).collect()
}

/// The load that uses something furthest; of equal ones the first.
fn worst(loads: &[Load], used: impl Fn(&Root) -> f64) -> Option<Load> {
    let each = loads.iter().map(|load| (used(&load.2), load));
    let most = each.reduce(|a, b| if b.0 > a.0 { b } else { a });
    most.map(|(_, load)| *load)
}

/// Screws or tenon, a block's thickness further from the tool.
struct Fixed<'a> {
    holding: &'a Holding,
    thickness: Length,
    block: &'a Strengths,
    screws: ScrewHold,
}

impl<'a> Fixed<'a> {
    fn of(
        holding: &'a Holding,
        thickness: Length,
        block: &'a Strengths,
        stage: &Stage,
    ) -> Fixed<'a> {
        // Where the recess lies over the screws it takes their wood as well.
        let own = stage.lowest.0 == 0;
        let over = own && holding.recess.exceeds(*holding.screw_circle);
        let left = match (over, *holding.recess_depth) {
            (true, Some(depth)) => thickness - depth,
            (true, None) => Length::ZERO,
            _ => thickness,
        };
        let bite = holding.screw_bite.min(left.max(Length::ZERO));
        Fixed {
            holding,
            thickness,
            block,
            screws: screw_holds(&holding.block, *holding.screw_diameter, bite),
        }
    }

    fn root(&self, at_joint: &Root) -> Root {
        Root {
            moment: at_joint.moment + at_joint.shear * self.thickness.as_mm(),
            ..*at_joint
        }
    }

    /// What one screw has to bear: evenly on a circle, three or more, the furthest takes
    /// 2 M/(n r) whichever way it bends, and its share of the pull.
    fn each(&self, root: &Root) -> f64 {
        let radius = (self.holding.screw_circle.as_mm() / 2.0).max(1e-6);
        let screws = self.holding.screws.max(1) as f64;
        2.0 * root.moment / (screws * radius) + root.pull / screws
    }

    fn tenon(&self) -> Annulus {
        Annulus::new(*self.holding.tenon, Length::ZERO)
    }

    fn used(&self, at_joint: &Root) -> f64 {
        let root = self.root(at_joint);
        match *self.holding.fixing {
            // What one may bear is the same for every load.
            Fixing::Screws => self.each(&root),
            Fixing::Tenon => share(&self.tenon(), &root, self.block, *self.holding.safety),
        }
    }

    fn layer(&self, at_joint: Root) -> LayerUse {
        let root = self.root(&at_joint);
        let safety = *self.holding.safety;
        let block = self.block.of.clone();
        match *self.holding.fixing {
            Fixing::Screws => LayerUse::of_screws(
                say!("hold of the screws in {block}", block = block),
                (root, self.each(&root)),
                self.screws.clone(),
                safety,
            ),
            Fixing::Tenon => LayerUse::of_section(
                (Layer::Tenon, say!("tenon of {block}", block = block)),
                self.tenon(),
                root,
                self.block,
                safety,
            ),
        }
    }
}

/// The glue line between rings, or the loops' layers, that is used furthest when the wall is
/// thin. The weakest wood that meets there counts.
fn weakest_in_wall(
    piece: &Piece,
    stage: &Stage,
    (force, safety): (f64, f64),
    at_root: &[Load],
) -> Option<(LayerUse, Load)> {
    let mut worst: Option<(f64, WallJoint, Annulus, Load)> = None;
    for joint in wall_joints(piece) {
        let Some(wall) = wall_section(piece, joint.height) else {
            continue;
        };
        let left = wall.with_gaps(glued(piece, joint.gaps, &wall));
        for (place, press, root) in at_root {
            let load = (*press, *root);
            let here = along(
                force,
                *place,
                stage.top,
                stage.support,
                load,
                joint.height.as_mm(),
            );
            let used = share(&left, &here, &joint.strengths, safety);
            if worst.as_ref().is_none_or(|w| used > w.0) {
                worst = Some((used, joint.clone(), left, (*place, *press, here)));
            }
        }
    }
    let (_, joint, left, load) = worst?;
    let height = joint.height;
    let named = if joint.of_loops {
        (
            Layer::Loops(height),
            say!("loops' layers at {height}", height = height),
        )
    } else {
        (
            Layer::Ring(height),
            say!("glue line between rings at {height}", height = height),
        )
    };
    let used = LayerUse::of_section(named, left, load.2, &joint.strengths, safety);
    Some((used, load))
}

/// A glue line that crosses the wall.
#[derive(Clone)]
struct WallJoint {
    /// Above the foot.
    height: Length,
    /// It is a layer's.
    of_loops: bool,
    /// What of it is glued.
    gaps: Gaps,
    /// What the weakest wood there bears.
    strengths: Strengths,
}

/// What says which share of a joint is glued.
#[derive(Clone, Copy)]
enum Gaps {
    /// The faces that a section's ring and the one below it have in common.
    Under(usize, usize),
    /// At least so much.
    Share(f64),
}

/// The share of a wall's section that is glued: all of it, but where gaps stand between
/// segments.
fn glued(piece: &Piece, gaps: Gaps, wall: &Annulus) -> f64 {
    let (s, r) = match gaps {
        Gaps::Under(s, r) => (s, r),
        Gaps::Share(share) => return share,
    };
    let under = || {
        let (below, turn) = turn_below(piece, s, r)?;
        let above = piece.sections.get(s)?.rings.get(r)?;
        let open = |course: &Course| course.gap().exceeds(Angle::ZERO);
        if !open(below) && !open(above) {
            return None;
        }
        let body = |course: &Course| course.construction.body(course);
        let (below, above) = (body(below), body(above));
        let within = |across: f64| {
            let radius = Some(across / 2.0);
            joint_area(&below, &above, turn.as_rad(), radius)
        };
        Some((within(wall.outside) - within(wall.inside)) / wall.area())
    };
    under().map_or(1.0, |share| share.clamp(0.0, 1.0))
}

/// Where glue lines cross the wall.
fn wall_joints(piece: &Piece) -> Vec<WallJoint> {
    let mut out = Vec::new();
    let mut below: Option<(&[WoodId], Strengths)> = None;
    for (s, section) in piece.sections.iter().enumerate() {
        for (r, ring) in section.rings.iter().enumerate() {
            let own = match &below {
                Some((woods, known)) if *woods == &ring.woods[..] => Some(known.clone()),
                _ => strengths_of_ring(piece, ring),
            };
            let Some(own) = own else { continue };
            if let Some((_, under)) = &below {
                let height = section.bottom + ring.bottom;
                out.push(WallJoint {
                    height,
                    of_loops: false,
                    gaps: Gaps::Under(s, r),
                    strengths: under.clone().weaker(own.clone()),
                });
            }
            below = Some((&ring.woods, own));
        }
        for band in &section.bands {
            let layer = weakest_of(different(&band.woods).map(|id| piece.wood(id)));
            let filled = section.rings.iter().map(|ring| ring.sizes.filled);
            let least = filled.fold(1.0, f64::min);
            let base = section.base_of(band);
            let ends = [band.outside.bottom, band.outside.top];
            for (height, layer) in ends.into_iter().flatten().zip(layer.into_iter().cycle()) {
                out.push(WallJoint {
                    height: base + height,
                    of_loops: true,
                    gaps: Gaps::Share(least),
                    strengths: layer,
                });
            }
        }
    }
    out
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

    /// Twelve segments at 68 %, half a pitch apart between radii of 62 and 78 mm, share
    /// 2533.380315855 mm² (made outside of the project by polygon clipping): 36 % of the wall.
    #[test]
    fn a_wall_of_open_rings_holds_with_what_is_glued_of_it() {
        let piece = trial::open();
        let wall = Annulus::new(Length::mm(156.0), Length::mm(124.0));
        let share = glued(&piece, Gaps::Under(1, 1), &wall);
        assert!(
            (share * wall.area() - 2_533.380_315_855).abs() < 1e-6,
            "{share}"
        );
        let joints = wall_joints(&piece);
        let at = joints.iter().map(|joint| glued(&piece, joint.gaps, &wall));
        let at: Vec<f64> = at.collect();
        // Base and first open ring share what the open one has; then open on open.
        assert!(
            (at[0] - 0.68).abs() < 1e-9 && (at[1] - 0.36).abs() < 1e-9,
            "{at:?}"
        );
        let used = |piece: &Piece| {
            let all = study(piece);
            let hollow = all.iter().find(|h| h.stage.kind == OperationKind::Hollow);
            let layers = hollow.unwrap().layers.iter();
            let ring = layers.filter(|l| matches!(l.layer, Layer::Ring(_)));
            ring.map(|l| l.used).fold(0.0, f64::max)
        };
        let mut closed = piece.clone();
        for ring in closed.sections.iter_mut().flat_map(|s| &mut s.rings) {
            ring.openings.clear();
        }
        assert!(
            used(&piece) > 1.4 * used(&closed),
            "{} {}",
            used(&piece),
            used(&closed)
        );
    }

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
