//! The built-in table of woods, read once from `data/`.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use super::{Change, Colour, DensityFrom, Hatch, Shrinkage, Strength, Wood};

/// N/mm² in a pound a square inch: 4.4482216 N over 25.4² mm².
const PSI: f64 = 4.448_221_615_260_5 / (25.4 * 25.4);

const FIGURES: &str = include_str!("../../data/woods.csv");
const NAMES: &str = include_str!("../../data/plain_names.csv");

/// Woods whose printed figures differ between sources.
const UNCERTAIN: [&str; 7] = [
    "Wenge",
    "Bubinga",
    "Ebony, East Indian",
    "Ebony, gaboon (African)",
    "Goncalo alves",
    "Sapele",
    "Courbaril (jatoba)",
];

/// A specific gravity at 12 % from a green one: SG / (1 − 0.265·a·SG) with
/// a = (30 − 12)/30 (Wood Handbook chapter 4, formula from memory).
fn carried_to_12(green: f64) -> f64 {
    const A: f64 = (30.0 - 12.0) / 30.0;
    green / (1.0 - 0.265 * A * green)
}

/// A name without what does not matter: capitals, commas, hyphens, brackets.
pub(super) fn key(name: &str) -> String {
    let mut key = String::with_capacity(name.len());
    for c in name.chars().flat_map(char::to_lowercase) {
        if c.is_alphanumeric() {
            key.push(c);
        } else if c != '\'' && c != '’' && !key.ends_with(' ') && !key.is_empty() {
            key.push(' ');
        }
    }
    key.truncate(key.trim_end().len());
    key
}

pub(super) struct Table {
    woods: Vec<Wood>,
    by_key: BTreeMap<String, usize>,
    /// What to suggest for a key: the name as makers write it.
    written: BTreeMap<String, String>,
}

impl Table {
    pub(super) fn get() -> &'static Table {
        static TABLE: OnceLock<Table> = OnceLock::new();
        TABLE.get_or_init(Table::read)
    }

    pub(super) fn woods(&self) -> &[Wood] {
        &self.woods
    }

    pub(super) fn by_key(&self, key: &str) -> Option<&Wood> {
        self.by_key.get(key).map(|&at| &self.woods[at])
    }

    /// Up to three known names near a key.
    pub(super) fn nearest<'a>(
        &self,
        wanted: &str,
        own: impl Iterator<Item = &'a str>,
    ) -> Vec<String> {
        // Jaro-Winkler costs length squared; no wood's name is that long.
        let wanted: String = wanted.chars().take(60).collect();
        let score = |known: &str| {
            let swapped = wanted.split_once(' ').map(|(a, b)| format!("{b} {a}"));
            let as_written = strsim::jaro_winkler(&wanted, known);
            swapped.map_or(as_written, |s| {
                as_written.max(strsim::jaro_winkler(&s, known))
            })
        };
        let mut found: Vec<(f64, String)> = own
            .map(|name| (score(&key(name)), name.to_string()))
            .chain(
                self.written
                    .iter()
                    .map(|(key, name)| (score(key), name.clone())),
            )
            .filter(|(score, _)| *score > 0.8)
            .collect();
        found.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.cmp(&b.1)));
        // Only what is about as near as the nearest, and one name for each wood.
        let enough = found.first().map_or(1.0, |(best, _)| best - 0.04);
        let mut woods: Vec<Option<usize>> = Vec::new();
        found.retain(|(score, name)| {
            let wood = self.by_key.get(&key(name)).copied();
            let new = wood.is_none() || !woods.contains(&wood);
            woods.push(wood);
            new && *score >= enough
        });
        found.into_iter().take(3).map(|(_, name)| name).collect()
    }

    fn read() -> Table {
        let mut woods: Vec<Wood> = data_lines(FIGURES)
            .skip(1)
            .map(|line| wood_of(&cells(line)))
            .collect();
        fill_from_twins(&mut woods);
        let mut by_key = BTreeMap::new();
        let mut written = BTreeMap::new();
        for (at, wood) in woods.iter().enumerate() {
            by_key.insert(key(&wood.name), at);
        }
        for line in data_lines(NAMES) {
            let mut parts = line.split('|');
            let (Some(plain), Some(name)) = (parts.next(), parts.next()) else {
                continue;
            };
            let Some(&at) = by_key.get(&key(name)) else {
                continue;
            };
            for (rank, alias) in plain.split(';').map(str::trim).enumerate() {
                if rank == 0 {
                    woods[at].plain = alias.into();
                }
                by_key.insert(key(alias), at);
                written.insert(key(alias), alias.to_string());
            }
            if let Some(colour) = parts.next().and_then(Colour::parse) {
                woods[at].colour = colour;
                woods[at].hatch = Hatch::for_colour(colour);
            }
            if let Some(contrast) = parts.next().and_then(|c| c.parse().ok()) {
                woods[at].contrast = contrast;
            }
        }
        for (at, wood) in woods.iter().enumerate() {
            for form in other_forms(&wood.name) {
                by_key.entry(key(&form)).or_insert(at);
            }
            written
                .entry(key(&wood.plain))
                .or_insert(wood.plain.clone());
        }
        one_name_for_twins(&mut woods);
        colour_by_family(&mut woods);
        Table {
            woods,
            by_key,
            written,
        }
    }
}

fn data_lines(text: &str) -> impl Iterator<Item = &str> {
    text.lines()
        .filter(|line| !line.starts_with('#') && !line.trim().is_empty())
}

/// The cells of one line of CSV; our own files hold no line breaks inside quotes.
fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            _ => {
                if let Some(cell) = cells.last_mut() {
                    cell.push(c);
                }
            }
        }
    }
    cells
}

fn wood_of(cells: &[String]) -> Wood {
    let cell = |at: usize| cells.get(at).map_or("", String::as_str);
    let number = |at: usize| cell(at).parse::<f64>().ok().filter(|n| n.is_finite());
    let mut wood = Wood::unknown();
    wood.name = cell(0).into();
    wood.botanical = cell(1).into();
    wood.plain = plain_of(&wood.name);
    (wood.density, wood.density_from) = match (number(2), number(3)) {
        (Some(at_12), _) => (Some(at_12 * 1120.0), DensityFrom::Printed),
        (None, Some(green)) => (Some(carried_to_12(green) * 1120.0), DensityFrom::Green),
        (None, None) => (None, DensityFrom::Unknown),
    };
    wood.shrinkage = Shrinkage {
        radial: number(4),
        tangential: number(5),
        volumetric: number(6),
    };
    wood.change = Change {
        radial: number(7),
        tangential: number(8),
    };
    wood.strength = Strength {
        stiffness: number(9).map(|v| v * 1e6 * PSI),
        shear: number(10).map(|v| v * PSI),
        tension_across: number(11).map(|v| v * PSI),
    };
    if UNCERTAIN.contains(&wood.name.as_str()) {
        wood.uncertain = Some("printed figures differ between sources; weigh a piece".into());
    }
    let evidence = [("shrinkage", cell(13)), ("change", cell(14))];
    let weak: Vec<String> = evidence
        .iter()
        .filter(|(_, how)| how.contains("memory"))
        .map(|(what, how)| format!("{what} figures: {how}"))
        .collect();
    let mut notes = weak;
    if wood.density.is_none() {
        notes.push("no specific gravity printed, so no weight".into());
    }
    wood.note = (!notes.is_empty()).then(|| notes.join("; "));
    wood
}

/// The handbook lists a few woods twice, shrinkage in one row and gravity in the other.
fn fill_from_twins(woods: &mut [Wood]) {
    for at in 0..woods.len() {
        if woods[at].density.is_some() {
            continue;
        }
        let start = format!("{} (", woods[at].name);
        let Some(twin) = woods.iter().find(|w| w.name.starts_with(&start)).cloned() else {
            continue;
        };
        woods[at].density = twin.density;
        woods[at].density_from = twin.density_from;
        woods[at].note = Some(format!("density of the row \"{}\"", twin.name));
    }
}

/// Both rows of such a wood are called the same: a list has it once.
fn one_name_for_twins(woods: &mut [Wood]) {
    for at in 0..woods.len() {
        let (start, plain) = (format!("{} (", woods[at].name), woods[at].plain.clone());
        let twins = woods.iter_mut().filter(|w| w.name.starts_with(&start));
        // What makers call a kind of it is another wood's name.
        let twins = twins.filter(|w| w.plain == plain_of(&w.name));
        twins.for_each(|twin| twin.plain.clone_from(&plain));
    }
}

/// `white ash` for `Ash, white`, `swamp white oak` for `Oak, white, Swamp white`.
fn plain_of(name: &str) -> String {
    let whole = reversed(name);
    let mut words: Vec<&str> = whole.split(' ').collect();
    words.dedup();
    words.join(" ")
}

/// The parts of a handbook name the other way round; brackets fall away.
fn reversed(name: &str) -> String {
    let bare = match name.split_once(" (") {
        Some((before, _)) => before,
        None => name,
    };
    let mut parts: Vec<&str> = bare.split(", ").collect();
    parts.reverse();
    parts.join(" ").to_lowercase()
}

/// Other ways to say a handbook name.
fn other_forms(name: &str) -> Vec<String> {
    // The last is what files may have from before.
    let mut forms = vec![plain_of(name), reversed(name)];
    if let Some((before, inside)) = name.split_once(" (") {
        forms.push(before.into());
        let inside = inside.trim_end_matches(')');
        if !inside.contains("spp.") && !inside.contains("group") {
            forms.push(inside.into());
        }
    }
    forms
}

/// A wood without a colour of its own looks like its family, if one is known.
fn colour_by_family(woods: &mut [Wood]) {
    fn family(name: &str) -> &str {
        name.split([',', ' ', '-']).next().unwrap_or(name)
    }
    let known: Vec<(String, Colour, f64)> = woods
        .iter()
        .filter(|w| w.colour != Colour::UNDYED)
        .map(|w| (family(&w.name).to_string(), w.colour, w.contrast))
        .collect();
    for wood in woods.iter_mut().filter(|w| w.colour == Colour::UNDYED) {
        let own = family(&wood.name);
        if let Some((_, colour, contrast)) = known.iter().find(|(name, ..)| name == own) {
            wood.colour = *colour;
            wood.contrast = *contrast;
            wood.hatch = Hatch::for_colour(*colour);
        }
    }
}
