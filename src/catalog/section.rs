//! The cross-section of a light-gauge steel member.

use crate::units::Length;

/// What a member is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SteelForm {
    /// A stud: web, two flanges and a lip on each.
    Stud,
    /// A track: web and two flanges, as wide inside as the stud that stands in it.
    Track,
}

/// A steel member and its cross-section.
#[derive(Debug, Clone, PartialEq)]
pub struct Steel {
    /// Its designation, such as `362S125-30`.
    pub name: String,
    /// Stud or track.
    pub form: SteelForm,
    /// Width of the web: of a stud outside, of a track between its flanges.
    pub web: Length,
    /// Width of a flange, outside.
    pub flange: Length,
    /// Length of a stud's lip, outside; a track has none.
    pub lip: Length,
    /// Thickness of the base steel, for design.
    pub thickness: Length,
    /// The number of the thickness in the designation: mils of base steel, at least.
    pub mils: u32,
}

impl Steel {
    /// Depth of a wall framed with it: over the flanges of the track.
    pub fn wall_depth(&self) -> Length {
        self.web + self.thickness * 2.0
    }

    /// Area of the cross-section in square millimetres, its bends sharp.
    pub fn area(&self) -> f64 {
        let t = self.thickness.to_mm();
        let web = match self.form {
            SteelForm::Stud => self.web.to_mm(),
            SteelForm::Track => self.web.to_mm() + 2.0 * t,
        };
        let lips = if self.lip.is_positive() {
            2.0 * (self.lip.to_mm() - t)
        } else {
            0.0
        };
        (web + 2.0 * (self.flange.to_mm() - t) + lips) * t
    }
}
