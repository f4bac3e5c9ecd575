//! Sizes, distances and colours of the pages; lengths in pt.

use crate::drawing::Colour;
use crate::text::Ink;

/// Size of letters and distance of lines.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Setting {
    /// Size of the letters.
    pub size: f64,
    /// From one base line to the next.
    pub leading: f64,
}

const fn setting(size: f64, leading: f64) -> Setting {
    Setting { size, leading }
}

pub(crate) const BODY: Setting = setting(9.4, 12.8);
pub(crate) const SMALL: Setting = setting(8.0, 10.6);
pub(crate) const RUNNING: Setting = setting(7.6, 10.0);
pub(crate) const KIND: Setting = setting(8.6, 12.0);
pub(crate) const TITLE: Setting = setting(23.0, 27.0);
pub(crate) const SUBTITLE: Setting = setting(11.0, 15.0);
/// Headings of levels 1 to 4.
pub(crate) const HEADINGS: [Setting; 4] =
    [setting(16.5, 20.0), setting(12.4, 15.5), setting(10.4, 13.4), setting(9.4, 12.8)];
/// Space above headings of levels 1 to 4.
pub(crate) const ABOVE: [f64; 4] = [22.0, 15.0, 12.0, 9.0];
/// Space below headings of levels 1 to 4.
pub(crate) const BELOW: [f64; 4] = [7.0, 4.5, 3.0, 2.5];
/// Tables: the largest of these in which the table fits.
pub(crate) const TABLES: [Setting; 4] = [setting(8.2, 10.5), setting(7.6, 9.8), setting(7.0, 8.8), setting(6.2, 8.2)];

/// From the upper edge of the paper to the text.
pub(crate) const TOP: f64 = 56.0;
/// From the text to the lower edge of the paper.
pub(crate) const BOTTOM: f64 = 50.0;
/// From the text to either side of the paper.
pub(crate) const SIDE: f64 = 54.0;
/// No line of a paragraph is longer: about ninety letters.
pub(crate) const MEASURE: f64 = 424.0;
/// Space between blocks.
pub(crate) const GAP: f64 = 7.0;
/// Space above and below tables and pictures.
pub(crate) const WIDE_GAP: f64 = 10.5;

pub(crate) const PLAIN: Colour = Colour(0x16, 0x20, 0x2a);
pub(crate) const SOFT: Colour = Colour(0x46, 0x52, 0x5d);
pub(crate) const BLUE: Colour = Colour(0x1f, 0x55, 0x82);
pub(crate) const RED: Colour = Colour(0xa3, 0x21, 0x0f);
/// Lines between parts and between rows.
pub(crate) const RULE: Colour = Colour(0xb9, 0xc1, 0xc8);
/// Ground of heads of tables and of notes.
pub(crate) const TINT: Colour = Colour(0xf3, 0xf5, 0xf7);

/// The colour of an ink that stands on its own.
pub(crate) const fn colour(ink: Ink) -> Colour {
    match ink {
        Ink::Inherit | Ink::Plain => PLAIN,
        Ink::Soft => SOFT,
        Ink::Blue => BLUE,
        Ink::Red => RED,
    }
}
