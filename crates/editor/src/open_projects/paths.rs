//! Paths of the file as the blanks name them.

use files::design::{Design, RingsGiven};
use piece::form::FormPart;

/// The key that a part of the form is written with.
pub fn form_path(part: FormPart, entry: Option<usize>) -> String {
    let key = match part {
        FormPart::Outer => "outer",
        FormPart::Inner => "inner",
        FormPart::Wall => "wall",
        FormPart::Floor => "floor",
        FormPart::FootRecess => "foot_recess",
        FormPart::FootWidth => "foot_width",
        FormPart::RimEasing => "rim_easing",
    };
    match (part, entry) {
        (FormPart::Outer | FormPart::Inner | FormPart::Wall, Some(i)) => format!("form.{key}[{i}]"),
        _ => format!("form.{key}"),
    }
}

/// `section[1].ring[2].width` of the file as `section[1].ring#4.width`: the first real
/// ring of that entry. Other paths stay.
pub fn real(design: &Design, path: &str) -> String {
    let parse = || {
        let rest = path.strip_prefix("section[")?;
        let (section, rest) = rest.split_once(']')?;
        let rest = rest.strip_prefix(".ring[")?;
        let (entry, rest) = rest.split_once(']')?;
        let (section, entry): (usize, usize) = (section.parse().ok()?, entry.parse().ok()?);
        let RingsGiven::Listed(rings) = design.sections.get(section)?.rings_given() else {
            return None;
        };
        let before: usize = rings
            .iter()
            .take(entry)
            .map(|r| r.repeat.unwrap_or(1))
            .sum();
        Some(format!("section[{section}].ring#{before}{rest}"))
    };
    parse().unwrap_or_else(|| path.to_string())
}

/// The file's entry of each real ring of a section; nothing where they are counted.
pub fn entries(design: &Design, section: usize) -> Option<Vec<usize>> {
    let RingsGiven::Listed(rings) = design.sections.get(section)?.rings_given() else {
        return None;
    };
    let each = rings.iter().enumerate();
    Some(
        each.flat_map(|(i, r)| std::iter::repeat_n(i, r.repeat.unwrap_or(1)))
            .collect(),
    )
}
