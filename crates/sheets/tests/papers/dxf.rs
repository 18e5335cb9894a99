//! DXF as pairs of a group code and a value, after the format's published reference.

use glam::DVec2;

/// A file's pairs.
pub struct Dxf(Vec<(u16, String)>);

impl Dxf {
    pub fn read(bytes: &[u8]) -> Dxf {
        let text = std::str::from_utf8(bytes).expect("ASCII");
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines.len() % 2, 0, "a code without a value");
        let pairs: Vec<(u16, String)> = lines
            .chunks(2)
            .map(|pair| {
                (
                    pair[0].trim().parse().expect("a group code"),
                    pair[1].into(),
                )
            })
            .collect();
        assert_eq!(pairs.last(), Some(&(0, "EOF".to_string())));
        Dxf(pairs)
    }

    /// Release of the format.
    pub fn release(&self) -> &str {
        let at = self.0.iter().position(|p| p.1 == "$ACADVER");
        &self.0[at.expect("a release") + 1].1
    }

    /// Entities: what follows a code 0 up to the next.
    fn entities(&self) -> Vec<&[(u16, String)]> {
        let start = self
            .0
            .iter()
            .position(|p| p.1 == "ENTITIES")
            .expect("entities");
        let end = self.0.len();
        let heads: Vec<usize> = (start..end).filter(|i| self.0[*i].0 == 0).collect();
        heads.windows(2).map(|w| &self.0[w[0]..w[1]]).collect()
    }

    /// Every layer that an entity is on.
    pub fn layers(&self) -> Vec<String> {
        let mut all: Vec<String> = self
            .entities()
            .iter()
            .filter_map(|e| e.iter().find(|p| p.0 == 8).map(|p| p.1.clone()))
            .collect();
        all.sort();
        all.dedup();
        all
    }

    /// Straight lines and polylines with their layers.
    pub fn lines(&self) -> Vec<(String, Vec<DVec2>)> {
        let mut out: Vec<(String, Vec<DVec2>)> = Vec::new();
        // A polyline under way: its layer, points, and whether it closes.
        let mut under_way: Option<(String, Vec<DVec2>, bool)> = None;
        for entity in self.entities() {
            let value = |code: u16| entity.iter().find(|p| p.0 == code).map(|p| p.1.trim());
            let number =
                |code: u16| -> f64 { value(code).and_then(|v| v.parse().ok()).expect("a number") };
            let layer = || value(8).unwrap_or("0").to_string();
            match entity[0].1.as_str() {
                "LINE" => out.push((
                    layer(),
                    vec![
                        DVec2::new(number(10), number(20)),
                        DVec2::new(number(11), number(21)),
                    ],
                )),
                "POLYLINE" => under_way = Some((layer(), Vec::new(), number(70) as i64 & 1 == 1)),
                "VERTEX" => {
                    let line = under_way.as_mut().expect("a vertex of a polyline");
                    line.1.push(DVec2::new(number(10), number(20)));
                }
                "SEQEND" => {
                    let (layer, mut points, closed) = under_way.take().expect("a polyline");
                    if closed {
                        points.extend(points.first().copied());
                    }
                    out.push((layer, points));
                }
                _ => {}
            }
        }
        assert!(under_way.is_none(), "a polyline does not end");
        out
    }
}
