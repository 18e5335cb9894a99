//! A key as a row of the documentation: what it is, its range, what holds without it.

use super::{Angles, Counts, Fixed, Key, KeyTable, Lengths, Numbers, Points, Quantity, Usual};
use crate::design::id;
use crate::units::fixed;

/// Most characters of a name, a title, notes, as the documentation writes them.
fn characters(most: usize) -> String {
    format!("at most {} characters", grouped(most))
}

/// `20 000`.
fn grouped(number: usize) -> String {
    match (number / 1000, number % 1000) {
        (0, rest) => rest.to_string(),
        (thousands, rest) => format!("{thousands} {rest:03}"),
    }
}

/// A figure without the noughts that say nothing.
fn plain(value: f64) -> String {
    if value.abs() >= 10_000.0 && value.fract() == 0.0 {
        return grouped(value as usize);
    }
    let text = fixed(value, 3);
    match text.split_once('.') {
        Some(_) => text.trim_end_matches('0').trim_end_matches('.').to_string(),
        None => text,
    }
}

fn lengths(range: &Lengths) -> String {
    format!("{} to {} mm", plain(range.least), plain(range.most))
}

fn angles(range: &Angles) -> String {
    format!("{} to {}°", plain(range.least), plain(range.most))
}

fn counts(range: &Counts) -> String {
    format!("{} to {}", range.least, range.most)
}

fn numbers(range: &Numbers) -> String {
    let sign = if range.sign == "times" {
        ""
    } else {
        range.sign
    };
    format!("{} to {} {sign}", plain(range.least), plain(range.most))
        .trim_end()
        .to_string()
}

fn curve(points: &Points) -> String {
    let figure = if points.across_label.is_empty() {
        "thickness"
    } else {
        points.across_label
    };
    format!(
        "{} to {} points; height {}, {figure} {}",
        points.least,
        points.most,
        lengths(&points.height),
        lengths(&points.across)
    )
}

/// What a key takes, in words.
fn range(quantity: Quantity) -> String {
    match quantity {
        Quantity::Format => "1".into(),
        Quantity::Length(range) => lengths(&range),
        Quantity::Angle(range) => angles(&range),
        Quantity::Turn(range) => format!("{}, or `\"half\"`", angles(&range)),
        Quantity::Count(range) => counts(&range),
        Quantity::Rings(range) => format!("{}, or `\"auto\"`", counts(&range)),
        Quantity::Number(range) => numbers(&range),
        Quantity::Scaled(_, metric, inch) if metric.sign == inch.sign => numbers(&metric),
        Quantity::Scaled(_, metric, inch) => {
            format!("{}, in an inch file {}", numbers(&metric), numbers(&inch))
        }
        Quantity::Flag => "true, false".into(),
        Quantity::Text(most) => format!("text, {}", characters(most)),
        Quantity::Saw => "a saw's name".into(),
        Quantity::Id => format!("letters, digits, `-` and `_`, at most {}", id::LONGEST),
        Quantity::Colour => "`\"#rrggbb\"`".into(),
        Quantity::Choice(words) => {
            let all: Vec<String> = words.iter().map(|w| format!("`\"{}\"`", w.word)).collect();
            all.join(", ")
        }
        Quantity::ListedWood => "a wood of the list".into(),
        Quantity::Wood => "a wood of the list or your own".into(),
        Quantity::Woods(most) => format!("woods of the list or your own, up to {most}"),
        Quantity::Block => {
            "`\"particleboard\"`, `\"mdf\"`, `\"plywood\"`, a wood of the list".into()
        }
        Quantity::Lengths(range, most) => format!("{} each, up to {most}", lengths(&range)),
        Quantity::Angles(many, range) => format!("{} of {}", counts(&many), angles(&range)),
        Quantity::Counts(range, _) => format!("{}, each once", counts(&range)),
        Quantity::Corner => "`\"corner\"`".into(),
        Quantity::Point(points) | Quantity::Points(points) => curve(points),
        Quantity::Wall(points) => format!("{}; or {}", lengths(&points.across), curve(points)),
        Quantity::Table(_) => "a table".into(),
        Quantity::Tables(_, most) => format!("up to {most}"),
        Quantity::Named(_) => "a table each".into(),
    }
}

/// What holds where a key is left out.
fn usual(key: &Key) -> String {
    match key.usual {
        Usual::Must(..) | Usual::Meanwhile(..) => "**must**".into(),
        Usual::OneOf(words, _) => format!("{words} **must**"),
        Usual::Is(value) => figure(value, key.quantity),
        Usual::Nothing(words) | Usual::Follows(words) => words.into(),
        Usual::Above(words) => words.into(),
        Usual::Workshop(path) => format!("the workshop's `{path}`"),
    }
}

fn figure(value: Fixed, quantity: Quantity) -> String {
    let mm = |length: geometry::Length| plain(length.as_mm());
    match value {
        Fixed::Nothing => String::new(),
        Fixed::Length(length) => format!("{} mm", mm(length)),
        Fixed::Lengths(all) => {
            let all: Vec<String> = all.iter().map(|l| mm(*l)).collect();
            format!("{} mm", all.join(", "))
        }
        Fixed::Angle(angle) => format!("{}°", plain(angle.as_deg())),
        Fixed::Count(count) => count.to_string(),
        Fixed::Number(number) => {
            let sign = match quantity {
                Quantity::Number(range) | Quantity::Scaled(_, range, _)
                    if range.sign != "times" =>
                {
                    range.sign
                }
                _ => "",
            };
            format!("{} {sign}", plain(number)).trim_end().to_string()
        }
        Fixed::Flag(flag) => flag.to_string(),
        Fixed::Word(word) => format!("`\"{word}\"`"),
    }
}

impl Key {
    /// Its row in a table of Markdown: name, what it is, range, what holds without it.
    ///
    /// ```
    /// use files::key;
    /// use files::keys::{File, find};
    /// let row = find(File::Project, &key::section(0).ring(0).repeat()).map(|f| f.key.row());
    /// let expected = "| `repeat` | so many rings like this one, one on another | 1 to 400 | 1 |";
    /// assert_eq!(row.as_deref(), Some(expected));
    /// ```
    pub fn row(&self) -> String {
        format!(
            "| `{}` | {} | {} | {} |",
            self.name,
            self.doc(),
            range(self.quantity),
            usual(self)
        )
    }
}

impl KeyTable {
    /// Its keys as a table of Markdown. Keys that open tables of their own are left to the
    /// headings of these.
    pub fn rows(&self, file: super::File) -> String {
        let mut out = String::from("| key | what | range | default |\n|---|---|---|---|\n");
        for key in self.keys_of(file).filter(|key| !key.has_heading()) {
            out.push_str(&key.row());
            out.push('\n');
        }
        out
    }
}

impl Key {
    /// Does what it holds stand under a heading of its own?
    pub(crate) fn has_heading(&self) -> bool {
        self.quantity
            .table()
            .is_some_and(|table| table.heading.starts_with('['))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_written_without_noughts_and_with_their_unit() {
        assert_eq!(plain(0.05), "0.05");
        assert_eq!(plain(300.0), "300");
        assert_eq!(plain(20_000.0), "20 000");
        assert_eq!(plain(-360.0), "-360");
        assert_eq!(figure(Fixed::Number(3.0), Quantity::Flag), "3");
    }

    #[test]
    fn a_key_with_tables_of_its_own_has_no_row() {
        let rows = super::super::File::Project
            .table()
            .rows(super::super::File::Project);
        assert!(rows.contains("| `title` |"), "{rows}");
        assert!(!rows.contains("| `section` |"), "{rows}");
    }
}
