//! One operation of the route.

use files::message::{Language, Message, Said, Unsaid, Wording, said_all};
use serde::Serialize;

use crate::caution::Caution;
use crate::figure::{Figure, figures_said};
use crate::operations::OperationKind;

/// What an operation is about. Numbers count from 0.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
pub struct Subject {
    /// Section, from the bottom.
    pub section: Option<usize>,
    /// Ring in its section.
    pub ring: Option<usize>,
    /// Loop band in its section.
    pub band: Option<usize>,
    /// Loop in its band.
    #[serde(rename = "loop")]
    pub loop_number: Option<usize>,
}

/// One operation of the route.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct Operation<W: Wording = Unsaid> {
    /// Its number in the route, from 1.
    pub number: usize,
    /// Which operation it is.
    pub kind: OperationKind,
    /// What is done, to what: `Cut the segments of ring 4`.
    pub title: W::Text,
    /// What it is about.
    pub subject: Subject,
    /// Figures, those to set first.
    pub figures: Vec<Figure<W>>,
    /// What is done, in order.
    pub doing: Vec<W::Text>,
    /// What to measure before going on.
    pub measure: Vec<W::Text>,
    /// Cautions that travel with it.
    pub cautions: Vec<Caution>,
    /// The drawing that shows it.
    pub picture: Picture,
    /// Minutes of work; an estimate from common practice.
    pub minutes: f64,
    /// Hours of waiting after it (glue); 0 for none.
    pub wait_hours: f64,
}

/// The drawing that shows an operation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Picture {
    /// One ring from above, with its segments.
    Ring,
    /// The sled from above, with the tilt drawn.
    Sled,
    /// The blank of a layer with its joints and the oval that is used.
    Layer,
    /// The half-section with ring rectangles and allowances.
    HalfSection,
    /// The outside wall unrolled.
    OutsideWall,
    /// The inside wall unrolled.
    InsideWall,
}

/// What holds for every operation of a kind.
#[derive(Debug)]
pub struct Card {
    /// The kind.
    pub kind: OperationKind,
    /// What the trade calls it.
    pub name: &'static str,
    /// What it is for, in one sentence on a sheet.
    pub wording: &'static str,
    /// Cautions that it carries.
    pub cautions: &'static [Caution],
    /// The drawing that shows it.
    pub picture: Picture,
}

/// One shop operation on one piece: each is a struct in a file of its own.
pub trait ShopOperation {
    /// What holds for all of its kind.
    fn card(&self) -> &'static Card;
    /// What it is about.
    fn subject(&self) -> Subject;
    /// What is done, to what.
    fn title(&self) -> Message;
    /// Figures, those to set first.
    fn figures(&self) -> Vec<Figure>;
    /// What is done, in order.
    fn doing(&self) -> Vec<Message>;
    /// What to measure before going on.
    fn measure(&self) -> Vec<Message>;
    /// Minutes of work.
    fn minutes(&self) -> f64;
    /// Hours of waiting after it.
    fn wait_hours(&self) -> f64 {
        0.0
    }
    /// Cautions, where they are not those of the card.
    fn cautions(&self) -> Vec<Caution> {
        self.card().cautions.to_vec()
    }
}

impl Operation {
    /// The operation as an entry of the route, with that number.
    pub fn enter(operation: &dyn ShopOperation, number: usize) -> Operation {
        let card = operation.card();
        // Settings come first whatever the order they were put together in.
        let (mut figures, notes): (Vec<Figure>, Vec<Figure>) =
            operation.figures().into_iter().partition(|f| f.cut_to);
        figures.extend(notes);
        Operation {
            number,
            kind: card.kind,
            title: operation.title(),
            subject: operation.subject(),
            figures,
            doing: operation.doing(),
            measure: operation.measure(),
            cautions: operation.cautions(),
            picture: card.picture,
            minutes: operation.minutes(),
            wait_hours: operation.wait_hours(),
        }
    }

    /// The operation in one reader's language.
    pub fn said(&self, language: Language) -> Operation<Said> {
        Operation {
            number: self.number,
            kind: self.kind,
            title: self.title.said(language),
            subject: self.subject,
            figures: figures_said(&self.figures, language),
            doing: said_all(&self.doing, language),
            measure: said_all(&self.measure, language),
            cautions: self.cautions.clone(),
            picture: self.picture,
            minutes: self.minutes,
            wait_hours: self.wait_hours,
        }
    }
}
