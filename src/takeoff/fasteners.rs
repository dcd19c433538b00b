//! Nails, screws and anchors, from what touches what.
//!
//! In: the design. Out: counts by size. Framing is nailed by a published schedule; board, panels, slab and ceiling
//! are fixed by the user's own.
//!
//! # Source
//! Washington Administrative Code 246-359-340, table 340: stud to sole plate 4-8d toe nailed or 2-16d end nailed;
//! top plate to stud 2-16d; double studs 16d at 24 in; doubled top plates 16d at 16 in; header of two pieces 16d at
//! 16 in along each edge; header to stud 4-8d toe nailed; blocking 3-8d toe nailed; plates at laps and
//! intersections 2-16d. Stud to a top plate that is fixed already 4-8d toe nailed: IRC 2018, table R602.3(1), stud to top or
//! bottom plate, from memory.

mod purpose;
mod steel;

pub use purpose::Purpose;

use crate::catalog::Screw;
use crate::design::{
    Branch, Design, Kind, Part, StandingWall, Stock, fit_of, mantel_fixings, nail_plates,
    passed_by_ceiling_screw, raising,
};
use crate::geom::{Contact, EndPlane};
use crate::params::{Fasteners, Fit, FloorKind, MantelHold};
use crate::units::{Length, MM_PER_INCH, Rounding, TapeUnit};

use super::layout::is_framing;

const DOUBLED_STUDS: Length = Length::inches(24.0);
const DOUBLED_PLATES: Length = Length::inches(16.0);
const HEADER_PLIES: Length = Length::inches(16.0);

/// So many of one fastener.
#[derive(Debug, Clone, PartialEq)]
pub struct FastenerCount {
    /// What it is, as the buy list shows it.
    pub item: String,
    /// How many.
    pub count: usize,
    /// What it is for.
    pub purpose: Purpose,
}

struct Counts(Vec<FastenerCount>);

impl Counts {
    fn add(&mut self, item: impl Into<String>, count: usize, purpose: Purpose) {
        let item = item.into();
        match self
            .0
            .iter_mut()
            .find(|it| it.item == item && it.purpose == purpose)
        {
            Some(known) => known.count += count,
            None => self.0.push(FastenerCount {
                item,
                count,
                purpose,
            }),
        }
    }
}

/// Everything that holds the chase together.
pub(super) fn count(design: &Design) -> Vec<FastenerCount> {
    let mut counts = Counts(Vec::new());
    let framing: Vec<&Part> = design.parts.iter().filter(|it| is_framing(it)).collect();
    let walls = raising(design);
    for (at, first) in framing.iter().enumerate() {
        for second in &framing[at + 1..] {
            if let Some(touch) = steel::touch(first, second) {
                if !steel::between(first, second, &touch, &mut counts) {
                    let fit = fit_of(&walls, design, first.branch);
                    nails(first, second, &touch, fit, &mut counts);
                }
                panel_screws(first, second, &touch, &design.params.fasteners, &mut counts);
            }
        }
    }
    board_screws(design, &framing, &mut counts);
    long_parts(design, &mut counts);
    end_studs(design, &mut counts);
    plates_over_bores(design, &mut counts);
    cleats(design, &mut counts);
    mantel(design, &mut counts);
    counts.0
}

fn is_upright(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple | Kind::Return | Kind::RecessFraming
    )
}

fn span(touch: &Contact) -> Length {
    let size = touch.high - touch.low;
    Length::mm(size.x.max(size.y).max(size.z))
}

/// One at each end and one for each further spacing begun.
pub(super) fn along(length: Length, spacing: Length) -> usize {
    1 + begun(length, spacing)
}

/// How many spacings are begun along a length.
pub(super) fn begun(length: Length, spacing: Length) -> usize {
    let mut count = 0;
    let mut at = Length::ZERO;
    while (length - at).is_positive() {
        at += spacing;
        count += 1;
    }
    count
}

fn nails(first: &Part, second: &Part, touch: &Contact, fit: Fit, counts: &mut Counts) {
    let kinds = if first.kind <= second.kind {
        (first.kind, second.kind)
    } else {
        (second.kind, first.kind)
    };
    let treated = [first, second]
        .iter()
        .any(|it| it.material == crate::catalog::Material::TREATED);
    let nail = |size: &str| {
        if treated {
            format!("{size} nails, hot-dip galvanized or stainless")
        } else {
            format!("{size} nails")
        }
    };
    match kinds {
        (Kind::SolePlate, upright) if is_upright(upright) => match fit {
            Fit::InPlace => counts.add(nail("8d"), 4, Purpose::StudToSoleToe),
            Fit::TiltUp | Fit::PlateFirst | Fit::FirstThatFits => {
                counts.add(nail("16d"), 2, Purpose::StudToSoleEnd);
            }
        },
        (Kind::TopPlate, upright) if is_upright(upright) => match fit {
            // nobody gets at the upper side of a plate that is fixed already
            Fit::InPlace | Fit::PlateFirst => {
                counts.add(nail("8d"), 4, Purpose::StudToTopPlate);
            }
            Fit::TiltUp | Fit::FirstThatFits => {
                counts.add(nail("16d"), 2, Purpose::PlateToStud);
            }
        },
        (upright, Kind::Ledge) if is_upright(upright) => {
            counts.add(nail("16d"), 2, Purpose::PlateToStud);
        }
        (Kind::TopPlate, Kind::TopPlate) if first.branch != second.branch => {
            counts.add(nail("16d"), 2, Purpose::PlatesAtCorners);
        }
        (Kind::TopPlate, Kind::TopPlate) => {
            counts.add(
                nail("16d"),
                along(span(touch), DOUBLED_PLATES),
                Purpose::DoubledPlates,
            );
        }
        (Kind::Header, Kind::Header) => {
            counts.add(
                nail("16d"),
                2 * along(span(touch), HEADER_PLIES),
                Purpose::HeaderPlies,
            );
        }
        (upright, Kind::Header | Kind::Sill) if is_upright(upright) => {
            counts.add(nail("8d"), 4, Purpose::HeaderToStud);
        }
        (Kind::Blocking, _) | (_, Kind::Blocking | Kind::PassFrame) => {
            counts.add(nail("8d"), 3, Purpose::Blocking);
        }
        (a, b) if is_upright(a) && is_upright(b) => {
            counts.add(
                nail("16d"),
                along(span(touch), DOUBLED_STUDS),
                Purpose::DoubledStuds,
            );
        }
        _ => {}
    }
}

/// A wood screw by what it passes and its bite: of the next length that is sold.
fn screw(passed: Length, bite: Length) -> String {
    sold(Screw::Wood, passed + bite)
}

/// A wood screw of a length that is sold.
fn screws_of(length: Length) -> String {
    sold(Screw::Wood, length)
}

/// A screw of a kind, of the next length that is sold; where none is sold so long, by the length itself.
fn sold(kind: Screw, length: Length) -> String {
    let inches = |it: Length| it.tape(TapeUnit::Inch, Rounding::Up);
    kind.at_least(length).map_or_else(
        || {
            format!(
                "{} or longer {}, longer than yards stock",
                inches(length),
                kind.name()
            )
        },
        |it| format!("{} {}", inches(it), kind.name()),
    )
}

fn panel_screws(
    first: &Part,
    second: &Part,
    touch: &Contact,
    own: &Fasteners,
    counts: &mut Counts,
) {
    let pair = match (first.kind, second.kind) {
        (Kind::PlatformPanel, Kind::Sleeper | Kind::PlatformPanel) => Some(first),
        (Kind::Sleeper, Kind::PlatformPanel) => Some(second),
        _ => None,
    };
    let Some(panel) = pair else { return };
    if first.kind == second.kind {
        // panel on panel: rows as far apart as the screws in them
        let size = touch.high - touch.low;
        let rows = along(Length::mm(size.y), own.panel_screw_spacing);
        let count = rows * along(Length::mm(size.x), own.panel_screw_spacing);
        counts.add(
            screw(thickness(panel), own.screw_bite),
            count,
            Purpose::PlatformPanels,
        );
    } else {
        let count = along(span(touch), own.panel_screw_spacing);
        counts.add(
            screw(thickness(panel), own.screw_bite),
            count,
            Purpose::PlatformPanels,
        );
    }
}

fn thickness(part: &Part) -> Length {
    if let Stock::Sheet(thickness) = part.stock {
        thickness
    } else {
        Length::ZERO
    }
}

fn board_screws(design: &Design, framing: &[&Part], counts: &mut Counts) {
    let own = &design.params.fasteners;
    let boards = design.parts.iter();
    for board in boards.filter(|it| matches!(it.kind, Kind::Board | Kind::Furring)) {
        for stick in framing {
            if let Some(touch) = steel::board_on(board, stick) {
                let length = span(&touch);
                // the edge of a stick holds one row, and a crumb of contact none
                if length > Length::mm(MM_PER_INCH) {
                    let is_cement = board.material == crate::catalog::Material::CEMENT_BOARD;
                    let (kind, purpose) = if is_cement {
                        (Screw::CementBoard, Purpose::CementBoard)
                    } else {
                        (Screw::GypsumBoard, Purpose::GypsumBoard)
                    };
                    let item = if steel::is_steel(stick) {
                        steel::board_screw(stick, (kind, thickness(board)))
                    } else {
                        sold(kind, thickness(board) + own.screw_bite)
                    };
                    counts.add(item, along(length, own.board_screw_spacing), purpose);
                }
            }
        }
    }
}

/// Screws of the uprights that stand flat against a wall of the room, through its layers into what stands in it.
fn end_studs(design: &Design, counts: &mut Counts) {
    let own = &design.params.fasteners;
    for part in &design.parts {
        if !matches!(part.kind, Kind::Stud | Kind::King | Kind::Return) {
            continue;
        }
        // with its wide side; the studs of a side wall along a wall of the room stand on edge before it
        let ends_at = |wall: &&StandingWall| {
            let deep = part.reach(wall.frame.y).size();
            !wall.holds(part) && wall.against(part).is_some_and(|it| it.size() >= deep)
        };
        let Some(wall) = design.layout.standing.iter().find(ends_at) else {
            continue;
        };
        let thickness = if steel::is_steel(part) {
            part.branch.stud(&design.params).plate()
        } else {
            part.reach(wall.frame.y).size()
        };
        let middle = wall.frame.local_point(part.body.bounds.center()).y;
        let layer = if middle < 0.0 {
            wall.depths.studs
        } else {
            wall.depths.outside - wall.depths.sheathing
        };
        counts.add(
            screw(thickness + layer, own.ceiling_screw_bite),
            along(part.heights().size(), own.wall_screw_spacing),
            Purpose::EndStuds,
        );
    }
}

/// Steel plates over the edges of bored studs.
fn plates_over_bores(design: &Design, counts: &mut Counts) {
    if !design.params.fasteners.nail_plates {
        return;
    }
    for plate in nail_plates(design) {
        let unit = design.params.project.unit;
        let length = plate.length.tape(unit, Rounding::Up);
        let thick = match unit {
            TapeUnit::Inch => "1/16 in",
            TapeUnit::Millimeter => "1.6 mm",
        };
        let item = format!("nail plates of steel, {thick} thick, {length} or longer");
        counts.add(item, 1, Purpose::OverBores);
    }
}

/// Screws of the cleats into studs, through a lining where there is one, and of the shelf down into them.
fn cleats(design: &Design, counts: &mut Counts) {
    let own = &design.params.fasteners;
    let Some(cables) = &design.params.cables else {
        return;
    };
    let on_walls = design.parts.iter();
    let on_walls = on_walls.filter(|it| it.kind == Kind::Cleat && it.is_of(Branch::Cables));
    for cleat in on_walls {
        let length = cleat.reach(cleat.body.frame.z).size();
        let passed = cables.cleats.breadth() + design.layout.site.lining;
        let into_studs = 2 * along(length, own.wall_screw_spacing);
        let item = screw(passed, own.ceiling_screw_bite);
        counts.add(item, into_studs, Purpose::Cleats);
        let down = screw(cables.shelf_thickness, own.screw_bite);
        counts.add(down, along(length, own.panel_screw_spacing), Purpose::Shelf);
    }
}

/// Screws that hold the mantel, or its cleat or brackets, with plugs for counterbored holes; and those of the mantel on
/// its cleat or brackets.
fn mantel(design: &Design, counts: &mut Counts) {
    let Some(mantel) = &design.params.mantel else {
        return;
    };
    for fixing in mantel_fixings(design) {
        counts.add(screws_of(fixing.screw()), 1, Purpose::Mantel);
        if mantel.held_by == Some(MantelHold::Screws) {
            counts.add("wood plugs, 1/2\"", 1, Purpose::MantelPlugs);
        }
    }
    for part in &design.parts {
        match (part.kind, part.branch) {
            (Kind::Cleat, Branch::Mantel) => {
                let length = part.reach(part.body.frame.z).size();
                let item = screw(mantel.shell, design.params.fasteners.screw_bite);
                counts.add(item, along(length, mantel.hold_spacing), Purpose::MantelOn);
            }
            (Kind::Bracket, _) => {
                let item = screw(
                    mantel.bracket_thickness,
                    design
                        .params
                        .fasteners
                        .screw_bite
                        .min(mantel.thickness / 2.0),
                );
                counts.add(item, 1, Purpose::MantelOn);
            }
            _ => {}
        }
    }
}

/// What is counted along a part by itself: anchors, plies of a header, screws into the ceiling.
fn long_parts(design: &Design, counts: &mut Counts) {
    let own = &design.params.fasteners;
    for part in &design.parts {
        let size = part.body.bounds.size();
        let length = Length::mm(size.x.max(size.y));
        if part.kind == Kind::SolePlate {
            let on_wood = design.params.room.floor_kind == Some(FloorKind::Wood);
            let item = match (on_wood, steel::is_steel(part)) {
                (true, _) => "structural screws, into the floor's joists or blocks",
                (false, true) => "slab anchors or drive pins, for track",
                (false, false) => "slab anchors, hot-dip galvanized or stainless",
            };
            let count = along(length, own.anchor_spacing);
            counts.add(item, count, Purpose::SolePlates);
        } else if part.kind == Kind::HeaderSpacer {
            let count = 2 * along(length, HEADER_PLIES);
            counts.add("16d nails", count, Purpose::HeaderPlies);
        } else if part.kind == Kind::TopPlate {
            let count = along(length, own.ceiling_screw_spacing);
            counts.add(ceiling_screw(design, part), count, Purpose::UnderCeiling);
        }
    }
}

/// The screws of a top plate into what lies over it.
fn ceiling_screw(design: &Design, plate: &Part) -> String {
    let own = &design.params.fasteners;
    let middle = plate.body.bounds.center().truncate();
    let ceiling = design.layout.ceiling_of(plate);
    let over = ceiling.planes().get(ceiling.plane_at(middle));
    let over = over.copied().unwrap_or(EndPlane::level(Length::ZERO));
    own.ceiling_screw.map_or_else(
        || {
            let passed = passed_by_ceiling_screw(&design.params, &over);
            screw(passed, own.ceiling_screw_bite)
        },
        |own| screw(own, Length::ZERO),
    )
}
