//! Draws a project file's drawings into a folder:
//! `draw PROJECT.toml DIR [mm|inch|own] [WIDTH] [ROOM]`. With a room in mm the drawings
//! are made to fit it too, as `small-NAME.svg`.

use files::units::Unit;
use files::workshop::Workshop;
use piece::settle::settle;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let [file, folder, rest @ ..] = args.as_slice() else {
        return Err("draw PROJECT.toml DIR [mm|inch|own] [WIDTH] [ROOM]".into());
    };
    let text = std::fs::read_to_string(file)?;
    let (design, _, problems) = files::read::read_design(file, &text);
    let design = design.ok_or_else(|| files::report::render(file, &text, &problems))?;
    let piece = settle(&design, &Workshop::default())
        .piece
        .ok_or("no piece")?;
    let unit = match rest.first().map(String::as_str) {
        Some("mm") => Unit::Mm,
        Some("inch") => Unit::Inch,
        _ => design.unit,
    };
    let width = rest.get(1).map_or(Ok(2400), |w| w.parse())?;
    std::fs::create_dir_all(folder)?;
    let start = std::time::Instant::now();
    for (name, bytes) in drawings::draw_all(&piece, unit.into(), width) {
        println!("{name}: {} bytes", bytes.len());
        std::fs::write(std::path::Path::new(folder).join(name), bytes)?;
    }
    if let Some(room) = rest.get(2) {
        let room = geometry::Length::mm(room.parse()?);
        let options = drawings::views::Options::within(unit, room);
        for (name, drawing) in drawings::all_drawings(&piece, &options) {
            let path = std::path::Path::new(folder).join(format!("small-{name}.svg"));
            std::fs::write(path, drawings::to_svg(&drawing))?;
        }
    }
    println!("{:.1} s", start.elapsed().as_secs_f64());
    Ok(())
}
