//! Lines of text of one width.

use crate::figure::{Figure, Working};
use crate::words::{wide, wrapped};
use files::message::{Language, Message, Said};

/// A page as it fills up.
pub(super) struct Page {
    width: usize,
    working: bool,
    language: Language,
    out: String,
}

impl Page {
    /// A page of lines of at most `width` characters, 40 at least.
    pub fn new(width: usize, working: bool, language: Language) -> Self {
        Page {
            width: width.max(40),
            working,
            language,
            out: String::new(),
        }
    }

    pub fn done(self) -> String {
        self.out
    }

    /// Words in the reader's language.
    pub fn said(&self, words: impl Into<Message>) -> String {
        words.into().said(self.language)
    }

    pub fn width(&self) -> usize {
        self.width
    }

    pub fn shows_working(&self) -> bool {
        self.working
    }

    /// A finished line; one that is too long after all is broken.
    fn line(&mut self, line: &str) {
        let line = line.trim_end();
        if wide(line) <= self.width {
            self.out.push_str(line);
            self.out.push('\n');
        } else {
            for part in wrapped(line, "", 4, self.width) {
                self.out.push_str(&part);
                self.out.push('\n');
            }
        }
    }

    /// A line of a table.
    pub fn row(&mut self, line: &str) {
        self.line(line);
    }

    /// The heads of a table's columns.
    pub fn columns(&mut self, heads: &'static str) {
        let heads = self.said(heads);
        self.line(&heads);
    }

    /// A new part of the plan.
    pub fn heading(&mut self, text: impl Into<Message>) {
        let text = self.said(text);
        self.line("");
        self.line(&text);
        self.line(&"=".repeat(wide(&text)));
    }

    /// A part of a part.
    pub fn sub(&mut self, text: impl Into<Message>) {
        self.line("");
        self.item("", text, 1);
    }

    /// Running text, indented.
    pub fn text(&mut self, text: impl Into<Message>, indent: usize) {
        self.item("", text, indent);
    }

    /// Running text after a mark; further lines stand under the text's beginning.
    pub fn item(&mut self, mark: &'static str, text: impl Into<Message>, indent: usize) {
        let (mark, text) = (self.said(mark), self.said(text));
        self.part(&mark, &text, indent);
    }

    /// The same of words that are said already.
    pub fn part(&mut self, mark: &str, text: &str, indent: usize) {
        let first = format!("{}{mark}", " ".repeat(indent));
        let under = wide(&first);
        for line in wrapped(text, &first, under, self.width) {
            self.line(&line);
        }
    }

    /// What it is, and how much, at the two ends of a line.
    pub fn pair(&mut self, mark: &str, label: &str, value: &str) {
        let first = format!("{:<4}", format!("  {mark}"));
        let used = wide(&first) + wide(label) + wide(value) + 2;
        if used + 2 <= self.width {
            let dots = ".".repeat(self.width - used);
            self.line(&format!("{first}{label} {dots} {value}"));
            return;
        }
        // The value keeps the end of the last line if the label leaves room for it.
        let lines = wrapped(label, &first, 6, self.width);
        let (last, before) = match lines.split_last() {
            Some((last, before)) => (last.clone(), before.to_vec()),
            None => (first.clone(), Vec::new()),
        };
        for line in before {
            self.line(&line);
        }
        let leaders = |before: &str| {
            let used = wide(before) + wide(value) + 2;
            let room = self.width.checked_sub(used).filter(|room| *room >= 2)?;
            Some(format!("{before} {} {value}", ".".repeat(room)))
        };
        if let Some(line) = leaders(&last) {
            self.line(&line);
        } else if let Some(line) = leaders("     ") {
            self.line(&last);
            self.line(&line);
        } else {
            self.line(&last);
            self.part("", value, 8);
        }
    }

    /// Figures one to a line, those that something is set to marked.
    pub fn figures(&mut self, figures: &[Figure<Said>]) {
        for figure in figures {
            self.figure(figure);
        }
    }

    pub fn figure(&mut self, figure: &Figure<Said>) {
        let mark = if figure.cut_to { ">" } else { "" };
        self.pair(mark, &figure.label, &figure.shown);
        self.working(figure);
    }

    /// How a figure was worked out, if that is wanted.
    pub fn working(&mut self, figure: &Figure<Said>) {
        if let Some(working) = &figure.working {
            self.work(working, 6);
        }
    }

    /// As [`Page::working`], for a figure that is not itself printed.
    pub fn work_of(&mut self, figure: &Figure<Said>, indent: usize) {
        if let Some(working) = &figure.working {
            self.work(working, indent);
        }
    }

    pub fn work(&mut self, working: &Working<Said>, indent: usize) {
        if !self.working {
            return;
        }
        self.part("how: ", &working.formula, indent);
        let inputs: Vec<String> = working
            .inputs
            .iter()
            .map(|i| format!("{} {}", i.name, i.shown))
            .collect();
        if !inputs.is_empty() {
            self.part("with: ", &inputs.join("; "), indent);
        }
        self.part("source: ", &working.source, indent);
    }
}
