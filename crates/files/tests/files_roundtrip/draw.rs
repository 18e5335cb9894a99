//! Files by chance, drawn from the table of keys: no key is named here.

use std::collections::BTreeSet;

use files::key::{KeyPath, Step};
use files::keys::{File, Key, KeyTable, Lengths, Numbers, Points, Quantity, Usual};
use files::read::{read_design, read_workshop};
use files::report::Problem;
use files::units::Unit;
use toml::{Table, Value};

/// Names of a maker's own woods: one that may stand bare, and two that need quotation marks.
const OWN_WOODS: [&str; 3] = ["plum", "my plum", "#1\""];
const LISTED_WOODS: [&str; 4] = ["hard maple", "walnut", "Cherry, black", "Ash, white"];

/// A stream of chance (SplitMix64), by its seed.
pub struct Chance(u64);

impl Chance {
    pub fn new(seed: u64) -> Self {
        Chance(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn below(&mut self, n: usize) -> usize {
        (self.next() % n as u64) as usize
    }

    fn from(&mut self, least: usize, most: usize) -> usize {
        least + self.below(most - least + 1)
    }

    fn yes(&mut self) -> bool {
        self.below(2) == 0
    }

    /// Between two figures, short of either.
    fn between(&mut self, least: f64, most: f64) -> f64 {
        let share = (self.next() >> 11) as f64 / (1_u64 << 53) as f64;
        least + (most - least) * (0.001 + 0.998 * share)
    }

    fn of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len())]
    }
}

/// A file that its reader takes, and the keys that stand in it.
pub fn file(file: File, seed: u64) -> (String, BTreeSet<String>) {
    let mut draw = Draw {
        chance: Chance::new(seed),
        unit: Unit::Mm,
        file,
    };
    draw.unit = draw.chance.of(&[Unit::Mm, Unit::Inch]);
    let mut top = draw.table(file.table());
    top.insert("unit".into(), draw.unit.word().into());
    // What holds between keys is not drawn: what the reader refuses is taken out or added
    // until it refuses nothing.
    for _ in 0..200 {
        let text = toml::to_string(&top).expect("a table can be written");
        let problems = problems(file, &text);
        let Some(problem) = problems.first() else {
            let mut keys = BTreeSet::new();
            names(file.table(), &top, &mut keys);
            return (text, keys);
        };
        draw.mend(&mut top, problem);
    }
    panic!("seed {seed} gives no file that is read:\n{top}");
}

pub fn problems(file: File, text: &str) -> Vec<Problem> {
    match file {
        File::Project => read_design("untitled", text).2,
        File::Workshop => read_workshop(text).2,
    }
}

/// The keys that stand in a table, each with its heading.
fn names(keys: &KeyTable, table: &Table, out: &mut BTreeSet<String>) {
    for key in keys.keys {
        let Some(value) = table.get(key.name) else {
            continue;
        };
        out.insert(format!("{} {}", keys.heading, key.name));
        let Some(below) = key.quantity.table() else {
            continue;
        };
        match value {
            Value::Table(named) if matches!(key.quantity, Quantity::Named(_)) => {
                for table in named.values().filter_map(Value::as_table) {
                    names(below, table, out);
                }
            }
            Value::Table(table) => names(below, table, out),
            Value::Array(list) => {
                for table in list.iter().filter_map(Value::as_table) {
                    names(below, table, out);
                }
            }
            _ => {}
        }
    }
}

struct Draw {
    chance: Chance,
    unit: Unit,
    file: File,
}

impl Draw {
    fn table(&mut self, keys: &KeyTable) -> Table {
        let mut table = Table::new();
        for key in keys.keys_of(self.file) {
            let must = matches!(key.usual, Usual::Must(..) | Usual::Meanwhile(..));
            if must || self.chance.yes() {
                table.insert(key.name.into(), self.value(key));
            }
        }
        table
    }

    fn value(&mut self, key: &Key) -> Value {
        match key.quantity {
            Quantity::Format => 1.into(),
            Quantity::Length(range) => self.length(range),
            Quantity::Angle(range) => self.angle(range.least, range.most),
            Quantity::Turn(_) if self.chance.below(4) == 0 => "half".into(),
            Quantity::Turn(range) => self.angle(range.least, range.most),
            Quantity::Rings(_) if self.chance.yes() => "auto".into(),
            Quantity::Count(range) | Quantity::Rings(range) => {
                // Few is the rule, so that rings and sections do not add up to too many.
                let most = range.most.min(range.least + 20);
                (self.chance.from(range.least, most) as i64).into()
            }
            Quantity::Number(range) => self.number(range),
            Quantity::Scaled(_, metric, inch) => self.number(match self.unit {
                Unit::Mm => metric,
                Unit::Inch => inch,
            }),
            Quantity::Flag => self.chance.yes().into(),
            Quantity::Text(_) | Quantity::Saw => self.text().into(),
            Quantity::Colour => "#a0b0c0".into(),
            // Long enough that two are hardly ever the same.
            Quantity::Id => format!("p-{}", self.chance.below(1_000_000_000)).into(),
            Quantity::Choice(words) => self.chance.of(words).word.into(),
            Quantity::ListedWood | Quantity::Wood => self.chance.of(&LISTED_WOODS).into(),
            Quantity::Woods(_) => self.woods(),
            Quantity::Block => self.chance.of(&["mdf", "plywood", "hard maple"]).into(),
            Quantity::Lengths(range, most) => {
                let many = self.chance.from(1, most.min(6));
                (0..many)
                    .map(|_| self.length(range))
                    .collect::<Vec<_>>()
                    .into()
            }
            Quantity::Angles(many, range) => {
                let many = self.chance.from(many.least, many.most);
                let angle = |_| self.angle(range.least, range.most);
                (0..many).map(angle).collect::<Vec<_>>().into()
            }
            Quantity::Counts(range, _) => {
                let many = self.chance.from(range.least, range.least + 4) as i64;
                (1..=many).rev().map(Value::from).collect::<Vec<_>>().into()
            }
            Quantity::Corner | Quantity::Point(_) => unreachable!("no key is a part of a point"),
            Quantity::Points(of) => self.points(of),
            Quantity::Wall(of) if self.chance.yes() => self.length(of.across),
            Quantity::Wall(of) => self.points(of),
            Quantity::Table(keys) => self.table(keys).into(),
            Quantity::Tables(keys, _) => {
                let many = self.chance.from(1, 3);
                (0..many)
                    .map(|_| Value::from(self.table(keys)))
                    .collect::<Vec<_>>()
                    .into()
            }
            Quantity::Named(keys) => {
                let all = OWN_WOODS.iter().map(|name| (*name).to_string());
                let all: Vec<_> = all.map(|name| (name, self.table(keys).into())).collect();
                Value::Table(all.into_iter().collect())
            }
        }
    }

    /// A length in the file's unit, or in another with its unit.
    fn length(&mut self, range: Lengths) -> Value {
        let mm = self
            .chance
            .between(range.least, range.most.min(range.least + 200.0));
        // What makers have on their rules: tenths, and 64ths of an inch.
        let tenth = ((mm * 10.0).round() / 10.0).clamp(range.least, range.most);
        let sixty_fourths = (mm / 25.4 * 64.0).floor() / 64.0;
        let in_range = sixty_fourths * 25.4 >= range.least;
        match self.chance.below(4) {
            0 => format!("{tenth} mm").into(),
            1 if in_range => format!("{sixty_fourths} in").into(),
            2 => match self.unit {
                Unit::Mm => tenth.into(),
                Unit::Inch => (tenth / 25.4).clamp(range.least / 25.4 + 1e-9, 1e9).into(),
            },
            _ => match self.unit {
                Unit::Mm => mm.into(),
                Unit::Inch => (mm / 25.4).into(),
            },
        }
    }

    fn angle(&mut self, least: f64, most: f64) -> Value {
        let degrees = self.chance.between(least, most);
        if self.chance.yes() {
            degrees.into()
        } else {
            (degrees.round().clamp(least.ceil(), most.floor()) as i64).into()
        }
    }

    fn number(&mut self, range: Numbers) -> Value {
        self.chance.between(range.least, range.most).into()
    }

    fn text(&mut self) -> String {
        const ODD: [&str; 14] = [
            "a", "Z", "\"", "\\", "'", "#", "=", "[", "]", "ß", "½", "\t", "\n", "\u{7f}",
        ];
        let many = self.chance.from(0, 12);
        let odd: String = (0..many).map(|_| self.chance.of(&ODD)).collect();
        // Long enough that two are hardly ever the same.
        format!("{odd}{:x}", self.chance.next())
    }

    fn woods(&mut self) -> Value {
        let many = self.chance.from(1, 4);
        if many == 1 {
            return self.chance.of(&LISTED_WOODS).into();
        }
        let one = |_| Value::from(self.chance.of(&LISTED_WOODS));
        (0..many).map(one).collect::<Vec<_>>().into()
    }

    /// Entries of a curve, each above the one before.
    fn points(&mut self, of: &Points) -> Value {
        let many = self.chance.from(of.least.max(2), 8);
        let mut below = 0.0;
        let mut all: Vec<Value> = Vec::new();
        for _ in 0..many {
            below += self.chance.between(0.5, 60.0);
            let height = match self.unit {
                Unit::Mm => below,
                Unit::Inch => below / 25.4,
            };
            let mut entry = vec![Value::from(height), self.length(of.across)];
            if of.corners && self.chance.yes() {
                entry.push("corner".into());
            }
            all.push(entry.into());
        }
        all.into()
    }

    /// Takes out what a problem is about; draws it where it is missing.
    fn mend(&mut self, top: &mut Table, problem: &Problem) {
        let setting = problem.key_path.setting();
        let name = setting.name();
        let key = files::keys::find(self.file, &setting).map(|found| found.key);
        let table = table_at(top, &setting.parent())
            .unwrap_or_else(|| panic!("{problem:?} stands nowhere"));
        if table.remove(&name).is_none() {
            let key = key.unwrap_or_else(|| panic!("{problem:?} is about no key"));
            let value = self.value(key);
            table.insert(name, value);
        }
    }
}

fn table_at<'a>(top: &'a mut Table, path: &KeyPath) -> Option<&'a mut Table> {
    let mut steps = path.steps().into_iter();
    let Some(Step::Key(first)) = steps.next() else {
        return Some(top);
    };
    let value = steps.try_fold(top.get_mut(&first)?, |value, step| match step {
        Step::Key(key) => value.as_table_mut()?.get_mut(&key),
        Step::At(at) => value.as_array_mut()?.get_mut(at),
        Step::Real(_) => None,
    });
    value?.as_table_mut()
}
