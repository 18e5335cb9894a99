//! A setting of a file as a blank: all of it comes from the table of keys.

use files::key::KeyPath;
use files::keys::{File, Giver, Quantity, Setting, Value, Word, find};
use files::units::fixed;
use geometry::{Angle, Length};

use super::{Range, Sheet, trimmed};
use crate::wire::{BlankKind, Origin};

/// Who gave a value, as the page says it.
pub fn origin(by: Option<Giver>) -> Origin {
    match by {
        Some(Giver::File | Giver::Measured) => Origin::Maker,
        Some(Giver::Workshop) => Origin::Workshop,
        Some(Giver::Form) => Origin::Form,
        Some(Giver::CommonPractice) | None => Origin::Default,
    }
}

impl Sheet {
    /// A setting under a label of its own.
    pub fn setting(&mut self, setting: &Setting, label: &str, origin: Origin) {
        let path = setting.path.as_str();
        self.taken(
            path,
            label,
            setting.quantity,
            setting.value.as_ref(),
            origin,
        );
    }

    /// A project's key under its label of the table, with what it is of behind that.
    pub fn key(&mut self, path: &KeyPath, of: &str, value: impl Into<Value>, origin: Origin) {
        self.key_if(path, of, Some(value.into()), origin);
    }

    /// The same, where there may be no value.
    pub fn key_if(&mut self, path: &KeyPath, of: &str, value: Option<Value>, origin: Origin) {
        if let Some(found) = find(File::Project, path) {
            let label = format!("{}{of}", found.key.label);
            self.taken(
                path.as_str(),
                &label,
                found.quantity,
                value.as_ref(),
                origin,
            );
        }
    }

    /// A project's key under a label of its own.
    pub fn labelled(
        &mut self,
        path: &KeyPath,
        label: &str,
        value: impl Into<Value>,
        origin: Origin,
    ) {
        if let Some(found) = find(File::Project, path) {
            let value = value.into();
            self.taken(path.as_str(), label, found.quantity, Some(&value), origin);
        }
    }

    fn taken(
        &mut self,
        path: &str,
        label: &str,
        quantity: Quantity,
        value: Option<&Value>,
        origin: Origin,
    ) {
        match quantity {
            Quantity::Length(range) => {
                let (value, limits) = (length(value), Range(range.least, range.most));
                self.measure(path, label, value, origin, limits, range.fine);
            }
            Quantity::Angle(range) | Quantity::Turn(range) => {
                let limits = Range(range.least, range.most);
                self.angle(path, label, angle(value), origin, limits);
            }
            Quantity::Count(range) | Quantity::Rings(range) => {
                let limits = Range(range.least as f64, range.most as f64);
                self.whole(path, label, count(value), origin, limits);
            }
            Quantity::Number(range) => {
                let limits = Range(range.least, range.most);
                self.number(path, label, number(value), range.sign, origin, limits);
            }
            Quantity::Scaled(scale, metric, _) => {
                let limits = Range(metric.least, metric.most);
                let metric = number(value).unwrap_or(metric.least);
                self.measured(path, label, (scale, metric), origin, limits);
            }
            Quantity::Flag => {
                let yes = matches!(value, Some(Value::Flag(true)));
                self.flag(path, label, yes, origin);
            }
            Quantity::Choice(words) => self.words(path, label, word(value), origin, words),
            Quantity::Corner => {
                let choices = [("smooth", "smooth"), ("corner", "corner")];
                self.choice(path, label, word(value), origin, &choices);
            }
            Quantity::Wood => self.wood(path, label, word(value), origin),
            Quantity::Woods(_) => {
                let shown = list(value, self.unit);
                self.put(path, label, origin, BlankKind::Woods).shown = shown;
            }
            Quantity::Lengths(..) | Quantity::Angles(..) | Quantity::Counts(..) => {
                let shown = list(value, self.unit);
                self.list(path, label, shown, origin);
            }
            Quantity::Saw => {
                let saws = self.saws.clone();
                let choices: Vec<(&str, &str)> = saws.iter().map(|s| (&**s, &**s)).collect();
                self.choice(path, label, word(value), origin, &choices);
            }
            Quantity::Format
            | Quantity::Text(_)
            | Quantity::Id
            | Quantity::Colour
            | Quantity::ListedWood
            | Quantity::Block => self.text(path, label, word(value), origin),
            // A wall of one thickness; another is shown point by point.
            Quantity::Wall(points) => {
                let (value, range) = (length(value), points.across);
                let limits = Range(range.least, range.most);
                self.measure(path, label, value, origin, limits, range.fine);
            }
            // Tables and curves are shown part by part.
            Quantity::Point(_)
            | Quantity::Points(_)
            | Quantity::Table(_)
            | Quantity::Tables(..)
            | Quantity::Named(_) => {}
        }
    }

    fn words(&mut self, path: &str, label: &str, now: &str, origin: Origin, words: &[Word]) {
        let choices: Vec<(&str, &str)> = words.iter().map(|w| (w.word, w.label)).collect();
        self.choice(path, label, now, origin, &choices);
    }
}

fn length(value: Option<&Value>) -> Option<Length> {
    match value {
        Some(Value::Length(length)) => Some(*length),
        _ => None,
    }
}

fn angle(value: Option<&Value>) -> Option<Angle> {
    match value {
        Some(Value::Angle(angle)) => Some(*angle),
        _ => None,
    }
}

fn count(value: Option<&Value>) -> Option<usize> {
    match value {
        Some(Value::Count(count)) => Some(*count),
        _ => None,
    }
}

fn number(value: Option<&Value>) -> Option<f64> {
    match value {
        Some(Value::Number(number)) => Some(*number),
        _ => None,
    }
}

fn word(value: Option<&Value>) -> &str {
    match value {
        Some(Value::Word(word)) => word,
        _ => "",
    }
}

/// Several values, parted by commas.
fn list(value: Option<&Value>, unit: files::units::Unit) -> String {
    let all: Vec<String> = match value {
        Some(Value::Words(words)) => words.clone(),
        Some(Value::Lengths(all)) => all.iter().map(|l| unit.length(*l)).collect(),
        Some(Value::Angles(all)) => all.iter().map(|a| trimmed(&fixed(a.as_deg(), 2))).collect(),
        Some(Value::Counts(all)) => all.iter().map(usize::to_string).collect(),
        _ => Vec::new(),
    };
    all.join(", ")
}
