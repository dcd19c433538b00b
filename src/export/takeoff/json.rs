//! The takeoff as JSON: millimetres, degrees, kilograms and square metres as numbers, tape text beside them. Rows come
//! from the lists; what is no list is said here.

use serde_json::{Value, json};

use super::ExportError;
use super::lists::{self, Taken};
use super::table::{Table, mm, rounded};
use crate::takeoff::{BoardPlan, PlanCost, SheetPlan, Takeoff};

/// Goes up when a name goes or means something else; a name that is new leaves it.
const VERSION: u32 = 1;

/// The takeoff of a design as JSON text.
///
/// # Errors
/// Only if a number cannot be written as JSON.
pub(super) fn text(taken: &Taken<'_>) -> Result<String, ExportError> {
    let Taken { design, takeoff } = taken;
    let boards = takeoff.boards.iter().zip(lists::boards(taken));
    let document = json!({
        "version": VERSION,
        "name": design.params.project.name,
        "currency": design.params.stock.currency,
        "cut_list": lists::cut_list(taken).records(),
        "saw": lists::saw(taken).records(),
        "boards": boards.map(|(plan, table)| board_plan(plan, &table)).collect::<Value>(),
        "sheets": takeoff.sheets.iter().map(sheet_plan).collect::<Value>(),
        "layout": {
            "plates": lists::plates(taken).records(),
            "story_pole": lists::story_pole(taken).records(),
            "plumb_lines": lists::plumb_lines(taken).records(),
            "bores": lists::bores(taken).records(),
            "packing": lists::packing(taken).records(),
        },
        "as_built": takeoff.as_built.iter().map(|it| json!({
            "name": it.measured.name(),
            "what": it.measured.words(),
            "planned_mm": it.planned.map(mm),
        })).collect::<Value>(),
        "vent": vent(takeoff),
        "buy": lists::buy(taken).records(),
        "cost": takeoff.cost().to_number(),
        "without_price": takeoff.without_price().collect::<Vec<_>>(),
        "without_weight": takeoff.without_weight().collect::<Vec<_>>(),
        "finish": lists::finish(taken).records(),
        "weights": lists::weights(taken).records(),
    });
    let mut text = serde_json::to_string_pretty(&document)?;
    text.push('\n');
    Ok(text)
}

fn board_plan(plan: &BoardPlan, table: &Table) -> Value {
    let cost = |it: PlanCost| match it {
        PlanCost::Money(it) => json!({ "money": it.to_number() }),
        PlanCost::Length(it) => json!({ "length_mm": mm(it) }),
    };
    json!({
        "stock": plan.board.name(),
        "cost": cost(plan.cost),
        "bound": cost(plan.bound),
        "proved": plan.is_proved(),
        "nodes": plan.solution.nodes,
        "stopped": plan.is_stopped(),
        "boards": table.records(),
        "near_misses": plan.near_misses.iter().map(|it| json!({
            "mark": it.mark,
            "board_mm": mm(it.board),
            "by_mm": mm(it.by),
        })).collect::<Value>(),
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
        })).collect::<Value>(),
        "sheets": plan.sheets.iter().map(|it| it.pieces.iter().map(|placed| json!({
            "mark": placed.mark,
            "from_side_mm": mm(placed.from_side),
            "from_end_mm": mm(placed.from_end),
            "turned": placed.is_turned,
            "factory_edges": plan.factory_edges(placed),
        })).collect::<Value>()).collect::<Value>(),
    })
}

fn vent(takeoff: &Takeoff) -> Value {
    let pipes = &takeoff.pipes;
    json!({
        "runs": pipes.runs.iter().map(|it| json!({
            "part": it.part,
            "length_mm": mm(it.length),
            "sections_mm": it.made.sections.iter().map(|it| mm(*it)).collect::<Vec<_>>(),
            "adjustable_mm": it.made.adjustable.map(mm),
            "left_mm": mm(it.made.rest),
        })).collect::<Value>(),
        "elbows": pipes.elbows,
        "joints": pipes.joints,
        "screws": pipes.screws,
        "sealed": pipes.sealed,
        "clamps": pipes.clamps,
    })
}
