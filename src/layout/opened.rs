//! The wall of the room that a flush chase is set into: what becomes of its studs.
//!
//! In: its studs and the unit's opening. Out: which of them stay, which end over the header, which are taken
//! out, and where new ones stand behind the joint of the old board and the new. Places count along the wall
//! from the room's left corner.

use super::standing::StandingWall;
use crate::params::Bearing;
use crate::units::{Length, Span};

/// What happens to the wall that a chase is set into.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenedWall {
    /// Centers of the studs that stay whole.
    pub kept: Vec<Length>,
    /// Centers of those that are cut, and end over the header.
    pub cut: Vec<Length>,
    /// Centers of those that are taken out: a king of the opening stands there.
    pub taken_out: Vec<Length>,
    /// Centers of new studs behind the joint of the old board and the new.
    pub added: Vec<Length>,
    /// Whether header and jacks are settled: a nonbearing wall has the header of the parameters,
    /// any other has one that somebody designs.
    pub is_settled: bool,
}

impl OpenedWall {
    /// What the wall's studs become round the unit's opening, and behind the edges of the chase.
    pub(super) fn new(wall: &StandingWall, chase: Span, rough_opening: Span) -> Self {
        let thickness = wall.stud.breadth();
        let header = rough_opening.grown(thickness);
        let kings = header.grown(thickness);
        let mut opened = Self {
            kept: Vec::new(),
            cut: Vec::new(),
            taken_out: Vec::new(),
            added: Vec::new(),
            is_settled: wall.bearing == Bearing::No,
        };
        for center in &wall.centers {
            let stud = Span::about(*center, thickness);
            let within_header =
                !(header.low - stud.low).is_positive() && !(stud.high - header.high).is_positive();
            let list = if !stud.overlaps(kings) {
                &mut opened.kept
            } else if within_header {
                &mut opened.cut
            } else {
                &mut opened.taken_out
            };
            list.push(*center);
        }
        for edge in [chase.low, chase.high] {
            let added = opened.behind_joint(edge, kings, wall);
            opened.added.extend(added);
        }
        opened
    }

    /// Where a new stud stands behind a joint of the boards; `None` where none has room, one that holds both edges
    /// already being in its place.
    fn behind_joint(&self, joint: Length, kings: Span, wall: &StandingWall) -> Option<Length> {
        let thickness = wall.stud.breadth();
        let stands = self.kept.iter().chain(&self.added);
        let stands = stands.map(|it| Span::about(*it, thickness)).chain([kings]);
        let stands: Vec<Span> = stands.collect();
        let wanted = Span::about(joint, thickness);
        let beside = stands.iter().filter(|it| it.overlaps(wanted));
        let beside = beside.flat_map(|it| [it.low - thickness / 2.0, it.high + thickness / 2.0]);
        let ends = [thickness / 2.0, wall.length - thickness / 2.0];
        let places = [joint.max(ends[0]).min(ends[1])].into_iter().chain(beside);
        let mut fit: Vec<Length> = places
            .filter(|at| {
                let stud = Span::about(*at, thickness);
                let in_wall = !(ends[0] - *at).is_positive() && !(*at - ends[1]).is_positive();
                in_wall && !stands.iter().any(|it| it.overlaps(stud))
            })
            .filter(|at| !((*at - joint).abs() - thickness / 2.0).is_positive())
            .collect();
        fit.sort_by(|a, b| {
            (*a - joint)
                .abs()
                .to_mm()
                .total_cmp(&(*b - joint).abs().to_mm())
        });
        fit.first().copied()
    }

    /// Centers of every stud that stands whole in the wall, the new ones too, from the left.
    pub(super) fn whole(&self) -> Vec<Length> {
        let mut whole = [self.kept.as_slice(), &self.added].concat();
        whole.sort_by(|a, b| a.to_mm().total_cmp(&b.to_mm()));
        whole
    }
}
