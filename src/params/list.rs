//! The one list of parameters: typed fields, keys, kinds, defaults, ranges and meanings, each said once.
//!
//! A line reads `name: type = kind presence as axis in range, meaning;`. The kind is `fact` (what the manual, a bought thing,
//! the house or another trade has), `choice` (the builder's own) or `subject` (that a thing is there); a line without
//! it does not compile. A table that may be left out is one of `fact` and `subject`, any other is there `always`.
//! A height or a place that may be written from another thing says what it counts along: `as height`, along the chase's
//! `face` or along the fireplace `wall`.
//! One `like` another has that one's structure, and one `of` another adds keys to it.
//! A fact with numbers has what it usually is before it, `#[usual(range)]`: outside of that it is asked about.
//! Of the presence, `required` must be written; `default(x)` may be left out, with one value for either kind of tape
//! or one for each, inch first; `absent` may be left out and nothing stands in for it. A fact has no default: it is
//! `assumed(x)`, where its part is drawn at x while the verdicts that rest on it wait, or `unknown(x)`, where x is the
//! word that says so. What is a `Manual` comes from the unit's own manual, with its page.

use super::choice::{
    Bearing, BesideSides, CeilingSlope, Collar, DoorHinge, FinishMaterial, Fit, FloorDatum,
    FloorKind, FrameStock, FrontForm, Fuel, GapFill, GasEntry, GasMaterial, GasPipe, GasTable,
    HeaderForm, HeightDatum, JobStep, MantelExtent, MantelHold, OverChase, Permission, Placement,
    PlateEdges, PlatesAlong, ProjectionDatum, RafterKind, Rafters, Reach, Receptacle, RidgeRun,
    ServiceFrom, SpaceBehind, StubFrom, USUAL_GAP, VeneerStandard,
};
use super::datum::{Axis, Follower};
use super::decision::Decision;
use super::fixed::FixedThing;
use super::grid::{CableRoute, FloorRows, OutsideOpenings, PlumbRows, RunRows, SideRows};
use super::layer::Layer;
use super::likely::{Likely, columns, larger, none_or, within};
use super::manual::{MantelRule, Manual};
use super::nature::Nature;
use super::range::{
    Range, btu_per_hour, count, degrees, kilograms, lb_per_square_foot, meters, meters_above, mm,
    psi, ratio,
};
use super::reading::Reading;
use super::table::{Group, Parameter, Presence, Values, parameters, put};
use super::value::Quantity;
use super::vent_step::VentStep;
use super::yard::{BoardStock, Price, SheetStock, usual_lengths, usual_steel, usual_stops};
use crate::catalog::{FramingMember, Lumber, lumber};
use crate::units::{Angle, AreaWeight, HeatInput, Length, Pressure, Slope, TapeUnit, Weight};

parameters! {
    project: Project = always, "The job as a whole." {
        name: String = choice required, "Title of the job, as the drawings show it.";
        unit: TapeUnit = choice default(TapeUnit::Inch), "Unit of bare numbers and of the output: `inch` or `mm`.";
        decided: Vec<Decision> = fact absent, "What somebody decided where no key has the answer: the check that asks (`question`, and `of` what, where it asks more than once), `who`, on which `date`, and `what`.";
        floor_datum: FloorDatum = choice default(FloorDatum::BareSlab), "Where heights are measured from: `bare_slab` or `finished_floor`.";
        #[usual(none_or(mm(1.0..=120.0)))]
        floor_buildup: Length = fact assumed(Length::ZERO) in mm(0.0..=200.0), "Thickness of the floor covering over the bare slab.";
        build_allowance: Length = choice default(Length::inches(0.25), Length::mm(6.0)) in mm(0.0..=50.0), "How far off a careful builder may be; a margin below it is TIGHT.";
    }
    visits: Visits = always, "The step of the job before which each inspection or test has to be done; the inspector's word wins over what is entered here. Steps are `walls`, `wiring`, `unit`, `vent`, `board`, `finish`, `mantel` and `first_fire`." {
        gas_test: JobStep = choice default(JobStep::Wiring), "The fitter's test of the gas line, capped.";
        wiring: Option<JobStep> = choice absent, "The inspection of the wiring, where it is a separate one.";
        vent: JobStep = choice default(JobStep::Board), "The inspection of the vent; often one visit with that of the framing.";
        framing: JobStep = choice default(JobStep::Board), "The inspection of the framing, with its fireblocks in.";
        board: Option<JobStep> = choice absent, "The inspection of the board's screws, where there is one.";
    }
    room: Room = always, "The room." {
        #[usual(within(meters(1.4..=20.0)))]
        width: Length = fact required in meters(1.0..=30.0), "Inside width of the room along the fireplace wall.";
        #[usual(within(meters(1.4..=20.0)))]
        depth: Length = fact required in meters(1.0..=30.0), "Inside depth of the room, out from the fireplace wall.";
        #[usual(within(mm(1440.0..=1580.0)))]
        left_corner: Length = fact assumed(Length::inches(60.0), Length::mm(1500.0)) in mm(1430.0..=1600.0), "Tape across the left corner, from 3 ft (900 mm) along the fireplace wall to 4 ft (1200 mm) along the left wall: 5 ft (1500 mm) where it is square. A chase in it stays square, set where the left wall comes farthest into the room, and whatever is measured from that corner is measured from there; a chase across it is cut to the corner.";
        #[usual(within(mm(1440.0..=1580.0)))]
        right_corner: Length = fact assumed(Length::inches(60.0), Length::mm(1500.0)) in mm(1430.0..=1600.0), "The same across the right corner.";
        #[usual(columns(&[meters(0.0..=20.0), meters(0.0..=20.0), meters(0.2..=3.0)]))]
        floor: FloorRows = fact assumed(FloorRows::default()), "Readings of the bare slab, uneven, from a level line, the same one as the ceiling's readings where they have one: right, out, down. The slab's height is that of its highest measured place; sole plates lie level on it and are packed elsewhere. `[]` says that it was measured, and is level.";
        walkway: Length = choice default(Length::inches(36.0), Length::mm(900.0)) in meters(0.0..=5.0), "Clear walkway to keep in front of the chase.";
        #[usual(within(meters(1.2..=20.0)))]
        way_in: Option<Length> = fact absent in meters(0.5..=30.0), "Longest straight piece that can be carried into the room, round every corner on the way.";
        #[usual(columns(&[meters(0.0..=20.0), mm(25.0..=6000.0), mm(0.0..=4000.0), mm(25.0..=4000.0), mm(1.0..=1200.0)]))]
        fixed: Vec<FixedThing> = fact assumed(Vec::new()), "What is fixed to the room's walls: windows, doors, switches, registers; `[]` where there is nothing.";
        clear_beside: Length = choice default(Length::inches(2.0), Length::mm(50.0)) in meters(0.0..=2.0), "How far chase, mantel and cabinets stay from a fixed thing, along its wall and vertically.";
        clear_before: Length = choice default(Length::inches(36.0), Length::mm(900.0)) in meters(0.0..=5.0), "How far in front of a fixed thing must be kept clear of them.";
        floor_kind: Option<FloorKind> = fact absent, "What the floor is: `slab`, `tensioned_slab` (post-tensioned), or `wood` framing.";
        tendons_marked: Option<bool> = fact absent, "A post-tensioned slab: whether its tendons have been located and marked where anchors go.";
        floor_checked: Option<bool> = fact absent, "A wood floor: whether somebody licensed for it has confirmed that it supports chase, finish and unit.";
        #[usual(none_or(mm(50.0..=10_000.0)))]
        hearth_out: Option<Length> = fact absent in meters(0.0..=30.0), "How far out from the finished face around the unit the floor is noncombustible: stone, tile, bare concrete; 0 where wood, carpet or vinyl begins there.";
        #[usual(none_or(mm(50.0..=10_000.0)))]
        hearth_beside: Option<Length> = fact absent in meters(0.0..=30.0), "How far to the side of the opening that floor reaches, on the shorter side.";
        monoxide_alarm: Option<bool> = fact absent, "Whether there is a working carbon monoxide alarm on this floor and near every bedroom.";
    }
    ceiling: Ceiling = always, "The ceiling: one plane, or the one on the near side of the ridge." {
        #[usual(within(meters(2.1..=7.0)))]
        height: Option<Length> = fact absent in meters(1.5..=12.0), "Height of the ceiling at the left corner of the fireplace wall; left out where `readings` give it.";
        slope: Option<CeilingSlope> = fact absent, "`flat` where the ceiling is level both ways, in place of the two rises.";
        #[usual(within(ratio(-1.25..=1.25)))]
        rise_right: Option<Slope> = fact absent in ratio(-2.0..=2.0), "Slope along the wall; positive rises to the right, 0 is level. Left out, it is asked for, and the ceiling is drawn level that way.";
        #[usual(within(ratio(-1.25..=1.25)))]
        rise_out: Option<Slope> = fact absent in ratio(-2.0..=2.0), "Slope out from the wall; positive rises into the room, 0 is level. Left out, it is asked for, and the ceiling is drawn level that way.";
        gap: Length = choice default(USUAL_GAP) in mm(0.0..=100.0), "Gap left between top plates and ceiling; over 1/4 in (common practice) plates are shimmed or clipped.";
        over_chase: Option<OverChase> = fact absent, "What closes the chase at the ceiling: `board` where the ceiling's own gypsum board, 1/2 in (12.5 mm) or thicker, runs on over it in one piece except for the vent's hole; `open` where it is cut, thinner, of another material or missing.";
        gap_fill: Option<GapFill> = choice absent, "What fills the gap over the top plates: `lumber`, gypsum `board`, or `mineral_wool`, packed; needed where the ceiling is `open` there.";
        #[usual(columns(&[meters(0.0..=20.0), meters(0.0..=20.0), meters(0.3..=7.0), meters(0.3..=3.0)]))]
        readings: Vec<Reading> = fact absent, "Readings of the ceiling, at three places or more; the plane through them by least squares takes the place of `height` and slopes.";
        plates: PlatesAlong = choice default(PlatesAlong::Plane), "Where the ceiling was measured: top plates along the `plane` less the gap, or each wall's straight along its own `readings`, under the lowest of them, its studs cut to it and packed up to the ceiling.";
    }
    ridge: Ridge = subject, "A ridge in the ceiling, beyond which another plane falls." {
        runs: RidgeRun = fact required, "Whether the ridge runs `out` from the fireplace wall, or `along` it.";
        #[usual(within(meters(0.3..=15.0)))]
        at: Length = fact required in meters_above(0.0..=30.0), "Where it lies: from the left corner if it runs out, out from the wall if it runs along it.";
        #[usual(within(meters(2.0..=9.0)))]
        height: Option<Length> = fact absent in meters(1.5..=20.0), "Height of the ridge where it meets the wall that its place is measured along; takes the place of the ceiling's slope toward it.";
        #[usual(within(ratio(-1.25..=1.25)))]
        fall: Option<Slope> = fact absent in ratio(-2.0..=2.0), "How the ceiling falls beyond the ridge.";
        #[usual(within(meters(0.5..=9.0)))]
        far_height: Option<Length> = fact absent in meters(0.0..=20.0), "Height of the ceiling at the far end of that wall; takes the place of `fall`.";
    }
    rafters: CeilingRafters = fact, "The framing of the ceiling over the chase; where there is a [roof], its rafters, and only `kind` and `blocks` count." {
        kind: RafterKind = fact required, "`rafter`, `joist` or `truss`.";
        runs: Rafters = fact assumed(Rafters::Out), "How they run: `out` from the fireplace wall, or `along` it.";
        #[usual(within(meters(0.0..=3.0)))]
        first: Option<Length> = fact absent in meters(0.0..=30.0), "Center of the first: from the left corner where they run out, from the fireplace wall where they run along it; left out where [roof] gives it.";
        #[usual(within(mm(280.0..=1250.0)))]
        spacing: Length = fact assumed(Length::inches(16.0)) in mm(150.0..=2500.0), "Spacing on center.";
        stock: Lumber = fact assumed(lumber("2x6")?), "Their stock; of trusses, that of the lower chord, on edge.";
        blocks: bool = choice default(false), "Whether blocks are set between them over top plates that cross none.";
    }
    roof: Roof = fact, "The roof over the ceiling, for a vent that goes up through it." {
        #[usual(within(mm(90.0..=900.0)))]
        thickness: Length = fact required in meters(0.0..=2.0), "From the ceiling's surface to the roof's, square to the slope.";
        #[usual(none_or(mm(6.0..=40.0)))]
        board: Length = fact assumed(Length::inches(0.5)) in mm(0.0..=50.0), "Thickness of the ceiling's board under the rafters.";
        rafter: Lumber = fact assumed(lumber("2x6")?), "Rafters.";
        rafters: Rafters = fact assumed(Rafters::Out), "How the rafters run: `out` from the fireplace wall, or `along` it.";
        #[usual(within(meters(0.0..=3.0)))]
        first_rafter: Length = fact required in meters(0.0..=30.0), "Center of the first rafter: from the left corner where they run out, from the fireplace wall where they run along it.";
        #[usual(within(mm(280.0..=1250.0)))]
        rafter_spacing: Length = fact assumed(Length::inches(16.0)) in mm(150.0..=2500.0), "Rafter spacing on center.";
        #[usual(none_or(mm(9.0..=200.0)))]
        pass_clearance: Manual<Length> = fact required in meters(0.0..=1.0), "Clearance around the pipe where it passes through ceiling and roof.";
        #[usual(within(mm(150.0..=2500.0)))]
        cap_above: Manual<Length> = fact required in meters(0.0..=3.0), "Height of the pipe's end above the roof, where it comes through.";
    }
    wall: ExistingWall = always, "The existing outside wall behind the chase; of a flush chase the room's wall that it is set into." {
        #[usual(none_or(mm(6.0..=40.0)))]
        board: Length = fact assumed(Length::inches(0.5)) in mm(0.0..=50.0), "Thickness of the board on the room side.";
        stud: FramingMember = fact assumed(lumber("2x4")?.into()), "Its studs.";
        #[usual(none_or(mm(5.0..=100.0)))]
        sheathing: Length = fact assumed(Length::inches(0.5)) in mm(0.0..=100.0), "Thickness of sheathing and cladding outside.";
        #[usual(within(meters(0.0..=1.3)))]
        first_stud: Length = fact required in meters(0.0..=30.0), "Center of the first stud, from the left corner.";
        #[usual(within(mm(250.0..=820.0)))]
        stud_spacing: Length = fact assumed(Length::inches(16.0)) in mm(150.0..=1000.0), "Stud spacing on center.";
        bearing: Bearing = fact unknown(Bearing::Unknown), "Whether the wall is bearing: `yes`, `no` or `unknown`.";
    }
    fireplace_wall: FireplaceWall = always of wall: "What else is known of the wall behind the chase." {
        #[usual(columns(&[meters(0.0..=7.0), mm(3.0..=600.0)]))]
        plumb: PlumbRows = fact assumed(PlumbRows::default()), "Readings of a wall out of plumb: height, and the distance there from a plumb line in front of the wall to the wall. The chase stays plumb, set where the wall comes farthest into the room, and whatever is measured out from the wall is measured from there. `[]` says that it was measured, and is plumb.";
        sealed: Option<bool> = fact absent, "Whether the wall behind the chase (of a flush chase outdoors, its enclosure) gets insulation, an air seal and board before the unit is set.";
    }
    left_wall: ExistingWall = fact, "The wall of the room to the left, where the vent goes through it or the chase is built against it." like wall {
        #[usual(none_or(mm(6.0..=40.0)))]
        board: Length = fact assumed(Length::inches(0.5)) in mm(0.0..=50.0), "Thickness of the board on the room side.";
        stud: FramingMember = fact assumed(lumber("2x4")?.into()), "Its studs.";
        #[usual(none_or(mm(5.0..=100.0)))]
        sheathing: Length = fact assumed(Length::inches(0.5)) in mm(0.0..=100.0), "Thickness of sheathing and cladding, or of the board, on its other side.";
        #[usual(within(meters(0.0..=1.3)))]
        first_stud: Length = fact required in meters(0.0..=30.0), "Center of the first stud, out from the fireplace wall.";
        #[usual(within(mm(250.0..=820.0)))]
        stud_spacing: Length = fact assumed(Length::inches(16.0)) in mm(150.0..=1000.0), "Stud spacing on center.";
        bearing: Bearing = fact unknown(Bearing::Unknown), "Whether the wall is bearing: `yes`, `no` or `unknown`.";
    }
    right_wall: ExistingWall = fact, "The wall of the room to the right, where the vent goes through it or the chase is built against it." like wall {
        #[usual(none_or(mm(6.0..=40.0)))]
        board: Length = fact assumed(Length::inches(0.5)) in mm(0.0..=50.0), "Thickness of the board on the room side.";
        stud: FramingMember = fact assumed(lumber("2x4")?.into()), "Its studs.";
        #[usual(none_or(mm(5.0..=100.0)))]
        sheathing: Length = fact assumed(Length::inches(0.5)) in mm(0.0..=100.0), "Thickness of sheathing and cladding, or of the board, on its other side.";
        #[usual(within(meters(0.0..=1.3)))]
        first_stud: Length = fact required in meters(0.0..=30.0), "Center of the first stud, out from the fireplace wall.";
        #[usual(within(mm(250.0..=820.0)))]
        stud_spacing: Length = fact assumed(Length::inches(16.0)) in mm(150.0..=1000.0), "Stud spacing on center.";
        bearing: Bearing = fact unknown(Bearing::Unknown), "Whether the wall is bearing: `yes`, `no` or `unknown`.";
    }
    behind: Behind = fact, "What is behind the wall that a flush chase is set into, and the enclosure there." {
        space: SpaceBehind = fact required, "What is behind it: `outdoors`, or `indoors`, such as a closet or a garage.";
        lining: Length = choice default(Length::inches(0.5), Length::mm(12.5)) in mm(0.0..=50.0), "Outdoors: thickness of the board on the inside of the enclosure, over its insulation.";
        cover: Length = choice default(Length::inches(0.5), Length::mm(12.5)) in mm(0.0..=100.0), "Thickness of what covers the enclosure: sheathing and cladding outdoors, board indoors.";
        #[usual(within(count(1..=2)))]
        wall_plates: u32 = fact assumed(2) in count(1..=2), "Number of top plates of the wall that is opened.";
        #[usual(within(meters(1.5..=6.0)))]
        ceiling: Option<Length> = fact absent in meters(0.5..=15.0), "Height of a flat ceiling or soffit over the enclosure; without it the room's ceiling is drawn continuing there.";
        ceiling_runs_on: Option<bool> = fact absent, "Whether the room's ceiling continues over the enclosure, in place of a height of its own.";
    }
    far_wall: ExistingWall = subject, "Indoors: the outside wall that the enclosure of a flush chase reaches; without it the enclosure has a back of its own." like wall {
        #[usual(none_or(mm(6.0..=40.0)))]
        board: Length = fact assumed(Length::inches(0.5)) in mm(0.0..=50.0), "Thickness of the board on its inside.";
        stud: FramingMember = fact assumed(lumber("2x4")?.into()), "Its studs.";
        #[usual(none_or(mm(5.0..=100.0)))]
        sheathing: Length = fact assumed(Length::inches(0.5)) in mm(0.0..=100.0), "Thickness of sheathing and cladding outside.";
        #[usual(within(meters(0.0..=1.3)))]
        first_stud: Length = fact required in meters(0.0..=30.0), "Center of the first stud, from the line of the room's left corner.";
        #[usual(within(mm(250.0..=820.0)))]
        stud_spacing: Length = fact assumed(Length::inches(16.0)) in mm(150.0..=1000.0), "Stud spacing on center.";
        bearing: Bearing = fact unknown(Bearing::Unknown), "Whether the wall is bearing: `yes`, `no` or `unknown`.";
    }
    chase: Chase = always, "The chase's framing." {
        placement: Placement = choice default(Placement::Projecting), "Where it is: `projecting` in front of the wall, a `divider` away from it, `flush` in the wall with its enclosure behind, in an `alcove` from wall to wall, or across the `left_corner` or `right_corner` of the fireplace wall.";
        left: Option<Length> = choice absent as wall in meters(0.0..=30.0), "Left edge of the framing, from the left corner of the room; not across a corner.";
        way_behind: Option<Length> = choice absent in meters(0.0..=30.0), "A divider: from the wall to the back of its framing.";
        #[usual(within(meters(0.1..=3.0)))]
        alcove_depth: Option<Length> = fact absent in meters(0.2..=30.0), "An alcove: how far its side walls come out from its back; its width is that of the room.";
        width: Length = choice required in mm(600.0..=10_000.0), "Width of the framing; across a corner, of its face. Twice the depth reaches from wall to wall, whatever the corner's angle; less leaves short wings.";
        depth: Length = choice required in mm(200.0..=3000.0), "Depth of the framing, from the wall's finished face to the front stud face; a divider's, from stud face to stud face; a flush one's, from the inside of its back; across a corner, from the corner itself.";
        stud: FramingMember = choice default(lumber("2x4")?.into()), "Studs and plates: lumber, or a steel member such as `362S125-30`, whose tracks go with it.";
        stud_spacing: Length = choice default(Length::inches(16.0)) in mm(150.0..=1000.0), "Stud spacing on center.";
        hammer_room: Length = choice default(Length::inches(3.5), Length::mm(90.0)) in mm(0.0..=100.0), "Least clear space for a hammer between sticks of a wall that do not touch (common practice, no source); 0 for none. Steel is screwed from its face and needs none.";
        top_plates: u32 = choice default(1) in count(1..=2), "Number of top plates; a wall of steel has one track.";
        plate_edges: PlateEdges = choice default(PlateEdges::Ripped), "Edges of top plates, and of blocks over the ceiling, that lie across its slope: `square`, as the stock is sold, leaning with the ceiling, or `ripped` plumb from wider stock. Square ones that would run into something, or cover less than `plate_cover`, are ripped all the same.";
        plate_cover: Length = choice default(Length::inches(3.0), Length::mm(75.0)) in mm(20.0..=300.0), "Least width of the studs that a top plate with square edges has to cover (common practice, no source).";
        fit: Fit = choice default(Fit::FirstThatFits), "How each wall goes up, unless [raising] says it: `tilt_up` as one frame, studs cut a mark short; `plate_first`, the same under top plates that are fastened first; `in_place`, studs a mark long tapped in between plates; or `first_that_fits` of these.";
        two_lift: Weight = choice default(Weight::new(46.0)) in kilograms(10.0..=500.0), "How much two people lift together on this job; the default is twice the 23 kg of the lifting equation of NIOSH (Publication 94-110).";
        access_panel: bool = choice default(false), "Whether the chase has an access panel to the unit, for service.";
        receptacles: Option<Receptacle> = fact absent, "Receptacles along the chase: `planned` where there is one or an electrician sets one, `not_needed` where your electrician or inspector says so.";
    }
    raising: WallsRaised = always, "How single walls of the chase go up, in the words of `chase.fit`, which applies to those left out." {
        front: Option<Fit> = choice absent, "A front in one wall.";
        set_back: Option<Fit> = choice absent, "Stepped front: the set-back wall.";
        bump_out: Option<Fit> = choice absent, "Stepped front: the frame in front of the set-back wall.";
        left_side: Option<Fit> = choice absent, "The left side wall.";
        right_side: Option<Fit> = choice absent, "The right side wall.";
        back: Option<Fit> = choice absent, "The back of a divider, or of a flush chase's enclosure.";
    }
    front: Front = always, "The front of the chase." {
        form: FrontForm = choice required, "`one_wall`, or `stepped`: a set-back wall with a bump-out frame in front of it.";
        header: FramingMember = choice default(lumber("2x4")?.into()), "Stock of the header's plies, on edge; of steel, two members toe to toe, in a wall of steel with a track under and over them.";
        header_form: HeaderForm = choice default(HeaderForm::OnEdge), "How the header over the unit lies: `on_edge`, or `flat`: one stick of the wall's own studs, as the code allows it over a short opening with something to nail to close above.";
        header_plies: Option<u32> = choice absent in count(1..=4), "Plies of the header: as many as fill the wall if left out. Fewer are spaced apart with panel; a single one is at the face of the wall on a flat stick that takes the board.";
        bump_out_header: Option<FramingMember> = choice absent, "Stepped front: stock of the header in the bump-out frame, where it is not `header`.";
        opening_ease: Length = choice default(Length::inches(0.5), Length::mm(12.0)) in mm(0.0..=50.0), "Added to the rough opening's width beyond body and clearances; left out, twice `project.build_allowance`, but no more than `appliance.flange` covers.";
        header_ease: Length = choice default(Length::inches(0.25), Length::mm(6.0)) in mm(0.0..=50.0), "Added to the rough opening's height beyond body and clearance; left out, `project.build_allowance`.";
        ledge: Option<Lumber> = choice absent, "Stepped front: stock of the flat top plate of the bump-out frame.";
        #[usual(within(psi(900_000.0..=2_400_000.0)))]
        header_modulus: Option<Pressure> = fact absent in psi(900_000.0..=3_000_000.0), "Modulus of elasticity of the headers' grade, such as `1.4 million psi` or `9.6 GPa`, from the NDS Supplement or the grade's own sheet; left out, the lowest that yards sell.";
        bump_out_stud: Option<FramingMember> = choice absent, "Stepped front: studs of the bump-out frame; the chase's studs if left out.";
        stud: Option<FramingMember> = choice absent, "Studs and plates of the wall that reaches the ceiling, such as `362S125-30` for studs of steel in tracks; the chase's studs if left out.";
    }
    platform: Platform = always, "The low platform under the unit." {
        layers: Vec<Layer> = choice required, "Layers from the slab up.";
        sleeper_spacing: Length = choice default(Length::inches(16.0)) in mm(100.0..=1000.0), "Spacing of the sleepers on center.";
        #[usual(within(mm(350.0..=1250.0)))]
        span_rating: Option<Length> = fact absent in mm(300.0..=1300.0), "Span for floors stamped on the platform's panels: of two numbers, the second and smaller one.";
    }
    skins: Skins = always, "Board and finish." {
        #[usual(within(mm(9.0..=32.0)))]
        board: Length = choice default(Length::inches(0.5)) in mm(3.0..=50.0), "Thickness of the board on all faces.";
        lower_finish: Length = choice required in mm(0.0..=150.0), "Thickness of the finish on the face around the unit.";
        upper_finish: Length = choice default(Length::ZERO) in mm(0.0..=150.0), "Stepped front: thickness of the finish above the ledge.";
        side_finish: Length = choice default(Length::ZERO) in mm(0.0..=150.0), "Thickness of the finish on the sides, and on the back of a divider.";
        noncombustible_to: Length = choice required as height in meters(0.0..=12.0), "Height up to which the face board is cement board; gypsum board above.";
        lower_material: Option<FinishMaterial> = fact absent, "What the finish around the unit is: `stone`, `tile`, `brick`, `plaster`, `metal`, `paint`, `wallpaper`, `wood` or `mdf`.";
        upper_material: Option<FinishMaterial> = fact absent, "Stepped front: what the finish above the ledge is, in the same words.";
        side_material: Option<FinishMaterial> = fact absent, "What the finish on the sides, and on a divider's back, is, in the same words.";
        #[usual(within(mm(3.0..=100.0)))]
        stone_thickness: Option<Length> = fact absent in mm(1.0..=150.0), "Thickness of the thickest stone, tile or brick alone, without its mortar.";
        #[usual(within(mm(250.0..=650.0)))]
        board_spacing: Option<Manual<Length>> = fact absent in mm(200.0..=1000.0), "Widest spacing of studs that the board's maker allows under this finish, with the page of the maker's sheet.";
        #[usual(within(lb_per_square_foot(1.5..=30.0)))]
        lower_weight: Option<AreaWeight> = fact absent in lb_per_square_foot(0.0..=100.0), "Weight of the finish around the unit, with its mortar.";
        #[usual(within(lb_per_square_foot(1.5..=30.0)))]
        upper_weight: Option<AreaWeight> = fact absent in lb_per_square_foot(0.0..=100.0), "Stepped front: weight of the finish above the ledge.";
        #[usual(within(lb_per_square_foot(1.5..=30.0)))]
        side_weight: Option<AreaWeight> = fact absent in lb_per_square_foot(0.0..=100.0), "Weight of the finish on the sides.";
        side_on_gypsum: Option<Manual<Permission>> = fact absent, "Whether the maker of the stone, tile or brick on the sides, or of its mortar, allows it to be adhered to gypsum board: `yes` or `no`, with the page of that sheet.";
        veneer_standard: VeneerStandard = fact unknown(VeneerStandard::Unknown), "Standard of stone veneer that your code adopts: `tms_402_16` (or earlier), `tms_402_22` or `unknown`.";
    }
    appliance: Appliance = always, "The unit, from its own manual." {
        center: Option<Length> = choice absent as face in meters(0.0..=30.0), "Center of the unit from the left corner of the room, across a corner from the left end of the chase's face; the chase's middle if left out.";
        #[usual(within(mm(400.0..=2500.0)))]
        body_width: Length = fact required in mm(200.0..=4000.0), "Width of the body.";
        #[usual(within(mm(400.0..=1800.0)))]
        body_height: Length = fact required in mm(200.0..=3000.0), "Height of the body.";
        #[usual(within(mm(200.0..=900.0)))]
        body_depth: Length = fact required in mm(100.0..=2000.0), "Depth of the body behind its face.";
        #[usual(within(mm(350.0..=2500.0)))]
        opening_width: Length = fact required in mm(100.0..=4000.0), "Width of the finished opening.";
        #[usual(none_or(mm(9.0..=600.0)))]
        opening_bottom: Length = fact assumed(Length::ZERO) in meters(0.0..=1.0), "Bottom of the opening above the body's base.";
        #[usual(within(mm(300.0..=1800.0)))]
        opening_top: Length = fact required in mm(100.0..=3000.0), "Top of the opening above the body's base.";
        #[usual(none_or(mm(3.0..=120.0)))]
        lip: Length = fact required in mm(0.0..=200.0), "How far the lip stands forward of the unit's face.";
        #[usual(within(mm(0.7..=20.0)))]
        lip_thickness: Length = fact assumed(Length::inches(0.125)) in mm(0.5..=50.0), "Thickness of the lip around the opening.";
        face_offset: Length = choice default(Length::ZERO) in mm(0.0..=200.0), "How far the unit's face is set forward of the stud face.";
        #[usual(none_or(mm(3.0..=120.0)))]
        most_forward: Option<Manual<Length>> = fact absent in mm(0.0..=200.0), "How far in front of the stud face the manual allows the unit's face, fastened to furring; 0 where it has to be flush with the studs.";
        #[usual(within(mm(9.0..=1800.0)))]
        brackets: Vec<Length> = fact assumed(Vec::new()), "Heights of the unit's fixing brackets above the body's base, at both sides of the opening; `[]` where it has none.";
        #[usual(none_or(mm(5.0..=150.0)))]
        standoff: Length = fact assumed(Length::ZERO) in mm(0.0..=200.0), "Height of the spacers on top and back of the body.";
        #[usual(none_or(mm(5.0..=120.0)))]
        flange: Option<Manual<Length>> = fact absent in mm(0.0..=200.0), "How far the unit's nailing flange reaches past the body at its sides: it has to cover the gap to the framing. Asked for where the opening is wider than needed.";
        #[usual(none_or(mm(9.0..=300.0)))]
        side_clearance: Manual<Length> = fact required in meters(0.0..=1.0), "Clearance beside the body.";
        #[usual(none_or(mm(9.0..=300.0)))]
        rear_clearance: Manual<Length> = fact required in meters(0.0..=1.0), "Clearance behind the body.";
        #[usual(none_or(mm(9.0..=1500.0)))]
        top_clearance: Manual<Length> = fact required in meters(0.0..=2.0), "Clearance above the body.";
        #[usual(within(mm(450.0..=2500.0)))]
        front_clearance: Manual<Length> = fact required in meters(0.0..=5.0), "Clearance in front of the opening.";
        #[usual(within(mm(200.0..=2500.0)))]
        front_clearance_height: Manual<Length> = fact required in meters(0.0..=3.0), "Height of the clearance in front of the opening, above the body's base.";
        #[usual(none_or(mm(25.0..=900.0)))]
        facing_zone_side: Manual<Length> = fact required in meters(0.0..=3.0), "Facing zone beside the opening.";
        #[usual(none_or(mm(25.0..=1500.0)))]
        facing_zone_top: Manual<Length> = fact required in meters(0.0..=5.0), "Facing zone above the opening.";
        wood_behind_facing: Manual<Permission> = fact required, "Whether wood framing is allowed behind the facing in the zone: `yes` or `no`.";
        #[usual(within(btu_per_hour(6000.0..=120_000.0)))]
        input: Option<HeatInput> = fact absent in btu_per_hour(1000.0..=400_000.0), "Highest input, from the rating plate.";
        #[usual(none_or(mm(9.0..=300.0)))]
        insulation_distance: Option<Manual<Length>> = fact absent in meters(0.0..=1.0), "How far insulation must stay from the unit and its vent.";
        #[usual(none_or(mm(25.0..=1500.0)))]
        side_wall: Option<Manual<Length>> = fact absent in meters(0.0..=5.0), "Least distance from the opening's side to a wall of the room that comes forward beside it.";
        #[usual(none_or(mm(75.0..=1500.0)))]
        hearth_out: Option<Manual<Length>> = fact absent in meters(0.0..=3.0), "How far out from the opening the manual requires a noncombustible floor; 0 where it requires none.";
        #[usual(none_or(mm(50.0..=1000.0)))]
        hearth_beside: Option<Manual<Length>> = fact absent in meters(0.0..=3.0), "How far to either side of the opening it requires that floor.";
        #[usual(none_or(mm(100.0..=2000.0)))]
        screen_above: Option<Manual<Length>> = fact absent in meters(0.0..=5.0), "Least height of a screen above the opening that the manual requires, with this mantel or without one.";
        service: Option<Manual<ServiceFrom>> = fact absent, "Where the manual has the unit serviced from: the `front`, through its opening, or a `panel` in the chase.";
        gas_entry: Option<Manual<GasEntry>> = fact absent, "Where the manual shows the gas line entering the unit, as seen from the room: its `left`, `right`, `back` or `bottom`.";
        receptacle: Option<Manual<Receptacle>> = fact absent, "Electric supply of the unit: `planned` where the manual calls for it and there is one, or an electrician sets one; `not_needed` where the manual calls for none.";
    }
    vent: Vent = always, "The vent, out through the wall." {
        #[usual(within(mm(70.0..=360.0)))]
        pipe_diameter: Length = fact required in mm(50.0..=500.0), "Outer diameter of the pipe.";
        #[usual(within(mm(45.0..=260.0)))]
        flue_diameter: Option<Length> = fact absent in mm(20.0..=490.0), "Outer diameter of the inner pipe, where the vent is a pipe within a pipe.";
        #[usual(within(mm(0.3..=3.0)))]
        pipe_wall: Length = fact assumed(Length::inches(0.03125)) in mm(0.2..=10.0), "Thickness of the pipe's outer metal.";
        #[usual(within(mm(70.0..=900.0)))]
        collar_offset: Length = fact required in mm(50.0..=2000.0), "Center of the collar: behind the unit's face where it faces up, above the body's base where it faces back.";
        collar: Collar = fact assumed(Collar::Up), "Where the collar faces: `up` from the top of the body, or `back` from behind it.";
        rise: Option<Length> = choice absent in meters_above(0.0..=6.0), "Rise from the top of the body to the elbow's center, for a vent that rises, turns once and goes out the back.";
        path: Option<Vec<VentStep>> = choice absent, "Any other vent, step by step from the collar, instead of `rise`: `go`, `turn`, `offset`, `through`.";
        #[usual(within(mm(60.0..=500.0)))]
        bend_radius: Length = fact required in mm(50.0..=1000.0), "Radius of the elbow's center line.";
        #[usual(none_or(ratio(0.005..=0.1)))]
        slope: Manual<Slope> = fact required in ratio(0.0..=1.0), "Slope of the run, up toward the cap.";
        #[usual(none_or(mm(100.0..=2500.0)))]
        least_rise: Manual<Length> = fact required in meters(0.0..=6.0), "Least rise that the manual allows.";
        #[usual(none_or(mm(9.0..=200.0)))]
        vertical_clearance: Manual<Length> = fact required in meters(0.0..=1.0), "Clearance around vertical pipe.";
        #[usual(none_or(mm(9.0..=200.0)))]
        bend_clearance: Manual<Length> = fact required in meters(0.0..=1.0), "Clearance around the elbow.";
        #[usual(none_or(mm(9.0..=250.0)))]
        top_clearance: Manual<Length> = fact required in meters(0.0..=1.0), "Clearance above the run.";
        #[usual(none_or(mm(9.0..=200.0)))]
        side_clearance: Manual<Length> = fact required in meters(0.0..=1.0), "Clearance beside the run.";
        #[usual(none_or(mm(9.0..=200.0)))]
        bottom_clearance: Manual<Length> = fact required in meters(0.0..=1.0), "Clearance below the run.";
        #[usual(none_or(mm(100.0..=600.0)))]
        firestop_width: Length = fact assumed(Length::ZERO) in meters(0.0..=1.0), "Width that the firestop's own frame needs.";
        #[usual(none_or(mm(100.0..=600.0)))]
        firestop_height: Length = fact assumed(Length::ZERO) in meters(0.0..=1.0), "Height that the firestop's own frame needs.";
        pass_ease: Length = choice default(Length::inches(0.25), Length::mm(6.0)) in mm(0.0..=50.0), "Added on each side of the hole through the wall beyond pipe and clearances; left out, `project.build_allowance`.";
        angled_pass: Option<Manual<Permission>> = fact absent, "Whether the vent may cross the wall at an angle: `yes` or `no`; asked for where it is left out.";
        pass_frame: FrameStock = choice default(FrameStock::Wood), "What the pass is framed with: `wood` or `steel`, of the wall's own size.";
        hand_reach: Length = choice default(Length::inches(24.0), Length::mm(600.0)) in meters(0.1..=1.5), "How far you can reach to a joint.";
        #[usual(within(mm(100.0..=600.0)))]
        cap_width: Length = fact assumed(Length::inches(12.0)) in mm(50.0..=1000.0), "Width of the cap outside.";
        #[usual(within(mm(100.0..=700.0)))]
        cap_height: Length = fact assumed(Length::inches(12.0)) in mm(50.0..=1000.0), "Height of the cap outside.";
        #[usual(within(mm(50.0..=450.0)))]
        cap_depth: Length = fact assumed(Length::inches(8.0)) in mm(20.0..=1000.0), "How far the cap projects from the wall.";
        #[usual(within(meters(0.3..=15.0)))]
        longest_run: Option<Manual<Length>> = fact absent in meters(0.0..=30.0), "Longest run that the manual allows, from the riser to the outside face.";
        #[usual(within(count(1..=8)))]
        most_elbows: Option<Manual<u32>> = fact absent in count(0..=12), "Most elbows that the manual allows.";
        #[usual(larger(meters(0.1..=6.0), meters(0.3..=15.0)))]
        run_for_rise: Option<Manual<RunRows>> = fact absent, "The manual's rows of rise and longest run: from each rise up, that much run.";
        #[usual(none_or(mm(50.0..=400.0)))]
        thinnest_wall: Option<Manual<Length>> = fact absent in mm(0.0..=1000.0), "Thinnest wall that the thimble or firestop fits, from finished face to outside face.";
        #[usual(within(mm(90.0..=800.0)))]
        thickest_wall: Option<Manual<Length>> = fact absent in mm(0.0..=2000.0), "Thickest wall that it fits.";
    }
    mantel: Mantel = subject, "The mantel." {
        projection: Length = choice required in meters(0.0..=1.0), "Projection forward of the finished lower face.";
        thickness: Length = choice required in mm(10.0..=500.0), "Thickness.";
        underside: Length = choice required as height in mm(200.0..=6000.0), "Height of its underside.";
        extent: MantelExtent = choice default(MantelExtent::Chase), "How far it reaches: over the `chase`, from wall to wall of the `room`, or a `length` of its own about the unit's center.";
        length: Option<Length> = choice absent in mm(200.0..=12_000.0), "Extent `length`: its length.";
        end_ease: Length = choice default(Length::inches(0.25), Length::mm(6.0)) in mm(0.0..=100.0), "Extent `room`: how much shorter it is than the distance from wall to wall.";
        end_legs: Option<Length> = subject absent in mm(20.0..=500.0), "Width of a leg under each end that reaches beyond the chase, on the cabinet there or on the floor.";
        combustible: bool = choice default(true), "Whether the mantel is combustible.";
        held_by: Option<MantelHold> = choice absent, "What holds it: `screws` down into the ledge, through counterbored holes that are plugged; a `cleat`, over which a hollow mantel is slid; or `brackets`, steel bars on the sides of studs that it lies on, set before the board goes on.";
        hold_spacing: Length = choice default(Length::inches(24.0), Length::mm(600.0)) in meters(0.025..=3.0), "Widest spacing of its screws or brackets.";
        counterbore: Length = choice default(Length::inches(1.0), Length::mm(25.0)) in mm(0.0..=400.0), "Held by `screws`: how deep their heads are counterbored, under the plugs.";
        shell: Length = choice default(Length::inches(0.75), Length::mm(19.0)) in mm(3.0..=100.0), "Held by a `cleat`: thickness of the boards that the hollow mantel is made of.";
        cleat: Lumber = choice default(lumber("2x2")?), "Held by a `cleat`: its stock, wide side on the wall, under the mantel's upper board.";
        bracket_thickness: Length = choice default(Length::inches(0.25), Length::mm(6.0)) in mm(3.0..=25.0), "Held by `brackets`: thickness of the bar, which lies with its wide side on a stud's.";
        bracket_height: Length = choice default(Length::inches(1.5), Length::mm(40.0)) in mm(15.0..=150.0), "Held by `brackets`: height of the bar.";
        steel_in_zone: Option<Manual<Permission>> = fact absent, "Held by `brackets`: whether the manual allows steel through the facing zone, `yes` or `no`.";
        #[usual(larger(mm(12.0..=500.0), mm(25.0..=1500.0)))]
        rule: Manual<MantelRule> = fact required, "The manual's mantel rule.";
        projection_from: Manual<ProjectionDatum> = fact required, "Where the manual measures projection from: `finished_face`, `unit_face` or `opening`.";
        height_from: Manual<HeightDatum> = fact required, "Where the manual measures height from: `opening_top` or `body_top`.";
    }
    recess: Recess = subject, "The recess for a screen." {
        width: Length = choice required in mm(100.0..=5000.0), "Finished width.";
        height: Length = choice required in mm(100.0..=3000.0), "Finished height.";
        depth: Length = choice required in mm(10.0..=1000.0), "Depth behind the finished face around it.";
        sill: Length = choice required as height in meters(0.0..=6.0), "Height of its finished sill.";
        center: Option<Length> = choice absent as face in meters(0.0..=30.0), "Center, measured as that of the unit; the chase's middle if left out.";
        header_form: HeaderForm = choice default(HeaderForm::Flat), "How the header over the recess lies: `flat`, one stick of the wall's own studs, or `on_edge`, for stone over it, a wide recess or studs that go on far above it.";
        header: Option<FramingMember> = choice absent, "On edge: stock of its plies, or a steel member; that of `front.header` if left out.";
        header_plies: Option<u32> = choice absent in count(1..=4), "On edge: its plies, as `front.header_plies`.";
    }
    screen: Screen = subject, "The screen in the recess." {
        #[usual(within(mm(400.0..=2800.0)))]
        width: Length = fact required in mm(100.0..=5000.0), "Outside width.";
        #[usual(within(mm(250.0..=1700.0)))]
        height: Length = fact required in mm(100.0..=3000.0), "Outside height.";
        #[usual(within(mm(10.0..=160.0)))]
        thickness: Length = fact required in mm(5.0..=300.0), "Outside depth without the mount.";
        #[usual(none_or(mm(5.0..=250.0)))]
        mount: Length = fact assumed(Length::inches(1.0)) in mm(0.0..=500.0), "Depth of the mount, folded.";
        air: Length = choice default(Length::inches(1.0), Length::mm(25.0)) in mm(0.0..=200.0), "Air to leave on each side.";
        seat_distance: Option<Length> = subject absent in meters(0.5..=20.0), "Distance of the seats from the screen; where it is given, the screen's height is judged by it.";
        over_fire: Option<Manual<Permission>> = fact absent, "Whether the screen's maker allows it over a fireplace: `yes` or `no`, with the page of the screen's own manual.";
        receptacle: Option<Receptacle> = fact absent, "Receptacle behind the screen: `planned` where there is one or an electrician sets one, or `not_needed`.";
    }
    gas: Gas = fact, "The gas line's end in the room." {
        fuel: Fuel = fact required, "`natural` or `propane`.";
        stub_from: StubFrom = fact assumed(StubFrom::Floor), "Where the stub comes from: `floor` or `wall`.";
        #[usual(within(meters(0.0..=20.0)))]
        stub_right: Length = fact required in meters(0.0..=30.0), "Center of the stub's end, from the left corner of the room.";
        #[usual(within(meters(0.0..=10.0)))]
        stub_out: Length = fact required in meters(0.0..=30.0), "Center of the stub's end, out from the wall.";
        #[usual(within(meters(0.0..=2.5)))]
        stub_up: Length = fact required in meters(0.0..=6.0), "Height of the stub's end.";
        #[usual(within(meters(0.0..=20.0)))]
        shutoff_right: Length = fact required as wall in meters(0.0..=30.0), "Center of the shutoff, from the left corner of the room.";
        #[usual(within(meters(0.0..=10.0)))]
        shutoff_out: Length = fact required in meters(0.0..=30.0), "Center of the shutoff, out from the wall.";
        #[usual(within(meters(0.0..=2.5)))]
        shutoff_up: Length = fact required as height in meters(0.0..=6.0), "Height of the shutoff's center.";
        reached_from: Reach = choice default(Reach::Front), "Where the shutoff is reached from: `front`, `left` or `right`.";
        hand_room: Length = choice default(Length::inches(6.0), Length::mm(150.0)) in mm(50.0..=500.0), "Width and height kept free for the hand.";
        panel: bool = choice default(false), "Whether there is an access panel where the hand goes in.";
        #[usual(within(btu_per_hour(6000.0..=800_000.0)))]
        demand: Option<HeatInput> = fact absent in btu_per_hour(1000.0..=2_000_000.0), "Total input of everything on the sized pipe, the unit's included; asked for where it is left out.";
        pipe: GasPipe = fact required, "Nominal size of the steel pipe: `1/2`, `3/4`, `1` or `1-1/4`.";
        material: Option<GasMaterial> = fact absent, "What the gas line in the chase is: `steel` pipe, `copper` tubing, or `flexible` corrugated tubing.";
        hidden_joints: Option<bool> = fact absent, "Whether the finished chase hides a union, a compression fitting or a valve of the gas line where nobody can reach it.";
        #[usual(within(meters(0.9..=60.0)))]
        longest_run: Length = fact required in meters_above(0.0..=100.0), "Longest run of pipe, from the meter or regulator to the farthest outlet.";
        sized_by: GasTable = fact assumed(GasTable::HalfInch), "Pressure drop that the pipe is sized by, from the gas supplier: `half_inch_drop` or `three_inch_drop` of water.";
        #[usual(within(count(850..=2600)))]
        heating_value: u32 = fact assumed(1000) in count(500..=3000), "Heat in a cubic foot of the supplier's gas, in Btu.";
        #[usual(within(psi(3.0..=60.0)))]
        test_pressure: Pressure = fact assumed(Pressure::new(3.0)) in psi(3.0..=60.0), "Pressure of the fitter's test, as your code requires.";
        #[usual(within(count(10..=240)))]
        test_minutes: u32 = fact assumed(10) in count(10..=1440), "How long the test lasts, in minutes.";
    }
    outside: Outside = fact, "The wall outside around the cap." {
        #[usual(within(meters(-2.5..=1.5)))]
        ground: Length = fact required in meters(-3.0..=3.0), "Height of the finished ground under the cap; below the heights' datum it is negative.";
        #[usual(columns(&[meters(-6.0..=25.0), meters(-3.0..=6.0), meters(-6.0..=30.0), meters(-3.0..=9.0)]))]
        openings: Option<OutsideOpenings> = fact absent, "Windows, doors and inlets that let air through, in the wall that the vent goes through: left, bottom, right, top, along it from the left corner of the room (of a side wall from the fireplace wall) and from the heights' datum. `[]` says that there are none besides those of `room.fixed`; left out, it is asked for.";
        #[usual(none_or(mm(100.0..=2500.0)))]
        ground_clearance: Option<Manual<Length>> = fact absent in meters(0.0..=3.0), "Height of the cap above the ground that the manual requires.";
        #[usual(none_or(mm(100.0..=3000.0)))]
        opening_clearance: Option<Manual<Length>> = fact absent in meters(0.0..=5.0), "Distance of the cap from openings that the manual requires.";
        #[usual(within(meters(-3.0..=25.0)))]
        corner: Option<Length> = fact absent in meters(-3.0..=33.0), "Nearest inside corner of that wall outside, from the left corner of the room, or of a side wall from the fireplace wall.";
        #[usual(none_or(mm(75.0..=3000.0)))]
        corner_clearance: Option<Manual<Length>> = fact absent in meters(0.0..=3.0), "Distance of the cap from an inside corner that the manual requires.";
        #[usual(within(meters(1.2..=12.0)))]
        soffit: Option<Length> = fact absent in meters(0.5..=15.0), "Height of the underside of a soffit or deck over the cap.";
        #[usual(none_or(mm(75.0..=3000.0)))]
        soffit_clearance: Option<Manual<Length>> = fact absent in meters(0.0..=3.0), "Distance of the cap from it that the manual requires.";
        #[usual(within(meters(0.1..=60.0)))]
        meter: Option<Length> = fact absent in meters(0.0..=100.0), "Distance of the cap from the gas meter, as measured.";
        #[usual(none_or(mm(100.0..=6000.0)))]
        meter_clearance: Option<Manual<Length>> = fact absent in meters(0.0..=10.0), "Distance of the cap from the meter that the manual or the gas supplier requires, with the page that says so.";
        #[usual(within(meters(0.1..=60.0)))]
        regulator: Option<Length> = fact absent in meters(0.0..=100.0), "Distance of the cap from the vent of the gas regulator, as measured.";
        #[usual(none_or(mm(100.0..=6000.0)))]
        regulator_clearance: Option<Manual<Length>> = fact absent in meters(0.0..=10.0), "Distance of the cap from it that the manual or the gas supplier requires, with the page that says so.";
        #[usual(within(meters(0.1..=100.0)))]
        walkway: Option<Length> = fact absent in meters(0.0..=100.0), "Distance of the cap from the nearest public walkway, as measured.";
        #[usual(none_or(mm(100.0..=6000.0)))]
        walkway_clearance: Option<Manual<Length>> = fact absent in meters(0.0..=10.0), "Distance of the cap from it that the manual requires.";
    }
    side_rule: SideRule = fact, "The manual's table for what projects beside the opening." {
        #[usual(larger(mm(5.0..=900.0), mm(10.0..=2000.0)))]
        rows: Manual<SideRows> = fact required, "Rows of projection and distance from the opening's side: up to each projection, at least that far.";
        projection_from: Manual<ProjectionDatum> = fact required, "Where the manual measures that projection from: `finished_face`, `unit_face` or `opening`.";
    }
    legs: Legs = subject, "Legs under the mantel, one on each side." {
        distance: Length = choice required in meters(0.0..=2.0), "From the opening's side to the leg.";
        width: Length = choice required in mm(10.0..=1000.0), "Width of a leg.";
        projection: Length = choice required in mm(1.0..=1000.0), "Projection forward of the finished lower face.";
        top: Length = choice required as height in meters(0.1..=4.0), "Height of their tops.";
        combustible: bool = choice default(true), "Whether the legs are combustible.";
    }
    cabinets: Cabinets = subject, "Cabinets beside the chase." {
        sides: BesideSides = choice default(BesideSides::Both), "Where they are: `both`, `left` or `right`.";
        gap: Length = choice default(Length::ZERO) in meters(0.0..=3.0), "Between the chase's finished side and the cabinet.";
        width: Length = choice required in mm(100.0..=5000.0), "Width of each.";
        depth: Length = choice required in mm(100.0..=2000.0), "Depth of each, out from the wall.";
        height: Length = choice required in mm(100.0..=4000.0), "Height of each.";
        door: Length = choice default(Length::ZERO) in mm(0.0..=1500.0), "Width of the door next to the chase; 0 where none swings.";
        hinge: DoorHinge = choice default(DoorHinge::Far), "Which side that door is hinged on: `near` the chase or `far` from it.";
    }
    cables: Cables = subject, "Cables inside the chase." {
        route: CableRoute = choice required, "Corners of the cables' route: right, out and up of each; each leg runs along one of these.";
        #[usual(within(mm(3.0..=60.0)))]
        diameter: Length = fact assumed(Length::inches(0.5), Length::mm(12.0)) in mm(2.0..=100.0), "Thickness of the bundle.";
        #[usual(none_or(mm(9.0..=600.0)))]
        keep_out: Option<Manual<Length>> = fact absent in meters(0.0..=1.0), "How far cables must stay from the unit and its vent.";
        shelf: Option<Length> = subject absent as height in meters(0.3..=6.0), "Height of the underside of the shelf that keeps cables off the hot top.";
        shelf_thickness: Length = choice default(Length::inches(0.75), Length::mm(18.0)) in mm(3.0..=50.0), "Thickness of that shelf.";
        cleats: FramingMember = choice default(lumber("2x2")?.into()), "Stock of the cleats that this shelf lies on, on edge along the side walls.";
    }
    blocking: Blocking = always, "Blocks between studs, for what is fastened to them." {
        stock: Lumber = choice default(lumber("2x6")?), "Stock of the blocks behind mantel, screen and rail, wide face out.";
        mantel: bool = choice default(true), "Whether a mantel that hangs on studs gets a row of blocks.";
        screen: bool = choice default(true), "Whether the screen's mount gets two rows of blocks.";
        board_joint: bool = choice default(true), "Whether the joint between cement board and gypsum board gets a row of blocks.";
        behind_sides: bool = choice default(false), "Whether the existing wall gets blocks where a wall of the chase meets it between two studs.";
        side_rail: Option<Length> = subject absent as height in meters(0.0..=6.0), "Height of the middle of a row of blocks in both side walls, for a rail or a cabinet.";
        every_ten_feet: bool = fact assumed(false), "Whether the local code requires stud bays to be fireblocked every 10 ft vertically, as older ones do.";
        across: Vec<Length> = choice default(Vec::new()), "Places, from the left corner of the room, where a board fireblocks the hollow of the chase from wall to front.";
    }
    stock: StockYard = always, "What the yard stocks, and how it is cut." {
        lengths: Vec<Length> = choice default(usual_lengths(TapeUnit::Inch), usual_lengths(TapeUnit::Millimeter)), "Board lengths of the yard, for every size that `boards` does not name.";
        steel_lengths: Vec<Length> = choice default(usual_steel(TapeUnit::Inch), usual_steel(TapeUnit::Millimeter)), "Lengths of steel studs and tracks, for every one that `boards` does not name.";
        boards: Vec<BoardStock> = choice default(Vec::new()), "Boards by size and length, with their prices.";
        sheets: Vec<SheetStock> = choice default(Vec::new()), "Sheets by material and size, with their prices.";
        kerf: Length = choice default(Length::inches(0.125), Length::mm(3.0)) in mm(0.0..=20.0), "Width of the saw's cut.";
        end_trim: Length = choice default(Length::inches(0.5), Length::mm(12.0)) in mm(0.0..=200.0), "Trimmed off one end of each board, to start square.";
        reject: u32 = choice default(5) in count(0..=50), "Boards bought beyond the plan for crowns and splits, in percent.";
        search_nodes: u32 = choice default(2000) in count(1..=1_000_000), "How long each cutting plan is searched at most, counted in nodes of the search; most need fewer than 100.";
        currency: String = choice default("$".to_owned()), "Sign of the currency of every price.";
        prices: Vec<Price> = choice default(Vec::new()), "Prices and weights of everything else, by the name in the buy list; with a count, also things that are not in the model, such as tape or straps.";
    }
    saw: Saw = always, "The miter saw." {
        stops: Vec<Angle> = choice default(usual_stops()), "Angles at which the saw's table or blade has a stop.";
        largest_miter: Angle = choice default(Angle::degrees(50.0)) in degrees(1.0..=80.0), "Largest turn of the table.";
        largest_bevel: Angle = choice default(Angle::degrees(45.0)) in degrees(1.0..=80.0), "Largest tilt of the blade.";
        shortest_piece: Length = choice default(Length::inches(8.0), Length::mm(200.0)) in mm(0.0..=1000.0), "Below this length a piece gets a note: clamp it.";
        tolerance: Length = choice default(Length::inches(0.0625), Length::mm(1.5)) in mm(0.0..=6.0), "A miter or bevel that rises less than this across its stick is cut square, at the short point, and the wedge is shimmed (common practice, no source); 0 cuts every angle.";
    }
    fasteners: Fasteners = always, "Your own schedule of screws and anchors." {
        #[usual(within(mm(100.0..=410.0)))]
        board_screw_spacing: Length = choice default(Length::inches(12.0), Length::mm(300.0)) in meters(0.025..=2.0), "Screws in wall board, along each stick behind it.";
        #[usual(within(mm(100.0..=310.0)))]
        panel_screw_spacing: Length = choice default(Length::inches(8.0), Length::mm(200.0)) in meters(0.025..=2.0), "Screws in platform panels, along each stick under them.";
        screw_bite: Length = choice default(Length::inches(1.0), Length::mm(25.0)) in mm(0.0..=150.0), "How far the screws of board and panels go into wood.";
        #[usual(within(meters(0.3..=1.85)))]
        anchor_spacing: Length = choice default(Length::inches(32.0), Length::mm(800.0)) in meters(0.025..=3.0), "Anchors of sole plates to the slab.";
        #[usual(within(mm(100.0..=620.0)))]
        ceiling_screw_spacing: Length = choice default(Length::inches(16.0), Length::mm(400.0)) in meters(0.025..=3.0), "Screws of top plates, into rafters or blocking.";
        ceiling_screw_bite: Length = choice default(Length::inches(1.5), Length::mm(38.0)) in mm(0.0..=200.0), "How far those go into rafters or blocking, and those of the chase's ends into the room's walls.";
        #[usual(within(mm(100.0..=620.0)))]
        wall_screw_spacing: Length = choice default(Length::inches(16.0), Length::mm(400.0)) in meters(0.025..=3.0), "Screws of the chase's end studs, into studs or blocks of the room's walls.";
        ceiling_screw: Option<Length> = subject absent in mm(10.0..=500.0), "Length of the screws of top plates, where you have them already; their bite is judged by it.";
        #[usual(none_or(mm(6.0..=40.0)))]
        ceiling_board: Length = fact assumed(Length::inches(0.5), Length::mm(12.5)) in mm(0.0..=100.0), "Thickness of the ceiling board that those go through.";
        #[usual(within(meters(0.9..=60.0)))]
        adhesive_reach: Option<Length> = fact absent in meters_above(0.0..=100.0), "How long a bead one cartridge of construction adhesive makes, under platform panels; without it the buy list has the bead's length.";
        #[usual(within(meters(0.5..=90.0)))]
        sealant_reach: Option<Length> = fact absent in meters_above(0.0..=100.0), "How far one cartridge of sealant, or one roll of foil tape, goes around a firestop; without it the buy list has the length.";
        nail_plates: bool = choice default(true), "Whether a steel plate covers each edge of a stud that a bore comes too near to.";
    }
    pipe: PipeKit = fact, "The vent pipe as sold, from the unit's manual." {
        #[usual(within(mm(50.0..=1900.0)))]
        sections: Vec<Length> = fact required, "Lengths of straight sections.";
        #[usual(none_or(mm(5.0..=80.0)))]
        overlap: Manual<Length> = fact required in mm(0.0..=300.0), "How far a section goes into the next.";
        #[usual(none_or(mm(50.0..=1500.0)))]
        adjustable: Length = fact assumed(Length::ZERO) in meters(0.0..=3.0), "Longest reach of the adjustable section; 0 where there is none.";
        #[usual(within(count(0..=8)))]
        joint_screws: Manual<u32> = fact required in count(0..=12), "Screws in each joint.";
        joint_sealant: Manual<Permission> = fact required, "Whether joints are sealed: `yes` or `no`.";
        joint_clamp: Manual<Permission> = fact required, "Whether joints get a clamp: `yes` or `no`.";
        #[usual(within(meters(0.3..=4.0)))]
        strap_spacing: Option<Manual<Length>> = fact absent in meters(0.025..=6.0), "Widest spacing of straps along straight pipe; none are counted where it is left out.";
    }
}
