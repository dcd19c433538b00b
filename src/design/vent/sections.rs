//! A straight's length in, the sections of pipe that make it out; and where the joints of the vent lie.

use glam::DVec3;

use crate::geom::CenterLine;
use crate::layout::{Path, Piece};
use crate::params::{Params, PipeKit};
use crate::units::Length;

/// No straight is made of more sections than this.
const MOST: usize = 12;
/// So many ways are kept open at each step of the search.
const WAYS: usize = 200;

/// What a straight is made of.
#[derive(Debug, Clone, Default)]
pub struct Sections {
    /// The sections, the longest first.
    pub sections: Vec<Length>,
    /// What the adjustable section has to reach; none where the sections are enough or there is none.
    pub adjustable: Option<Length>,
    /// What is left over where nothing adjusts: the straight must change by this, since sections are
    /// not cut.
    pub rest: Length,
}

impl Sections {
    /// The fewest sections, less their overlap, that leave no more than the adjustable one reaches;
    /// else those that leave least.
    pub fn of(kit: &PipeKit, length: Length) -> Self {
        let mut sizes = kit.sections.clone();
        sizes.sort_by(|a, b| b.to_mm().total_cmp(&a.to_mm()));
        let mut best = fewest(&sizes, kit, length);
        let reached = !(best.rest - kit.adjustable).is_positive();
        if kit.adjustable.is_positive() && best.rest.is_positive() && reached {
            best.adjustable = Some(best.rest);
            best.rest = Length::ZERO;
        }
        best
    }

    /// How many pieces of pipe it takes.
    pub fn pieces(&self) -> usize {
        let adjusts = self.adjustable.is_some() && !self.sections.is_empty();
        self.sections.len().max(1) + usize::from(adjusts)
    }
}

fn fewest(sizes: &[Length], kit: &PipeKit, length: Length) -> Sections {
    let mut best = Sections {
        rest: length,
        ..Sections::default()
    };
    let mut row = vec![best.clone()];
    for _ in 0..MOST {
        if !(best.rest - kit.adjustable).is_positive() {
            break;
        }
        let mut next: Vec<Sections> = Vec::new();
        for made in &row {
            for size in sizes {
                let net = *size - kit.overlap.value;
                let rest = made.rest - net;
                // longest first, so that each set of sections comes once
                let ordered = made.sections.last().is_none_or(|last| size <= last);
                if net.is_positive() && ordered && rest >= Length::ZERO {
                    let mut sections = made.sections.clone();
                    sections.push(*size);
                    next.push(Sections {
                        sections,
                        adjustable: None,
                        rest,
                    });
                }
            }
        }
        for made in &next {
            if made.rest < best.rest {
                best = made.clone();
            }
        }
        next.sort_by(|a, b| a.rest.to_mm().total_cmp(&b.rest.to_mm()));
        next.truncate(WAYS);
        row = next;
    }
    best
}

/// Where the vent's joints lie on its middle line, from the collar's end to the cap: between pieces,
/// and between the sections of each straight where the parameters have them, the longest first.
pub(in crate::design) fn joints(params: &Params, path: &Path, collar: Length) -> Vec<DVec3> {
    let mut found = Vec::new();
    for (index, piece) in path.pieces.iter().enumerate() {
        let start = if index == 0 { collar } else { Length::ZERO };
        let from = piece.frame.origin + piece.frame.z * start.to_mm();
        found.push(from);
        let (CenterLine::Segment { length }, Some(kit)) = (piece.line, &params.pipe) else {
            continue;
        };
        let made = Sections::of(kit, Length::mm(length) - start);
        let mut along = Length::ZERO;
        let nets = made.sections.iter().map(|it| *it - kit.overlap.value);
        for net in nets.chain(made.adjustable) {
            along += net;
            if (Length::mm(length) - start - made.rest - along).is_positive() {
                found.push(from + piece.frame.z * along.to_mm());
            }
        }
    }
    found.extend(path.last().map(Piece::end));
    found
}
