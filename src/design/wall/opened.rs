//! An opening framed into a wall that stands already, and a framed wall with a hole for the vent.

use super::super::Kind;
use super::{Hole, Opening, Reach, Wall};
use crate::layout::{OpenedWall, WallHole};
use crate::units::{Length, Span};

impl Wall<'_> {
    /// The old plates and studs, as far as they stay, and the new jacks, kings, header and studs between them.
    pub(in super::super) fn frame_opened(&mut self, opening: &Opening<'_>, opened: &OpenedWall) {
        let breadth = self.stud.breadth();
        let over_header = self.top_of(opening);
        self.stands_already = true;
        self.sole(&[
            Span::new(Length::ZERO, opening.sides.low),
            Span::new(opening.sides.high, self.length),
        ]);
        for center in &opened.kept {
            let left = *center - breadth / 2.0;
            self.upright(Kind::Stud, left, Reach::ToPlates(self.plate()));
        }
        for center in &opened.cut {
            let along = Span::about(*center, breadth);
            if (self.lowest_stud_top(along) - over_header).is_positive() {
                self.upright(Kind::Cripple, along.low, Reach::ToPlates(over_header));
            }
        }
        self.close();
        self.stands_already = false;
        self.jacks_and_kings(opening, None);
        let header = opening.sides.grown(breadth);
        if opened.is_settled {
            let above = self.room_over(header, over_header);
            self.header((header, opening.header_bottom), opening.header, above);
        } else {
            self.room_for_header(header, opening.header_bottom, opening.header);
        }
        for center in &opened.added {
            let left = *center - breadth / 2.0;
            self.upright(Kind::Stud, left, Reach::ToPlates(self.plate()));
        }
    }

    /// Frames a wall round the hole for the vent, its head and sill lying flat.
    pub(in super::super) fn frame_around(&mut self, hole: Option<WallHole>) {
        let framed = hole.map(|hole| Hole {
            sides: hole.sides,
            heights: hole.heights.grown(self.stud.lying()),
        });
        let holes: Vec<Hole> = framed.into_iter().collect();
        self.sole(&[Span::new(Length::ZERO, self.length)]);
        self.end_studs();
        self.ridge_studs(&holes);
        self.pack_slots(&holes);
        self.layout_studs(&holes);
        self.close();
    }
}
