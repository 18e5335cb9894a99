//! Do words stand in each other's way?

use glam::DVec2;

use super::drawing::Drawing;
use super::text::Text;

/// A box on paper with sides that may be turned.
#[derive(Debug, Clone, Copy)]
pub struct Box2([DVec2; 4]);

impl Box2 {
    /// The box round a text.
    pub fn of(text: &Text) -> Self {
        Box2(text.corners())
    }

    /// Do two boxes share more than an edge? (Separating axes.)
    pub fn meets(&self, other: &Box2) -> bool {
        let apart = |a: &Box2, b: &Box2| {
            (0..2).any(|k| {
                let axis = a.0[k + 1] - a.0[k];
                let spread = |c: &[DVec2; 4]| {
                    c.iter().fold((f64::MAX, f64::MIN), |(lo, hi), p| {
                        let d = axis.dot(*p);
                        (lo.min(d), hi.max(d))
                    })
                };
                let (p, q) = (spread(&a.0), spread(&b.0));
                let slack = 0.02 * axis.length_squared().sqrt();
                p.1 <= q.0 + slack || q.1 <= p.0 + slack
            })
        };
        !apart(self, other) && !apart(other, self)
    }
}

/// Pairs of texts whose boxes overlap.
pub fn overlapping_words(drawing: &Drawing) -> Vec<(String, String)> {
    let texts: Vec<&Text> = drawing.texts().collect();
    let boxes: Vec<Box2> = texts.iter().map(|t| Box2::of(t)).collect();
    let mut out = Vec::new();
    for i in 0..texts.len() {
        for j in i + 1..texts.len() {
            if boxes[i].meets(&boxes[j]) {
                out.push((texts[i].words.clone(), texts[j].words.clone()));
            }
        }
    }
    out
}

/// Texts that reach over the sheet's edge.
pub fn words_off_the_sheet(drawing: &Drawing) -> Vec<String> {
    drawing
        .texts()
        .filter(|t| {
            t.corners()
                .iter()
                .any(|p| p.x < 0.0 || p.y < 0.0 || p.x > drawing.width || p.y > drawing.height)
        })
        .map(|t| t.words.clone())
        .collect()
}
