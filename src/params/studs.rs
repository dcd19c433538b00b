//! Which stock each wall of the chase is framed with.

use super::chase_wall::ChaseWall;
use super::choice::FrontForm;
use super::list::Params;
use crate::catalog::Lumber;
use crate::units::Length;

impl Params {
    /// Studs of the front wall that reaches the ceiling; of a flush chase, those of the wall that is opened.
    pub fn front_stud(&self) -> &Lumber {
        if self.is_flush() {
            return &self.wall.stud;
        }
        self.front.stud.as_ref().unwrap_or(&self.chase.stud)
    }

    /// Studs of the frame before a set-back wall.
    pub fn bump_out_stud(&self) -> &Lumber {
        self.front
            .bump_out_stud
            .as_ref()
            .unwrap_or(&self.chase.stud)
    }

    /// Studs of the wall that the unit's face stands in.
    pub fn lower_stud(&self) -> &Lumber {
        match self.front.form {
            FrontForm::OneWall => self.front_stud(),
            FrontForm::Stepped => self.bump_out_stud(),
        }
    }

    /// Studs of a framed wall.
    pub fn stud_of(&self, wall: ChaseWall) -> &Lumber {
        match wall {
            ChaseWall::Front | ChaseWall::SetBack | ChaseWall::Opened => self.front_stud(),
            ChaseWall::BumpOut => self.bump_out_stud(),
            ChaseWall::LeftSide | ChaseWall::RightSide | ChaseWall::Back => &self.chase.stud,
        }
    }

    /// How many plates lie on studs of this stock: on steel one track.
    pub fn plates_on(&self, stud: &Lumber) -> u32 {
        if stud.is_steel() {
            1
        } else {
            self.chase.top_plates
        }
    }

    /// Height of the header over the unit in a wall of these studs: a stick's width, or a steel member's
    /// web and, in a wall of steel, the tracks under and over it.
    pub fn header_height(&self, stud: &Lumber) -> Length {
        let header = &self.front.header;
        header
            .steel
            .map_or(header.width, |it| it.web + stud.nested() * 2.0)
    }

    /// Lumber for blocks beside the chase's own walls: the chase's studs, or the existing wall's where those are steel.
    pub fn block_stock(&self) -> &Lumber {
        if self.chase.stud.is_steel() {
            &self.wall.stud
        } else {
            &self.chase.stud
        }
    }
}
