//! Renders SVG drawings to PNG for looking at: `render IN.svg OUT.png [PIXELS_PER_MM]`.

use std::sync::Arc;

use resvg::{tiny_skia, usvg};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let [input, output, rest @ ..] = args.as_slice() else {
        return Err("render IN.svg OUT.png [PIXELS_PER_MM]".into());
    };
    let per_mm: f32 = match rest.first() {
        Some(n) => n.parse()?,
        None => 4.0,
    };
    let mut fonts = usvg::fontdb::Database::new();
    for font in typst_assets::fonts() {
        fonts.load_font_data(font.to_vec());
    }
    let options = usvg::Options {
        fontdb: Arc::new(fonts),
        ..usvg::Options::default()
    };
    let tree = usvg::Tree::from_data(&std::fs::read(input)?, &options)?;
    // usvg counts 96 pixels to the inch.
    let scale = per_mm * 25.4 / 96.0;
    let size = tree.size();
    let (w, h) = (size.width() * scale, size.height() * scale);
    let mut pixels = tiny_skia::Pixmap::new(w.ceil() as u32, h.ceil() as u32).ok_or("no size")?;
    let shrink = tiny_skia::Transform::from_scale(scale, scale);
    resvg::render(&tree, shrink, &mut pixels.as_mut());
    pixels.save_png(output)?;
    Ok(())
}
