//! The tolerance study as a maker reads it in a terminal.

use files::message::{Message, Said, Value};
use files::say;
use files::units::{Unit, fixed};
use geometry::Length;
use piece::piece::Origin;

use super::page::Page;
use crate::figure::{Amount, Figure};
use crate::tolerance::{Cause, Measure, Measured, ToleranceStudy};
use crate::words;

/// Causes beyond this share of the whole are not named one by one.
const NAMED: f64 = 0.9;
/// A cause of less than this is not worth a word.
const SMALL: f64 = 0.02;
/// Most causes that a maker is asked to measure twice.
const TWICE: usize = 4;

/// The study as text, no line longer than `width` characters (40 at least), in the
/// study's unit. With `show_working` it says how each figure was measured and where
/// the method comes from.
pub fn render_study(study: &ToleranceStudy, width: usize, show_working: bool) -> String {
    let mut page = Page::new(width, show_working, study.language());
    head(&mut page, study);
    errors(&mut page, study);
    results(&mut page, study);
    causes(&mut page, study);
    twice(&mut page, study);
    if show_working {
        method(&mut page, study);
    }
    page.heading("Mind");
    for caution in &study.cautions {
        page.text(caution.words(), 2);
    }
    page.done()
}

fn head(page: &mut Page, study: &ToleranceStudy) {
    super::title_of(page, &study.title);
    let measure = match study.unit {
        Unit::Mm => "millimetres",
        Unit::Inch => "inches, to a thousandth",
    };
    page.text(
        say!(
            "How exact you must be: an estimate from {count} makings of this piece, each with \
             errors drawn by chance (seed {seed}). Lengths in {measure}.",
            count = grouped(study.makings.count),
            seed = seed(study),
            measure = measure,
        ),
        0,
    );
}

fn seed(study: &ToleranceStudy) -> Value {
    Value::name(study.makings.seed.to_string())
}

/// `10 000`, `250`.
fn grouped(count: usize) -> Value {
    let digits = count.to_string();
    let mut out = String::new();
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            out.push(' ');
        }
        out.push(digit);
    }
    Value::name(out)
}

fn errors(page: &mut Page, study: &ToleranceStudy) {
    page.heading("Errors reckoned with");
    page.text(
        "What 19 of 20 settings stay within, either way. Write your own under [exactness] in the \
         workshop's file.",
        2,
    );
    for (by, who) in [
        (Origin::Workshop, "The workshop's file says so"),
        (
            Origin::CommonPractice,
            "Common practice; no more than a guess at your shop",
        ),
    ] {
        let of: Vec<_> = study.errors.iter().filter(|e| e.by == by).collect();
        if !of.is_empty() {
            page.sub(who);
        }
        for e in of {
            page.pair("", &e.figure.label, &format!("± {}", e.figure.shown));
        }
    }
    page.sub(if study.sled_stays_set {
        "The sled stays set from loop to loop: they share one error of tilt and height."
    } else {
        "The sled is set anew for each loop: each has its own error of tilt and height."
    });
}

fn results(page: &mut Page, study: &ToleranceStudy) {
    page.heading("What comes of it");
    page.text(
        say!(
            "In {unit}: half of the makings, 19 of 20 and 99 of 100 are no worse than this; the \
             worst of all; and how many are beyond the limit.",
            unit = words::unit_named(),
        ),
        2,
    );
    page.row("");
    let heads = ["", "half", "19 of 20", "99 of 100", "worst", "beyond"];
    let heads = heads.map(|head| page.said(head));
    page.row(&row(heads.each_ref().map(String::as_str)));
    for r in &study.results {
        let q = &r.quantiles;
        let bare = |f: &Figure<Said>| match &f.amount {
            Amount::Fine(l) => study.unit.fine_bare(*l),
            other => other.show(study.unit),
        };
        page.row(&row([
            &page.said(r.measure.words()),
            &bare(&q.half),
            &bare(&q.of_20),
            &bare(&q.of_100),
            &bare(&q.worst),
            &page.said(percent(r.beyond)),
        ]));
    }
    page.row("");
    for (limit, of) in limits(study) {
        let shown = Value::name(&limit.shown);
        page.text(say!("Limit: {limit} for {of}.", limit = shown, of = of), 2);
        page.work_of(limit, 4);
    }
    if study.results.iter().any(|r| r.measure == Measure::RingGap) {
        page.text(
            "The gap in a ring's last joint is as it comes from the saw. Gluing half-rings and \
             truing their ends takes it away.",
            2,
        );
    }
    if let Some(wall) = study
        .results
        .iter()
        .find(|r| r.measure == Measure::WallLeft)
    {
        let planned = Value::name(&wall.planned.shown);
        page.text(
            say!("The thinnest wall as drawn is {wall}.", wall = planned),
            2,
        );
    }
}

fn row(cells: [&str; 6]) -> String {
    format!(
        "  {:<28}{:>9}{:>10}{:>11}{:>9}{:>10}",
        cells[0], cells[1], cells[2], cells[3], cells[4], cells[5]
    )
}

/// Each limit and what it is for.
fn limits(study: &ToleranceStudy) -> Vec<(&Figure<Said>, &'static str)> {
    let of = |least: bool| {
        let mut all = study.results.iter();
        all.find(|r| r.measure.least_counts() == least)
            .map(|r| &r.limit)
    };
    let eye = of(false).map(|l| (l, "what the eye sees, in all but the wall"));
    let wall = of(true).map(|l| (l, "the wall"));
    eye.into_iter().chain(wall).collect()
}

/// `12 %`, `0.4 %`; what is less than that but was met is not said to be none.
fn percent(share: f64) -> Message {
    if share > 0.0 && share < 0.0005 {
        return say!("<0.1 %");
    }
    let places = usize::from(share < 0.0995 && share != 0.0);
    say!("{share} %", share = Value::Number(100.0 * share, places))
}

fn causes(page: &mut Page, study: &ToleranceStudy) {
    page.heading("What causes it");
    page.text(
        "Each error's share of the whole unevenness (its mean square), from makings with that \
         error alone. The rest, either sign, is errors working together, and chance.",
        2,
    );
    for r in &study.results {
        if r.causes.shares.is_empty() {
            continue;
        }
        page.item("* ", sentence(r), 2);
        page.work_of(&r.planned, 4);
    }
}

/// A measure's causes in words.
fn sentence(r: &Measured) -> Message {
    let mut named = 0.0;
    let mut parts = Vec::new();
    for s in &r.causes.shares {
        if named >= NAMED || s.share < SMALL {
            break;
        }
        named += s.share;
        parts.push(say!(
            "{share} {cause}",
            share = whole_percent(s.share),
            cause = s.cause.words(),
        ));
    }
    let other = 1.0 - r.causes.rest - named;
    if other > 0.005 {
        parts.push(say!("{share} all others", share = whole_percent(other)));
    }
    // An empty part is none: the measure's name stands alone.
    let mut text = Message::joined(parts, "; ");
    if r.causes.rest.abs() >= 0.005 {
        let rest = whole_percent(r.causes.rest);
        text = say!("{text}; rest {rest}", text = text, rest = rest);
    }
    let mut text = say!(
        "{measure}: {text}.",
        measure = r.measure.words(),
        text = text
    );
    if let Some(w) = r.causes.without {
        let stay = if r.measure.least_counts() {
            "leave at least"
        } else {
            "stay within"
        };
        text = say!(
            "{text} Were the first of these perfect, 19 of 20 would {stay} {of_20} and {beyond} be \
             beyond the limit.",
            text = text,
            stay = stay,
            of_20 = Value::fine(Length::mm(w.of_20_mm)),
            beyond = percent(w.beyond),
        );
    }
    text
}

fn whole_percent(share: f64) -> Message {
    let number = fixed(100.0 * share.abs(), 0);
    let sign = if share < 0.0 && number != "0" {
        "−"
    } else {
        ""
    };
    say!(
        "{sign}{number} %",
        sign = sign,
        number = Value::name(number)
    )
}

/// The cause without what is in brackets.
fn short(cause: Cause) -> &'static str {
    let words = cause.words();
    words.split(" (").next().unwrap_or(words)
}

/// The causes that do most, over all measures that are beyond their limit at times.
fn twice(page: &mut Page, study: &ToleranceStudy) {
    let mut weights: Vec<(f64, Cause)> = Cause::ALL
        .into_iter()
        .map(|cause| {
            let of = |r: &Measured| {
                let own = r.causes.shares.iter().find(|s| s.cause == cause);
                own.map_or(0.0, |s| s.share * r.beyond)
            };
            (study.results.iter().map(of).sum::<f64>(), cause)
        })
        .filter(|w| w.0 > 0.0)
        .collect();
    weights.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    let whole: f64 = weights.iter().map(|w| w.0).sum();
    weights.retain(|w| w.0 >= 0.05 * whole);
    page.heading("What to measure twice");
    if weights.is_empty() {
        page.text(
            "Nothing that was measured went beyond its limit in any making.",
            2,
        );
        return;
    }
    for (_, cause) in weights.into_iter().take(TWICE) {
        let mut name = page.said(short(cause));
        if let Some(first) = name.get(..1) {
            let first = first.to_uppercase();
            name.replace_range(..1, &first);
        }
        page.item(
            "* ",
            say!(
                "{name}. {advice}",
                name = Value::name(name),
                advice = cause.advice()
            ),
            2,
        );
    }
}

fn method(page: &mut Page, study: &ToleranceStudy) {
    page.heading("How it was worked out");
    for text in [
        say!(
            "Each making draws every error anew from a normal distribution of which 19 of 20 lie \
             within the figure (half width / 1.960); errors that have a direction as well, such \
             as the thick side of a layer, from two of them at right angles (figure / 2.448). \
             ChaCha8 with the seed as key and the making's number as stream, and Box and Muller's \
             transform. Source: JCGM 100:2008, 4.3; JCGM 101:2008 for the method. The {count} \
             makings use seed {seed}.",
            count = grouped(study.makings.count),
            seed = seed(study),
        ),
        "The plan's own steps are done with these errors in their planes, layers and motions; \
         what is measured is where their faces meet the finished wall. Nothing is linearised."
            .into(),
        say!(
            "Shares: the first {count} makings are done again with each error alone; its mean square \
             over that of all together is its share. For independent errors these add to 1 but \
             for what errors do together. Source: JCGM 100:2008, 5.1.2, law of propagation of \
             uncertainty.",
            count = grouped(study.told_apart_on),
        ),
        "A share of makings p beyond a limit is known to about sqrt(p (1 - p) / makings).".into(),
    ] {
        page.text(text, 2);
    }
}
