//! The saw set-up: pieces by blade setting, with the nearest stop, the gap that it would leave, and a test cut.

use super::cut_list::{Row, in_range};
use super::stick::End;
use super::stick_face::StickFace;
use crate::params::Params;
use crate::units::{Angle, Length};

/// A gap up to this is no wider than a saw cut is off anyhow (common practice, no source).
const STOP_GAP: Length = Length::inches(1.0 / 32.0);
/// The leg of the test cut.
const TEST_LEG: Length = Length::inches(12.0);
const TEST_LEG_METRIC: Length = Length::mm(300.0);
/// Settings nearer than this, in radians, are one: a hundredth of what a saw can be set to.
const ONE_SETTING: f64 = 1e-5;

/// One setting of table and blade, and what is cut with it.
#[derive(Debug, Clone)]
pub struct Setup {
    /// Turn of the table.
    pub miter: Angle,
    /// Tilt of the blade.
    pub bevel: Angle,
    /// Whether the pieces lie on edge; flat otherwise.
    pub on_edge: bool,
    /// The nearest stop for the turn, where there is a turn.
    pub miter_stop: Option<Stop>,
    /// The nearest stop for the tilt, where there is a tilt.
    pub bevel_stop: Option<Stop>,
    /// What the turn makes over the leg of the test cut.
    pub test: Length,
    /// The leg of the test cut.
    pub test_leg: Length,
    /// What is cut: the mark, and the end of it.
    pub cuts: Vec<EndCut>,
    /// Whether the saw can be set so.
    pub in_range: bool,
    /// What to do instead where it cannot.
    pub way_out: Option<String>,
}

/// The end of a piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EndCut {
    /// The mark.
    pub mark: String,
    /// How many pieces.
    pub quantity: usize,
    /// Which end.
    pub end: StickFace,
}

/// A stop of the saw in place of the true angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stop {
    /// Where it clicks in.
    pub angle: Angle,
    /// The gap that it leaves on this stock.
    pub gap: Length,
    /// Whether the gap is small enough to use it.
    pub good: bool,
}

/// Every setting other than square, the one with most pieces first.
pub(super) fn setups(rows: &[Row], params: &Params) -> Vec<Setup> {
    let mut setups: Vec<(Setup, (Length, Length))> = Vec::new();
    for row in rows {
        let cuts: Vec<End> = row.ends.iter().flat_map(End::cuts).collect();
        // steel is cut with snips or a cold saw
        let wood = row.board.size.wood().is_some();
        for end in cuts.iter().filter(|end| wood && !end.is_square()) {
            let cut = EndCut {
                mark: row.mark.clone(),
                quantity: row.quantity(),
                end: end.place,
            };
            let faces = if row.on_edge {
                (row.section.1, row.section.0)
            } else {
                row.section
            };
            let setting = row.setting(end);
            let same = setups.iter_mut().find(|(it, sizes)| {
                same(it.miter, setting.0)
                    && same(it.bevel, setting.1)
                    && it.on_edge == row.on_edge
                    && *sizes == faces
            });
            match same {
                Some((setup, _)) => setup.cuts.push(cut),
                None => setups.push((setup(row, end, cut, faces, params), faces)),
            }
        }
    }
    let mut setups: Vec<Setup> = setups.into_iter().map(|(setup, _)| setup).collect();
    let pieces = |it: &Setup| it.cuts.iter().map(|cut| cut.quantity).sum::<usize>();
    setups.sort_by_key(|it| std::cmp::Reverse(pieces(it)));
    setups
}

fn same(a: Angle, b: Angle) -> bool {
    (a.to_radians() - b.to_radians()).abs() < ONE_SETTING
}

fn setup(row: &Row, end: &End, cut: EndCut, faces: (Length, Length), params: &Params) -> Setup {
    let (miter, bevel) = row.setting(end);
    let leg = match params.project.unit {
        crate::units::TapeUnit::Inch => TEST_LEG,
        crate::units::TapeUnit::Millimeter => TEST_LEG_METRIC,
    };
    let tested = if miter.to_radians() > 0.0 {
        miter
    } else {
        bevel
    };
    let in_range = in_range((miter, bevel), params);
    Setup {
        miter,
        bevel,
        on_edge: row.on_edge,
        miter_stop: stop(miter, faces.0, params),
        bevel_stop: stop(bevel, faces.1, params),
        test: leg * tested.tan(),
        test_leg: leg,
        cuts: vec![cut],
        in_range,
        way_out: (!in_range).then(|| way_out(miter, bevel)),
    }
}

/// The nearest stop, and the gap it leaves over this width.
fn stop(angle: Angle, width: Length, params: &Params) -> Option<Stop> {
    if angle.to_radians() <= 0.0 {
        return None;
    }
    let apart = |stop: &Angle| (stop.to_radians() - angle.to_radians()).abs();
    let nearest = params
        .saw
        .stops
        .iter()
        .min_by(|a, b| apart(a).total_cmp(&apart(b)))?;
    let gap = width * (angle.tan() - nearest.tan()).abs();
    Some(Stop {
        angle: *nearest,
        gap,
        good: !(gap - STOP_GAP).is_positive(),
    })
}

/// What is left where the saw cannot be set so steep.
fn way_out(miter: Angle, bevel: Angle) -> String {
    let complement = 90.0 - miter.to_degrees();
    if bevel.to_radians() > 0.0 {
        "mark all four faces, cut beside the line by hand saw, and plane to it".to_owned()
    } else {
        format!(
            "turn the stick square to the fence on a jig and set the table to {complement:.1}, or mark both edges and finish by hand"
        )
    }
}
