//! Bodies and a view in, the picture's pixels out: what is shown, how it is fitted, in which order
//! it is drawn.

use glam::{DVec2, DVec3};

use super::body::{CutFace, Line, LineKind, Model, Seen, Sight};
use super::canvas::Canvas;
use super::color::{Color, WHITE, is_dark, mix};
use super::view::{Show, View, built, room_limits};
use crate::export::appearance::Appearance;
use crate::export::item::{Item, What};
use crate::export::products::Bodies;
use crate::geom::{Bounds, Frame, Mesh};

/// The largest picture, in pixels.
const LARGEST: DVec2 = DVec2::new(1600.0, 1080.0);
/// White round the model, in pixels.
const MARGIN: f64 = 30.0;
/// How far the color of what is already there is mixed with white.
const PALE: f64 = 0.55;
/// What a cut keeps of its color.
const CUT: f64 = 0.78;
/// Lines on dark bodies, and lines of translucent bodies.
const PALE_LINE: Color = [128, 124, 120];
const FAINT: f64 = 0.4;
/// How far behind a face a line may lie and still be drawn, in pixels; round surfaces bulge before
/// their limbs.
const SLACK: f64 = 1.5;
const LIMB_SLACK: f64 = 4.0;

/// A thing in the picture, and how it is laid on.
struct Thing {
    seen: Seen,
    color: Color,
    opacity: f64,
    /// Whether it shows through what is before it.
    through: bool,
    /// Whether the picture has to have room for it.
    fitted: bool,
}

impl Thing {
    fn is_solid(&self) -> bool {
        self.opacity >= 1.0
    }
}

/// From seen millimetres to pixels.
struct Fit {
    left: f64,
    top: f64,
    scale: f64,
    size: DVec2,
}

/// Draws a view.
pub(super) fn draw(bodies: &Bodies<'_>, view: &View) -> Canvas {
    let things = things(bodies, view);
    let fit = Fit::new(&things);
    let mut canvas = fit.canvas();
    draw_solid(&mut canvas, &fit, &things);
    draw_clear(&mut canvas, &fit, &things);
    canvas
}

/// Where points of the world lie in a view, in pixels, and the picture's size.
pub(super) fn spots(bodies: &Bodies<'_>, view: &View, points: &[DVec3]) -> (DVec2, Vec<DVec2>) {
    let fit = Fit::new(&things(bodies, view));
    let camera = (view.camera)(&built(&Item::all(bodies)));
    let spots = points
        .iter()
        .map(|it| fit.pixels(camera.see(*it)).truncate());
    (fit.size, spots.collect())
}

fn things(bodies: &Bodies<'_>, view: &View) -> Vec<Thing> {
    let items = Item::all(bodies);
    let bounds = built(&items);
    let camera = (view.camera)(&bounds);
    let sight = Sight {
        camera,
        section: view.section.map(|plane| plane(bodies.design)),
        limits: camera.near().into_iter().collect(),
    };
    let mut room = sight.clone();
    if view.room_ends {
        room.limits.extend(room_limits(&bounds));
    }
    let mut things = Vec::new();
    for item in &items {
        let in_room = item.group().stands_already();
        let sight = if in_room { &room } else { &sight };
        let fitted = view.room_ends || !in_room;
        things.extend(thing(bodies, sight, item, (view.show)(item), fitted));
    }
    // An overlap lies inside of what it spoils, so nothing may hide it.
    let sight = Sight {
        section: None,
        ..sight
    };
    things.extend(bodies.overlaps.iter().map(|it| overlap(&sight, &it.mesh)));
    things
}

fn thing(
    bodies: &Bodies<'_>,
    sight: &Sight,
    item: &Item<'_>,
    show: Show,
    fitted: bool,
) -> Option<Thing> {
    let natural = item.appearance();
    let color = match show {
        _ if item.failing => Appearance::FAILING.color,
        Show::Pale => mix(natural.color, WHITE, PALE),
        Show::Nothing | Show::Whole | Show::Outline | Show::CutOnly => natural.color,
    };
    let opacity = match show {
        Show::Nothing => return None,
        Show::Whole | Show::Pale => 1.0,
        Show::Outline => 0.0,
        Show::CutOnly => natural.opacity,
    };
    let seen = sight.of(&Model {
        mesh: &bodies.solids.shapes[item.placed.shape].mesh,
        frame: item.placed.frame,
        color,
        hatched: matches!(item.what, What::Part(part) if part.material.combustible),
        cut_only: show == Show::CutOnly,
    });
    Some(Thing {
        seen,
        color,
        opacity,
        through: false,
        fitted,
    })
}

fn overlap(sight: &Sight, mesh: &Mesh) -> Thing {
    let look = Appearance::OVERLAP;
    Thing {
        seen: sight.of(&Model {
            mesh,
            frame: Frame::WORLD,
            color: look.color,
            hatched: false,
            cut_only: false,
        }),
        color: look.color,
        opacity: look.opacity,
        through: true,
        fitted: true,
    }
}

impl Fit {
    fn new(things: &[Thing]) -> Self {
        let around = |wanted: fn(&Thing) -> bool| {
            let wanted = things.iter().filter(|thing| wanted(thing));
            Bounds::around(wanted.flat_map(|thing| thing.seen.points()))
        };
        let mut seen = around(|thing| thing.fitted);
        if seen.is_empty() {
            seen = around(|_| true);
        }
        if seen.is_empty() {
            seen = Bounds::around([DVec3::ZERO, DVec3::ONE]);
        }
        let extent = seen.size().truncate().max(DVec2::ONE);
        let scale = ((LARGEST - 2.0 * MARGIN) / extent).min_element();
        let margin = MARGIN / scale;
        Self {
            left: seen.low.x - margin,
            top: seen.high.y + margin,
            scale,
            size: (extent * scale + 2.0 * MARGIN).round(),
        }
    }

    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between the margins and the largest picture"
    )]
    fn canvas(&self) -> Canvas {
        Canvas::new(self.size.x as usize, self.size.y as usize)
    }

    fn draw_line(&self, canvas: &mut Canvas, line: &Line) {
        let slack = match line.kind {
            LineKind::Limb => LIMB_SLACK,
            LineKind::Inside | LineKind::Border => SLACK,
        };
        let ends = line.ends.map(|end| self.pixels(end));
        canvas.line(ends, slack / self.scale);
    }

    fn outline(&self, cut: &CutFace) -> Vec<[DVec3; 2]> {
        let sides = cut.outline.iter();
        sides.map(|ends| ends.map(|end| self.pixels(end))).collect()
    }

    fn pixels(&self, point: DVec3) -> DVec3 {
        DVec3::new(
            (point.x - self.left) * self.scale,
            (self.top - point.y) * self.scale,
            point.z,
        )
    }
}

fn draw_solid(canvas: &mut Canvas, fit: &Fit, things: &[Thing]) {
    let solid: Vec<&Thing> = things.iter().filter(|thing| thing.is_solid()).collect();
    for thing in &solid {
        for face in &thing.seen.faces {
            canvas.fill(face.corners.map(|corner| fit.pixels(corner)), face.color);
        }
        if let Some(cut) = &thing.seen.cut {
            let color = mix([0; 3], cut.color, CUT);
            canvas.fill_cut(&fit.outline(cut), color, cut.hatched);
        }
    }
    for (pale, ink) in [(true, PALE_LINE), (false, Appearance::EDGE.color)] {
        for thing in &solid {
            let dark = is_dark(thing.color);
            let lines = thing.seen.lines.iter();
            for line in lines.filter(|line| (dark && line.kind == LineKind::Inside) == pale) {
                fit.draw_line(canvas, line);
            }
        }
        canvas.ink(ink, 1.0);
    }
}

/// Lays translucent things over the solid ones, back to front.
fn draw_clear(canvas: &mut Canvas, fit: &Fit, things: &[Thing]) {
    let clear = things.iter().filter(|thing| !thing.is_solid());
    let far = |thing: &Thing| Bounds::around(thing.seen.points()).center().z;
    let mut clear: Vec<(f64, &Thing)> = clear.map(|thing| (far(thing), thing)).collect();
    clear.sort_by(|a, b| a.1.through.cmp(&b.1.through).then(a.0.total_cmp(&b.0)));
    for (_, thing) in clear.iter().filter(|(_, thing)| thing.opacity > 0.0) {
        for face in &thing.seen.faces {
            let corners = face.corners.map(|corner| fit.pixels(corner));
            if thing.through {
                canvas.tint_through(corners, face.color, thing.opacity);
            } else {
                canvas.tint(corners, face.color, thing.opacity);
            }
        }
        if let Some(cut) = &thing.seen.cut {
            canvas.tint_cut(&fit.outline(cut), cut.color, thing.opacity);
        }
    }
    for line in clear.iter().flat_map(|(_, thing)| &thing.seen.lines) {
        fit.draw_line(canvas, line);
    }
    canvas.ink(Appearance::EDGE.color, FAINT);
}
