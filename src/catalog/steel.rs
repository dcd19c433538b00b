//! Light-gauge steel members for walls that carry nothing: studs of C shape and the tracks that they stand in.
//!
//! A designation such as `362S125-30` says hundredths of an inch of the web, `S` for a stud with lips or `T`
//! for a track without, hundredths of an inch of the flange, and mils of base steel.
//!
//! # Source
//! Designations: IRC R603, read in a secondary copy. Webs, flanges and lips as AISI S220 and ASTM C645 list
//! them, from memory. Thickness of base steel, least and for design (least over 0.95), AISI S220-15, from memory.
//! Bends are drawn sharp, so that a member has up to 3 % more steel than one with its bends rolled.

use super::section::{Steel, SteelForm};
use crate::units::Length;

/// Hundredths of an inch as the designation has them, and inches.
const WEBS: &[(&str, f64)] = &[
    ("162", 1.625),
    ("250", 2.5),
    ("350", 3.5),
    ("362", 3.625),
    ("400", 4.0),
    ("550", 5.5),
    ("600", 6.0),
];

/// Flanges of studs and of tracks, and the lip of a stud with such flanges, in inches.
const FLANGES: &[(&str, f64, f64)] = &[
    ("125", 1.25, 0.1875),
    ("137", 1.375, 0.375),
    ("162", 1.625, 0.5),
    ("200", 2.0, 0.625),
];

/// Mils as the designation has them, and the thickness for design in inches.
const MILS: &[(&str, f64)] = &[
    ("18", 0.0188),
    ("27", 0.0283),
    ("30", 0.0312),
    ("33", 0.0346),
    ("43", 0.0451),
    ("54", 0.0566),
];

/// The flange of the tracks that walls stand in, as the designation has it.
const TRACK_FLANGE: &str = "125";

/// The member of a designation such as `362S125-30` or `362T125-30`; `None` for what is none.
pub fn steel(designation: &str) -> Option<Steel> {
    let (section, mils) = designation.split_once('-')?;
    let (form, letter) = if section.contains('S') {
        (SteelForm::Stud, 'S')
    } else {
        (SteelForm::Track, 'T')
    };
    let (web, flange) = section.split_once(letter)?;
    let web = WEBS.iter().find(|it| it.0 == web)?.1;
    let (_, flange, lip) = *FLANGES.iter().find(|it| it.0 == flange)?;
    let thickness = MILS.iter().find(|it| it.0 == mils)?.1;
    Some(Steel {
        name: designation.to_owned(),
        form,
        web: Length::inches(web),
        flange: Length::inches(flange),
        lip: match form {
            SteelForm::Stud => Length::inches(lip),
            SteelForm::Track => Length::ZERO,
        },
        thickness: Length::inches(thickness),
        mils: mils.parse().ok()?,
    })
}

/// The track that such a stud stands in; `None` for what is no stud.
pub fn track_for(stud: &Steel) -> Option<Steel> {
    let web = stud.name.split_once('S')?.0;
    steel(&format!("{web}T{TRACK_FLANGE}-{}", stud.mils))
}

/// The flange of the track that such a stud stands in.
pub fn track_flange(stud: &Steel) -> Length {
    track_for(stud).map_or(Length::ZERO, |it| it.flange)
}
