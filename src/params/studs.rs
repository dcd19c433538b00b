//! Which stock each wall of the chase is framed with, and how it goes up.

use super::chase_wall::ChaseWall;
use super::choice::{Fit, FrontForm};
use super::list::Params;
use crate::catalog::{Lumber, track_for};
use crate::units::Length;

impl Params {
    /// Studs of the front wall that reaches the ceiling; of a flush chase, those of the wall that is opened.
    pub fn front_stud(&self) -> &Lumber {
        if self.site().opens_wall {
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

    /// What is left of the yard's longest plain board of the stock of a wall's plates, or of the track that
    /// goes with its studs, when its end is trimmed.
    pub fn longest_board(&self, stud: &Lumber) -> Length {
        let stock = &self.stock;
        let plate = track_for(stud).unwrap_or_else(|| stud.clone());
        let own = stock
            .boards
            .iter()
            .filter(|it| it.size == plate && !it.treated)
            .map(|it| it.length)
            .reduce(Length::max);
        let usual = if stud.is_steel() {
            &stock.steel_lengths
        } else {
            &stock.lengths
        };
        let usual = usual.iter().copied().fold(Length::ZERO, Length::max);
        own.unwrap_or(usual) - stock.end_trim
    }
}
