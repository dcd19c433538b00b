//! The sticks of a wall: upright, flat, on edge, and plates in the plane of the ceiling.

use glam::{DVec2, DVec3};

use super::super::builder::Make;
use super::super::standing::existing;
use super::super::{Group, Kind, Stage, Stock};
use super::state::Web;
use super::{Reach, Stick, Wall};
use crate::catalog::{FramingMember, Lumber, Material};
use crate::geom::{EndPlane, Frame, Profile, Swept};
use crate::params::Header;
use crate::units::{Length, Span};

/// One ply of a header, or the packing between two.
enum Ply<'a> {
    Stick(&'a Lumber),
    Packing(Length),
}

impl Wall<'_> {
    /// A vertical stick of the wall's stock whose left side lies at `u`.
    pub(super) fn upright(&mut self, kind: Kind, u: Length, reach: Reach) {
        self.upright_facing(kind, (u, Web::Left), reach);
    }

    /// The same; one of steel has its web on this side.
    pub(super) fn upright_facing(&mut self, kind: Kind, (u, web): (Length, Web), reach: Reach) {
        match self.stud {
            FramingMember::Wood(lumber) => {
                self.upright_of(kind, u, (lumber.thickness, 0.0), reach);
            }
            FramingMember::Steel(steel) => self.steel_upright(kind, (u, web), reach, steel),
        }
    }

    /// A vertical stick of another thickness along the wall, or with sides that run to the right for
    /// each step inward: a rip.
    pub(super) fn upright_of(
        &mut self,
        kind: Kind,
        u: Length,
        (thickness, skew): (Length, f64),
        reach: Reach,
    ) {
        let (bottom, top) = match reach {
            Reach::Between(low, high) => (low, vec![EndPlane::level(high - low)]),
            Reach::ToPlates(low) => (
                low,
                self.plates_over(u, &leaning(thickness, self.depth(), skew).outline, low),
            ),
        };
        let shape = Swept {
            profile: leaning(thickness, self.depth(), skew),
            bottom: vec![EndPlane::level(Length::ZERO)],
            top,
            bores: Vec::new(),
        };
        let name = self.stud.name().to_owned();
        let inward = self.depth() * skew;
        let stock = if (self.stud.breadth() - thickness).is_positive() || inward != Length::ZERO {
            Stock::Rip(name)
        } else {
            Stock::Stick(name)
        };
        let frame = self
            .frame
            .place(&Frame::at(DVec3::new(u.to_mm(), 0.0, bottom.to_mm())));
        self.raise(
            (u, bottom),
            self.make(kind, Material::LUMBER, stock),
            shape,
            frame,
        );
        let along = Span::new(
            u + inward.min(Length::ZERO),
            u + thickness + inward.max(Length::ZERO),
        );
        self.standing.push((along, reach));
    }

    /// A level stick lying flat, its front edge flush with the wall's face.
    ///
    /// Of steel it is a track: that of a sill has its flanges down, round the cripples under it.
    pub(super) fn flat(
        &mut self,
        kind: Kind,
        material: Material,
        (along, bottom): (Span, Length),
        lumber: &Lumber,
    ) {
        let profile = Profile::rectangle(lumber.width, lumber.thickness);
        let stock = Stock::Stick(lumber.name.clone());
        let place = self.along(along.low, Length::ZERO, bottom);
        let [low, high] = self.skews_of(along);
        let shape = Swept {
            profile,
            bottom: vec![EndPlane::sloped(Length::ZERO, DVec2::new(low, 0.0))],
            top: vec![EndPlane::sloped(along.size(), DVec2::new(high, 0.0))],
            bores: Vec::new(),
        };
        let make = self.make(kind, material, stock);
        self.raise((along.low, bottom), make, shape, place);
    }

    /// Plies on edge from face to face, packed apart where they do not fill the wall; a single one stands at
    /// the face, on a flat stick where the wall is deeper than it.
    pub(super) fn plies(
        &mut self,
        (along, bottom): (Span, Length),
        header: Header<'_>,
        stock: &Lumber,
    ) {
        let nailer = header.nailer(stock, self.stud);
        if let Some(lumber) = self.stud.wood().filter(|_| nailer.is_positive()) {
            self.flat(Kind::Header, Material::LUMBER, (along, bottom), lumber);
        }
        let place = (along, bottom + nailer);
        let count = header.count(stock, self.stud);
        let rest = self.depth() - stock.thickness * f64::from(count);
        let packing = rest / f64::from(count.max(2) - 1);
        let mut from_face = Length::ZERO;
        for ply in 0..count {
            if ply > 0 && packing.is_positive() {
                self.ply(&Ply::Packing(packing), from_face, place, stock.width);
                from_face += packing;
            }
            self.ply(&Ply::Stick(stock), from_face, place, stock.width);
            from_face += stock.thickness;
        }
    }

    /// The room of a header that somebody designs, as high as the parameters' own and as thick as the wall.
    pub(super) fn room_for_header(&mut self, along: Span, bottom: Length, header: Header<'_>) {
        let size = (self.depth(), header.height(self.stud));
        let make = framing(Kind::Header, Material::LUMBER, Stock::Bought);
        self.on_edge(make, Length::ZERO, (along, bottom), size);
    }

    /// What a stick of this wall is: of the framing, or there already.
    pub(super) fn make(&self, kind: Kind, material: Material, stock: Stock) -> Make {
        if !self.stands_already {
            framing(kind, material, stock)
        } else if kind.is_plate() {
            existing(Kind::ExistingPlate, Material::LUMBER)
        } else {
            existing(Kind::ExistingStud, Material::LUMBER)
        }
    }

    fn ply(&mut self, ply: &Ply<'_>, from_face: Length, place: (Span, Length), height: Length) {
        let (kind, material, thickness, stock) = match ply {
            Ply::Stick(lumber) => {
                let stock = Stock::Stick(lumber.name.clone());
                (Kind::Header, Material::LUMBER, lumber.thickness, stock)
            }
            Ply::Packing(thickness) => {
                let stock = Stock::Sheet(*thickness);
                (Kind::HeaderSpacer, Material::PANEL, *thickness, stock)
            }
        };
        let make = framing(kind, material, stock);
        self.on_edge(make, from_face, place, (thickness, height));
    }

    /// A level piece of this thickness and height, so far behind the wall's face.
    fn on_edge(
        &mut self,
        make: Make,
        from_face: Length,
        (along, bottom): (Span, Length),
        (thickness, height): (Length, Length),
    ) {
        let shape = Swept::square(Profile::rectangle(thickness, height), along.size());
        let frame = self.along(along.low, from_face, bottom);
        self.raise((along.low, bottom), make, shape, frame);
    }

    /// How the ends of a level stick run: as the wall's own where it goes that far, else square.
    fn skews_of(&self, along: Span) -> [f64; 2] {
        let at = |near: Length, skew: f64| {
            if near.is_positive() { 0.0 } else { skew }
        };
        [
            at(along.low, self.skew[0]),
            at(self.length - along.high, self.skew[1]),
        ]
    }

    /// A frame whose z runs along the wall: x is v, y is w.
    pub(super) fn along(&self, u: Length, v: Length, w: Length) -> Frame {
        self.frame.place(&Frame::new(
            DVec3::new(u.to_mm(), v.to_mm(), w.to_mm()),
            DVec3::Y,
            DVec3::Z,
        ))
    }

    pub(super) fn raise(
        &mut self,
        from_left: (Length, Length),
        make: Make,
        shape: Swept,
        frame: Frame,
    ) {
        self.sticks.push(Stick {
            from_left,
            make,
            shape,
            frame,
        });
    }
}

/// A profile with its front edge on x, its sides running to the right for each step along y.
fn leaning(width: Length, depth: Length, skew: f64) -> Profile {
    let shift = (depth * skew).to_mm();
    let (width, depth) = (width.to_mm(), depth.to_mm());
    Profile::polygon(vec![
        DVec2::ZERO,
        DVec2::new(width, 0.0),
        DVec2::new(width + shift, depth),
        DVec2::new(shift, depth),
    ])
}

/// What a stick of the framing is.
pub(in super::super) fn framing(kind: Kind, material: Material, stock: Stock) -> Make {
    let stage = if kind.is_plate() {
        Stage::Plates
    } else {
        Stage::Walls
    };
    Make {
        kind,
        group: Group::Framing,
        material,
        stock,
        stage,
    }
}
