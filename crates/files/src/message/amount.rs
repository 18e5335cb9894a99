//! A value with its kind, written in the reader's unit.

use geometry::{Angle, Length};
use serde::ser::{Serialize, SerializeStruct, Serializer};

use super::{Language, Message, Spelling};
use crate::units::{Unit, degrees, fixed};

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
    /// A bending moment or a torque, N·mm.
    Moment(f64),
    /// A pressure or a stress, N/mm².
    Pressure(f64),
    /// A share, percent.
    Percent(f64),
    /// A temperature, °C.
    Temperature(f64),
    /// A frequency, Hz.
    Frequency(f64),
    /// Words.
    Text(Message),
}

impl Amount {
    /// The value in the words of one unit and spelling.
    ///
    /// ```
    /// use geometry::Length;
    /// use files::units::Unit;
    /// use files::message::Amount;
    /// assert_eq!(Amount::Fine(Length::mm(6.0)).show(Unit::Mm), "6.00 mm");
    /// assert_eq!(Amount::Length(Length::mm(19.05)).show(Unit::Inch), "3/4 in");
    /// ```
    pub fn show(&self, language: impl Into<Language>) -> String {
        let language = language.into();
        let unit = language.unit;
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
            Amount::Moment(m) => match unit {
                Unit::Mm => format!("{} N·m", fixed(*m / 1000.0, 2)),
                Unit::Inch => format!("{} lbf·in", fixed(unit.force(*m / 25.4), 1)),
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
            Amount::Text(t) => t.said(language),
        }
    }

    /// The same with its words said: what is left of them is in no language any more.
    #[must_use]
    pub fn said(&self, language: Language) -> Amount {
        match self {
            Amount::Text(words) => Amount::Text(Message::name(words.said(language))),
            other => other.clone(),
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
            Amount::Moment(_) => "moment",
            Amount::Pressure(_) => "pressure",
            Amount::Percent(_) => "percent",
            Amount::Temperature(_) => "temperature",
            Amount::Frequency(_) => "frequency",
            Amount::Text(_) => "text",
        }
    }

    /// Its value as machines read it: mm, degrees, mm², mm³, g, N, N·mm, N/mm²; `None` for words.
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
            | Amount::Moment(v)
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
            // Said before it is written; what was not stands as it does in the sources.
            Amount::Text(t) => {
                let own = Language::new(Unit::Mm, Spelling::British);
                out.serialize_field("value", &t.said(own))?;
            }
            _ => out.serialize_field("value", &self.number())?,
        }
        out.end()
    }
}
