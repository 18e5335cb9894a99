//! The papers as other programs read them.

use piece::units::Unit;
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
                let (_scratch, pdf) = Scratch::with(&job.pdf(paper, &[]));
                let text = text_of(&pdf);
                let pages: Vec<&str> = text.trim_end_matches('\u{c}').split('\u{c}').collect();
                let count = pages.len();
                println!("{} {unit} {}: {count} pages", path.display(), paper.name());
                for (i, page) in pages.iter().enumerate() {
                    let title = &job.plan.title;
                    assert!(
                        page.contains(title.as_str()),
                        "page {} lacks the title",
                        i + 1
                    );
                    let number = format!("page {} of {count}", i + 1);
                    assert!(page.contains(&number), "{} lacks {number}", path.display());
                }
                one_unit(&text, unit);
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
fn no_page_is_left_nearly_empty() {
    for path in examples() {
        let job = job(&path, Unit::Mm);
        let (_scratch, pdf) = Scratch::with(&job.pdf(Paper::A4, &[]));
        let count = text_of(&pdf).matches('\u{c}').count();
        for number in 1..=count {
            // One row of dots to the millimetre.
            let page = Page::at(&pdf, number, 25.4);
            let inked = page.inked_rows(20, page.high() - 20);
            assert!(inked > 0.2, "{} page {number}: {inked:.2}", path.display());
        }
    }
}

#[test]
fn only_the_sheets_that_are_asked_for() {
    let job = example("box", Unit::Mm);
    let (_scratch, pdf) = Scratch::with(&job.pdf(Paper::A4, &[Sheet::Wood]));
    let text = text_of(&pdf);
    assert!(text.contains("Strips to rip") && !text.contains("Parting off"));
}

#[test]
fn words_do_not_stand_on_words() {
    let sheets: Vec<Sheet> = Sheet::ALL
        .into_iter()
        .filter(|s| *s != Sheet::Templates)
        .collect();
    for path in examples() {
        for unit in [Unit::Mm, Unit::Inch] {
            let job = job(&path, unit);
            let (_scratch, pdf) = Scratch::with(&job.pdf(Paper::Letter, &sheets));
            let file = pdf.to_string_lossy();
            let out = poppler("pdftotext", &["-bbox", &file, "-"]);
            let all = String::from_utf8_lossy(&out.stdout);
            for (number, page) in all.split("<page ").skip(1).enumerate() {
                let words: Vec<Word> = page.lines().filter_map(Word::read).collect();
                for (i, a) in words.iter().enumerate() {
                    for b in &words[i + 1..] {
                        assert!(
                            !a.covers(b),
                            "{} {unit} page {}: {a:?} on {b:?}",
                            path.display(),
                            number + 1
                        );
                    }
                }
            }
        }
    }
}

/// A word and its box, points.
#[derive(Debug)]
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
