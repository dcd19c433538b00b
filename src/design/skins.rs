//! Board, finish, the lining of a recess, mantel and screen.

mod band;

use glam::{DVec2, DVec3};

pub(super) use band::tidy;
pub use band::{Band, CutOut};

use super::builder::{Builder, Make, add_box};
use super::finish::finish;
use super::{Branch, ChaseFace, Group, Kind, Stage, Stock};
use crate::catalog::Material;
use crate::geom::{Frame, Profile, Swept, roofline};
use crate::layout::{Layout, RecessLayout, point};
use crate::params::{Back, End, FrontForm};
use crate::units::{Length, Span};

/// Builds everything that covers the framing.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    super::furring::build(layout, builder);
    let arms = super::mantel_hold::brackets(layout, builder).into_iter();
    let arms: Vec<CutOut> = arms.map(cut_out).collect();
    faces(layout, &arms, builder);
    if layout.site.back == Back::Faced {
        back_face(layout, builder);
    }
    sides(layout, builder);
    if let Some(recess) = &layout.recess {
        lining(layout, recess, builder);
    }
    super::mantel::build(layout, builder);
    super::mantel_hold::cleat(layout, builder);
    screen(layout, builder);
}

pub(super) fn skin(kind: Kind, material: Material, thickness: Length) -> Make {
    Make {
        kind,
        group: Group::Skins,
        material,
        stock: Stock::Sheet(thickness),
        stage: if kind == Kind::Finish {
            Stage::Finish
        } else {
            Stage::Board
        },
    }
}

/// One flat layer over a face: from a stud face outward.
pub(super) struct Sheet {
    pub(super) branch: Branch,
    pub(super) make: Make,
    /// Its back, out from the wall.
    pub(super) back: Length,
    pub(super) thickness: Length,
    /// What it leaves open.
    pub(super) cuts: Vec<CutOut>,
}

const fn cut_out((sides, heights): (Span, Span)) -> CutOut {
    CutOut { sides, heights }
}

/// What a face skin with this back leaves open: the unit's lip and the recess, and the unit's body
/// with its spacers where that is set forward into the skin; and what goes through.
fn cuts(layout: &Layout, back: Length, through: &[CutOut]) -> Vec<CutOut> {
    let unit = &layout.params.appliance;
    let lip = CutOut {
        sides: Span::about(layout.unit_center, unit.opening_width).grown(unit.lip_thickness),
        heights: Span::new(
            layout.heights.platform_top + unit.opening_bottom,
            layout.heights.opening_top,
        )
        .grown(unit.lip_thickness),
    };
    let recess = layout.recess.map(|recess| CutOut {
        sides: recess.finished,
        heights: recess.finished_height,
    });
    let body = CutOut {
        sides: Span::about(layout.unit_center, unit.body_width),
        heights: Span::new(
            layout.heights.platform_top,
            layout.heights.body_top + unit.standoff,
        ),
    };
    let body = (layout.faces.unit - back).is_positive().then_some(body);
    let furring = super::furring::opening(layout).map(cut_out);
    let furring = furring.filter(|_| (layout.faces.unit - back).is_positive());
    let own = std::iter::once(lip)
        .chain(recess)
        .chain(body)
        .chain(furring);
    own.chain(through.iter().copied()).collect()
}

/// Board and finish of the front: around the unit, and around the recess when it is set back.
fn faces(layout: &Layout, through: &[CutOut], builder: &mut Builder) {
    let skins = &layout.params.skins;
    let on_lower = Coat {
        thickness: skins.lower_finish,
        material: finish(skins.lower_material),
    };
    match layout.params.front.form {
        FrontForm::OneWall => {
            let face = FaceOf {
                face: ChaseFace::Front,
                from: layout.slab,
                to: None,
                through,
            };
            face.board(layout, layout.faces.lower_stud, builder);
            face.finish(layout, (layout.faces.lower_stud, on_lower), builder);
        }
        FrontForm::Stepped => {
            let lower = FaceOf {
                face: ChaseFace::Lower,
                from: layout.slab,
                to: Some(layout.heights.framing_top),
                through,
            };
            let upper = FaceOf {
                face: ChaseFace::Upper,
                from: layout.heights.framing_top,
                to: None,
                through,
            };
            lower.board(layout, layout.faces.lower_stud, builder);
            upper.board(layout, layout.faces.upper_stud, builder);
            lower.finish(layout, (layout.faces.lower_stud, on_lower), builder);
            let on_upper = Coat {
                thickness: skins.upper_finish,
                material: finish(skins.upper_material),
            };
            upper.finish(layout, (layout.faces.upper_stud, on_upper), builder);
        }
    }
}

/// A finish as entered: how thick it is, and of what.
struct Coat {
    thickness: Length,
    material: Material,
}

/// A face of the front between two heights, or up to the ceiling.
struct FaceOf<'a> {
    face: ChaseFace,
    from: Length,
    to: Option<Length>,
    /// What goes through it.
    through: &'a [CutOut],
}

impl FaceOf<'_> {
    /// Cement board up to the height that the parameters say, gypsum board above.
    fn board(&self, layout: &Layout, stud_face: Length, builder: &mut Builder) {
        let skins = &layout.params.skins;
        let sides = layout.site.with_skins(skins.board, stud_face);
        let change = skins.noncombustible_to.max(self.from);
        let parts = [
            (self.from, Some(change), Material::CEMENT_BOARD),
            (change, None, Material::DRYWALL),
        ];
        for (from, to, material) in parts {
            let to = match (to, self.to) {
                (Some(a), Some(b)) => Some(a.min(b)),
                (a, b) => a.or(b),
            };
            let sheet = Sheet {
                branch: Branch::Face(self.face),
                make: skin(Kind::Board, material, skins.board),
                back: stud_face,
                thickness: skins.board,
                cuts: cuts(layout, stud_face, self.through),
            };
            sheet.hang(layout, (sides, from, to), builder);
        }
    }

    fn finish(&self, layout: &Layout, (stud_face, coat): (Length, Coat), builder: &mut Builder) {
        let Coat {
            thickness,
            material,
        } = coat;
        if !thickness.is_positive() {
            return;
        }
        let back = stud_face + layout.params.skins.board;
        let sheet = Sheet {
            branch: Branch::Face(self.face),
            make: skin(Kind::Finish, material, thickness),
            back,
            thickness,
            cuts: cuts(layout, back, self.through),
        };
        let sides = layout.site.with_skins(
            layout.params.skins.board + layout.params.skins.side_finish,
            back,
        );
        sheet.hang(layout, (sides, self.from, self.to), builder);
    }
}

impl Sheet {
    /// Hangs the sheet over a range of the face; its upper edge is cut square to the face, so it
    /// follows the lower of the ceiling over its two sides.
    pub(super) fn hang(
        &self,
        layout: &Layout,
        (sides, from, to): (Span, Length, Option<Length>),
        builder: &mut Builder,
    ) {
        let outs = [self.back, self.back + self.thickness];
        let level = to.map(|to| (to.to_mm(), to.to_mm()));
        let lines = under_ceiling(
            layout,
            outs.map(|out| (sides.low, out)),
            outs.map(|out| (sides.high, out)),
        );
        let lines: Vec<_> = lines.into_iter().chain(level).collect();
        let Some(band) = Band::under(sides, from, &lines) else {
            return;
        };
        let origin = point(Length::ZERO, self.back, Length::ZERO);
        let frame = Frame::new(origin, DVec3::X, DVec3::Z);
        for profile in band.profiles(&self.cuts) {
            builder.add_next(
                self.branch,
                self.make.clone(),
                Swept::square(profile, self.thickness),
                frame,
            );
        }
    }
}

/// Board and finish of a divider's back, which has no openings.
fn back_face(layout: &Layout, builder: &mut Builder) {
    let skins = &layout.params.skins;
    let layers = [
        (Kind::Board, Material::DRYWALL, skins.board, Length::ZERO),
        (
            Kind::Finish,
            finish(skins.side_material),
            skins.side_finish,
            skins.board,
        ),
    ];
    for (kind, material, thickness, before) in layers {
        if thickness.is_positive() {
            let sheet = Sheet {
                branch: Branch::Face(ChaseFace::Back),
                make: skin(kind, material, thickness),
                back: -(before + thickness),
                thickness,
                cuts: Vec::new(),
            };
            let sides = layout.site.with_skins(before + thickness, Length::ZERO);
            sheet.hang(layout, (sides, layout.slab, None), builder);
        }
    }
}

/// The lines of the ceiling over the two sides of a sheet, which run from the first places to the
/// last, to the right and out.
fn under_ceiling(
    layout: &Layout,
    from: [(Length, Length); 2],
    to: [(Length, Length); 2],
) -> Vec<(f64, f64)> {
    let place = |(right, out)| point(right, out, Length::ZERO).truncate();
    let outs = from.iter().chain(&to).map(|it| it.1);
    let ceiling = layout.ceiling_to(outs.fold(from[0].1, Length::max));
    let sides = from.into_iter().zip(to);
    sides
        .flat_map(|(from, to)| ceiling.lines(place(from), place(to)))
        .collect()
}

/// Board and finish of the sides that stand free, in the shape of the side: stepped where the front is.
fn sides(layout: &Layout, builder: &mut Builder) {
    let skins = &layout.params.skins;
    let board = skin(Kind::Board, Material::DRYWALL, skins.board);
    let material = finish(skins.side_material);
    let finish = skin(Kind::Finish, material, skins.side_finish);
    let mut inner = Length::ZERO;
    for (make, thickness, forward) in [
        (board, skins.board, Length::ZERO),
        (finish, skins.side_finish, skins.board),
    ] {
        if thickness.is_positive() {
            let left = layout.site.chase.low - inner - thickness;
            let right = layout.site.chase.high + inner;
            let faces = [
                (ChaseFace::Left, left, layout.site.ends[0]),
                (ChaseFace::Right, right, layout.site.ends[1]),
            ];
            for (face, side, _) in faces.into_iter().filter(|it| it.2 == End::Free) {
                let span = Span::new(side, side + thickness);
                side_sheet(
                    Branch::Face(face),
                    make.clone(),
                    span,
                    forward,
                    layout,
                    builder,
                );
            }
        }
        inner += thickness;
    }
}

fn side_sheet(
    branch: Branch,
    make: Make,
    span: Span,
    forward: Length,
    layout: &Layout,
    builder: &mut Builder,
) {
    let lower = layout.faces.lower_stud + forward;
    let upper = layout.faces.upper_stud + forward;
    let corner = |out: Length, height: Length| DVec2::new(out.to_mm(), height.to_mm());
    // cut square, where the outer side of the layer meets a wall behind it
    let outside = (layout.site.chase.low - span.low).max(span.high - layout.site.chase.high);
    let begins = if layout.site.inside_begins.is_positive() {
        -forward
    } else {
        layout.site.side_begins(outside)
    };
    let sides = [span.low, span.high];
    let lines = under_ceiling(
        layout,
        sides.map(|right| (right, begins)),
        sides.map(|right| (right, upper)),
    );
    let roof = roofline(&lines, (begins.to_mm(), upper.to_mm()));
    let mut outline = vec![corner(begins, layout.slab), corner(lower, layout.slab)];
    if layout.is_stepped() {
        outline.push(corner(lower, layout.heights.framing_top));
        outline.push(corner(upper, layout.heights.framing_top));
    }
    outline.extend(roof.into_iter().rev());
    let origin = point(span.high, Length::ZERO, Length::ZERO);
    let frame = Frame::new(origin, DVec3::NEG_Y, DVec3::Z);
    builder.add_next(
        branch,
        make,
        Swept::square(Profile::polygon(outline), span.size()),
        frame,
    );
}

/// A board that closes the hollow of the chase from the wall to the back of the front, up to the ceiling.
pub(super) fn across(span: Span, layout: &Layout, builder: &mut Builder) {
    let outs = Span::new(
        layout.site.wall_comes_between(span),
        layout.faces.front_back,
    );
    let make = Make {
        stage: Stage::Fireblocks,
        ..skin(Kind::Board, Material::CEMENT_BOARD, span.size())
    };
    across_sheet(Branch::Fireblock, make, (span, outs), layout, builder);
}

/// A sheet that stands square to the front, from the slab up to the ceiling.
pub(super) fn across_sheet(
    branch: Branch,
    make: Make,
    (span, outs): (Span, Span),
    layout: &Layout,
    builder: &mut Builder,
) {
    let (begins, ends) = (outs.low, outs.high);
    let sides = [span.low, span.high];
    let lines = under_ceiling(
        layout,
        sides.map(|right| (right, begins)),
        sides.map(|right| (right, ends)),
    );
    let roof = roofline(&lines, (begins.to_mm(), ends.to_mm()));
    let corner = |out: Length| DVec2::new(out.to_mm(), layout.slab.to_mm());
    let mut outline = vec![corner(begins), corner(ends)];
    outline.extend(roof.into_iter().rev());
    let origin = point(span.high, Length::ZERO, Length::ZERO);
    builder.add_next(
        branch,
        make,
        Swept::square(Profile::polygon(outline), span.size()),
        Frame::new(origin, DVec3::NEG_Y, DVec3::Z),
    );
}

/// Board inside the recess: a back, two sides, a sill and a head.
fn lining(layout: &Layout, recess: &RecessLayout, builder: &mut Builder) {
    let board = layout.params.skins.board;
    let depth = Span::new(recess.back, layout.faces.upper_stud);
    let rough = recess.rough;
    let heights = recess.finished_height;
    let boxes = [
        (
            rough,
            recess.rough_height,
            Span::new(recess.framing_front, recess.back),
        ),
        (Span::new(rough.low, rough.low + board), heights, depth),
        (Span::new(rough.high - board, rough.high), heights, depth),
        (
            rough,
            Span::new(recess.rough_height.low, heights.low),
            depth,
        ),
        (
            rough,
            Span::new(heights.high, recess.rough_height.high),
            depth,
        ),
    ];
    for (sides, heights, outs) in boxes {
        let make = skin(Kind::Board, Material::DRYWALL, board);
        add_box(Branch::Recess, make, (sides, outs, heights), builder);
    }
}

/// The screen on its mount, in the middle of the recess.
fn screen(layout: &Layout, builder: &mut Builder) {
    let (Some(screen), Some(recess)) = (&layout.params.screen, &layout.recess) else {
        return;
    };
    let bought = |kind, material| Make {
        kind,
        group: Group::Skins,
        material,
        stock: Stock::Bought,
        stage: Stage::Screen,
    };
    let (right, up) = (recess.finished.center(), recess.finished_height.center());
    let front_of_mount = recess.back + screen.mount;
    let mount = Length::mm(200.0).min(screen.width).min(screen.height);
    if screen.mount.is_positive() {
        let spans = (
            Span::about(right, mount),
            Span::new(recess.back, front_of_mount),
            Span::about(up, mount),
        );
        add_box(
            Branch::Recess,
            bought(Kind::Mount, Material::STEEL),
            spans,
            builder,
        );
    }
    let spans = (
        Span::about(right, screen.width),
        Span::new(front_of_mount, front_of_mount + screen.thickness),
        Span::about(up, screen.height),
    );
    add_box(
        Branch::Recess,
        bought(Kind::Screen, Material::SCREEN),
        spans,
        builder,
    );
}
