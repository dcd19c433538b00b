//! A placed mesh in, its visible faces, its lines and its cut as they are seen out.
//!
//! *Units and frame*: millimetres, as the camera sees them.

use glam::DVec3;

use super::camera::Camera;
use super::color::{Color, shade};
use super::cut::{self, PlaneSide};
use super::outline::{Ridge, ridges};
use crate::geom::{Frame, Mesh, Plane};

/// A body before it is seen.
#[derive(Debug, Clone, Copy)]
pub(super) struct Model<'a> {
    pub(super) mesh: &'a Mesh,
    pub(super) frame: Frame,
    pub(super) color: Color,
    /// Whether its cut is hatched.
    pub(super) hatched: bool,
    /// Whether nothing of it is drawn but its cut.
    pub(super) cut_only: bool,
}

/// From where bodies are seen, and what is cut off them.
#[derive(Debug, Clone)]
pub(super) struct Sight {
    pub(super) camera: Camera,
    /// Square to the line of sight; what it cuts is closed again.
    pub(super) section: Option<Plane>,
    /// What they cut is left open.
    pub(super) limits: Vec<Plane>,
}

/// A body as it is seen.
#[derive(Debug, Clone, Default)]
pub(super) struct Seen {
    pub(super) faces: Vec<Face>,
    pub(super) lines: Vec<Line>,
    pub(super) cut: Option<CutFace>,
}

/// A triangle of a body.
#[derive(Debug, Clone, Copy)]
pub(super) struct Face {
    pub(super) corners: [DVec3; 3],
    pub(super) color: Color,
}

/// A line of a body.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line {
    pub(super) ends: [DVec3; 2],
    pub(super) kind: LineKind,
}

/// What a line of a body marks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum LineKind {
    /// A crisp edge with the same body on both sides of it.
    Inside,
    /// A crisp edge with the body on one side of it.
    Border,
    /// Where a round surface turns out of sight.
    Limb,
}

/// Where a body is cut: closed outlines, in pieces and in no order.
#[derive(Debug, Clone)]
pub(super) struct CutFace {
    pub(super) outline: Vec<[DVec3; 2]>,
    pub(super) color: Color,
    pub(super) hatched: bool,
}

impl Seen {
    /// Every point that has to find room in the picture.
    pub(super) fn points(&self) -> impl Iterator<Item = DVec3> + '_ {
        let faces = self.faces.iter().flat_map(|face| face.corners);
        let cut = self.cut.iter().flat_map(|cut| &cut.outline);
        faces.chain(cut.flatten().copied())
    }
}

/// A body while it is looked at.
struct Look<'a> {
    model: &'a Model<'a>,
    camera: &'a Camera,
    vertices: Vec<DVec3>,
    section: Option<Plane>,
    limits: Vec<Plane>,
}

impl Sight {
    /// How a body is seen; nothing when it is cut off entirely.
    pub(super) fn of(&self, model: &Model<'_>) -> Seen {
        let place = |vertex: &DVec3| model.frame.point(*vertex);
        let vertices: Vec<DVec3> = model.mesh.vertices.iter().map(place).collect();
        let sides: Vec<(PlaneSide, &Plane)> = self
            .section
            .iter()
            .chain(&self.limits)
            .map(|plane| (cut::side(plane, &vertices), plane))
            .collect();
        let across = |plane: &&Plane| sides.contains(&(PlaneSide::Across, *plane));
        let section = self.section.as_ref().filter(across).copied();
        let gone = sides.iter().any(|(side, _)| *side == PlaneSide::Above);
        if gone || (model.cut_only && section.is_none()) {
            return Seen::default();
        }
        let look = Look {
            model,
            camera: &self.camera,
            section,
            limits: self.limits.iter().filter(across).copied().collect(),
            vertices,
        };
        look.seen()
    }
}

impl Look<'_> {
    fn seen(&self) -> Seen {
        let mut seen = Seen::default();
        let mut outline = Vec::new();
        let mut visible = Vec::with_capacity(self.model.mesh.triangles.len());
        let mut corners = Vec::new();
        for triangle in &self.model.mesh.triangles {
            let [a, b, c] = triangle.corners.map(|corner| self.vertices[corner]);
            let faces = self.camera.faces(a, (b - a).cross(c - a));
            visible.push(faces);
            if !faces && self.section.is_none() {
                continue;
            }
            corners.clear();
            corners.extend([a, b, c]);
            if let Some(section) = &self.section {
                outline.extend(cut::face(section, &mut corners));
            }
            if faces && !self.model.cut_only {
                let normal: DVec3 = triangle.normals.iter().map(|n| self.normal(*n)).sum();
                self.add_faces(&mut seen, &mut corners, normal);
            }
        }
        if !self.model.cut_only {
            self.add_lines(&mut seen, &visible);
        }
        self.add_cut(&mut seen, &outline);
        seen
    }

    fn border(&self, ends: [DVec3; 2]) -> Line {
        Line {
            ends: ends.map(|end| self.camera.see(end)),
            kind: LineKind::Border,
        }
    }

    fn normal(&self, place: usize) -> DVec3 {
        self.model.frame.vector(self.model.mesh.normals[place])
    }

    /// Adds what the limits leave of a convex face.
    fn add_faces(&self, seen: &mut Seen, corners: &mut Vec<DVec3>, normal: DVec3) {
        for (place, limit) in self.limits.iter().enumerate() {
            let others = self.limits[..place].iter().chain(&self.limits[place + 1..]);
            let cut = cut::face(limit, corners);
            let border = others.fold(cut, |line, plane| cut::line(plane, line?));
            seen.lines.extend(border.map(|ends| self.border(ends)));
        }
        let normal = self.camera.turn(normal.normalize_or_zero());
        let color = shade(self.model.color, normal);
        let Some((first, rest)) = corners.split_first() else {
            return;
        };
        let first = self.camera.see(*first);
        for pair in rest.windows(2) {
            let [b, c] = [pair[0], pair[1]].map(|corner| self.camera.see(corner));
            seen.faces.push(Face {
                corners: [first, b, c],
                color,
            });
        }
    }

    /// Adds crisp edges and the limbs of round surfaces, those left out that the body itself hides.
    fn add_lines(&self, seen: &mut Seen, visible: &[bool]) {
        for Ridge {
            ends,
            beside,
            crisp,
        } in ridges(self.model.mesh)
        {
            let [first, second] = beside.map(|triangle| visible[triangle]);
            if first != second || (first && crisp) {
                let planes = self.section.iter().chain(&self.limits);
                let whole = Some(ends.map(|end| self.vertices[end]));
                let rest = planes.fold(whole, |line, plane| cut::line(plane, line?));
                seen.lines.extend(rest.map(|line| Line {
                    ends: line.map(|end| self.camera.see(end)),
                    kind: match (first && second, crisp) {
                        (true, _) => LineKind::Inside,
                        (false, true) => LineKind::Border,
                        (false, false) => LineKind::Limb,
                    },
                }));
            }
        }
    }

    fn add_cut(&self, seen: &mut Seen, outline: &[[DVec3; 2]]) {
        if outline.is_empty() {
            return;
        }
        let lines: Vec<Line> = outline.iter().map(|ends| self.border(*ends)).collect();
        seen.cut = Some(CutFace {
            outline: lines.iter().map(|line| line.ends).collect(),
            color: self.model.color,
            hatched: self.model.hatched,
        });
        seen.lines.extend(lines);
    }
}
