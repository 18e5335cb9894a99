//! Blanks of a section: its rings, loop bands and splits.

use files::design::{BandSpec, Board, LayerMake, RingSpec, RingsGiven, SectionSpec};
use files::key::{self, BandPath, RingPath};
use files::keys::Value;
use geometry::Angle;
use piece::course::{Course, Panel};
use piece::piece::{Band, Piece};

use super::{ChosenBy, Sheet, maker_or};
use crate::open_projects::Revision;
use crate::open_projects::paths::entries;
use crate::wire::Origin;

/// What the blanks of all parts of a section need.
struct Blanks<'a> {
    sheet: &'a mut Sheet,
    piece: &'a Piece,
    spec: &'a SectionSpec,
    chosen: ChosenBy<'a>,
}

pub(super) fn blanks(sheet: &mut Sheet, revision: &Revision, piece: &Piece, number: usize) {
    let Some(spec) = revision.design.sections.get(number) else {
        return;
    };
    let mut blanks = Blanks {
        sheet,
        piece,
        spec,
        chosen: ChosenBy(&piece.chosen),
    };
    blanks.section(number);
    blanks.rings(revision, number);
    blanks.bands(number);
    blanks.splits(number);
}

/// The section's turn against the one below it.
fn own_turn(piece: &Piece, number: usize) -> Angle {
    let turn = |i: usize| piece.sections.get(i).map_or(Angle::ZERO, |s| s.turn);
    match number {
        0 => turn(0),
        n => turn(n) - turn(n - 1),
    }
}

impl Blanks<'_> {
    fn section(&mut self, number: usize) {
        let (spec, at) = (self.spec, key::section(number));
        let section = &self.piece.sections[number];
        let (first, of) = (section.rings.first(), format!(" of {}", section.name));
        let name = section.name.as_str();
        self.sheet.key(&at.name(), "", name, Origin::Maker);
        let woods = self.or_usual_wood(&spec.wood);
        let by = self.chosen.origin(!spec.wood.is_empty(), &at.wood());
        self.sheet.key(&at.wood(), &of, woods, by);
        let segments = spec.segments.or(first.map(|r| r.sizes.segments));
        let by = self.chosen.origin(spec.segments.is_some(), &at.segments());
        let value = segments.map(Value::from);
        self.sheet.key_if(&at.segments(), &of, value, by);
        let filled = spec.filled.unwrap_or(100.0);
        let by = maker_or(spec.filled.is_some(), Origin::Default);
        self.sheet.key(&at.filled(), &of, filled, by);
        let stock = spec.stock.or(first.map(|r| r.stock)).map(Value::from);
        let by = self.chosen.origin(spec.stock.is_some(), &at.stock());
        self.sheet.key_if(&at.stock(), &of, stock, by);
        let board = spec.board.unwrap_or(Board::FlatSawn).word();
        let by = maker_or(spec.board.is_some(), Origin::Default);
        self.sheet.key(&at.board(), &of, board, by);
        let height = spec.ring_height.or(first.map(|r| r.height));
        let by = maker_or(spec.ring_height.is_some(), Origin::Form);
        let value = height.map(Value::from);
        self.sheet.key_if(&at.ring_height(), &of, value, by);
        let turn = own_turn(self.piece, number);
        let by = self.chosen.origin(spec.turn.is_some(), &at.turn());
        self.sheet.key(&at.turn(), &of, turn, by);
        let half = first.map(|r| Angle::full().divided_by(2 * r.sizes.segments));
        let turn = spec.joint_turn.or(half).map(Value::from);
        let by = maker_or(spec.joint_turn.is_some(), Origin::Default);
        self.sheet.key_if(&at.joint_turn(), &of, turn, by);
        if !spec.bands.is_empty() {
            let by = maker_or(spec.blank.is_some(), Origin::Default);
            self.sheet.key(&at.blank(), &of, section.blank.word(), by);
        }
        let auto = matches!(spec.rings_given(), RingsGiven::Auto(_));
        let (rings, within) = (section.rings.len(), format!(" in {}", section.name));
        let by = maker_or(!auto, Origin::Form);
        self.sheet.key(&at.rings(), &within, rings, by);
        if let RingsGiven::Auto(height) = spec.rings_given() {
            let by = maker_or(height.is_some(), Origin::Form);
            let value = height.map(Value::from);
            self.sheet.key_if(&at.height(), &of, value, by);
        }
    }

    /// The woods that are named, or the workshop's usual one.
    fn or_usual_wood(&self, named: &[String]) -> Vec<String> {
        if named.is_empty() {
            vec![self.piece.workshop.defaults.wood.value.clone()]
        } else {
            named.to_vec()
        }
    }

    fn rings(&mut self, revision: &Revision, number: usize) {
        let (spec, piece) = (self.spec, self.piece);
        let entries = entries(&revision.design, number);
        let none = RingSpec::default();
        for (k, ring) in piece.sections[number].rings.iter().enumerate() {
            let own = match (spec.rings_given(), &entries) {
                (RingsGiven::Listed(list), Some(entries)) => {
                    entries.get(k).and_then(|e| list.get(*e)).unwrap_or(&none)
                }
                _ => &none,
            };
            let at = key::section(number).real_ring(k);
            let count = piece.ring_number(number, k);
            self.ring(own, ring, &at, count);
        }
    }

    fn ring(&mut self, own: &RingSpec, ring: &Course, at: &RingPath, count: usize) {
        let (spec, of) = (self.spec, format!(" of ring {count}"));
        // What a ring does not say itself, its section, the workshop or the form says.
        let above = |given: bool| maker_or(given, Origin::Default);
        let form = |given: bool| maker_or(given, Origin::Form);
        let named = if own.wood.is_empty() {
            &spec.wood
        } else {
            &own.wood
        };
        let (woods, by) = (self.or_usual_wood(named), above(!named.is_empty()));
        self.sheet.key(&at.wood(), &of, woods, by);
        let solid = ring.repeats().is_none();
        let label = format!("ring {count} is one disc");
        self.sheet
            .labelled(&at.solid(), &label, solid, above(own.solid));
        if !solid {
            let by = above(own.segments.or(spec.segments).is_some());
            self.sheet.key(&at.segments(), &of, ring.sizes.segments, by);
            let (width, by) = (ring.sizes.board_width(), form(own.width.is_some()));
            self.sheet.key(&at.width(), &of, width, by);
            let by = above(own.filled.or(spec.filled).is_some());
            let filled = ring.sizes.filled * 100.0;
            self.sheet.key(&at.filled(), &of, filled, by);
        }
        let by = above(own.stock.or(spec.stock).is_some());
        self.sheet.key(&at.stock(), &of, ring.stock, by);
        let by = above(own.board.or(spec.board).is_some());
        self.sheet.key(&at.board(), &of, ring.board.word(), by);
        let by = form(own.height.or(spec.ring_height).is_some());
        self.sheet.key(&at.height(), &of, ring.height, by);
        self.sheet
            .key(&at.turn(), &of, ring.turn, above(own.turn.is_some()));
        let (across, by) = (ring.sizes.flat_out * 2.0, form(own.outside.is_some()));
        self.sheet.key(&at.outside(), &of, across, by);
        let panel = ring.let_in.as_ref();
        let label = format!("wood of the floor panel in ring {count}");
        let wood = panel.map_or("", |p| self.piece.wood_name(p.wood));
        let floor = at.floor().path();
        self.sheet
            .wood(floor.as_str(), &label, wood, above(panel.is_some()));
        if let Some(panel) = panel {
            self.floor(own, panel, at, count);
        }
    }

    fn floor(&mut self, own: &RingSpec, panel: &Panel, at: &RingPath, count: usize) {
        let Some(own) = &own.floor else { return };
        let (at, within) = (at.floor(), format!(" in ring {count}"));
        for (path, given, value) in [
            (at.thickness(), own.thickness, panel.thickness),
            (at.above(), own.above, panel.above),
            (at.groove(), own.groove, panel.groove),
            (at.gap(), own.gap, panel.gap),
        ] {
            let by = maker_or(given.is_some(), Origin::Form);
            self.sheet.key(&path, &within, value, by);
        }
        let by = maker_or(own.board.is_some(), Origin::Default);
        self.sheet.key(&at.board(), &within, panel.board.word(), by);
        let floats = panel.floating;
        self.sheet
            .key(&at.floating(), &within, floats, Origin::Maker);
    }

    fn bands(&mut self, number: usize) {
        let section = &self.piece.sections[number];
        for (k, (own, band)) in self.spec.bands.iter().zip(&section.bands).enumerate() {
            let within = if self.spec.bands.len() > 1 {
                format!(" in {}, band {}", section.name, k + 1)
            } else {
                format!(" in {}", section.name)
            };
            let at = key::section(number).band(k);
            self.cuts(own, band, &at, &within);
            self.layers(own, band, &at, &within);
        }
    }

    /// Where a band's loops stand and how they are cut.
    fn cuts(&mut self, own: &BandSpec, band: &Band, at: &BandPath, within: &str) {
        let loops = &band.loops;
        let by = maker_or(own.loops.is_some(), Origin::Form);
        self.sheet
            .key(&at.loops(), within, loops.azimuths.len(), by);
        if own.azimuths.is_empty() {
            let start = own.start.unwrap_or(Angle::ZERO);
            let by = maker_or(own.start.is_some(), Origin::Default);
            self.sheet.key(&at.start(), within, start, by);
        }
        let by = maker_or(!own.azimuths.is_empty(), Origin::Form);
        let azimuths = loops.azimuths.clone();
        self.sheet.key(&at.azimuths(), within, azimuths, by);
        let order: Vec<usize> = band.order.iter().map(|k| k + 1).collect();
        let by = maker_or(!own.order.is_empty(), Origin::Default);
        self.sheet.key(&at.order(), within, order, by);
        let by = self.chosen.origin(own.height.is_some(), &at.height());
        self.sheet.key(&at.height(), within, loops.height, by);
        let reach = band.outside.reach().map(Value::from);
        let by = maker_or(own.reach.is_some(), Origin::Form);
        self.sheet.key_if(&at.reach(), within, reach, by);
        let by = self.chosen.origin(own.tilt.is_some(), &at.tilt());
        self.sheet.key(&at.tilt(), within, loops.tilt, by);
        let saw = band.saw.name.as_str();
        let by = self.chosen.origin(own.saw.is_some(), &at.saw());
        self.sheet.key(&at.saw(), within, saw, by);
    }

    /// What goes into a band's cuts.
    fn layers(&mut self, own: &BandSpec, band: &Band, at: &BandPath, within: &str) {
        let by = self.chosen.origin(own.layer.is_some(), &at.layer());
        self.sheet.key(&at.layer(), within, band.layer, by);
        let by = maker_or(own.spacer.is_some(), Origin::Form);
        self.sheet.key(&at.spacer(), within, band.cuts.spacer, by);
        let by = self.chosen.origin(own.glue_line.is_some(), &at.glue_line());
        self.sheet.key(&at.glue_line(), within, band.glue_line, by);
        let woods = if own.wood.is_empty() {
            let usual = BandSpec::KEYS.usual("wood").word();
            usual.map(String::from).into_iter().collect()
        } else {
            own.wood.clone()
        };
        let by = self.chosen.origin(!own.wood.is_empty(), &at.wood());
        self.sheet.key(&at.wood(), within, woods, by);
        let by = maker_or(own.board.is_some(), Origin::Default);
        self.sheet.key(&at.board(), within, band.board.word(), by);
        let by = self.chosen.origin(own.make.is_some(), &at.make());
        self.sheet
            .key(&at.make(), within, band.blank.make.word(), by);
        if band.blank.make != LayerMake::Solid {
            let segments = band.blank.ring.map(|r| Value::from(r.segments));
            let by = maker_or(own.segments.is_some(), Origin::Form);
            self.sheet.key_if(&at.segments(), within, segments, by);
        }
    }

    fn splits(&mut self, number: usize) {
        let section = &self.piece.sections[number];
        for (k, split) in section.splits.iter().enumerate() {
            let at = key::section(number).split(k);
            let of = format!(" of the split of {}", section.name);
            let maker = Origin::Maker;
            self.sheet.key(&at.height(), &of, split.spec.height, maker);
            self.sheet.key(&at.turn(), &of, split.spec.turn, maker);
            let by = self.chosen.origin(split.spec.saw.is_some(), &at.saw());
            let saw = split.saw.name.as_str();
            self.sheet.key(&at.saw(), &of, saw, by);
        }
    }
}
