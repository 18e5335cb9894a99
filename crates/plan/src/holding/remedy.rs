//! What would hold.

use files::message::{Reading, Round};
use files::workshop::{Block, Holding};
use geometry::Length;
use piece::piece::Piece;

use super::study::held;

/// One change that brings every stage under.
#[derive(Debug, Clone)]
pub enum Way {
    /// A block of that wood.
    Block(&'static str),
    /// A block without a recess.
    NoRecess,
    /// A block at least that wide.
    Diameter(Reading),
    /// A steady rest at that height, with what else is in the holding.
    Steady(Reading),
    /// Cuts no heavier than that force, N.
    Force(f64),
}

/// Lighter cuts than this are none, N: two pounds, so that whole pounds are left of them.
const LIGHTEST_CUT: f64 = 10.0;

/// Every single change that is enough, best first.
pub fn ways(piece: &Piece) -> Vec<Way> {
    let shop = &piece.workshop;
    let (own, thick) = (&shop.holding, shop.sled.waste_block);
    let worst = |holding: &Holding| {
        let all = held(piece, holding, *thick);
        all.iter().map(|h| h.used()).fold(0.0, f64::max)
    };
    let enough = |holding: &Holding| worst(holding) <= 1.0;
    let with = |change: &dyn Fn(&mut Holding)| {
        let mut holding = own.clone();
        change(&mut holding);
        holding
    };
    let mut out = Vec::new();
    let maple = "hard maple";
    if own.block.word() != maple && enough(&with(&|h| h.block.value = Block::Wood(maple.into()))) {
        out.push(Way::Block(maple));
    }
    if own.recess.exceeds(Length::ZERO) && enough(&with(&|h| h.recess.value = Length::ZERO)) {
        out.push(Way::NoRecess);
    }
    let foot = piece.form.foot_radius() * 2.0;
    if own.diameter.is_some_and(|d| foot.exceeds(d))
        && enough(&with(&|h| h.diameter.value = Some(foot)))
    {
        // Half of what is between is enough as often as not.
        let from = own.diameter.unwrap_or(foot);
        let middle = Reading::rounded(from + (foot - from) / 2.0, Round::Nearest, false);
        let wide = middle.where_each(|wide| enough(&with(&|h| h.diameter.value = Some(wide))));
        let as_the_foot = || Reading::rounded(foot, Round::Nearest, false);
        out.push(Way::Diameter(wide.unwrap_or_else(as_the_foot)));
    }
    if own.steady.is_none() {
        let at = Reading::rounded(piece.form.height() * 0.8, Round::Nearest, false);
        let steadied = at.where_each(|at| enough(&with(&|h| h.steady.value = Some(at))));
        out.extend(steadied.map(Way::Steady));
    }
    let light = |force: f64| enough(&with(&|h| h.tool_force.value = force));
    if light(LIGHTEST_CUT) {
        let (mut good, mut bad) = (LIGHTEST_CUT, *own.tool_force);
        // To a tenth of a newton and finer; whole newtons or pounds are written.
        for _ in 0..12 {
            let middle = 0.5 * (good + bad);
            if light(middle) {
                good = middle;
            } else {
                bad = middle;
            }
        }
        out.push(Way::Force(good));
    }
    out
}
