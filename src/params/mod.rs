//! Parameter text in, [`Params`] out, or every fault with its place.
//!
//! *Units*: lengths as a tape reads them; bare numbers in the file's own unit. *Frame*: what is measured
//! "from the left corner" grows to the right as seen from the room, what is measured "out from the wall"
//! grows into the room, heights count from the floor datum.
//!
//! All parameters stand in one list, [`PARAMETERS`], and everything that knows of them works from it.

#![deny(clippy::wildcard_enum_match_arm)]

mod ceiling;
mod chase_wall;
mod choice;
mod consistent;
mod corner;
mod datum;
mod decision;
mod ease;
mod fault;
mod fixed;
mod grid;
mod guide;
mod hand;
mod header;
mod heights;
mod layer;
mod lean;
mod level;
mod likely;
mod list;
mod manual;
mod nature;
mod nearest;
mod others;
mod placement;
mod range;
mod read;
mod reading;
mod resolve;
mod room_wall;
mod route;
mod rows;
mod sheet_size;
mod shown;
mod site;
mod sound;
mod stock;
mod studs;
mod table;
mod text;

mod value;
mod vent_step;
mod walls;
mod written;
mod written_from;
mod yard;

pub use chase_wall::ChaseWall;
pub use choice::{
    Bearing, BesideSides, CeilingSlope, Collar, DoorHinge, FinishMaterial, Fit, FloorDatum,
    FloorKind, FrameStock, FrontForm, Fuel, GapFill, GasEntry, GasMaterial, GasPipe, GasTable,
    HeaderForm, HeightDatum, JobStep, MantelExtent, MantelHold, OverChase, Permission, Placement,
    PlateEdges, PlatesAlong, ProjectionDatum, RafterKind, Rafters, Reach, Receptacle, RidgeRun,
    ServiceFrom, SpaceBehind, StubFrom, USUAL_GAP, VeneerStandard,
};
pub use datum::{Axis, Datum, Follower, Following};
pub use decision::Decision;
pub use fault::Fault;
pub use fixed::FixedThing;
pub use grid::{CableRoute, Columns, FloorRows, OutsideOpenings, PlumbRows, RunRows, SideRows};
pub use guide::guide;
pub use hand::Hand;
pub use header::Header;
pub use heights::Heights;
pub use layer::Layer;
pub use lean::Lean;
pub use level::FloorReading;
pub use likely::{Doubt, Likely};
pub use list::{
    Appliance, Behind, Blocking, Cabinets, Cables, Ceiling, CeilingRafters, Chase, ExistingWall,
    Fasteners, FireplaceWall, Front, GROUPS, Gas, Legs, Mantel, Outside, PARAMETERS, Params,
    PipeKit, Platform, Project, Recess, Ridge, Roof, Room, Saw, Screen, SideRule, Skins, StockYard,
    Vent, Visits, WallsRaised,
};
pub use manual::{MantelRule, Manual, Step};
pub use nature::Nature;
pub use range::Range;
pub use read::read;
pub use reading::Reading;
pub use room_wall::RoomWall;
pub use route::{Exit, Leg, Lie, Route};
pub use site::{Back, End, Site};
pub use table::{Group, Parameter, Presence};
pub use value::{Kind, Value};
pub use vent_step::{Heading, Toward, VentStep};
pub use walls::{room_plan, wall_frame};
pub use yard::{BoardStock, Price, SheetKind, SheetStock};

use crate::units::Length;

impl Params {
    /// The value of a key such as `chase.width`; `None` for an unknown key or one that is left out.
    pub fn get(&self, key: &str) -> Option<Value> {
        parameter(key).and_then(|parameter| (parameter.get)(self))
    }

    /// The same parameters with one value changed, judged as if they had been written so: what is written from another
    /// thing follows, and a key that is given a plain number follows nothing any more.
    ///
    /// # Errors
    /// The faults of the new value, or of how it goes with the others; an unknown key; a key of a table that
    /// these parameters leave out.
    ///
    /// # Examples
    /// ```
    /// use chasewright::params::{self, Value};
    /// use chasewright::units::Length;
    ///
    /// let text = include_str!(concat!(
    ///     env!("CARGO_MANIFEST_DIR"),
    ///     "/params/reading-room.toml"
    /// ));
    /// let params = params::read(text).expect("a sound file");
    /// let depth = Value::Length(Length::inches(30.0));
    /// let deeper = params.with("chase.depth", &depth).expect("a sound depth");
    /// assert_eq!(deeper.get("chase.depth"), Some(depth));
    /// ```
    pub fn with(&self, key: &str, value: &Value) -> Result<Self, Vec<Fault>> {
        self.with_all(&[(key, value.clone())])
    }

    /// As [`Params::with`], with several parameters changed at once: how they go together is looked at only then.
    ///
    /// # Errors
    /// Those of [`Params::with`].
    pub fn with_all(&self, changes: &[(&str, Value)]) -> Result<Self, Vec<Fault>> {
        let mut changed = self.clone();
        for (key, value) in changes {
            let parameter = parameter(key).ok_or_else(|| vec![unknown(key)])?;
            if let Some(fault) = sound::fault(parameter, value, self.project.unit) {
                return Err(vec![fault]);
            }
            // what follows is resolved below; until then its field takes a number
            let (following, number) = if let Value::Following(it) = value {
                (Some(*it), &Value::Length(Length::ZERO))
            } else {
                (None, value)
            };
            if !(parameter.set)(&mut changed, number) {
                return Err(vec![unfit(self, parameter, value)]);
            }
            changed.follow(parameter.key, following);
            changed.untold.retain(|it| it != key);
            changed.left_out.retain(|it| it != key);
        }
        changed.consistent()
    }

    /// The same parameters with one key left out, judged as if they had been written so.
    ///
    /// # Errors
    /// A key that has to be written, or whose table these parameters leave out; how the rest goes together without
    /// it; an unknown key.
    pub fn without(&self, key: &str) -> Result<Self, Vec<Fault>> {
        let parameter = parameter(key).ok_or_else(|| vec![unknown(key)])?;
        let mut changed = self.clone();
        changed.follow(parameter.key, None);
        if !(parameter.clear)(&mut changed, self.project.unit) {
            let fault = Fault::new(key, format!("`{key}` cannot be left out"));
            let fault = fault.found(format!("nothing for `{key}`"));
            let fault = fault.expected(written::example(parameter.kind));
            return Err(vec![fault.way_out(parameter.meaning)]);
        }
        let left = match parameter.presence {
            Presence::Assumed => Some(&mut changed.untold),
            Presence::Default => Some(&mut changed.left_out),
            Presence::Required | Presence::Absent => None,
        };
        if let Some(left) = left.filter(|it| !it.contains(&parameter.key)) {
            left.push(parameter.key);
            let place = |key: &str| PARAMETERS.iter().position(|it| it.key == key);
            left.sort_by_key(|it| place(it));
        }
        changed.consistent()
    }

    /// The same parameters with one table left out, judged as if they had been written so.
    ///
    /// # Errors
    /// A table that every file has, or none; how the rest goes together without it.
    pub fn without_table(&self, name: &str) -> Result<Self, Vec<Fault>> {
        let group = GROUPS.iter().find(|it| it.name == name);
        let mut changed = self.clone();
        if !group.is_some_and(|it| (it.clear)(&mut changed)) {
            let fault = Fault::new(name, format!("[{name}] cannot be left out"));
            let fault = fault.found(format!("no [{name}]"));
            let fault = fault.expected("a table that may be left out");
            return Err(vec![fault.way_out("leave out its keys instead")]);
        }
        let own = |key: &str| parameter(key).is_some_and(|it| it.group == name);
        changed.untold.retain(|it| !own(it));
        changed.left_out.retain(|it| !own(it));
        changed.following.retain(|it| !own(it.0));
        changed.consistent()
    }

    /// These parameters with what follows another thing resolved, or how they do not go together.
    fn consistent(mut self) -> Result<Self, Vec<Fault>> {
        if !self.following.is_empty() {
            resolve::resolve(&mut self)?;
        }
        let faults = consistent::faults(&self);
        if faults.is_empty() {
            Ok(self)
        } else {
            Err(faults)
        }
    }

    /// Whether the table is there that a key stands in.
    pub fn has_table_of(&self, key: &str) -> bool {
        let table = key.split_once('.').map_or(key, |it| it.0);
        self.has(table)
    }

    /// What a parameter holds, as a person would write it; "none" where that is nothing.
    pub fn text_of(&self, parameter: &Parameter) -> String {
        let text = (parameter.get)(self).map(|it| it.text(self.project.unit));
        let text = text.filter(|it| !it.is_empty());
        text.unwrap_or_else(|| "none".to_owned())
    }

    /// Whether a table of the parameter file is there: always, unless it is one that may be left out.
    pub fn has(&self, group: &str) -> bool {
        GROUPS
            .iter()
            .any(|known| known.name == group && (known.present)(self))
    }
}

/// The parameter of a dotted key.
pub fn parameter(key: &str) -> Option<&'static Parameter> {
    PARAMETERS.iter().find(|parameter| parameter.key == key)
}

fn unknown(key: &str) -> Fault {
    let near = nearest::dotted(key).map_or("", |near| near.key);
    Fault::new(key, format!("there is no parameter `{key}`"))
        .found(format!("`{key}`"))
        .expected("the dotted key of a parameter")
        .way_out(format!("did you mean `{near}`?"))
}

/// The fault of a value that its field does not take.
fn unfit(params: &Params, parameter: &Parameter, value: &Value) -> Fault {
    let key = parameter.key;
    if !params.has(parameter.group) {
        return Fault::new(
            key,
            format!("these parameters have no [{}]", parameter.group),
        )
        .found(format!("`{key}`"))
        .expected(format!("a table [{}]", parameter.group))
        .way_out("add the table first");
    }
    let page = if parameter.needs_page {
        ", with the manual's page"
    } else {
        ""
    };
    Fault::new(key, format!("`{key}` takes another kind of value"))
        .found(value.text(params.project.unit))
        .expected(format!("{}{page}", written::example(parameter.kind)))
        .way_out(parameter.meaning)
}
