//! What moves in a piece.

use files::design::{Board, LayerMake};
use files::workshop::Climate;
use geometry::Length;
use piece::course::{Course, GrainWay};
use piece::model::WoodId;
use piece::piece::Piece;

use super::change::{Grain, change, fibre_saturation, ring_lobe, shrinkage, wedge};
use super::emc::emc;

/// Moistures that the piece goes through, percent.
#[derive(Debug, Clone, Copy)]
pub struct Moisture {
    /// In the shop.
    pub shop: f64,
    /// At home in the dry season.
    pub dry: f64,
    /// At home in the damp season.
    pub damp: f64,
}

impl Moisture {
    /// What a climate makes of wood.
    pub fn of(climate: &Climate) -> Self {
        Self {
            shop: emc(climate.shop()),
            dry: emc(climate.dry()),
            damp: emc(climate.damp()),
        }
    }

    /// Change of a wood that way from the shop to the dry and to the damp season, as
    /// shares; `None` if its shrinkage is not known.
    pub fn shares(&self, piece: &Piece, wood: WoodId, grain: Grain) -> Option<(f64, f64)> {
        let wood = piece.wood(wood);
        let total = shrinkage(wood, grain)?;
        let full = fibre_saturation(wood);
        Some((
            change(total, full, self.shop, self.dry),
            change(total, full, self.shop, self.damp),
        ))
    }
}

/// A ring of segments.
#[derive(Debug, Clone)]
pub struct RingMove {
    /// Section and ring.
    pub at: (usize, usize),
    /// The wood of it that moves most.
    pub wood: WoodId,
    /// How its boards were sawn.
    pub board: Board,
    /// What is left of its width in the finished wall.
    pub width: Length,
    /// Change of that width to the dry and the damp season; across the grain.
    pub across: (Length, Length),
    /// Change of its height; across the grain.
    pub height: (Length, Length),
    /// Change of its diameter; along the grain.
    pub along: (Length, Length),
    /// How far each joint would open in the worse season, were it free.
    pub wedge: Length,
    /// Out of round: middles of the segments against the joints.
    pub lobe: Length,
}

/// How a floor is put in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FloorKind {
    /// A solid disc with a ring glued on it.
    Disc,
    /// A panel glued into its ring.
    Glued,
    /// A panel loose in its groove.
    Floating,
}

/// A floor of one board, or a veneered panel.
#[derive(Debug, Clone)]
pub struct FloorMove {
    /// Section and ring.
    pub at: (usize, usize),
    /// How it is put in.
    pub kind: FloorKind,
    /// Its wood.
    pub wood: WoodId,
    /// How its board was sawn.
    pub board: Board,
    /// Its finished diameter.
    pub diameter: Length,
    /// Change across the grain to the dry and the damp season.
    pub across: (Length, Length),
    /// The same if a flat-sawn board were quarter-sawn; `None` if not known.
    pub quartered: Option<(Length, Length)>,
    /// Change along the grain.
    pub along: (Length, Length),
    /// Room at the edge of a floating panel.
    pub gap: Length,
    /// How far the panel reaches into the wall.
    pub groove: Length,
}

impl FloorMove {
    /// The larger change across the grain against what does not move along it.
    pub fn worst(&self) -> Length {
        let against = |across: Length, along: Length| (across - along).abs();
        against(self.across.0, self.along.0).max(against(self.across.1, self.along.1))
    }

    /// The same for a quarter-sawn board.
    pub fn worst_quartered(&self) -> Option<Length> {
        let (dry, damp) = self.quartered?;
        Some((dry - self.along.0).abs().max((damp - self.along.1).abs()))
    }
}

/// A layer of a knot made of one board, against a wall whose grain runs round.
#[derive(Debug, Clone)]
pub struct LayerMove {
    /// Section and band.
    pub at: (usize, usize),
    /// Its wood.
    pub wood: WoodId,
    /// How its boards were sawn.
    pub board: Board,
    /// Diameter of the finished wall there.
    pub diameter: Length,
    /// The larger change across its grain against the wall.
    pub worst: Length,
}

/// What moves, and by how much.
#[derive(Debug, Clone)]
pub struct Movement {
    /// The moistures.
    pub moisture: Moisture,
    /// Rings of segments.
    pub rings: Vec<RingMove>,
    /// Floors of one board.
    pub floors: Vec<FloorMove>,
    /// Layers of one board.
    pub layers: Vec<LayerMove>,
    /// Woods whose shrinkage is not known: nothing is said of them.
    pub unknown: Vec<WoodId>,
}

/// Change of a plywood panel's width per point of moisture (Wood Handbook chapter 12).
const PLYWOOD: f64 = 0.0002;

/// The larger change of a plywood panel of that size between shop and home.
pub fn panel_change(moisture: &Moisture, size: Length) -> Length {
    let points = (moisture.dry - moisture.shop)
        .abs()
        .max((moisture.damp - moisture.shop).abs());
    size * (PLYWOOD * points)
}

/// Which way through the log the width of a board runs, and its thickness.
fn ways(board: Board) -> (Grain, Grain) {
    match board {
        Board::QuarterSawn => (Grain::Radial, Grain::Tangential),
        Board::FlatSawn | Board::Plywood => (Grain::Tangential, Grain::Radial),
    }
}

/// Works out the movement of a piece between its shop and its home.
pub fn study(piece: &Piece) -> Movement {
    let moisture = Moisture::of(&piece.workshop.climate);
    let mut out = Movement {
        moisture,
        rings: Vec::new(),
        floors: Vec::new(),
        layers: Vec::new(),
        unknown: Vec::new(),
    };
    for (s, section) in piece.sections.iter().enumerate() {
        for (r, ring) in section.rings.iter().enumerate() {
            let at = (s, r);
            match ring.grain {
                GrainWay::Across => out.disc(piece, at, ring),
                GrainWay::Round => out.ring(piece, at, ring),
            }
            if let Some(panel) = &ring.let_in {
                let kind = if panel.floating {
                    FloorKind::Floating
                } else {
                    FloorKind::Glued
                };
                out.floor(piece, at, kind, (panel.wood, panel.board, panel.diameter));
                if let Some(floor) = out.floors.last_mut().filter(|f| f.at == at) {
                    (floor.gap, floor.groove) = (panel.gap, panel.groove);
                }
            }
        }
        for (b, band) in section.bands.iter().enumerate() {
            if band.blank.make == LayerMake::Solid {
                out.layer(piece, (s, b));
            }
        }
    }
    out
}

impl Movement {
    fn not_known(&mut self, wood: WoodId) {
        if !self.unknown.contains(&wood) {
            self.unknown.push(wood);
        }
    }

    fn disc(&mut self, piece: &Piece, at: (usize, usize), ring: &Course) {
        // What stands on it holds it across its upper face.
        let (low, high) = (ring.spans.0.as_mm(), ring.spans.1.as_mm());
        let radius = piece.form.outside().max_between(low, high);
        let radius = radius.unwrap_or(ring.sizes.flat_out.as_mm());
        if let Some(wood) = ring.woods.first() {
            let what = (*wood, ring.board, Length::mm(radius * 2.0));
            self.floor(piece, at, FloorKind::Disc, what);
        }
    }

    fn floor(
        &mut self,
        piece: &Piece,
        at: (usize, usize),
        kind: FloorKind,
        (wood, board, diameter): (WoodId, Board, Length),
    ) {
        let of = |grain| {
            let (dry, damp) = self.moisture.shares(piece, wood, grain)?;
            Some((diameter * dry, diameter * damp))
        };
        let sawn = match board {
            // Alike both ways, against a wall that hardly moves along its grain.
            Board::Plywood => {
                let m = self.moisture;
                let moves = |points: f64| diameter * (PLYWOOD * points);
                let across = (moves(m.dry - m.shop), moves(m.damp - m.shop));
                Some((across, (Length::ZERO, Length::ZERO)))
            }
            _ => of(ways(board).0).zip(of(Grain::Along)),
        };
        let Some((across, along)) = sawn else {
            return self.not_known(wood);
        };
        let quartered = (board == Board::FlatSawn)
            .then(|| of(Grain::Radial))
            .flatten();
        self.floors.push(FloorMove {
            at,
            kind,
            wood,
            board,
            diameter,
            across,
            quartered,
            along,
            gap: Length::ZERO,
            groove: Length::ZERO,
        });
    }

    fn ring(&mut self, piece: &Piece, at: (usize, usize), ring: &Course) {
        let mut worst: Option<(f64, f64, WoodId)> = None;
        let mut last = None;
        for wood in &ring.woods {
            if last == Some(*wood) {
                continue;
            }
            last = Some(*wood);
            match self.moisture.shares(piece, *wood, ways(ring.board).0) {
                Some((dry, damp)) => {
                    if worst.is_none_or(|w| dry.abs() + damp.abs() > w.0.abs() + w.1.abs()) {
                        worst = Some((dry, damp, *wood));
                    }
                }
                None => self.not_known(*wood),
            }
        }
        let Some((dry, damp, wood)) = worst else {
            return;
        };
        let shares = |grain| {
            let found = self.moisture.shares(piece, wood, grain);
            found.unwrap_or((0.0, 0.0))
        };
        let (through, along) = (shares(ways(ring.board).1), shares(Grain::Along));
        let width = wall_width(piece, ring);
        let outside = ring.needs.outside.map_or(ring.sizes.flat_out, |(r, _)| r);
        let most = dry.abs().max(damp.abs());
        let mitre = ring.sizes.mitre();
        // Where no joint closes the ring nothing is forced open or out of round.
        let closes = ring.closing_joints() > 0;
        let closed = |length: Length| if closes { length } else { Length::ZERO };
        self.rings.push(RingMove {
            at,
            wood,
            board: ring.board,
            width,
            across: (width * dry, width * damp),
            height: (ring.height * through.0, ring.height * through.1),
            along: (outside * (2.0 * along.0), outside * (2.0 * along.1)),
            wedge: closed(wedge(width, most, mitre)),
            lobe: closed(ring_lobe(outside, width, most, mitre)),
        });
    }

    fn layer(&mut self, piece: &Piece, at: (usize, usize)) {
        let section = &piece.sections[at.0];
        let band = &section.bands[at.1];
        let z = (section.base_of(band) + band.loops.height).as_mm();
        let radius = piece.form.outside().radius(z);
        let diameter = Length::mm(radius.unwrap_or(section.blank_radius.as_mm()) * 2.0);
        let mut worst: Option<LayerMove> = None;
        for &wood in &band.woods {
            let across = self.moisture.shares(piece, wood, ways(band.board).0);
            let along = self.moisture.shares(piece, wood, Grain::Along);
            let (Some(across), Some(along)) = (across, along) else {
                self.not_known(wood);
                continue;
            };
            let most = (across.0 - along.0).abs().max((across.1 - along.1).abs());
            let most = diameter * most;
            if worst.as_ref().is_none_or(|w| most.exceeds(w.worst)) {
                worst = Some(LayerMove {
                    at,
                    wood,
                    board: band.board,
                    diameter,
                    worst: most,
                });
            }
        }
        self.layers.extend(worst);
    }
}

/// The widest that a ring is, level across, once it is turned.
fn wall_width(piece: &Piece, ring: &Course) -> Length {
    let (low, high) = (ring.spans.0.as_mm(), ring.spans.1.as_mm());
    let form = &piece.form;
    let own = ring.sizes.board_width();
    let mut widest = Length::ZERO;
    for share in [0.01, 0.5, 0.99] {
        let z = low + (high - low) * share;
        let Some(outside) = form.outside().radius(z) else {
            continue;
        };
        let inside = if z > form.floor_top().as_mm() {
            form.inside().radius(z).unwrap_or(0.0)
        } else {
            0.0
        };
        widest = widest.max(Length::mm(outside - inside));
    }
    widest.min(own)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    #[test]
    fn a_solid_floor_moves_across_its_grain_and_hardly_along_it() {
        let piece = trial::solid();
        let all = study(&piece);
        let floor = &all.floors[0];
        assert_eq!(floor.kind, FloorKind::Disc);
        // Ash, 7.8 % tangential: by hand from the two moistures.
        let m = all.moisture;
        let hand = 80.0 * (m.damp - m.shop) / (3000.0 / 7.8 - 30.0 + m.shop);
        assert!((floor.across.1.as_mm() / hand - 1.0).abs() < 1e-9);
        assert!(floor.along.1.as_mm() < 0.05 * floor.across.1.as_mm());
        assert!(floor.across.0.as_mm() < 0.0 && floor.across.1.as_mm() > 0.0);
        let quartered = floor.worst_quartered().unwrap();
        assert!(floor.worst().exceeds(quartered));
        assert!(quartered.exceeds(panel_change(&m, floor.diameter)));
    }

    /// Wood Handbook table 4-3: ash, white, shrinks 4.9 % radially and 7.8 % tangentially;
    /// chapter 12: plywood moves about 0.02 % for each point of moisture.
    #[test]
    fn a_board_moves_by_how_it_was_sawn() {
        let of = |board: Board| {
            let mut piece = trial::solid();
            for ring in &mut piece.sections[0].rings {
                ring.board = board;
            }
            study(&piece)
        };
        let (flat, quarter) = (of(Board::FlatSawn), of(Board::QuarterSawn));
        let across = |all: &Movement| all.floors[0].across.1.as_mm();
        let m = flat.moisture;
        let hand = |shrinks: f64| 80.0 * (m.damp - m.shop) / (3000.0 / shrinks - 30.0 + m.shop);
        assert!((across(&flat) / hand(7.8) - 1.0).abs() < 1e-9);
        assert!((across(&quarter) / hand(4.9) - 1.0).abs() < 1e-9);
        let ply = of(Board::Plywood);
        assert!((across(&ply) / (80.0 * 0.0002 * (m.damp - m.shop)) - 1.0).abs() < 1e-9);
        assert!(
            ply.floors[0]
                .worst()
                .within(panel_change(&m, ply.floors[0].diameter), Length::mm(1e-9))
        );
        // What a flat-sawn board is told would do is what it then does.
        let told = flat.floors[0].worst_quartered().unwrap();
        assert!(told.within(quarter.floors[0].worst(), Length::mm(1e-9)));
    }

    #[test]
    fn rings_and_layers_of_quarter_sawn_boards_move_less_in_the_wall() {
        let (flat, mut piece) = (study(&trial::bowl()), trial::bowl());
        for section in &mut piece.sections {
            for ring in &mut section.rings {
                ring.board = Board::QuarterSawn;
            }
            for band in &mut section.bands {
                band.board = Board::QuarterSawn;
            }
        }
        let quarter = study(&piece);
        for (a, b) in flat.rings.iter().zip(&quarter.rings) {
            assert!(a.wedge.exceeds(b.wedge));
            // What was the width's is the height's now.
            assert!(b.height.1.exceeds(a.height.1));
        }
    }

    #[test]
    fn a_home_like_the_shop_moves_nothing() {
        let mut design = trial::bowl_design();
        design.title = "still".into();
        let mut shop = files::workshop::Workshop::default();
        let air = &mut shop.climate;
        (air.dry_humidity, air.dry_temperature) = (air.shop_humidity, air.shop_temperature);
        (air.damp_humidity, air.damp_temperature) = (air.shop_humidity, air.shop_temperature);
        let piece = piece::settle::settle(&design, &shop).piece.unwrap();
        let all = study(&piece);
        assert!(!all.rings.is_empty());
        for ring in &all.rings {
            assert!(ring.wedge.as_mm() < 1e-12 && ring.lobe.as_mm() < 1e-12);
        }
    }

    #[test]
    fn wide_rings_open_further_and_floors_are_of_their_kind() {
        let tube = study(&trial::tube());
        assert_eq!(tube.floors[0].kind, FloorKind::Floating);
        assert!(tube.floors[0].gap.exceeds(Length::ZERO));
        assert_eq!(
            study(&trial::glued_floor()).floors[0].kind,
            FloorKind::Glued
        );
        let m = Moisture::of(&files::workshop::Workshop::default().climate);
        assert!(m.dry < m.shop && m.shop < m.damp);
    }
}
