//! The low platform: a stack of layers inside the chase that comes forward between the jacks.
//!
//! A sleeper that would lie where the gas stub comes up from the floor moves aside; one that supports an edge stays,
//! and the rules find it.

use glam::{DVec2, DVec3};

use super::builder::{Builder, Make};
use super::services::stub_hole;
use super::skins::tidy;
use super::wall::evenly;
use super::{Branch, Group, Kind, Stage, Stock};
use crate::catalog::{Lumber, Material};
use crate::geom::{EndPlane, Frame, Profile, Swept};
use crate::layout::{Layout, point};
use crate::params::{End, Layer};
use crate::units::{Length, Span};

/// Builds every layer from the slab up; layers of sticks run crosswise to one another.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    let depth = layout.side_taken();
    // without side walls it reaches to the room's walls, where they meet the back of the front
    let end = |side: End, wall: Length, corner: Length| match side {
        End::Corner => corner,
        End::Free | End::Wall | End::Behind => wall,
    };
    let framing = layout.site.framing_at(layout.faces.front_back);
    let inside = Span::new(
        end(layout.site.ends[0], framing.low + depth, framing.low),
        end(layout.site.ends[1], framing.high - depth, framing.high),
    );
    let opening = layout.rough_opening;
    let area = Area {
        inside,
        back: layout.faces.front_back,
        opening: Span::new(opening.low.max(inside.low), opening.high.min(inside.high)),
        front: layout.faces.lower_stud,
        wall: layout.site.inside_begins,
        corner: layout.site.is_turned().then(|| layout.site.chase.center()),
        spread: layout.site.spread,
        stub: stub_hole(layout),
    };
    let mut bottom = layout.slab;
    let mut rows = 0_u32;
    for layer in &layout.params.platform.layers {
        match layer {
            Layer::Flat(lumber) | Layer::OnEdge(lumber) => {
                let sticks = Sticks {
                    lumber,
                    size: if matches!(layer, Layer::OnEdge(_)) {
                        (lumber.breadth(), lumber.depth())
                    } else {
                        (lumber.depth(), lumber.breadth())
                    },
                    spacing: layout.params.platform.sleeper_spacing,
                    bottom,
                    material: if rows == 0 {
                        Material::TREATED
                    } else {
                        Material::LUMBER
                    },
                };
                if rows.is_multiple_of(2) {
                    sticks.run_out(&area, builder);
                } else {
                    sticks.run_along(&area, builder);
                }
                rows += 1;
            }
            Layer::Panel(thickness) => panel(&area, bottom, *thickness, builder),
        }
        bottom += layer.height();
    }
}

/// The platform's outline: the inside of the chase, and a tongue between the jacks.
struct Area {
    inside: Span,
    /// Front of the main part: the back of the front wall.
    back: Length,
    /// Sides of the tongue: between the jacks, and no wider than the inside of the chase.
    opening: Span,
    /// Front of the tongue: the stud face.
    front: Length,
    /// Where it begins, out from the wall, but in a corner.
    wall: Length,
    /// Where the room's corner lies behind the platform, if it does.
    corner: Option<Length>,
    /// How far that corner's walls go to either side for each step out.
    spread: f64,
    /// Where the gas stub comes up through it, along the wall and out, and how high it reaches.
    stub: Option<(Span, Span, Length)>,
}

impl Area {
    /// How far out the platform begins over a place along the wall.
    fn begins(&self, right: Length) -> Length {
        self.corner
            .map_or(self.wall, |corner| (right - corner).abs() / self.spread)
    }

    /// The inside along the wall, less the thin ends before a corner's walls.
    fn without_tips(&self, tip: Length) -> Span {
        let end = |right: Length| {
            if (self.back - self.begins(right) - tip).is_positive() {
                Length::ZERO
            } else {
                tip
            }
        };
        let Span { low, high } = self.inside;
        Span::new(low + end(low), high - end(high))
    }
}

/// A layer of sticks.
struct Sticks<'a> {
    lumber: &'a Lumber,
    /// Across the stick, and upward.
    size: (Length, Length),
    spacing: Length,
    bottom: Length,
    material: Material,
}

impl Sticks<'_> {
    /// Sticks that run out from the wall; those within the opening run on to the stud face.
    fn run_out(&self, area: &Area, builder: &mut Builder) {
        let across = self.size.0;
        let (right, _) = self.stub(area);
        let places = evenly(area.opening, across, self.spacing);
        for left in aside(places, across, right) {
            self.out(left, (area, area.front), builder);
        }
        let inside = area.without_tips(across);
        let before = Span::new(inside.low, area.opening.low + across);
        let after = Span::new(area.opening.high - across, inside.high);
        for (side, shared) in [(before, before.high - across), (after, after.low)] {
            // the stick that a side shares with the tongue is already there
            let beside =
                |it: &Length| !Span::about(*it, across).overlaps(Span::about(shared, across));
            let places = aside(evenly(side, across, self.spacing), across, right);
            for it in places.into_iter().filter(beside) {
                self.out(it, (area, area.back), builder);
            }
        }
    }

    /// Sticks that run along the wall; those before the front wall's back are as long as the opening.
    fn run_along(&self, area: &Area, builder: &mut Builder) {
        let across = self.size.0;
        // not into the tip of a corner
        let from = area.corner.map_or(area.wall, |_| across);
        let (_, out) = self.stub(area);
        let places = evenly(Span::new(from, area.back), across, self.spacing);
        for near in aside(places, across, out) {
            self.along(area.inside, (area, near), builder);
        }
        let tongue = Span::new(area.back, area.front);
        match evenly(tongue, across, self.spacing).as_slice() {
            // room for one only, ripped where it is wider than the tongue: it supports the front edge
            [_] => {
                let across = across.min(tongue.size());
                let one = Self {
                    size: (across, self.size.1),
                    ..*self
                };
                one.along(area.opening, (area, area.front - across), builder);
            }
            several => {
                for near in several {
                    self.along(area.opening, (area, *near), builder);
                }
            }
        }
    }

    /// Where this layer's sticks have to leave room for the gas stub, along the wall and out.
    fn stub(&self, area: &Area) -> (Option<Span>, Option<Span>) {
        let depth = Span::new(area.wall, area.front);
        let meets = area.stub.filter(|(right, out, top)| {
            (*top - self.bottom).is_positive()
                && area.inside.overlaps(*right)
                && depth.overlaps(*out)
        });
        meets.map_or((None, None), |it| (Some(it.0), Some(it.1)))
    }

    /// A stick that runs out so far; in a corner it begins at one wall or at both.
    fn out(&self, left: Length, (area, to): (&Area, Length), builder: &mut Builder) {
        let mut begin = vec![EndPlane::level(area.wall)];
        if let Some(corner) = area.corner {
            let wall = |sign: f64| {
                let rise = sign / area.spread;
                EndPlane::sloped((left - corner) * rise, DVec2::new(rise, 0.0))
            };
            begin.clear();
            if (corner - left).is_positive() {
                begin.push(wall(-1.0));
            }
            if (left + self.size.0 - corner).is_positive() {
                begin.push(wall(1.0));
            }
        }
        let origin = point(left, Length::ZERO, self.bottom);
        let frame = Frame::new(origin, DVec3::X, DVec3::Z);
        self.add((begin, vec![EndPlane::level(to)]), frame, builder);
    }

    /// A stick that runs along the wall; in a corner its ends follow the walls.
    fn along(&self, span: Span, (area, near): (&Area, Length), builder: &mut Builder) {
        let front = near + self.size.0;
        let mut begin = vec![EndPlane::level(Length::ZERO)];
        let mut end = vec![EndPlane::level(span.size())];
        if let Some(corner) = area.corner {
            let meets = |planes: &mut Vec<EndPlane>, far: Length, slope: f64| {
                // where the wall crosses the stick's front edge, past the end of the span
                let past = far - front * area.spread;
                if (past + self.size.0 * area.spread).is_positive() {
                    if !(-past).is_positive() {
                        planes.clear();
                    }
                    let at = if slope > 0.0 {
                        past
                    } else {
                        span.size() - past
                    };
                    planes.push(EndPlane::sloped(at, DVec2::new(slope, 0.0)));
                }
            };
            meets(&mut begin, corner - span.low, area.spread);
            meets(&mut end, span.high - corner, -area.spread);
        }
        let origin = point(span.low, front, self.bottom);
        let frame = Frame::new(origin, DVec3::Y, DVec3::Z);
        self.add((begin, end), frame, builder);
    }

    fn add(
        &self,
        (bottom, top): (Vec<EndPlane>, Vec<EndPlane>),
        frame: Frame,
        builder: &mut Builder,
    ) {
        let full = if self.size.1 > self.lumber.breadth() {
            self.lumber.breadth()
        } else {
            self.lumber.depth()
        };
        let make = Make {
            kind: Kind::Sleeper,
            group: Group::Platform,
            material: self.material,
            stock: if (full - self.size.0).is_positive() {
                Stock::Rip(self.lumber.name().to_owned())
            } else {
                Stock::Stick(self.lumber.name().to_owned())
            },
            stage: Stage::Platform,
        };
        let profile = Profile::rectangle(self.size.0, self.size.1);
        let shape = Swept {
            profile,
            bottom,
            top,
            bores: Vec::new(),
        };
        builder.add_next(Branch::Platform, make, shape, frame);
    }
}

/// The places of sticks with those that lie in a hole moved beside it, the shorter way first, where their neighbors leave
/// room. The first and the last carry an edge and stay.
fn aside(mut places: Vec<Length>, across: Length, hole: Option<Span>) -> Vec<Length> {
    let Some(hole) = hole else {
        return places;
    };
    let stick = |low: Length| Span::new(low, low + across);
    for place in 1..places.len().saturating_sub(1) {
        let now = places[place];
        if !stick(now).overlaps(hole) {
            continue;
        }
        let mut ways = [hole.low - across, hole.high];
        ways.sort_by(|a, b| {
            (*a - now)
                .abs()
                .to_mm()
                .total_cmp(&(*b - now).abs().to_mm())
        });
        let fits = |low: &Length| {
            let (before, after) = (stick(places[place - 1]), stick(places[place + 1]));
            !stick(*low).overlaps(before) && !stick(*low).overlaps(after)
        };
        if let Some(free) = ways.into_iter().find(fits) {
            places[place] = free;
        }
    }
    places
}

fn panel(area: &Area, bottom: Length, thickness: Length, builder: &mut Builder) {
    let corner = |right: Length, out: Length| DVec2::new(right.to_mm(), -out.to_mm());
    let begins = |right: Length| corner(right, area.begins(right));
    let outline = vec![
        begins(area.inside.low),
        corner(area.inside.low, area.back),
        corner(area.opening.low, area.back),
        corner(area.opening.low, area.front),
        corner(area.opening.high, area.front),
        corner(area.opening.high, area.back),
        corner(area.inside.high, area.back),
        begins(area.inside.high),
        begins(area.corner.unwrap_or(area.inside.high)),
    ];
    let make = Make {
        kind: Kind::PlatformPanel,
        group: Group::Platform,
        material: Material::PANEL,
        stock: Stock::Sheet(thickness),
        stage: Stage::Platform,
    };
    let frame = Frame::at(DVec3::new(0.0, 0.0, bottom.to_mm()));
    builder.add_next(
        Branch::Platform,
        make,
        Swept::square(Profile::polygon(tidy(outline)), thickness),
        frame,
    );
}
