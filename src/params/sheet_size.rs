//! The sheets that the user lists, and the usual ones.

use super::list::Params;
use super::yard::{SheetKind, SheetStock};
use crate::units::Length;

impl Params {
    /// Width and length of a sheet as the user lists it, or of the usual one: 4 by 8 ft, cement board 3 by 5 ft.
    pub fn sheet_size(&self, material: SheetKind, thickness: Length) -> (Length, Length) {
        let listed = self.listed_sheet(material, thickness);
        let usual = match material {
            SheetKind::CementBoard => (Length::inches(36.0), Length::inches(60.0)),
            SheetKind::GypsumBoard | SheetKind::StructuralPanel => {
                (Length::inches(48.0), Length::inches(96.0))
            }
        };
        listed.map_or(usual, |it| (it.width, it.length))
    }

    /// The sheet of this material and thickness that the user lists.
    pub fn listed_sheet(&self, material: SheetKind, thickness: Length) -> Option<&SheetStock> {
        let mut listed = self.stock.sheets.iter();
        listed.find(|it| it.material == material && !(it.thickness - thickness).abs().is_positive())
    }
}
