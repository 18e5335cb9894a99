//! What holds the piece on the lathe.

use geometry::Length;

use super::Workshop;

/// What a waste block is made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Block {
    /// Particleboard.
    Particleboard,
    /// Medium-density fibreboard.
    Mdf,
    /// Plywood.
    Plywood,
    /// A wood of the built-in table, its grain square to the axis.
    Wood(String),
}

impl Block {
    /// The word that the files use.
    pub fn word(&self) -> &str {
        match self {
            Block::Particleboard => "particleboard",
            Block::Mdf => "mdf",
            Block::Plywood => "plywood",
            Block::Wood(name) => name,
        }
    }

    /// The panel of a word; `None` where it may be a wood.
    pub fn panel(word: &str) -> Option<Block> {
        [Block::Particleboard, Block::Mdf, Block::Plywood]
            .into_iter()
            .find(|panel| panel.word() == word)
    }
}

/// How the waste block hangs on the spindle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fixing {
    /// Screwed to a faceplate.
    Screws,
    /// By a tenon turned on it, in a chuck's jaws.
    Tenon,
}

/// What holds the piece, and what pulls at it.
#[derive(Debug, Clone)]
pub struct Holding {
    /// The waste block.
    pub block: Block,
    /// Its diameter; `None` for as wide as the wood that is glued on it.
    pub diameter: Option<Length>,
    /// Diameter of what is cut away in its middle, where it holds nothing; zero for none.
    pub recess: Length,
    /// Depth of that; `None` for all through.
    pub recess_depth: Option<Length>,
    /// How it hangs on the spindle.
    pub fixing: Fixing,
    /// Screws through the faceplate.
    pub screws: usize,
    /// Their diameter.
    pub screw_diameter: Length,
    /// How deep their threads go into the block.
    pub screw_bite: Length,
    /// Diameter of the circle that they stand on.
    pub screw_circle: Length,
    /// Diameter of the tenon.
    pub tenon: Length,
    /// Force of the tool that is reckoned with, N.
    pub tool_force: f64,
    /// How many times what is reckoned must be borne.
    pub safety: f64,
    /// Height of a steady rest above the foot, where one is used.
    pub steady: Option<Length>,
    /// Diameter of the hollowing tool's bar.
    pub tool_bar: Length,
}

impl Default for Holding {
    fn default() -> Self {
        Holding {
            block: Block::Wood("hard maple".into()),
            diameter: None,
            recess: Length::ZERO,
            recess_depth: None,
            fixing: Fixing::Screws,
            screws: 6,
            screw_diameter: Length::mm(4.8),
            screw_bite: Length::mm(25.0),
            screw_circle: Length::mm(60.0),
            tenon: Length::mm(50.0),
            tool_force: 100.0,
            safety: 3.0,
            steady: None,
            tool_bar: Length::mm(19.0),
        }
    }
}

/// What a file says of the holding; everything else stays as it is.
#[derive(Debug, Clone, Default)]
pub struct HoldingSpec {
    /// See [`Holding::block`].
    pub block: Option<Block>,
    /// The block's thickness, in a project: the shop's is [`super::Sled::waste_block`].
    pub thickness: Option<Length>,
    /// See [`Holding::diameter`].
    pub diameter: Option<Length>,
    /// See [`Holding::recess`].
    pub recess: Option<Length>,
    /// See [`Holding::recess_depth`].
    pub recess_depth: Option<Length>,
    /// See [`Holding::fixing`].
    pub fixing: Option<Fixing>,
    /// See [`Holding::screws`].
    pub screws: Option<usize>,
    /// See [`Holding::screw_diameter`].
    pub screw_diameter: Option<Length>,
    /// See [`Holding::screw_bite`].
    pub screw_bite: Option<Length>,
    /// See [`Holding::screw_circle`].
    pub screw_circle: Option<Length>,
    /// See [`Holding::tenon`].
    pub tenon: Option<Length>,
    /// See [`Holding::tool_force`].
    pub tool_force: Option<f64>,
    /// See [`Holding::safety`].
    pub safety: Option<f64>,
    /// See [`Holding::steady`].
    pub steady: Option<Length>,
    /// See [`Holding::tool_bar`].
    pub tool_bar: Option<Length>,
}

impl HoldingSpec {
    /// Puts what is said in the place of what the shop has.
    pub fn over(&self, shop: &mut Workshop) {
        fn put<T: Clone>(said: &Option<T>, place: &mut T) {
            if let Some(said) = said {
                *place = said.clone();
            }
        }
        put(&self.thickness, &mut shop.sled.waste_block);
        let h = &mut shop.holding;
        put(&self.block, &mut h.block);
        put(&self.recess, &mut h.recess);
        put(&self.fixing, &mut h.fixing);
        put(&self.screws, &mut h.screws);
        put(&self.screw_diameter, &mut h.screw_diameter);
        put(&self.screw_bite, &mut h.screw_bite);
        put(&self.screw_circle, &mut h.screw_circle);
        put(&self.tenon, &mut h.tenon);
        put(&self.tool_force, &mut h.tool_force);
        put(&self.safety, &mut h.safety);
        put(&self.tool_bar, &mut h.tool_bar);
        h.diameter = self.diameter.or(h.diameter);
        h.recess_depth = self.recess_depth.or(h.recess_depth);
        h.steady = self.steady.or(h.steady);
    }
}
