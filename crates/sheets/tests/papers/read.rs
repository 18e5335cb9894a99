//! The papers as other programs read them.

use files::units::Unit;
use sheets::{Paper, Sheet};

use crate::bench::{Scratch, example, examples, job, poppler};
use crate::raster::Page;

fn text_of(pdf: &std::path::Path) -> String {
    let path = pdf.to_string_lossy();
    let out = poppler("pdftotext", &["-layout", &path, "-"]);
    String::from_utf8_lossy(&out.stdout).into_owned()
}

#[test]
fn same_piece_same_bytes() {
    let once = example("bowl", Unit::Mm).pdf(Paper::A4, &[]);
    let again = example("bowl", Unit::Mm).pdf(Paper::A4, &[]);
    assert!(once == again);
    // As issued, it is small enough to mail.
    assert!(once.len() < 3_000_000, "{} bytes", once.len());
}

#[test]
fn every_example_is_set_on_both_papers_in_both_units() {
    for path in examples() {
        for unit in [Unit::Mm, Unit::Inch] {
            let job = job(&path, unit);
            for paper in [Paper::A4, Paper::Letter] {
                let what = format!("{} {unit} {}", job.plan.title, paper.name());
                let (_scratch, pdf) = Scratch::with(&job.pdf(paper, &[]));
                let text = text_of(&pdf);
                furniture(&text, &job.plan.title, &what);
                one_unit(&text, unit);
                apart(&pdf, &what);
                filled(&pdf, &what);
            }
        }
    }
}

/// Title, sheet and number on every page.
fn furniture(text: &str, title: &str, what: &str) {
    let pages: Vec<&str> = text.trim_end_matches('\u{c}').split('\u{c}').collect();
    let count = pages.len();
    println!("{what}: {count} pages");
    for (i, page) in pages.iter().enumerate() {
        let number = format!("page {} of {count}", i + 1);
        assert!(page.contains(&number), "{what} lacks {number}");
        assert!(page.contains(title), "{what}, {number} lacks the title");
        let named = |sheet: &Sheet| page.contains(sheet.name());
        assert!(
            Sheet::ALL.iter().any(named),
            "{what}, {number} lacks its sheet"
        );
    }
}

/// No page is left nearly empty.
fn filled(pdf: &std::path::Path, what: &str) {
    let pages = Page::all(pdf);
    let inked: Vec<f64> = pages
        .iter()
        .map(|page| page.inked_rows(20, page.high() - 20))
        .collect();
    let least = inked.iter().copied().fold(1.0, f64::min);
    println!("{what}: ink on at least {least:.2} of a page's height");
    for (number, inked) in inked.into_iter().enumerate() {
        // The first page of the templates of a piece without loops has its words only.
        assert!(inked > 0.15, "{what} page {}: {inked:.2}", number + 1);
    }
}

/// Words do not stand on words. Pages of templates, which their foot tells, are left
/// out: a part of a template carries the words that are cut off at its edge.
fn apart(pdf: &std::path::Path, what: &str) {
    let out = poppler("pdftotext", &["-bbox", &pdf.to_string_lossy(), "-"]);
    let all = String::from_utf8_lossy(&out.stdout);
    for (number, page) in all.split("<page ").skip(1).enumerate() {
        if page.contains(">fitted</word>") {
            continue;
        }
        let words: Vec<Word> = page.lines().filter_map(Word::read).collect();
        for (i, a) in words.iter().enumerate() {
            for b in &words[i + 1..] {
                assert!(
                    !a.covers(b),
                    "{what} page {}: \"{}\" on \"{}\"",
                    number + 1,
                    a.words,
                    b.words
                );
            }
        }
    }
}

/// No figure of the other unit, the check bars apart.
fn one_unit(text: &str, unit: Unit) {
    let words: Vec<&str> = text.split_whitespace().collect();
    for pair in words.windows(2) {
        let figure = pair[0].ends_with(|c: char| c.is_ascii_digit());
        let word = pair[1].trim_end_matches(['.', ',', ';', ':']);
        let (other, bar) = match unit {
            Unit::Mm => ("in", "4"),
            Unit::Inch => ("mm", "100"),
        };
        if figure && word == other {
            // "in" is a word of English, too: `2 in all`.
            let sentence = other == "in" && !pair[0].contains(['.', '/']) && pair[1] == "in";
            assert!(
                pair[0] == bar || sentence,
                "{} {} in {unit}",
                pair[0],
                pair[1]
            );
        }
    }
}

#[test]
fn titles_in_any_letters_are_set() {
    let mut job = example("box", Unit::Mm);
    for (title, claims) in [
        ("Dose → ✓ Αθήνα", true),
        ("木の鉢 #strong[x] $a$ \\", false),
    ] {
        job.plan.title = title.into();
        let (_scratch, pdf) = Scratch::with(&job.pdf(Paper::A4, &[Sheet::Finishing]));
        let file = pdf.to_string_lossy();
        let meta = poppler("pdfinfo", &["-meta", &file]).stdout;
        let meta = String::from_utf8_lossy(&meta).into_owned();
        assert_eq!(meta.contains("<pdfuaid:part>1<"), claims, "{title}");
        assert!(meta.contains(title.split(' ').next().unwrap_or(title)));
    }
}

#[test]
fn only_the_sheets_that_are_asked_for() {
    let job = example("box", Unit::Mm);
    let (_scratch, pdf) = Scratch::with(&job.pdf(Paper::A4, &[Sheet::Wood]));
    let text = text_of(&pdf);
    assert!(text.contains("Strips to rip") && !text.contains("Parting off"));
}

/// A word and its box, points.
struct Word {
    words: String,
    sides: [f64; 4],
}

impl Word {
    fn read(line: &str) -> Option<Word> {
        let line = line.trim().strip_prefix("<word ")?;
        let value = |key: &str| {
            let from = line.find(&format!("{key}=\""))? + key.len() + 2;
            line[from..].split('"').next()?.parse().ok()
        };
        Some(Word {
            sides: [
                value("xMin")?,
                value("yMin")?,
                value("xMax")?,
                value("yMax")?,
            ],
            words: line.split('>').nth(1)?.split('<').next()?.into(),
        })
    }

    /// Does one word's letters lie over another's? Boxes are as high as the line, so
    /// only the middle half of their height counts.
    fn covers(&self, other: &Word) -> bool {
        let core = |w: &Word| {
            let [x0, y0, x1, y1] = w.sides;
            let quarter = (y1 - y0) / 4.0;
            [x0 + 0.3, y0 + quarter, x1 - 0.3, y1 - quarter]
        };
        let (a, b) = (core(self), core(other));
        a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
    }
}

#[test]
fn a_program_that_reads_aloud_finds_its_way() {
    let job = example("vase", Unit::Inch);
    let (_scratch, pdf) = Scratch::with(&job.pdf(Paper::Letter, &[]));
    let file = pdf.to_string_lossy();
    let read = |argument: &str| {
        let out = poppler("pdfinfo", &[argument, &file]);
        String::from_utf8_lossy(&out.stdout).into_owned()
    };
    assert!(read("-meta").contains("<pdfuaid:part>1<"));
    assert!(read("-box").contains("Tagged:          yes"));
    let tags = read("-struct");
    let count = |tag: &str| {
        let is = |line: &&str| line.split_whitespace().next() == Some(tag);
        tags.lines().filter(is).count()
    };
    // A heading of the first order for each sheet.
    assert_eq!(count("H1"), Sheet::ALL.len());
    assert!(count("Table") >= 10 && count("TH") > 40, "{tags}");
    let figures = tags.matches("Figure").count();
    assert!(figures > 30, "only {figures} drawings are marked as such");
}
