//! `[holding]`: what holds the piece on the lathe, in either file.

use geometry::Length;

use super::Workshop;
use crate::key;
use crate::keys::{
    Around, Counts, Fixed, Given, Key, Lengths, Numbers, Quantity, Rules, Scalar, Scale, Setting,
    Slots, Usual, Value, count, keys, mm, number, word, words,
};
use crate::reader::{Item, Table};
use crate::units::Unit;
use crate::wood;
use crate::write::quoted;

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
    /// The panels.
    pub const PANELS: [Block; 3] = [Block::Particleboard, Block::Mdf, Block::Plywood];

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
        Block::PANELS.into_iter().find(|panel| panel.word() == word)
    }
}

impl Scalar for Block {
    fn read(item: &Item<'_>, _key: &Key, _around: &Around<'_>) -> Option<Self> {
        let text = item.text()?;
        if let Some(panel) = Block::panel(&text) {
            return Some(panel);
        }
        let short: String = text.to_lowercase().chars().take(40).collect();
        let near = Block::PANELS
            .iter()
            .find(|p| strsim::jaro_winkler(&short, p.word()) > 0.85);
        if wood::find(&text).is_err()
            && let Some(near) = near
        {
            item.trouble(
                "no such block",
                &format!("did you mean \"{}\"?", near.word()),
            );
            return None;
        }
        item.listed_wood().map(Block::Wood)
    }

    fn text(&self, _key: &Key, _unit: Unit) -> String {
        quoted(self.word())
    }

    fn value(&self) -> Value {
        Value::Word(self.word().into())
    }

    fn of(fixed: Fixed) -> Option<Self> {
        match fixed {
            Fixed::Word(word) => {
                Some(Block::panel(word).unwrap_or_else(|| Block::Wood(word.into())))
            }
            _ => None,
        }
    }

    fn blank() -> Self {
        Block::Plywood
    }
}

words! {
    /// How the waste block hangs on the spindle.
    pub enum Fixing {
        /// Screwed to a faceplate.
        Screws = "screws", "screws through a faceplate";
        /// By a tenon turned on it, in a chuck's jaws.
        Tenon = "tenon", "a tenon in a chuck's jaws";
    }
}

const THICKNESS: Lengths = Lengths::new("a waste block's thickness", 1.0, 500.0);
const DIAMETER: Lengths = Lengths::new("a diameter of the holding", 5.0, 3000.0);
const RECESS: Lengths = Lengths::new("what is cut away in the block", 0.0, 3000.0);
const SCREW: Lengths = Lengths::new("a screw's diameter", 1.0, 20.0);
const BITE: Lengths = Lengths::new("a screw's bite", 1.0, 300.0);
const STEADY: Lengths = Lengths::new("a steady rest's height", 1.0, 3000.0);
const BAR: Lengths = Lengths::new("a tool's bar", 3.0, 100.0);
const SCREWS: Counts = Counts::new("a faceplate has 3 to 48 screws", 3, 48);
const SAFETY: Numbers = Numbers::new("the safety", ("times", "times"), 1.0, 20.0);
const NEWTONS: Numbers = Numbers::new("the tool's force", ("newtons", "N"), 1.0, 2000.0);
const POUNDS: Numbers = Numbers::new("the tool's force", ("pounds of force", "lbf"), 0.25, 450.0);

keys! {
    /// What holds the piece on the lathe, and what pulls at it.
    pub struct Holding, HoldingPath, "[holding]" {
        /// the waste block: `"particleboard"`, `"mdf"`, `"plywood"` or a wood of the list,
        /// its grain square to the axis
        block: Given<Block> = "waste block, a panel or a wood", Quantity::Block,
            word("hard maple");
        /// of the waste block, in the project file; the workshop's is `sled.waste_block`
        thickness: Given<Option<Length>> = "thickness of the waste block",
            Quantity::Length(THICKNESS), Usual::Workshop("sled.waste_block");
        /// of the waste block
        diameter: Given<Option<Length>> = "its diameter", Quantity::Length(DIAMETER),
            Usual::Nothing("as wide as what is glued on it");
        /// diameter of what is cut away in the block's middle: it holds nothing there
        recess: Given<Length> = "cut away in its middle, across", Quantity::Length(RECESS),
            mm(0.0);
        /// depth of that; it takes the screws' wood as well
        recess_depth: Given<Option<Length>> = "depth of that", Quantity::Length(THICKNESS),
            Usual::Nothing("all through");
        /// `"screws"` through a faceplate, or a `"tenon"` in a chuck's jaws
        fixing: Given<Fixing> = "fixed by", Quantity::Choice(Fixing::WORDS), word("screws");
        /// how many, through the faceplate
        screws: Given<usize> = "screws", Quantity::Count(SCREWS), count(6);
        /// of their threads
        screw_diameter: Given<Length> = "diameter of their threads", Quantity::Length(SCREW),
            mm(4.8);
        /// how deep their threads go into the block
        screw_bite: Given<Length> = "how deep they go into the block", Quantity::Length(BITE),
            mm(25.0);
        /// diameter of the circle that they stand on
        screw_circle: Given<Length> = "circle they stand on, across", Quantity::Length(DIAMETER),
            mm(60.0);
        /// diameter of the tenon
        tenon: Given<Length> = "tenon, across", Quantity::Length(DIAMETER), mm(50.0);
        /// of the tool that is reckoned with: N, in an inch file lbf
        tool_force: Given<f64> = "force of the tool",
            Quantity::Scaled(Scale::Force, NEWTONS, POUNDS), number(100.0);
        /// how many times what is reckoned must be borne: a catch, a dull tool
        safety: Given<f64> = "how many times that must be borne", Quantity::Number(SAFETY),
            number(3.0);
        /// height of a steady rest above the foot, in the project file
        steady: Given<Option<Length>> = "height of a steady rest above the foot",
            Quantity::Length(STEADY), Usual::Nothing("none");
        /// diameter of the hollowing tool's bar
        tool_bar: Given<Length> = "bar of the hollowing tool", Quantity::Length(BAR), mm(19.0);
    }
}

impl Rules for Holding {
    const IN_PROJECT_ONLY: &'static [&'static str] = &["thickness", "steady"];
    const ELSEWHERE: &'static [(&'static str, &'static str)] = &[
        (
            "thickness",
            "in the workshop file it is waste_block in [sled]",
        ),
        ("steady", "it belongs in the project file"),
    ];

    fn check(&self, table: &Table<'_>) {
        if let (true, Some(whole)) = (self.recess.is_said(), self.diameter.value)
            && !whole.exceeds(self.recess.value)
        {
            table.trouble(
                "recess",
                "what is cut away is as wide as the block: nothing is left to hold".into(),
                "make recess smaller than diameter",
            );
        }
    }
}

impl Holding {
    /// Puts what is said here in the place of what the shop has.
    pub fn over(&self, shop: &mut Workshop) {
        if let Given {
            value: Some(thickness),
            by,
        } = self.thickness
        {
            shop.sled.waste_block = Given {
                value: thickness,
                by,
            };
        }
        Slots::over(self, &mut shop.holding);
    }
}

impl Holding {
    /// Every setting with its value and who gave it, by its path in a project.
    pub fn settings(&self) -> Vec<Setting> {
        let mut out = Vec::new();
        for (key, slot) in Slots::slots(self) {
            slot.settings(key::holding().path().below(key.name), key, &mut out);
        }
        out
    }
}
