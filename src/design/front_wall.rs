//! Which wall of the front stands behind a face.

use crate::layout::Layout;
use crate::params::{ChaseWall, FrontForm};
use crate::units::Length;

/// The front wall, and its stud face, that stands behind the face at a height.
pub fn front_wall_at(layout: &Layout, height: Length) -> (ChaseWall, Length) {
    match layout.params.front.form {
        _ if layout.opened.is_some() => (ChaseWall::Opened, layout.faces.lower_stud),
        FrontForm::OneWall => (ChaseWall::Front, layout.faces.lower_stud),
        FrontForm::Stepped if (layout.heights.framing_top - height).is_positive() => {
            (ChaseWall::BumpOut, layout.faces.lower_stud)
        }
        FrontForm::Stepped => (ChaseWall::SetBack, layout.faces.upper_stud),
    }
}
