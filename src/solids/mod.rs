//! Design in, solids out: the boundary and the mesh of every distinct shape, and where each stands.
//!
//! *Units and frame*: millimetres; shapes in their own frames, occurrences placed in the world.
//!
//! *Errors*: [`SolidError`] names the part whose shape is no proper solid.
//!
//! *The kernel*: its booleans fail on touching faces, and framing is nothing but touching faces, so there are no unions
//! and no kernel booleans anywhere. Its builder makes every plane-faced shape a second time, from the corners alone, and
//! finds the planes itself; it is more exact near the origin, so shapes are moved there first. It has no circle: cylinders
//! and tori are true surfaces of our own ([`Brep`]), whose shells it proves closed and right side out. A profile whose
//! normal points along the sweep gives a solid of negative volume without an error, so every mesh's volume is checked.

mod brep;
mod fault;
mod kernel;
mod tube;

use std::collections::BTreeMap;

pub use brep::{Brep, Curve, Edge, Face, Surface, Trace, Use};
pub use fault::Fault;

use crate::design::{Design, Note};
use crate::geom::{Body, Frame, Mesh, Shape, ShapeKey};
use crate::units::Length;

/// The solids of one design.
#[derive(Debug, Clone, Default)]
pub struct Solids {
    /// Every distinct shape once, in the order in which the design first uses it.
    pub shapes: Vec<Solid>,
    /// Every part of the design, in its order: which shape, and where.
    pub parts: Vec<Placed>,
    /// Every clearance volume of the design, in its order.
    pub clearances: Vec<Placed>,
}

/// One shape as exporters need it.
#[derive(Debug, Clone)]
pub struct Solid {
    /// Its boundary, true to the surface.
    pub brep: Brep,
    /// Its closed mesh.
    pub mesh: Mesh,
}

/// Where a shape stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placed {
    /// The place in [`Solids::shapes`].
    pub shape: usize,
    /// The shape's frame in the world.
    pub frame: Frame,
}

/// A design whose solids are proved, as far as they can be.
#[derive(Debug, Clone)]
pub struct Proved {
    /// All of it, with a [`Note::Unproved`] for each shape that is no proper solid.
    pub design: Design,
    /// The same without those shapes, as the model's files show it.
    pub shown: Design,
    /// The solids of what is shown.
    pub solids: Solids,
}

/// A part whose shape is no proper solid.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{part}: {fault}")]
pub struct SolidError {
    /// The part's id.
    pub part: String,
    /// What is wrong with its shape.
    pub fault: Fault,
}

impl Proved {
    /// Proves a design: a shape that is no proper solid is noted, and does not cost the others.
    pub fn new(mut design: Design, chord_error: Length) -> Self {
        let mut shown = design.clone();
        let solids = loop {
            match Solids::new(&shown, chord_error) {
                Ok(solids) => break solids,
                Err(SolidError { part, fault }) => {
                    shown.parts.retain(|it| it.id != part);
                    shown.clearances.retain(|it| it.id != part);
                    design.notes.push(Note::Unproved {
                        id: part,
                        why: fault.to_string(),
                    });
                }
            }
        };
        shown.notes.clone_from(&design.notes);
        Self {
            design,
            shown,
            solids,
        }
    }
}

impl Solids {
    /// The solids of a design; no mesh misses its round surfaces by more than the chord error.
    ///
    /// # Errors
    /// The first part whose shape is no proper solid.
    pub fn new(design: &Design, chord_error: Length) -> Result<Self, SolidError> {
        let mut solids = Self::default();
        let mut known = BTreeMap::new();
        for part in &design.parts {
            let placed = solids.place(&mut known, &part.id, &part.body, chord_error)?;
            solids.parts.push(placed);
        }
        for clearance in &design.clearances {
            let placed = solids.place(&mut known, &clearance.id, &clearance.body, chord_error)?;
            solids.clearances.push(placed);
        }
        Ok(solids)
    }

    /// A body as a shape with a place; the shape is made when its like has not been seen.
    fn place(
        &mut self,
        known: &mut BTreeMap<ShapeKey, usize>,
        id: &str,
        body: &Body,
        chord_error: Length,
    ) -> Result<Placed, SolidError> {
        let key = ShapeKey::from(&body.shape);
        let shape = if let Some(shape) = known.get(&key) {
            *shape
        } else {
            let solid = Solid::new(&body.shape, chord_error).map_err(|fault| SolidError {
                part: id.to_owned(),
                fault,
            })?;
            self.shapes.push(solid);
            known.insert(key, self.shapes.len() - 1);
            self.shapes.len() - 1
        };
        Ok(Placed {
            shape,
            frame: body.frame,
        })
    }
}

impl Solid {
    /// The solid of one shape, checked by the kernel.
    ///
    /// # Errors
    /// When the shape is empty, or its shell or mesh is not closed or is inside out.
    pub fn new(shape: &Shape, chord_error: Length) -> Result<Self, Fault> {
        let brep = Brep::new(shape);
        kernel::prove(&brep)?;
        let mesh = Mesh::new(shape, chord_error);
        kernel::volume(&mesh)?;
        Ok(Self { brep, mesh })
    }
}
