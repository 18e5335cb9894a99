//! Drawings and pictures as files for the typesetter.

use drawings::{Drawing, to_svg};
use serde::Serialize;

use crate::typeset::Files;

/// A drawing on a sheet.
#[derive(Debug, Clone, Serialize)]
pub struct Picture {
    /// The file.
    pub file: String,
    /// Width, mm.
    pub width: f64,
    /// Height, mm.
    pub height: f64,
    /// The same in words.
    pub alt: String,
}

/// The drawings of all sheets.
#[derive(Debug, Default)]
pub struct Art {
    files: Files,
    count: usize,
}

impl Art {
    /// Takes a drawing in, at its own size.
    pub fn drawing(&mut self, drawing: &Drawing) -> Picture {
        let file = self.name("svg");
        // Paper is white already; a tint would be printed as a haze of dots.
        let svg = to_svg(drawing).replace("#fcfaf5", "#ffffff");
        self.files.put(file.clone(), svg);
        let alt = if drawing.description.is_empty() {
            drawing.title.clone()
        } else {
            format!("{}. {}", drawing.title, drawing.description)
        };
        Picture {
            file,
            width: drawing.width,
            height: drawing.height,
            alt,
        }
    }

    /// Takes a PNG in, to be shown at a width, mm.
    pub fn png(&mut self, bytes: Vec<u8>, pixels: (u32, u32), width: f64, alt: String) -> Picture {
        let file = self.name("png");
        self.files.put(file.clone(), bytes);
        Picture {
            file,
            width,
            height: width * f64::from(pixels.1) / f64::from(pixels.0.max(1)),
            alt,
        }
    }

    /// The files, to which templates and text are added.
    pub fn into_files(self) -> Files {
        self.files
    }

    fn name(&mut self, ending: &str) -> String {
        self.count += 1;
        format!("art-{}.{ending}", self.count)
    }
}
