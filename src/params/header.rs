//! What spans the openings of the chase's walls.

use super::chase_wall::ChaseWall;
use super::choice::{FrontForm, HeaderForm};
use super::list::Params;
use crate::catalog::{FramingMember, Lumber};
use crate::units::Length;

/// What spans an opening, as the parameters ask for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Header<'a> {
    /// How it lies.
    pub form: HeaderForm,
    /// Its plies on edge, or its two members of steel.
    pub stock: &'a FramingMember,
    /// How many plies; as many as fill the wall's depth where nobody says it.
    pub plies: Option<u32>,
}

impl Header<'_> {
    /// Its whole height in a wall of these studs: a stick lying flat; the width of plies, and under a single
    /// ply the flat stick that takes the board; or a steel member's web and, in a wall of steel, the tracks
    /// under and over it.
    pub fn height(&self, stud: &FramingMember) -> Length {
        match (self.form, self.stock) {
            (HeaderForm::Flat, _) => stud.plate(),
            (HeaderForm::OnEdge, FramingMember::Wood(lumber)) => {
                lumber.width + self.nailer(lumber, stud)
            }
            (HeaderForm::OnEdge, FramingMember::Steel(steel)) => steel.web + stud.nested() * 2.0,
        }
    }

    /// How many plies of this stock stand in a wall of these studs.
    pub fn count(&self, stock: &Lumber, stud: &FramingMember) -> u32 {
        self.plies.unwrap_or_else(|| most_plies(stock, stud))
    }

    /// Height of the flat stick under a single ply that does not fill the wall by itself: it carries the
    /// edge of the board on the opening's head.
    pub fn nailer(&self, stock: &Lumber, stud: &FramingMember) -> Length {
        if self.count(stock, stud) == 1 && (stud.depth() - stock.thickness).is_positive() {
            stud.plate()
        } else {
            Length::ZERO
        }
    }
}

/// How many plies of this stock fit side by side between the faces of a wall of these studs, one at least.
pub(super) fn most_plies(stock: &Lumber, stud: &FramingMember) -> u32 {
    let mut plies = 1;
    while !(stock.thickness * f64::from(plies + 1) - stud.depth()).is_positive() {
        plies += 1;
    }
    plies
}

impl Params {
    /// The header over the unit in one of the walls that it stands in.
    pub fn unit_header(&self, wall: ChaseWall) -> Header<'_> {
        let front = &self.front;
        let own = front.bump_out_header.as_ref();
        Header {
            form: front.header_form,
            stock: own.filter(|_| wall.has_ledge()).unwrap_or(&front.header),
            plies: front.header_plies,
        }
    }

    /// The header over the recess; `None` without a recess.
    pub fn recess_header(&self) -> Option<Header<'_>> {
        let recess = self.recess.as_ref()?;
        Some(Header {
            form: recess.header_form,
            stock: recess.header.as_ref().unwrap_or(&self.front.header),
            plies: recess.header_plies,
        })
    }

    /// Height of the header over the unit in the wall that its face stands in.
    pub fn header_height(&self) -> Length {
        let wall = match self.front.form {
            FrontForm::OneWall => ChaseWall::Front,
            FrontForm::Stepped => ChaseWall::BumpOut,
        };
        self.unit_header(wall).height(self.lower_stud())
    }
}
