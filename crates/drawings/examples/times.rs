//! Times of the pictures of a project: `times PROJECT.toml`. Run it with `--release`.

use std::time::Instant;

use drawings::{Camera, MapOptions, WallSide, portrait, wall_map};
use files::workshop::Workshop;
use piece::settle::settle;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let file = std::env::args().nth(1).ok_or("times PROJECT.toml")?;
    let text = std::fs::read_to_string(&file)?;
    let (design, _, problems) = files::read::read_design(&file, &text);
    let design = design.ok_or_else(|| files::report::render(&file, &text, &problems))?;
    let piece = settle(&design, &Workshop::default())
        .piece
        .ok_or("no piece")?;
    for round in 0..3 {
        for grain in [false, true] {
            let (start, cpu) = (Instant::now(), processor_ms());
            let options = MapOptions {
                width: 4096,
                height: Some(1024),
                grain,
            };
            let a = wall_map(&piece, WallSide::Outside, &options);
            let b = wall_map(&piece, WallSide::Inside, &options);
            let pixels = (a.rgb.len() + b.rgb.len()) / 3;
            println!(
                "{round}: both walls 4096 x 1024, grain {grain}: {} ms, {} ms of processors, {pixels} pixels",
                start.elapsed().as_millis(),
                processor_ms() - cpu
            );
        }
        let (start, cpu) = (Instant::now(), processor_ms());
        let picture = portrait(&piece, 1200, 1200, &Camera::default());
        println!(
            "{round}: portrait 1200 x 1200: {} ms, {} ms of processors",
            start.elapsed().as_millis(),
            processor_ms() - cpu
        );
        let start = Instant::now();
        let bytes = picture.to_png().len();
        println!(
            "{round}: its PNG, {bytes} bytes: {} ms",
            start.elapsed().as_millis()
        );
    }
    Ok(())
}

/// Processor time of this process so far in ms, where the system tells (Linux, 100 ticks a second).
fn processor_ms() -> u64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after = stat.rsplit(") ").next().unwrap_or("");
    let field = |i: usize| -> u64 {
        after
            .split(' ')
            .nth(i)
            .and_then(|f| f.parse().ok())
            .unwrap_or(0)
    };
    (field(11) + field(12)) * 10
}
