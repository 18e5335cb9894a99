//! A figure that a maker cuts to, with how it was worked out.

use std::borrow::Cow;

use geometry::{Angle, Length};
use piece::units::{Unit, degrees, fixed};
use serde::Serialize;
use serde::ser::{SerializeStruct, Serializer};

/// A value with its kind, so that it is written in the reader's unit.
///
/// For machines it is `{kind, value}`: lengths in mm, angles in degrees, areas in
/// mm², volumes in mm³, weights in g, speeds in turns a minute, forces in N, pressures
/// in N/mm², temperatures in °C.
#[derive(Debug, Clone)]
pub enum Amount {
    /// A length read off a rule: 0.1 mm or 1/64 in.
    Length(Length),
    /// A length read off a calliper: 0.01 mm or 0.001 in.
    Fine(Length),
    /// An angle, shown to 0.01°.
    Angle(Angle),
    /// How many.
    Count(usize),
    /// An area, mm².
    Area(f64),
    /// A volume of wood or glue, mm³.
    Volume(f64),
    /// A volume that the piece holds, mm³.
    Capacity(f64),
    /// A weight, g.
    Weight(f64),
    /// Turns a minute.
    Speed(f64),
    /// Minutes of work.
    Minutes(f64),
    /// Hours of waiting.
    Hours(f64),
    /// A force, N.
    Force(f64),
    /// A pressure or a stress, N/mm².
    Pressure(f64),
    /// A share, percent.
    Percent(f64),
    /// A temperature, °C.
    Temperature(f64),
    /// A frequency, Hz.
    Frequency(f64),
    /// Words.
    Text(String),
}

impl Amount {
    /// The value in words of one unit system.
    ///
    /// ```
    /// use geometry::Length;
    /// use piece::units::Unit;
    /// use plan::figure::Amount;
    /// assert_eq!(Amount::Fine(Length::mm(6.0)).show(Unit::Mm), "6.00 mm");
    /// assert_eq!(Amount::Length(Length::mm(19.05)).show(Unit::Inch), "3/4 in");
    /// ```
    pub fn show(&self, unit: Unit) -> String {
        match self {
            Amount::Length(l) => unit.length(*l),
            Amount::Fine(l) => unit.fine(*l),
            Amount::Angle(a) => degrees(*a, 2),
            Amount::Count(n) => n.to_string(),
            Amount::Area(a) => unit.area(*a),
            Amount::Volume(v) => unit.volume(*v),
            Amount::Capacity(v) => unit.capacity(*v),
            Amount::Weight(g) => unit.weight(*g),
            Amount::Speed(s) => format!("{} rpm", fixed(*s, 0)),
            Amount::Minutes(m) => format!("{} min", fixed(*m, 0)),
            Amount::Hours(h) => format!("{} h", fixed(*h, 1)),
            Amount::Force(n) => match unit {
                Unit::Mm => format!("{} N", fixed(*n, 0)),
                Unit::Inch => format!("{} lbf", fixed(unit.force(*n), 0)),
            },
            Amount::Pressure(p) => match unit {
                Unit::Mm => format!("{} N/mm²", fixed(*p, 2)),
                Unit::Inch => format!("{} psi", fixed(unit.force(*p * 645.16), 0)),
            },
            Amount::Percent(p) if p.abs() < 20.0 => format!("{} %", fixed(*p, 1)),
            Amount::Percent(p) => format!("{} %", fixed(*p, 0)),
            Amount::Temperature(t) => match unit {
                Unit::Mm => format!("{} °C", fixed(*t, 0)),
                Unit::Inch => format!("{} °F", fixed(unit.temperature(*t), 0)),
            },
            Amount::Frequency(f) => format!("{} Hz", fixed(*f, 0)),
            Amount::Text(t) => t.clone(),
        }
    }

    /// Its kind as machines read it.
    pub const fn kind(&self) -> &'static str {
        match self {
            Amount::Length(_) => "length",
            Amount::Fine(_) => "fine",
            Amount::Angle(_) => "angle",
            Amount::Count(_) => "count",
            Amount::Area(_) => "area",
            Amount::Volume(_) => "volume",
            Amount::Capacity(_) => "capacity",
            Amount::Weight(_) => "weight",
            Amount::Speed(_) => "speed",
            Amount::Minutes(_) => "minutes",
            Amount::Hours(_) => "hours",
            Amount::Force(_) => "force",
            Amount::Pressure(_) => "pressure",
            Amount::Percent(_) => "percent",
            Amount::Temperature(_) => "temperature",
            Amount::Frequency(_) => "frequency",
            Amount::Text(_) => "text",
        }
    }

    /// Its value as machines read it: mm, degrees, mm², mm³, g; `None` for words.
    pub fn number(&self) -> Option<f64> {
        match self {
            Amount::Length(l) | Amount::Fine(l) => Some(l.as_mm()),
            Amount::Angle(a) => Some(a.as_deg()),
            Amount::Count(n) => Some(*n as f64),
            Amount::Area(v)
            | Amount::Volume(v)
            | Amount::Capacity(v)
            | Amount::Weight(v)
            | Amount::Speed(v)
            | Amount::Minutes(v)
            | Amount::Hours(v)
            | Amount::Force(v)
            | Amount::Pressure(v)
            | Amount::Percent(v)
            | Amount::Temperature(v)
            | Amount::Frequency(v) => Some(*v),
            Amount::Text(_) => None,
        }
    }
}

impl Serialize for Amount {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut out = serializer.serialize_struct("Amount", 2)?;
        out.serialize_field("kind", self.kind())?;
        match self {
            Amount::Count(n) => out.serialize_field("value", n)?,
            Amount::Text(t) => out.serialize_field("value", t)?,
            _ => out.serialize_field("value", &self.number())?,
        }
        out.end()
    }
}

/// How a figure was worked out.
#[derive(Debug, Clone, Serialize)]
pub struct Working {
    /// The formula in words: `spacer = (layer + 2 glue lines − kerf) / cos(tilt)`.
    pub formula: Cow<'static, str>,
    /// What was put in.
    pub inputs: Vec<Input>,
    /// Where the formula comes from: a closed form, a handbook, common practice.
    pub source: Cow<'static, str>,
}

/// One value put into a formula.
#[derive(Debug, Clone, Serialize)]
pub struct Input {
    /// Its name in the formula.
    pub name: Cow<'static, str>,
    /// Its value.
    pub amount: Amount,
    /// The value in the plan's unit; empty outside a plan.
    pub shown: String,
}

impl Working {
    /// A formula and its source; add inputs with [`Working::with`].
    pub fn new(
        formula: impl Into<Cow<'static, str>>,
        source: impl Into<Cow<'static, str>>,
    ) -> Self {
        Self {
            formula: formula.into(),
            inputs: Vec::with_capacity(4),
            source: source.into(),
        }
    }

    /// Adds an input.
    pub fn with(mut self, name: impl Into<Cow<'static, str>>, amount: Amount) -> Self {
        self.inputs.push(Input {
            name: name.into(),
            amount,
            shown: String::new(),
        });
        self
    }

    /// Writes out every input in a unit.
    pub(crate) fn show_in(&mut self, unit: Unit) {
        for input in &mut self.inputs {
            input.shown = input.amount.show(unit);
        }
    }
}

/// A figure on a plan.
#[derive(Debug, Clone, Serialize)]
pub struct Figure {
    /// A name for machines, unique within its operation: `spacer`. Figures of one
    /// sort are numbered, `inside_3`.
    pub key: Cow<'static, str>,
    /// What it is, in the trade's words.
    pub label: Cow<'static, str>,
    /// Its value.
    pub amount: Amount,
    /// The value in the plan's unit; empty outside a plan.
    pub shown: String,
    /// How it was worked out; `None` for what needs no working.
    pub working: Option<Working>,
    /// A saw, stop, gauge or rule is set to it.
    pub cut_to: bool,
}

impl Figure {
    /// A figure that a machine, stop or rule is set to. It shows its working.
    pub fn setting(
        key: impl Into<Cow<'static, str>>,
        label: impl Into<Cow<'static, str>>,
        amount: Amount,
        working: Working,
    ) -> Self {
        Self {
            cut_to: true,
            ..Self::note(key, label, amount).worked(working)
        }
    }

    /// A figure for information.
    pub fn note(
        key: impl Into<Cow<'static, str>>,
        label: impl Into<Cow<'static, str>>,
        amount: Amount,
    ) -> Self {
        Self {
            key: key.into(),
            label: label.into(),
            amount,
            shown: String::new(),
            working: None,
            cut_to: false,
        }
    }

    /// The same with its working.
    pub fn worked(mut self, working: Working) -> Self {
        self.working = Some(working);
        self
    }

    /// What sort of figure it is: the key without a number at its end.
    ///
    /// ```
    /// use plan::figure::{Amount, Figure};
    /// assert_eq!(Figure::note("inside_12", "", Amount::Count(1)).sort(), "inside");
    /// assert_eq!(Figure::note("first_cut", "", Amount::Count(1)).sort(), "first_cut");
    /// ```
    pub fn sort(&self) -> &str {
        match self.key.rsplit_once('_') {
            Some((sort, number)) if number.parse::<usize>().is_ok() => sort,
            _ => &self.key,
        }
    }

    /// Writes out the value and what it was worked out from in a unit.
    pub(crate) fn show_in(&mut self, unit: Unit) {
        self.shown = self.amount.show(unit);
        if let Some(working) = &mut self.working {
            working.show_in(unit);
        }
    }
}

/// Writes out every figure of a list in a unit.
pub(crate) fn show_all(figures: &mut [Figure], unit: Unit) {
    for figure in figures {
        figure.show_in(unit);
    }
}
