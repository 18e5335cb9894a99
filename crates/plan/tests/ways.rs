//! Every way of every remedy, made as the page makes it: by edits of the file's text.

use std::fs;
use std::path::{Path, PathBuf};

use files::edit::{EditContext, SectionContext, Units, apply};
use files::keys::File;
use files::read::{read_design, read_workshop};
use files::remedy::Way;
use files::units::Unit;
use files::workshop::Workshop;
use piece::settle::{Settled, settle};
use plan::finding::Finding;
use plan::findings::find;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// A project's text and the workshop that it is made in.
struct Case {
    name: String,
    text: String,
    shop: Workshop,
}

impl Case {
    fn settled(&self, text: &str) -> Option<Settled> {
        let (design, _, problems) = read_design(&self.name, text);
        let design = design.filter(|_| problems.is_empty())?;
        Some(settle(&design, &self.shop))
    }

    fn unit(&self) -> Unit {
        let (design, ..) = read_design(&self.name, &self.text);
        design.expect("a design").unit
    }

    /// The text with a way gone; why it cannot be gone, if it cannot.
    fn with(&self, settled: &Settled, way: &Way, page: Unit) -> Result<String, String> {
        let sections = settled.piece.iter().flat_map(|p| &p.sections);
        let ground = EditContext {
            units: Units {
                page,
                file: self.unit(),
            },
            file: File::Project,
            sections: sections
                .map(|s| SectionContext {
                    rings: s.rings.len(),
                    stacked: s.stacked.as_mm(),
                    ..SectionContext::default()
                })
                .collect(),
        };
        apply(&self.text, &way.edits(page), &ground).map_err(|r| r.what)
    }
}

/// The files of a folder with a form, each in the workshop that it names.
fn cases(folder: &str) -> Vec<Case> {
    let mut all: Vec<Case> = fs::read_dir(root().join(folder))
        .expect("the folder")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|e| e == "toml"))
        .filter_map(|path| {
            let text = fs::read_to_string(&path).expect("text");
            let unit = read_design("x", &text).0?.unit.word();
            let lines = text
                .lines()
                .filter_map(|l| l.strip_prefix("# workshop:"))
                .map(|l| format!("{}\n", l.trim()));
            let shop: String = lines.collect();
            let shop = format!("ringwright = 1\nunit = \"{unit}\"\n{shop}");
            Some(Case {
                name: path.file_name()?.to_str()?.into(),
                text: text.split("# do:").next()?.split("# finds:").next()?.into(),
                shop: read_workshop(&shop).0?,
            })
        })
        .collect();
    all.sort_by(|a, b| a.name.cmp(&b.name));
    all
}

/// What is wrong with a way; nothing if its finding is gone and nothing as bad has come.
fn fault(
    case: &Case,
    before: &[Finding],
    finding: &Finding,
    way: &Way,
    page: Unit,
) -> Option<String> {
    let settled = case.settled(&case.text)?;
    let text = match case.with(&settled, way, page) {
        Ok(text) => text,
        Err(why) => return Some(format!("refused: {why}")),
    };
    let (_, _, problems) = read_design(&case.name, &text);
    if let Some(problem) = problems.first() {
        return Some(format!("cannot be read: {}", problem.what));
    }
    let after = find(&case.settled(&text)?);
    if finding.is_done_by(before, &after) {
        return None;
    }
    let as_bad = after.iter().filter(|f| f.severity <= finding.severity);
    let keys: Vec<&str> = as_bad.map(|f| f.key).collect();
    Some(format!("leaves {}", keys.join(", ")))
}

#[test]
fn every_way_does_what_it_is_meant_to() {
    let mut wrong = String::new();
    let mut tried = 0;
    for case in cases("tests/findings").iter().chain(&cases("examples")) {
        let Some(settled) = case.settled(&case.text) else {
            panic!("{} cannot be read", case.name);
        };
        let before = find(&settled);
        for finding in &before {
            for way in &finding.remedy.ways {
                for page in [Unit::Mm, Unit::Inch] {
                    tried += 1;
                    if let Some(fault) = fault(case, &before, finding, way, page) {
                        wrong += &format!(
                            "{}: {}: {}: {fault}\n",
                            case.name,
                            finding.key,
                            way.what.said(page)
                        );
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{tried} tried\n{wrong}");
    assert!(tried > 200, "only {tried} ways");
}
