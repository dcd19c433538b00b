//! Entities in, the text of a STEP file out, numbered in the order in which they are added.
//!
//! *Source*: ISO 10303-21: clause 6.4 (tokens; in strings an apostrophe and a backslash are
//! doubled, and what is not printable ASCII is written as `\X2\…\X0\` in UTF-16).

use std::collections::BTreeMap;
use std::fmt;
use std::fmt::Write as _;

use glam::DVec3;

use super::form::StepUnit;
use crate::export::number::{DIRECTION, push, push_digits};

/// The number of an entity; prints as `#12`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Id(u32);

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{}", self.0)
    }
}

/// The text under construction.
#[derive(Debug)]
pub(super) struct Text {
    data: String,
    last: u32,
    unit: StepUnit,
    /// Directions that have been written, by their rounded coordinates.
    directions: BTreeMap<[i64; 3], Id>,
}

impl Text {
    /// A file with this header and nothing in it, whose lengths are in this unit.
    pub(super) fn new(header: &str, unit: StepUnit) -> Self {
        Self {
            data: format!("ISO-10303-21;\nHEADER;\n{header}ENDSEC;\nDATA;\n"),
            last: 0,
            unit,
            directions: BTreeMap::new(),
        }
    }

    /// Adds an entity.
    pub(super) fn add(&mut self, entity: &str) -> Id {
        let id = self.begin(entity);
        self.end();
        id
    }

    /// Begins an entity whose text follows piece by piece.
    pub(super) fn begin(&mut self, start: &str) -> Id {
        self.last += 1;
        let id = Id(self.last);
        self.id(id);
        self.data.push('=');
        self.data.push_str(start);
        id
    }

    /// Continues an entity.
    pub(super) fn put(&mut self, piece: &str) -> &mut Self {
        self.data.push_str(piece);
        self
    }

    /// Continues an entity with a reference.
    pub(super) fn id(&mut self, id: Id) -> &mut Self {
        self.data.push('#');
        push_digits(&mut self.data, id.0.into(), 1);
        self
    }

    /// Continues an entity with a coordinate, given in millimetres.
    pub(super) fn length(&mut self, value: f64) -> &mut Self {
        let value = value / self.unit.millimetres();
        push(&mut self.data, value, self.unit.decimals());
        self
    }

    /// Continues an entity with an angle, or with a coordinate of a unit vector.
    pub(super) fn fine(&mut self, value: f64) -> &mut Self {
        push(&mut self.data, value, DIRECTION);
        self
    }

    /// Continues an entity with a list of references.
    pub(super) fn list(&mut self, ids: &[Id]) -> &mut Self {
        for (place, id) in ids.iter().enumerate() {
            self.data.push(if place == 0 { '(' } else { ',' });
            self.id(*id);
        }
        self.data.push(')');
        self
    }

    /// Ends an entity.
    pub(super) fn end(&mut self) {
        self.data.push_str(";\n");
    }

    /// Adds a point.
    pub(super) fn point(&mut self, point: DVec3) -> Id {
        let id = self.begin("CARTESIAN_POINT('',(");
        self.length(point.x)
            .put(",")
            .length(point.y)
            .put(",")
            .length(point.z);
        self.put("))").end();
        id
    }

    /// A direction, added unless it is there already.
    pub(super) fn direction(&mut self, direction: DVec3) -> Id {
        #[expect(clippy::cast_possible_truncation, reason = "a unit vector")]
        let key = (direction * 1e12)
            .to_array()
            .map(|axis| axis.round() as i64);
        if let Some(id) = self.directions.get(&key) {
            return *id;
        }
        let id = self.begin("DIRECTION('',(");
        for (place, axis) in direction.to_array().into_iter().enumerate() {
            self.put(if place == 0 { "" } else { "," });
            push(&mut self.data, axis, DIRECTION);
        }
        self.put("))").end();
        self.directions.insert(key, id);
        id
    }

    /// Adds a placement: its origin, its z axis and its x axis.
    pub(super) fn frame(&mut self, origin: DVec3, axis: DVec3, reference: DVec3) -> Id {
        let origin = self.point(origin);
        self.frame_at(origin, axis, reference)
    }

    /// Adds a placement at a point that is there already.
    pub(super) fn frame_at(&mut self, origin: Id, axis: DVec3, reference: DVec3) -> Id {
        let axis = self.direction(axis);
        let reference = self.direction(reference);
        let id = self.begin("AXIS2_PLACEMENT_3D('',");
        self.id(origin)
            .put(",")
            .id(axis)
            .put(",")
            .id(reference)
            .put(")")
            .end();
        id
    }

    /// The whole file.
    pub(super) fn finish(mut self) -> Vec<u8> {
        self.data.push_str("ENDSEC;\nEND-ISO-10303-21;\n");
        self.data.into_bytes()
    }
}

/// A string in quotes.
pub fn quoted(string: &str) -> String {
    let mut quoted = String::from("'");
    let mut wide = false;
    for character in string.chars() {
        // a doubled quote is right (ISO 10303-21), and yet a reader in use stops at it; its code is read by all
        if character == '\'' && !wide {
            quoted.push_str("\\X\\27");
            continue;
        }
        let printable = matches!(character, ' '..='~');
        if printable == wide {
            quoted.push_str(if wide { "\\X0\\" } else { "\\X2\\" });
            wide = !wide;
        }
        match character {
            '\'' => quoted.push_str("''"),
            '\\' => quoted.push_str("\\\\"),
            ' '..='~' => quoted.push(character),
            _ => {
                for unit in character.encode_utf16(&mut [0; 2]) {
                    let _ = write!(quoted, "{unit:04X}");
                }
            }
        }
    }
    if wide {
        quoted.push_str("\\X0\\");
    }
    quoted.push('\'');
    quoted
}
