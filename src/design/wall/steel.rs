//! Walls of steel: studs of C shape that stand in tracks, and headers of two members toe to toe.
//!
//! The flanges of a track are the wall's faces; a stud stands between them, so much behind a face as the
//! track is thick. Studs are cut square: under a slope each ends below the lowest point of the track over
//! it, and is screwed through the track's flanges. The jacks and kings of an opening turn their webs to it.
//!
//! Straps lie between the studs and the flanges' faces, and whatever looks for a stud behind a face allows for that gap.
//! Bends are drawn sharp, so that every member is one profile of straight edges.

use glam::DVec2;

use super::super::{Kind, Stock};
pub(in super::super) use super::state::Web;
use super::stick::framing;
use super::{Cover, Reach, Wall};
use crate::catalog::{FramingMember, Material, Steel, track_flange, track_for};
use crate::geom::{EndPlane, Frame, Profile, Swept, TOLERANCE};
use crate::units::{Length, Span};

/// Which way the flanges of a track stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Flanges {
    /// Up, round what stands in it.
    Up,
    /// Down, round what stands under it.
    Down,
}

/// A stud's section: its web along y from the origin, its flanges toward +x, or toward −x from there.
pub(in super::super) fn c_shape(steel: &Steel, web: Web) -> Profile {
    let [t, flange, lip, depth] =
        [steel.thickness, steel.flange, steel.lip, steel.web].map(Length::to_mm);
    let corners = [
        (0.0, 0.0),
        (flange, 0.0),
        (flange, lip),
        (flange - t, lip),
        (flange - t, t),
        (t, t),
        (t, depth - t),
        (flange - t, depth - t),
        (flange - t, depth - lip),
        (flange, depth - lip),
        (flange, depth),
        (0.0, depth),
    ];
    let placed = corners.map(|(x, y)| match web {
        Web::Left => DVec2::new(x, y),
        Web::Right => DVec2::new(flange - x, y),
    });
    Profile::polygon(placed.to_vec())
}

/// A channel without lips: its web `depth` wide along x with its outer side on y = 0, flanges toward −y.
///
/// Flanges no longer than the steel is thick leave a flat strip, and so do two that would meet.
fn channel(depth: Length, flange: Length, thickness: Length) -> Vec<DVec2> {
    let [d, f, t] = [depth, flange, thickness].map(Length::to_mm);
    let strip = |f: f64| {
        [(0.0, 0.0), (0.0, -f), (d, -f), (d, 0.0)]
            .map(DVec2::from)
            .to_vec()
    };
    if f - t <= TOLERANCE {
        return strip(t);
    }
    if d - 2.0 * t <= TOLERANCE {
        return strip(f);
    }
    [
        (0.0, 0.0),
        (0.0, -f),
        (t, -f),
        (t, -t),
        (d - t, -t),
        (d - t, -f),
        (d, -f),
        (d, 0.0),
    ]
    .map(DVec2::from)
    .to_vec()
}

/// A track's section as a level stick lies: x through the wall, y up, its web's underside on y = 0.
fn track(stud: &Steel, flange: Length, flanges: Flanges) -> Profile {
    let t = stud.thickness;
    let corners = channel(stud.wall_depth(), flange, t);
    let turned = corners.into_iter().map(|it| match flanges {
        Flanges::Up => DVec2::new(it.x, -it.y),
        Flanges::Down => it + DVec2::new(0.0, t.to_mm()),
    });
    Profile::polygon(turned.collect())
}

/// Half of a track ripped along its web: so much of the web along x from the origin, the flange along y.
pub(in super::super) fn half_track(stud: &Steel, web: Length) -> Profile {
    let flange = track_flange(stud).to_mm();
    let (w, t) = (web.to_mm(), stud.thickness.to_mm());
    let mut corners = vec![
        (0.0, 0.0),
        (w, 0.0),
        (w, t),
        (t, t),
        (t, flange),
        (0.0, flange),
    ];
    if w - t <= TOLERANCE {
        // no more than the flange is left
        corners = vec![(0.0, 0.0), (w, 0.0), (w, flange), (0.0, flange)];
    }
    Profile::polygon(corners.into_iter().map(DVec2::from).collect())
}

/// The section of a top track under a plane that falls so much across the wall: plumb flanges down.
pub(super) fn top_track(stud: &Steel, tilt: f64) -> Profile {
    let t = stud.thickness * (1.0 + tilt * tilt).sqrt();
    let corners = channel(stud.wall_depth(), track_flange(stud), stud.thickness);
    let web = stud.thickness.to_mm();
    let leaned = corners.into_iter().map(|it| {
        let down = if (it.y + web).abs() <= TOLERANCE {
            -t.to_mm()
        } else {
            it.y
        };
        DVec2::new(it.x, down + tilt * it.x)
    });
    Profile::polygon(leaned.collect())
}

/// The name of the track that goes with a stud.
pub(in super::super) fn track_name(stud: &Steel) -> String {
    track_for(stud).map_or_else(|| stud.name.clone(), |it| it.name)
}

impl Wall<'_> {
    /// A steel stud between tracks, cut square.
    pub(super) fn steel_upright(
        &mut self,
        kind: Kind,
        (u, web): (Length, Web),
        reach: Reach,
        steel: &Steel,
    ) {
        let profile = c_shape(steel, web);
        let stock = Stock::Steel(steel.name.clone());
        self.steel_between((kind, stock), (u, steel.thickness), profile, reach);
        self.standing.push((Span::new(u, u + steel.flange), reach));
    }

    /// A filler thinner than a stud: a length of track, its flanges cut down, its web toward the opening.
    pub(super) fn steel_filler(&mut self, steel: &Steel, along: Span, web: Web, reach: Reach) {
        let corners = channel(self.depth(), along.size(), self.plate().min(along.size()));
        // the web lies along the wall's depth
        let size = along.size().to_mm();
        let turned = corners.into_iter().map(|it| match web {
            Web::Left => DVec2::new(-it.y, it.x),
            Web::Right => DVec2::new(size + it.y, it.x),
        });
        let profile = Profile::polygon(turned.collect());
        let stock = Stock::Steel(track_name(steel));
        self.steel_between(
            (Kind::Cripple, stock),
            (along.low, Length::ZERO),
            profile,
            reach,
        );
        self.standing.push((along, reach));
    }

    fn steel_between(
        &mut self,
        (kind, stock): (Kind, Stock),
        (u, v): (Length, Length),
        profile: Profile,
        reach: Reach,
    ) {
        let (bottom, top) = match reach {
            Reach::Between(low, high) => (low, high - low),
            Reach::ToPlates(low) => {
                let corners = profile
                    .outline
                    .iter()
                    .map(|it| *it + DVec2::new(0.0, v.to_mm()));
                let corners: Vec<DVec2> = corners.collect();
                let planes = self.plates_over(u, &corners, low);
                let heights = corners
                    .iter()
                    .flat_map(|corner| planes.iter().map(|plane| plane.z(*corner)));
                (low, Length::mm(heights.fold(f64::INFINITY, f64::min)))
            }
        };
        let shape = Swept {
            profile,
            bottom: vec![EndPlane::level(Length::ZERO)],
            top: vec![EndPlane::level(top)],
            bores: Vec::new(),
        };
        let frame = self.frame.place(&Frame::at(glam::DVec3::new(
            u.to_mm(),
            v.to_mm(),
            bottom.to_mm(),
        )));
        let make = framing(kind, Material::STEEL, stock);
        self.raise((u, bottom), make, shape, frame);
    }

    /// A level track round such studs, with flanges of this length.
    pub(super) fn level_track(
        &mut self,
        kind: Kind,
        stud: &Steel,
        (along, bottom): (Span, Length),
        (flange, flanges): (Length, Flanges),
    ) {
        let profile = track(stud, flange, flanges);
        let place = self.along(along.low, Length::ZERO, bottom);
        let make = framing(kind, Material::STEEL, Stock::Steel(track_name(stud)));
        let shape = Swept::square(profile, along.size());
        self.raise((along.low, bottom), make, shape, place);
    }

    /// Two members toe to toe, their webs on the faces; in a wall of steel with a track under them, its
    /// flanges up, and one over them, whose flanges take the cripples.
    pub(super) fn steel_header(
        &mut self,
        (along, bottom): (Span, Length),
        steel: &Steel,
        above: Length,
    ) {
        let nested = self.stud.nested();
        let base = bottom + nested;
        let back = self.depth() - nested - steel.flange;
        for (v, web) in [(nested, Web::Left), (back, Web::Right)] {
            let place = self.along(along.low, v, base);
            let make = framing(
                Kind::Header,
                Material::STEEL,
                Stock::Steel(steel.name.clone()),
            );
            let shape = Swept::square(c_shape(steel, web), along.size());
            self.raise((along.low, base), make, shape, place);
        }
        if let FramingMember::Steel(stud) = self.stud {
            let whole = track_flange(stud);
            let up = |flange| (flange, Flanges::Up);
            let under = whole.min(steel.web);
            self.level_track(Kind::Header, stud, (along, bottom), up(under));
            // under a ledge the ledge's own track lies over them
            if matches!(self.cover, Cover::Plates(_)) {
                let over = base + steel.web;
                self.level_track(Kind::Header, stud, (along, over), up(whole.min(above)));
            }
        }
    }

    /// What a level track may reach up over its own underside without meeting the flanges of the top track.
    pub(super) fn room_over(&self, along: Span, bottom: Length) -> Length {
        let top = self.lowest_stud_top(along) + self.plate();
        let steepest = self
            .top
            .planes()
            .iter()
            .fold(1.0, |most: f64, it| most.max(it.steepness()));
        let flange = self.stud.steel().map_or(Length::ZERO, track_flange);
        (top - flange * steepest - bottom).max(self.plate())
    }
}
