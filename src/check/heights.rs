//! Parameters in, a table out: how low mantel and screen may come, for several platforms and
//! projections, in one wall and with a ledge, and what stops them.
//!
//! Heights count from the file's floor datum. The manual's numbers are as the parameters have them.

use super::rules::mantel_rule::least_height;
use crate::catalog::{Lumber, lumber};
use crate::design::{Design, Layout, design, height_datum, projection_datum};
use crate::params::{FrontForm, Layer, Mantel, MantelRule, Params};
use crate::units::{Length, TapeUnit};

/// One line of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct HeightRow {
    /// Height of the platform.
    pub platform: Length,
    /// The ledge's stock; `None` for one wall.
    pub ledge: Option<String>,
    /// How far the mantel stands forward of the finished lower face.
    pub projection: Length,
    /// Depth of the shelf from front to back.
    pub shelf: Length,
    /// The lowest underside of the mantel; `None` past the last row of the manual's table.
    pub mantel: Option<Length>,
    /// What stops the mantel.
    pub mantel_by: &'static str,
    /// The lowest finished sill of the recess over that mantel; `None` without a recess.
    pub sill: Option<Length>,
    /// What stops the sill.
    pub sill_by: &'static str,
    /// What is left under the ceiling with that sill; below zero it does not fit.
    pub head: Option<Length>,
}

/// The table for a design with a mantel; empty without one.
pub fn heights(params: &Params) -> Vec<HeightRow> {
    rows_at(params, |_, own| own)
}

/// The same at every projection at which the lowest height changes its course, on both sides of each step of the
/// manual's rule: between two of them it runs straight.
pub fn heights_curve(params: &Params) -> Vec<HeightRow> {
    rows_at(params, |design, mut own| {
        let last = own.last().copied().unwrap_or_default();
        let breaks = breaks(design).into_iter();
        own.extend(
            breaks
                .flat_map(|it| [it, it + JUST_BEYOND])
                .filter(|it| *it < last),
        );
        own.retain(|it| *it >= Length::ZERO);
        own.sort_by(|a, b| a.to_mm().total_cmp(&b.to_mm()));
        own
    })
}

/// How far beyond a step of the rule the next one is looked at.
const JUST_BEYOND: Length = Length::mm(0.01);

fn rows_at(
    params: &Params,
    projections_of: impl Fn(&Design, Vec<Length>) -> Vec<Length>,
) -> Vec<HeightRow> {
    let Some(mantel) = &params.mantel else {
        return Vec::new();
    };
    let mut rows = Vec::new();
    for ledge in ledges(params) {
        for platform in platforms(params) {
            let design = variant(params, platform, ledge.as_ref());
            if ledge.is_some() && !can_be_built(&design) {
                continue;
            }
            for projection in projections_of(&design, projections(params, mantel)) {
                rows.push(row(&design, mantel, platform, ledge.as_ref(), projection));
            }
        }
    }
    rows
}

/// Whether the vertical pipe stands clear of the wall that is set back behind a ledge, and the lower studs stand under
/// the ledge.
fn can_be_built(design: &Design) -> bool {
    let (params, layout) = (&design.params, &design.layout);
    let ledge = params.front.ledge.as_ref();
    let carried = ledge.is_none_or(|it| params.bump_out_stud().depth() <= it.depth());
    let stands_clear =
        layout.rise().is_none() || layout.faces.front_back >= layout.pipe_clearance_front();
    carried && stands_clear
}

/// Projections at which the manual's rule steps, from the finished lower face.
fn breaks(design: &Design) -> Vec<Length> {
    let Some(mantel) = &design.params.mantel else {
        return Vec::new();
    };
    let layout = &design.layout;
    let datum = projection_datum(layout, mantel.projection_from.value);
    let before = layout.faces.lower_finished - datum;
    let steps = match &mantel.rule.value {
        MantelRule::Steps(steps) => steps.iter().map(|it| it.projection).collect(),
        MantelRule::Ramp { .. } => Vec::<Length>::new(),
    };
    let counted = std::iter::once(Length::ZERO).chain(steps);
    counted.map(|it| it - before).collect()
}

/// The parameters' own value among round steps.
fn steps(unit: TapeUnit, own: Length, inches: &[f64], millimetres: &[f64]) -> Vec<Length> {
    let mut steps: Vec<Length> = match unit {
        TapeUnit::Inch => inches.iter().map(|it| Length::inches(*it)).collect(),
        TapeUnit::Millimeter => millimetres.iter().map(|it| Length::mm(*it)).collect(),
    };
    if !steps.iter().any(|it| !(*it - own).abs().is_positive()) {
        steps.push(own);
    }
    steps.sort_by(|a, b| a.to_mm().total_cmp(&b.to_mm()));
    steps
}

fn platforms(params: &Params) -> Vec<Length> {
    let own = params.platform.layers.iter().map(Layer::height).sum();
    let (inches, millimetres) = ([1.5, 6.0, 12.0, 16.0], [40.0, 150.0, 300.0, 400.0]);
    steps(params.project.unit, own, &inches, &millimetres)
}

fn projections(params: &Params, mantel: &Mantel) -> Vec<Length> {
    let (inches, millimetres) = ([0.0, 3.0, 6.0, 9.0], [0.0, 80.0, 150.0, 230.0]);
    steps(
        params.project.unit,
        mantel.projection,
        &inches,
        &millimetres,
    )
}

/// One wall, and the file's own ledge or a 2x6; a face that lies in a wall of the room has none.
fn ledges(params: &Params) -> Vec<Option<Lumber>> {
    if params.site().opens_wall {
        return vec![None];
    }
    let ledge = params.front.ledge.clone().or_else(|| lumber("2x6"));
    vec![None, ledge]
}

/// The same design on another platform, in one wall or stepped. The finish above a ledge is the
/// file's own where it has one, else the board alone.
fn variant(params: &Params, platform: Length, ledge: Option<&Lumber>) -> Design {
    let mut changed = params.clone();
    changed.platform.layers = vec![Layer::Panel(platform)];
    changed.front.form = match ledge {
        None => FrontForm::OneWall,
        Some(_) => FrontForm::Stepped,
    };
    changed.front.ledge = ledge.cloned();
    design(&changed)
}

fn row(
    design: &Design,
    mantel: &Mantel,
    platform: Length,
    ledge: Option<&Lumber>,
    projection: Length,
) -> HeightRow {
    let layout = &design.layout;
    let front = layout.faces.lower_finished + projection;
    let counted = front - projection_datum(layout, mantel.projection_from.value);
    let (lowest, mantel_by) = lowest_mantel(layout, mantel, counted);
    let sill = lowest.and_then(|it| lowest_sill(design, it + mantel.thickness));
    HeightRow {
        platform,
        ledge: ledge.map(|it| it.name().to_owned()),
        projection,
        shelf: front - layout.faces.upper_finished,
        mantel: lowest,
        mantel_by,
        sill: sill.map(|it| it.0),
        sill_by: sill.map_or("", |it| it.1),
        head: sill.and_then(|it| head_left(design, it.0)),
    }
}

fn lowest_mantel(
    layout: &Layout,
    mantel: &Mantel,
    projection: Length,
) -> (Option<Length>, &'static str) {
    let framing = (Some(layout.heights.framing_top), "framing");
    if !projection.is_positive() || !mantel.combustible {
        return framing;
    }
    let Some(height) = least_height(&mantel.rule.value, projection) else {
        return (None, "past the manual's table");
    };
    let rule = height_datum(layout, mantel.height_from.value) + height;
    if rule > layout.heights.framing_top {
        (Some(rule), "mantel rule")
    } else {
        framing
    }
}

/// The lowest finished sill: over the mantel, and over the vent where it cannot rise behind.
fn lowest_sill(design: &Design, mantel_top: Length) -> Option<(Length, &'static str)> {
    let layout = &design.layout;
    let recess = layout.recess.as_ref()?;
    if recess.framing_back >= layout.pipe_clearance_front() {
        return Some((mantel_top, "mantel"));
    }
    let vent = layout.vent_clearance_top();
    let over_vent = vent + layout.params.front_stud().lying() + layout.params.skins.board;
    Some(if over_vent > mantel_top {
        (over_vent, "vent below the recess")
    } else {
        (mantel_top, "mantel")
    })
}

/// What is left between the stack over a recess with this sill and the ceiling's low end.
fn head_left(design: &Design, sill: Length) -> Option<Length> {
    let layout = &design.layout;
    let recess = layout.params.recess.as_ref()?;
    let over = layout.ceiling_over_recess()?;
    let stack = layout.stack_over_head(sill + recess.height, over.steepness);
    Some(over.height - stack)
}
