//! A [`Design`] or a [`Workshop`] as the text of its file.
//!
//! What was left out stays left out, and numbers are written in the file's own unit
//! with as few decimals as are the same number.

mod text;

use crate::design::Design;
use crate::keys::write_keys;
use crate::workshop::{Saw, Workshop};

pub(crate) use text::{Text, degrees, key, number, quoted, shortest};

/// Writes a project file that reads back as the same design.
///
/// ```
/// use files::{read::read_design, write::design_text};
/// let file = "ringwright = 1\nunit = \"mm\"\n[form]\nouter = [[0, 30], [60, 50]]\nwall = 6\n\
///             [[section]]\nname = \"body\"\nsegments = 12\n";
/// let (design, ..) = read_design("bowl", file);
/// let again = design.map(|d| design_text(&d)).unwrap_or_default();
/// assert!(again.contains("outer = [[0, 30], [60, 50]]"));
/// assert!(read_design("bowl", &again).2.is_empty());
/// ```
pub fn design_text(design: &Design) -> String {
    let mut t = Text::new(design.unit);
    write_keys(design, &mut t);
    t.done()
}

/// Writes a workshop file that reads back as the same workshop: what its file gave,
/// and what differs from common practice.
///
/// ```
/// use files::keys::Given;
/// use geometry::Length;
/// use files::{workshop::Workshop, write::workshop_text};
/// let mut shop = Workshop::default();
/// shop.allowances.outside = Given::usual(Length::mm(4.5));
/// assert_eq!(
///     workshop_text(&shop),
///     "ringwright = 1\nunit = \"mm\"\n\n[allowances]\noutside = 4.5\n"
/// );
/// ```
pub fn workshop_text(shop: &Workshop) -> String {
    let mut t = Text::new(shop.unit);
    write_keys(shop, &mut t);
    t.done()
}

/// The workshop's saws as its file would list them, those of common practice too.
pub fn saws_text(shop: &Workshop) -> String {
    let mut t = Text::new(shop.unit);
    for saw in shop.saws.iter() {
        t.under(Saw::KEYS.heading, true, |t| write_keys(saw, t));
    }
    t.done()
}
