//! What follows from one text in one workshop.

use std::sync::{Arc, OnceLock};

use files::design::Design;
use files::key::KeyPath;
use files::keys::{File, in_words};
use files::message::{Language, Said, Spelling};
use files::read::read_usable_design;
use files::reader::text_of;
use files::report::{Places, Problem as FileProblem, said};
use files::units::Unit;
use piece::settle::{Settled, settle};
use plan::Plan;
use plan::finding::Finding;

use super::Shop;
use crate::store::hash;
use crate::wire::Problem;

/// A readable text and what follows from it, worked out when it is asked for.
#[derive(Debug)]
pub struct Revision {
    /// Version of text and workshop.
    pub version: String,
    /// The text.
    pub text: String,
    /// What the maker wrote.
    pub design: Design,
    /// The workshop.
    pub shop: Arc<Shop>,
    /// The settled piece.
    pub settled: Settled,
    /// In each unit and spelling.
    words: [[Words; 2]; 2],
}

/// What is said of a piece in one language, put into words when it is asked for.
#[derive(Debug, Default)]
struct Words {
    findings: OnceLock<Vec<Finding<Said>>>,
    plan: OnceLock<Plan>,
}

/// The piece with what is said of it in one language.
#[derive(Debug, Clone, Copy)]
pub struct RevisionInLanguage<'a> {
    /// The settled piece.
    pub settled: &'a Settled,
    language: Language,
    words: &'a Words,
}

impl Revision {
    /// Reads a text; every problem if it cannot be used.
    pub fn new(name: &str, text: &str, shop: &Arc<Shop>) -> Result<Revision, Vec<Problem>> {
        let (design, places) = read(name, text, shop)?;
        let settled = settle(&design, &shop.workshop);
        if settled.piece.is_none() {
            // Without a form, or with more than can be worked out, there is no piece to show:
            // that is as bad as an unreadable text.
            return Err(unformed(&settled, &places, design.unit.into()));
        }
        Ok(Revision {
            version: version(text, shop),
            text: text.into(),
            design,
            shop: shop.clone(),
            settled,
            words: Default::default(),
        })
    }

    /// As [`Revision::new`] for a reader of a language: problems are told in it.
    pub fn for_reader(
        name: &str,
        text: &str,
        shop: &Arc<Shop>,
        reader: Language,
    ) -> Result<Revision, Vec<Problem>> {
        Revision::new(name, text, shop)
            .map_err(|told| told_to(name, text, shop, reader).unwrap_or(told))
    }

    /// The language of those who use the file's unit.
    pub fn language(&self) -> Language {
        Language::from(self.design.unit)
    }

    /// The piece with what is said of it in one language.
    pub fn shown(&self, language: Language) -> RevisionInLanguage<'_> {
        let spelled = &self.words[usize::from(language.unit == Unit::Inch)];
        RevisionInLanguage {
            settled: &self.settled,
            language,
            words: &spelled[usize::from(language.spelling == Spelling::American)],
        }
    }
}

impl<'a> RevisionInLanguage<'a> {
    /// What may go wrong.
    pub fn findings(self) -> &'a [Finding<Said>] {
        match self.words.plan.get() {
            Some(plan) => &plan.findings,
            None => self
                .words
                .findings
                .get_or_init(|| found(self.settled, self.language)),
        }
    }

    /// The plan.
    pub fn plan(self) -> &'a Plan {
        self.words
            .plan
            .get_or_init(|| plan::plan(self.settled, self.language))
    }
}

/// The version of a text in a workshop.
pub fn version(text: &str, shop: &Shop) -> String {
    hash(&[text.as_bytes(), shop.version.as_bytes()])
}

fn read(name: &str, text: &str, shop: &Shop) -> Result<(Design, Places), Vec<Problem>> {
    text_of(text.as_bytes())
        .map_err(|problem| vec![problem])
        .and_then(|text| read_usable_design(name, text, &shop.workshop, None))
        .map_err(|problems| problems.iter().map(told).collect())
}

/// What is wrong with a text, told to a reader of a language.
fn told_to(name: &str, text: &str, shop: &Shop, reader: Language) -> Option<Vec<Problem>> {
    let text = text_of(text.as_bytes()).ok()?;
    match read_usable_design(name, text, &shop.workshop, Some(reader.unit)) {
        Err(problems) => Some(problems.iter().map(told).collect()),
        Ok((design, places)) => {
            let settled = settle(&design, &shop.workshop);
            Some(unformed(&settled, &places, reader))
        }
    }
}

fn found(settled: &Settled, language: Language) -> Vec<Finding<Said>> {
    let found = plan::findings::find(settled);
    found.iter().map(|f| f.said(language)).collect()
}

/// A finding's words as a sentence of their own.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).chain(['.']).collect()
}

fn unformed(settled: &Settled, places: &Places, language: Language) -> Vec<Problem> {
    let form = settled.form.iter().map(|p| Problem {
        path: Some(super::paths::form_path(p.part, p.entry)),
        line: None,
        column: None,
        what: sentence(&p.what.said(language)),
        remedy: sentence(&p.remedy.said(language)),
    });
    let other = settled.troubles.iter().map(|t| Problem {
        path: Some(t.path.to_string()),
        line: None,
        column: None,
        what: t.what.said(language),
        remedy: t.remedy.said(language).words,
    });
    let too_much = settled
        .overload
        .iter()
        .flat_map(|_| found(settled, language));
    let overload = too_much
        .filter(|f| f.key == "too-many-cuts")
        .map(|f| Problem {
            path: Some(f.path.to_string()),
            what: f.what,
            remedy: f.remedy.words,
            ..Problem::default()
        });
    let mut all: Vec<Problem> = form.chain(other).chain(overload).collect();
    for problem in &mut all {
        let at = problem.path.as_deref().and_then(|p| places.at(p));
        problem.line = at.map(|p| p.line as u32);
        problem.column = at.map(|p| p.column as u32);
    }
    if all.is_empty() {
        all.push(Problem {
            what: "there is no piece".into(),
            remedy: "give it a form and a section".into(),
            ..Problem::default()
        });
    }
    all
}

/// A place in the words of the page's blanks.
fn in_page_words(path: &KeyPath) -> String {
    in_words(File::Project, path)
        .or_else(|| in_words(File::Workshop, path))
        .unwrap_or_else(|| said(path))
}

/// A file's problem for the page.
pub fn told(problem: &FileProblem) -> Problem {
    let around = problem.key_path.setting().parent();
    let path = &problem.key_path;
    Problem {
        path: (!path.is_root()).then(|| path.to_string()),
        line: problem.place.map(|p| p.line as u32),
        column: problem.place.map(|p| p.column as u32),
        what: if around.counts() {
            format!("{}: {}", in_page_words(&around), problem.what)
        } else {
            problem.what.clone()
        },
        remedy: problem.remedy.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn problems_are_told_in_the_pages_words_and_unit() {
        let shop = Arc::new(Shop::from_text("ringwright = 1\nunit = \"mm\"\n"));
        let bowl = include_str!("../../../../examples/sandpiper-bowl.toml");
        let told = |old: &str, new: &str| {
            let text = bowl.replacen(old, new, 1);
            assert_ne!(text, bowl, "{old}");
            let problems =
                Revision::for_reader("bowl", &text, &shop, Unit::Inch.into()).unwrap_err();
            problems[0].what.clone()
        };
        let reach = bowl
            .lines()
            .find(|l| l.trim().starts_with("reach"))
            .unwrap();
        let what = told(reach, "  reach = 0.01");
        assert!(what.starts_with("section 2, loop band 1: "), "{what}");
        assert!(what.contains(" in") && !what.contains(" mm"), "{what}");
        // What is found while the form is built is told in it too.
        let what = told("floor = ", "floor = 900 # ");
        assert!(!what.contains("mm"), "{what}");
        let shop =
            Shop::from_text("ringwright = 1\nunit = \"mm\"\n[[saw]]\nname = \"x\"\nkerf = 900\n");
        assert!(
            shop.problems[0].what.starts_with("saw 1: "),
            "{:?}",
            shop.problems
        );
    }
}
