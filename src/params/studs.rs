//! Which stock each wall of the chase is framed with, and how it goes up.

use super::chase_wall::ChaseWall;
use super::choice::{Fit, FrontForm};
use super::list::Params;
use crate::catalog::{FramingMember, track_for};
use crate::units::Length;

impl Params {
    /// Studs of the front wall that reaches the ceiling; of a flush chase, those of the wall that is opened.
    pub fn front_stud(&self) -> &FramingMember {
        if self.site().opens_wall {
            return &self.wall.stud;
        }
        self.front.stud.as_ref().unwrap_or(&self.chase.stud)
    }

    /// Studs of the frame before a set-back wall.
    pub fn bump_out_stud(&self) -> &FramingMember {
        self.front
            .bump_out_stud
            .as_ref()
            .unwrap_or(&self.chase.stud)
    }

    /// Studs of the wall that the unit's face stands in.
    pub fn lower_stud(&self) -> &FramingMember {
        match self.front.form {
            FrontForm::OneWall => self.front_stud(),
            FrontForm::Stepped => self.bump_out_stud(),
        }
    }

    /// Studs of a framed wall.
    pub fn stud_of(&self, wall: ChaseWall) -> &FramingMember {
        match wall {
            ChaseWall::Front | ChaseWall::SetBack | ChaseWall::Opened => self.front_stud(),
            ChaseWall::BumpOut => self.bump_out_stud(),
            ChaseWall::LeftSide | ChaseWall::RightSide | ChaseWall::Back => &self.chase.stud,
        }
    }

    /// How a framed wall goes up, as the file asks for it.
    pub fn fit_of_wall(&self, wall: ChaseWall) -> Fit {
        self.own_fit_of(wall).unwrap_or(self.chase.fit)
    }

    /// The same where the file says it of this wall alone.
    pub fn own_fit_of(&self, wall: ChaseWall) -> Option<Fit> {
        let own = &self.raising;
        match wall {
            ChaseWall::Front => own.front,
            ChaseWall::SetBack => own.set_back,
            ChaseWall::BumpOut => own.bump_out,
            ChaseWall::LeftSide => own.left_side,
            ChaseWall::RightSide => own.right_side,
            ChaseWall::Back => own.back,
            ChaseWall::Opened => None,
        }
    }

    /// How many plates lie on studs of this stock: on steel one track.
    pub fn plates_on(&self, stud: &FramingMember) -> u32 {
        match stud {
            FramingMember::Wood(_) => self.chase.top_plates,
            FramingMember::Steel(_) => 1,
        }
    }

    /// Lumber for blocks beside the chase's own walls: the chase's studs, or the existing wall's where those are steel.
    pub fn block_stock(&self) -> &FramingMember {
        match &self.chase.stud {
            FramingMember::Wood(_) => &self.chase.stud,
            FramingMember::Steel(_) => &self.wall.stud,
        }
    }

    /// What is left of the yard's longest plain board of the stock of a wall's plates, or of the track that
    /// goes with its studs, when its end is trimmed.
    pub fn longest_board(&self, stud: &FramingMember) -> Length {
        let stock = &self.stock;
        let (plate, usual) = match stud {
            FramingMember::Wood(_) => (None, &stock.lengths),
            FramingMember::Steel(steel) => (track_for(steel), &stock.steel_lengths),
        };
        let plate = plate.map_or_else(|| stud.clone(), FramingMember::Steel);
        let own = stock
            .boards
            .iter()
            .filter(|it| it.size == plate && !it.treated)
            .map(|it| it.length)
            .reduce(Length::max);
        let usual = usual.iter().copied().fold(Length::ZERO, Length::max);
        own.unwrap_or(usual) - stock.end_trim
    }
}
