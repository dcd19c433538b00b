//! The buy list and the cost. Prices are the user's; what has none is listed, never guessed.

use super::boards::BoardPlan;
use super::fasteners::FastenerCount;
use super::pipes::PipeList;
use super::sheets::SheetPlan;
use super::{beads, finishing, shims};
use crate::catalog::{FramingMember, lumber, nominal};
use crate::design::{Branch, Design, Kind, LEG, MANTEL, Part, Stock};
use crate::geom::{Shape, TOLERANCE, edges};
use crate::params::Params;
use crate::units::{Length, Money, Rounding, TapeUnit};
use glam::DVec2;

/// Square feet in a square millimetre.
const SQUARE_FEET: f64 = 1.0 / (304.8 * 304.8);

/// One line of the buy list.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Where it belongs.
    pub section: Section,
    /// What it is; prices are found by this.
    pub item: String,
    /// How many the plan needs.
    pub count: usize,
    /// How many more are bought.
    pub spare: usize,
    /// What else there is to know.
    pub detail: String,
    /// Nominal board feet of all, spares included, for lumber.
    pub board_feet: Option<f64>,
    /// What one costs.
    pub price: Option<Money>,
    /// What one weighs in kilograms, if the user says so.
    pub weight: Option<f64>,
    /// Whether it is bought whole and stands on the slab, or hangs on what does.
    pub is_whole: bool,
}

/// A part of the buy list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Section {
    /// Boards.
    Lumber,
    /// Members and straps of steel.
    Steel,
    /// Board, panels and insulation.
    Sheets,
    /// Nails, screws, anchors, and beads by length.
    Fasteners,
    /// Pipe with what belongs to it, and the frame of its pass.
    Vent,
    /// Everything else.
    Other,
}

impl Section {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Lumber => "lumber",
            Self::Steel => "steel",
            Self::Sheets => "sheets",
            Self::Fasteners => "fasteners",
            Self::Vent => "vent",
            Self::Other => "other",
        }
    }

    /// Whether what is in it is bought whole, if its line does not say otherwise.
    const fn is_whole(self) -> bool {
        match self {
            Self::Vent | Self::Other => true,
            Self::Lumber | Self::Steel | Self::Sheets | Self::Fasteners => false,
        }
    }
}

impl Line {
    /// What all of it costs.
    pub fn cost(&self) -> Option<Money> {
        self.price.map(|price| price * (self.count + self.spare))
    }
}

/// Face to be finished.
#[derive(Debug, Clone, PartialEq)]
pub struct FinishArea {
    /// The face.
    pub face: Branch,
    /// Square millimetres.
    pub area: f64,
    /// Outside corners by length.
    pub corners: Length,
}

/// Board feet by the nominal rule: thickness and width in nominal inches, length in feet, over 12
/// (DOC PS 20; from memory). Sizes without a nominal name have none.
pub fn board_feet(size: &str, length: Length) -> Option<f64> {
    lumber(size)?;
    let (thickness, width) = nominal(size)?;
    let number = |text: &str| crate::units::parse_number(text).ok();
    Some(number(thickness)? * number(width)? * (length.to_inches() / 12.0) / 12.0)
}

/// Everything that is bought.
pub(super) fn lines(
    design: &Design,
    boards: &[BoardPlan],
    sheets: &[SheetPlan],
    fasteners: &[FastenerCount],
    pipes: &PipeList,
) -> Vec<Line> {
    let params = &design.params;
    let mut lines = lumber_lines(boards, params);
    lines.extend(straps(design));
    lines.extend(sheet_lines(sheets, params));
    let mut nails: Vec<Line> = Vec::new();
    for it in fasteners {
        match nails.iter_mut().find(|line| line.item == it.item) {
            Some(line) => {
                line.count += it.count;
                line.detail = format!("{}; {} {}", line.detail, it.count, it.purpose);
            }
            None => nails.push(Line {
                detail: format!("{} {}", it.count, it.purpose),
                ..line(Section::Fasteners, it.item.clone(), it.count, params)
            }),
        }
    }
    lines.extend(nails);
    lines.extend(shim_line(design));
    lines.extend(beads::lines(design));
    let supplies = finishing::supplies(design, sheets).into_iter();
    lines.extend(supplies.map(|it| Line {
        detail: it.detail,
        ..line(Section::Fasteners, it.item, it.count, params)
    }));
    lines.extend(pipe_lines(pipes, design));
    lines.extend(other_lines(design));
    lines.extend(own_lines(&lines, params));
    lines
}

/// What fills the wedges at the ends of uprights that are cut square.
fn shim_line(design: &Design) -> Option<Line> {
    let params = &design.params;
    let count = shims::count(design);
    let thickest = shims::thickest(design).tape(params.project.unit, Rounding::Up);
    (count > 0).then(|| Line {
        detail: format!("ends cut square; up to {thickest}"),
        ..line(Section::Fasteners, shims::SHIM.to_owned(), count, params)
    })
}

/// What the user buys beside: rows with a count whose item is in no other line.
fn own_lines(known: &[Line], params: &Params) -> Vec<Line> {
    let own = params.stock.prices.iter().filter_map(|it| {
        let count = it
            .count
            .filter(|_| known.iter().all(|line| line.item != it.item))?;
        Some(line(
            Section::Other,
            it.item.clone(),
            count as usize,
            params,
        ))
    });
    own.collect()
}

pub(super) fn line(section: Section, item: String, count: usize, params: &Params) -> Line {
    let price = params.stock.prices.iter().find(|it| it.item == item);
    Line {
        section,
        is_whole: section.is_whole(),
        price: price.and_then(|it| it.price),
        weight: price.and_then(|it| it.weight),
        item,
        count,
        spare: 0,
        detail: String::new(),
        board_feet: None,
    }
}

fn lumber_lines(boards: &[BoardPlan], params: &Params) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    for plan in boards {
        let from = lines.len();
        for cut in &plan.boards {
            let length = cut
                .sold
                .length
                .feet_inches(params.project.unit.marks(), Rounding::Nearest);
            let item = format!("{} x {length}", plan.board.name());
            if let Some(line) = lines[from..].iter_mut().find(|it| it.item == item) {
                line.count += 1;
                continue;
            }
            let section = match plan.board.size {
                FramingMember::Wood(_) => Section::Lumber,
                FramingMember::Steel(_) => Section::Steel,
            };
            let mut line = line(section, item, 1, params);
            line.price = cut.sold.price.or(line.price);
            // until all are counted, the feet of one
            line.board_feet = board_feet(plan.board.size.name(), cut.sold.length);
            lines.push(line);
        }
        // spare boards are of the length that most are
        let spare = plan.spare(params.stock.reject);
        let mut most: Option<&mut Line> = None;
        for line in &mut lines[from..] {
            if most.as_ref().is_none_or(|it| line.count > it.count) {
                most = Some(line);
            }
        }
        if let Some(line) = most {
            line.spare = spare;
        }
        for line in &mut lines[from..] {
            line.board_feet = line
                .board_feet
                .map(|one| one * (line.count + line.spare) as f64);
        }
    }
    lines
}

fn sheet_lines(sheets: &[SheetPlan], params: &Params) -> Vec<Line> {
    let lines = sheets.iter().map(|plan| {
        let sheet = &plan.sheet;
        let item = sheet.name(params.project.unit);
        let mut line = line(Section::Sheets, item, plan.sheets.len(), params);
        line.price = sheet.price.or(line.price);
        line.detail = if plan.sheets.len() > plan.least {
            format!("no plan needs fewer than {}", plan.least)
        } else {
            "no plan needs fewer".to_owned()
        };
        line
    });
    lines.collect()
}

fn pipe_lines(pipes: &PipeList, design: &Design) -> Vec<Line> {
    let params = &design.params;
    let unit = params.project.unit;
    let mut lines: Vec<Line> = Vec::new();
    let mut add = |(item, is_whole): (String, bool), count: usize, detail: String| match lines
        .iter_mut()
        .find(|it| it.item == item)
    {
        Some(line) => line.count += count,
        None if count > 0 => lines.push(Line {
            detail,
            is_whole,
            ..line(Section::Vent, item, count, params)
        }),
        None => {}
    };
    for run in &pipes.runs {
        let length = run.length.tape(unit, Rounding::Up);
        if params.pipe.is_none() {
            add(
                (format!("straight pipe, {length} between joints"), true),
                1,
                "sections: write [pipe] from the manual".to_owned(),
            );
        }
        for section in &run.made.sections {
            add(
                (
                    format!("pipe section {}", section.tape(unit, Rounding::Nearest)),
                    true,
                ),
                1,
                String::new(),
            );
        }
        if let Some(reach) = run.made.adjustable {
            add(
                ("adjustable pipe section".to_owned(), true),
                1,
                format!("set to {}", reach.tape(unit, Rounding::Nearest)),
            );
        }
        if run.made.rest.is_positive() && params.pipe.is_some() {
            let rest = run.made.rest.tape(unit, Rounding::Up);
            add(
                (
                    format!("{}: {rest} not covered by any section", run.part),
                    true,
                ),
                1,
                "change the run, or ask the maker".to_owned(),
            );
        }
    }
    add(("vent elbow".to_owned(), true), pipes.elbows, String::new());
    for (what, is_whole, count) in [
        ("pipe screws", false, pipes.screws),
        ("joints to seal", false, pipes.sealed),
        ("pipe clamps", true, pipes.clamps),
        ("vent straps", false, pipes.straps),
    ] {
        add(
            (what.to_owned(), is_whole),
            count.unwrap_or(0),
            format!("{} joints", pipes.joints),
        );
    }
    for (kind, item) in [(Kind::Firestop, "firestop"), (Kind::Cap, "vent cap")] {
        let mut parts = design.parts.iter().filter(|it| it.kind == kind);
        let Some(first) = parts.next() else { continue };
        // one cap is made of a hood and its front, and each pass has one plate
        let count = if kind == Kind::Firestop {
            1 + parts.count()
        } else {
            1
        };
        add((item.to_owned(), true), count, sheet_metal(first, unit));
    }
    lines
}

/// Width and height of a plate with the hole in it; nothing for other shapes.
fn sheet_metal(part: &Part, unit: TapeUnit) -> String {
    let Shape::Swept(swept) = &part.body.shape else {
        return String::new();
    };
    if part.kind != Kind::Firestop {
        return String::new();
    }
    let text = |corners: &[DVec2]| {
        let low = corners.iter().copied().fold(DVec2::INFINITY, DVec2::min);
        let high = corners
            .iter()
            .copied()
            .fold(DVec2::NEG_INFINITY, DVec2::max);
        let side = |mm: f64| Length::mm(mm).tape(unit, Rounding::Nearest);
        format!("{} x {}", side(high.x - low.x), side(high.y - low.y))
    };
    format!(
        "sheet metal, laps over the hole: {}",
        text(&swept.profile.outline)
    )
}

fn other_lines(design: &Design) -> Vec<Line> {
    let pairs = [
        (Kind::UnitBody, "the unit", true),
        // weighed as a part
        (Kind::Mantel, MANTEL, false),
        (
            Kind::Bracket,
            "mantel bracket of steel, drilled, with a tab",
            false,
        ),
        (Kind::Leg, LEG, false),
        (Kind::Cabinet, "cabinet", true),
        (Kind::Screen, "screen", true),
        (Kind::Mount, "screen mount", true),
        (Kind::Shutoff, "gas shutoff", true),
    ];
    let lines = pairs.into_iter().filter_map(|(kind, item, is_whole)| {
        let parts: Vec<_> = design.parts.iter().filter(|it| it.kind == kind).collect();
        let first = parts.first()?;
        let size = first.body.bounds.size();
        let text = |mm: f64| Length::mm(mm).tape(design.params.project.unit, Rounding::Nearest);
        Some(Line {
            detail: format!("{} x {} x {}", text(size.x), text(size.y), text(size.z)),
            is_whole,
            ..line(Section::Other, item.to_owned(), parts.len(), &design.params)
        })
    });
    let mut lines: Vec<Line> = lines.collect();
    lines.extend(pass_frame(design));
    lines.extend(designed_header(design));
    if let Some(gas) = design.params.gas.as_ref().filter(|it| it.panel) {
        let side = gas.hand_room.tape(design.params.project.unit, Rounding::Up);
        lines.push(Line {
            detail: format!("opening {side} x {side} or more in front of the gas shutoff"),
            is_whole: false,
            ..line(Section::Other, "access panel".to_owned(), 1, &design.params)
        });
    }
    lines
}

/// The header in a wall that may carry load: nobody knows yet what it is.
fn designed_header(design: &Design) -> Option<Line> {
    let mut bought = design.parts.iter();
    let header = bought.find(|it| it.kind == Kind::Header && it.stock == Stock::Bought)?;
    let length = Length::mm(header.body.bounds.size().x);
    Some(Line {
        detail: format!(
            "{} long, sized by a licensed designer, with its jacks and kings",
            length.tape(design.params.project.unit, Rounding::Up)
        ),
        ..line(
            Section::Other,
            "header over the unit, as designed".to_owned(),
            1,
            &design.params,
        )
    })
}

/// A pass's frame of sheet metal: pieces by length. One of wood is in the cut list.
fn pass_frame(design: &Design) -> Option<Line> {
    let unit = design.params.project.unit;
    let steel = design.parts.iter();
    let steel = steel.filter(|it| it.kind == Kind::PassFrame && it.stock == Stock::Bought);
    let lengths: Vec<String> = steel
        .map(|part| Length::mm(part.body.bounds.size().max_element()).tape(unit, Rounding::Nearest))
        .collect();
    (!lengths.is_empty()).then(|| Line {
        detail: format!("lengths {}", lengths.join(", ")),
        ..line(
            Section::Vent,
            "sheet metal stud for the pass, pieces".to_owned(),
            lengths.len(),
            &design.params,
        )
    })
}

/// Steel straps behind what hangs on walls of steel: pieces by length, one line for each height and gauge.
fn straps(design: &Design) -> Vec<Line> {
    let unit = design.params.project.unit;
    let mut lines: Vec<Line> = Vec::new();
    for part in &design.parts {
        let (Kind::Blocking, Stock::Bought, Shape::Swept(swept)) =
            (part.kind, &part.stock, &part.body.shape)
        else {
            continue;
        };
        let corners = swept.profile.outline.iter();
        let size = corners.fold(DVec2::ZERO, |most, it| most.max(*it));
        let wide = Length::mm(size.y).tape(unit, Rounding::Nearest);
        let stud = part.branch.stud(&design.params).steel();
        let thick = stud.map_or(0, |it| it.mils);
        let item = format!("steel strap, {wide} wide, {thick} mil, pieces");
        let length = Length::mm(swept.top.first().map_or(0.0, |it| it.height));
        let length = length.tape(unit, Rounding::Nearest);
        match lines.iter_mut().find(|it| it.item == item) {
            Some(line) => {
                line.count += 1;
                line.detail = format!("{}, {length}", line.detail);
            }
            None => lines.push(Line {
                detail: format!("lengths {length}"),
                ..line(Section::Steel, item, 1, &design.params)
            }),
        }
    }
    lines
}

/// Finish by face, with its outside corners.
pub(super) fn finish(design: &Design) -> Vec<FinishArea> {
    let mut found: Vec<FinishArea> = Vec::new();
    for part in design.parts.iter().filter(|it| it.kind == Kind::Finish) {
        let Shape::Swept(swept) = &part.body.shape else {
            continue;
        };
        let face = part.branch;
        let is_side = face.is_side_face();
        // the fronts of the two sides are the chase's outside corners
        let upright = edges(&swept.profile.outline)
            .filter(|(a, b)| (a.x - b.x).abs() <= TOLERANCE && a.x.abs() > TOLERANCE);
        let corners = upright.map(|(a, b)| (b.y - a.y).abs()).sum::<f64>();
        let area = swept.profile.area();
        let corners = Length::mm(if is_side { corners } else { 0.0 });
        match found.iter_mut().find(|it| it.face == face) {
            Some(known) => {
                known.area += area;
                known.corners += corners;
            }
            None => found.push(FinishArea {
                face,
                area,
                corners,
            }),
        }
    }
    found
}

/// Square feet of an area in square millimetres.
pub fn square_feet(area: f64) -> f64 {
    area * SQUARE_FEET
}
