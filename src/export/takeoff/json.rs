//! The takeoff as JSON: millimetres, degrees, kilograms and square metres as numbers, tape text beside them.

use serde_json::{Value, json};

use super::texts::{drawing, end_text, lies, rip_text, stop_text};
use super::{ExportError, TakeoffFormat};
use crate::design::Design;
use crate::takeoff::{BoardPlan, End, PlanCost, Row, Setup, SheetPlan, Stop, Takeoff};
use crate::units::{Angle, Length, Money, TapeUnit};

pub(super) const FORMAT: TakeoffFormat = TakeoffFormat {
    file: "takeoff.json",
    write: |design, takeoff| Ok(takeoff_json(design, takeoff)?.into_bytes()),
};

/// The takeoff of a design as JSON text.
///
/// # Errors
/// Only if a number cannot be written as JSON.
pub fn takeoff_json(design: &Design, takeoff: &Takeoff) -> Result<String, ExportError> {
    let unit = design.params.project.unit;
    let document = json!({
        "name": design.params.project.name,
        "currency": design.params.stock.currency,
        "cut_list": takeoff.cut_list.iter().map(|it| row(it, unit)).collect::<Vec<_>>(),
        "saw": takeoff.saw.iter().map(|it| setup(it, unit)).collect::<Vec<_>>(),
        "boards": takeoff.boards.iter().map(board_plan).collect::<Vec<_>>(),
        "sheets": takeoff.sheets.iter().map(sheet_plan).collect::<Vec<_>>(),
        "layout": layout(takeoff),
        "vent": vent(takeoff),
        "buy": buy(takeoff),
        "cost": money(Some(takeoff.cost())),
        "without_price": takeoff.without_price().collect::<Vec<_>>(),
        "without_weight": takeoff.without_weight().collect::<Vec<_>>(),
        "finish": takeoff.finish.iter().map(|it| json!({
            "face": it.face.name(),
            "square_metres": rounded(it.area * 1e-6),
            "corners_mm": mm(it.corners),
        })).collect::<Vec<_>>(),
        "weights": takeoff.weights.iter().map(|it| json!({
            "what": it.what,
            "kilograms": rounded(it.mass),
            "two_can_lift": it.two_can_lift,
        })).collect::<Vec<_>>(),
    });
    let mut text = serde_json::to_string_pretty(&document)?;
    text.push('\n');
    Ok(text)
}

/// A number to a billionth, and never minus zero.
fn rounded(value: f64) -> f64 {
    (value * 1e9).round() / 1e9 + 0.0
}

fn mm(length: Length) -> f64 {
    rounded(length.to_mm())
}

fn degrees(angle: Angle) -> f64 {
    rounded(angle.to_degrees())
}

/// Money as text, since a binary number cannot hold hundredths.
fn money(money: Option<Money>) -> Value {
    money.map_or(Value::Null, |it| json!(it.to_string()))
}

fn row(row: &Row, unit: TapeUnit) -> Value {
    json!({
        "mark": row.mark,
        "quantity": row.quantity(),
        "stock": row.board.name(),
        "treated": row.board.treated,
        "parts": row.parts,
        "kinds": row.kinds.iter().map(|it| it.name()).collect::<Vec<_>>(),
        "long_point": row.long_point.tape(unit, row.rounding),
        "long_point_mm": mm(row.long_point),
        "short_point": row.short_point.tape(unit, row.rounding),
        "short_point_mm": mm(row.short_point),
        "section_mm": [mm(row.section.0), mm(row.section.1)],
        "ends": row.ends.iter().map(|it| end(row, it, unit)).collect::<Vec<_>>(),
        "lies": lies(row.on_edge),
        "drawing": drawing(row),
        "rip": row.rip.as_ref().map(|it| json!({
            "text": rip_text(row, it, unit),
            "width_mm": mm(it.width),
            "thickness_mm": mm(it.thickness),
            "edge_degrees": degrees(it.edge),
        })),
        "kilograms": rounded(row.mass),
        "notes": row.notes,
    })
}

fn end(row: &Row, end: &End, unit: TapeUnit) -> Value {
    let (miter, bevel) = row.setting(end);
    json!({
        "place": end.place,
        "text": end_text(row, end, unit),
        "miter_degrees": degrees(miter),
        "bevel_degrees": degrees(bevel),
        "long_at": end.long_at,
        "second": end.second.as_ref().map(|it| {
            let (miter, bevel) = end.cuts().last().map_or_else(Default::default, |cut| row.setting(cut));
            json!({
                "miter_degrees": degrees(miter),
                "bevel_degrees": degrees(bevel),
                "meets_mm": mm(it.at),
                "from": it.from,
            })
        }),
    })
}

fn setup(setup: &Setup, unit: TapeUnit) -> Value {
    let stop = |it: Option<Stop>| {
        it.map(|it| {
            json!({
                "degrees": degrees(it.angle),
                "gap_mm": mm(it.gap),
                "use_it": it.good,
                "text": stop_text(Some(it), unit),
            })
        })
    };
    json!({
        "miter_degrees": degrees(setup.miter),
        "bevel_degrees": degrees(setup.bevel),
        "lies": lies(setup.on_edge),
        "miter_stop": stop(setup.miter_stop),
        "bevel_stop": stop(setup.bevel_stop),
        "test_mm": mm(setup.test),
        "test_leg_mm": mm(setup.test_leg),
        "in_range": setup.in_range,
        "way_out": setup.way_out,
        "cuts": setup.cuts.iter().map(|it| json!({
            "mark": it.mark,
            "quantity": it.quantity,
            "end": it.end,
        })).collect::<Vec<_>>(),
    })
}

fn board_plan(plan: &BoardPlan) -> Value {
    let cost = |it: PlanCost| match it {
        PlanCost::Money(it) => json!({ "money": it.to_string() }),
        PlanCost::Length(it) => json!({ "length_mm": mm(it) }),
    };
    json!({
        "stock": plan.board.name(),
        "cost": cost(plan.cost),
        "bound": cost(plan.bound),
        "proved": plan.is_proved(),
        "nodes": plan.solution.nodes,
        "stopped": plan.is_stopped(),
        "boards": plan.boards.iter().map(|it| json!({
            "length_mm": mm(it.sold.length),
            "price": money(it.sold.price),
            "pieces": it.pieces.iter().map(|it| json!({ "mark": it.0, "length_mm": mm(it.1) })).collect::<Vec<_>>(),
            "offcut_mm": mm(it.offcut),
        })).collect::<Vec<_>>(),
        "near_misses": plan.near_misses.iter().map(|it| json!({
            "mark": it.mark,
            "board_mm": mm(it.board),
            "by_mm": mm(it.by),
        })).collect::<Vec<_>>(),
    })
}

fn sheet_plan(plan: &SheetPlan) -> Value {
    let corner = |it: &glam::DVec2| [rounded(it.x), rounded(it.y)];
    json!({
        "material": plan.sheet.material.word(),
        "thickness_mm": mm(plan.sheet.thickness),
        "width_mm": mm(plan.sheet.width),
        "length_mm": mm(plan.sheet.length),
        "least": plan.least,
        "pieces": plan.pieces.iter().map(|it| json!({
            "mark": it.mark,
            "part": it.part,
            "loops_mm": it.loops.iter().map(|it| it.iter().map(corner).collect::<Vec<_>>()).collect::<Vec<_>>(),
            "square_metres": rounded(it.area * 1e-6),
            "backers_mm": it.backers.iter().map(|it| mm(*it)).collect::<Vec<_>>(),
            "at_corners_mm": it.at_corners.iter().map(|it| mm(*it)).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "sheets": plan.sheets.iter().map(|it| it.pieces.iter().map(|placed| json!({
            "mark": placed.mark,
            "from_side_mm": mm(placed.from_side),
            "from_end_mm": mm(placed.from_end),
            "turned": placed.is_turned,
            "factory_edges": plan.factory_edges(placed),
        })).collect::<Vec<_>>()).collect::<Vec<_>>(),
    })
}

fn layout(takeoff: &Takeoff) -> Value {
    json!({
        "plates": takeoff.plates.iter().map(|it| json!({
            "plate": it.plate,
            "from": it.from,
            "length_mm": mm(it.length),
            "marks": it.marks.iter().map(|it| json!({
                "part": it.part,
                "edge_mm": mm(it.edge),
                "level_mm": mm(it.level),
            })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "story_pole": takeoff.story_pole.iter().map(|it| json!({
            "what": it.what.to_string(),
            "height_mm": mm(it.height),
        })).collect::<Vec<_>>(),
        "plumb_lines": takeoff.plumb_lines.iter().map(|it| json!({
            "what": it.what.to_string(),
            "from": it.from(),
            "right_mm": mm(it.right),
        })).collect::<Vec<_>>(),
        "bores": takeoff.bores.iter().map(|it| json!({
            "part": it.part,
            "service": it.service,
            "up_mm": mm(it.up),
            "from_edge_mm": mm(it.from_edge),
            "diameter_mm": mm(it.diameter),
        })).collect::<Vec<_>>(),
        "packing": takeoff.packing.iter().map(|it| json!({
            "of": it.of.to_string(),
            "from": it.from.name(),
            "at_mm": mm(it.at),
            "thickness_mm": mm(it.thickness),
            "read": it.read.to_string(),
        })).collect::<Vec<_>>(),
    })
}

fn vent(takeoff: &Takeoff) -> Value {
    let pipes = &takeoff.pipes;
    json!({
        "runs": pipes.runs.iter().map(|it| json!({
            "part": it.part,
            "length_mm": mm(it.length),
            "sections_mm": it.sections.iter().map(|it| mm(*it)).collect::<Vec<_>>(),
            "adjustable_mm": it.adjustable.map(mm),
            "left_mm": mm(it.left),
        })).collect::<Vec<_>>(),
        "elbows": pipes.elbows,
        "joints": pipes.joints,
        "screws": pipes.screws,
        "sealed": pipes.sealed,
        "clamps": pipes.clamps,
    })
}

fn buy(takeoff: &Takeoff) -> Value {
    let lines = takeoff.buy.iter().map(|it| {
        json!({
            "section": it.section.name(),
            "item": it.item,
            "count": it.count,
            "spare": it.spare,
            "board_feet": it.board_feet.map(rounded),
            "price": money(it.price),
            "cost": money(it.cost()),
            "detail": it.detail,
        })
    });
    Value::Array(lines.collect())
}
