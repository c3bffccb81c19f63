//! The workshop's numbers: from wood, mould, glue, press and trucks to every figure of a build.
//!
//! Pure functions of a shape, its measures and [`Inputs`]. One part of the work stands in each file; [`FIGURES`] lists
//! what comes out, [`INPUTS`] what goes in. A figure that cannot be given is *none* with a reason, and only it: nothing else
//! falls. Estimates are called so in the table, and no figure certifies a rider's mass.

pub mod assembly;
pub mod bench;
pub mod bend;
pub mod blank;
pub mod card;
pub mod drilling;
mod fault;
pub mod figures;
pub mod flex;
pub mod glue;
pub mod inputs;
pub mod laminate;
pub mod moisture;
pub mod order;
pub mod plywood;
pub mod press;
pub mod record;
pub mod run;
pub mod section;
pub mod species;
pub mod stacks;
pub mod strike;
mod usual;

use self::{
    assembly::Clock,
    blank::Margins,
    flex::{Beam, Flex},
    glue::Coverage,
    laminate::{Laminate, Layer},
    press::Bolted,
    run::Needs,
    strike::Tip,
};
pub use self::{
    fault::Fault,
    figures::{FIGURES, Figure, Panel},
    inputs::{Input, Inputs, table::INPUTS},
};
use crate::{design::Shape, measure::Measured, profile::Kick, quantities::Reading};
use kurbo::Point;

/// Everything that is worked out once for a shape and its inputs.
#[derive(Clone, Debug)]
pub struct Workshop<'a> {
    /// The shape.
    pub shape: &'a Shape,
    /// Its measures.
    pub measured: &'a Measured,
    /// What the maker says.
    pub inputs: &'a Inputs,
    /// The plies with their moduli.
    pub layers: Vec<Layer>,
    /// The glued plate.
    pub laminate: Result<Laminate, Fault>,
    /// Finished thickness, mm: Σ t + lines × bond line, or as measured.
    pub thickness: f64,
    /// The blank round the outline.
    pub margins: Margins,
    /// The glue.
    pub coverage: Coverage,
    /// The glue's clock.
    pub clock: Clock,
    /// Load on each bolt, N.
    pub bolt_load: Result<f64, Fault>,
    /// Force of the whole press, N.
    pub force: Result<f64, Fault>,
    /// The deck under the load.
    pub flex: Result<Flex, Fault>,
    /// The nose on its truck, where it kicks.
    pub nose: Option<Tip>,
    /// The tail on its truck, where it kicks.
    pub tail: Option<Tip>,
    /// What the run needs.
    pub needs: Result<Needs, Fault>,
    /// The deck that this one is compared with, under its own load; nobody is asked here.
    pub against: Option<Flex>,
}

impl<'a> Workshop<'a> {
    /// Works everything out.
    #[must_use]
    pub fn of(shape: &'a Shape, measured: &'a Measured, inputs: &'a Inputs) -> Self {
        let Shape { layup, profile, .. } = shape;
        let Inputs { wood, glue, press, ride, .. } = inputs;
        let layers = Layer::of_layup(layup);
        let laminate = Laminate::of(&layers);
        let thickness = wood.thickness(layup);
        let slip = bend::slip(profile.nose.angle.max(profile.tail.angle), layup.wood_thickness());
        let margins = Margins::of(measured, layup, slip);
        let smallest = margins.smallest(measured);
        let bolt_load = bolted(inputs).load(press.torque);
        let force = match press.force {
            Some(force) => Ok(force),
            None => bolt_load.map(|load| load * press.bolts),
        };
        let flex = match &laminate {
            Ok(plate) => Ok(Beam::of(shape, measured, plate, &layers).under(ride.load())),
            Err(fault) => Err(*fault),
        };
        Self {
            shape,
            measured,
            inputs,
            laminate,
            thickness,
            margins,
            coverage: Coverage::of(layup, measured.area, smallest, glue.density, glue.solids),
            clock: glue.clock(),
            bolt_load,
            force,
            flex,
            nose: Tip::of(shape, &measured.nose, &profile.nose, ride, thickness),
            tail: Tip::of(shape, &measured.tail, &profile.tail, ride, thickness),
            needs: Needs::of(layup, inputs),
            against: None,
            layers,
        }
    }

    /// What is wrong or doubtful, in the order of the work.
    #[must_use]
    pub fn faults(&self) -> Vec<Fault> {
        let Shape { layup, profile, .. } = self.shape;
        let Inputs { mould, press, finish, .. } = self.inputs;
        let mut found = Vec::new();
        for input in INPUTS {
            let value = (input.get)(self.inputs);
            found.extend(input.check(value).err().or_else(|| input.rare(value)));
        }
        found.extend(usual::rare(self.shape, self.thickness));
        found.extend(self.laminate.as_ref().err().copied());
        found.extend(laminate::balance(&self.layers));
        for (key, kick) in [("nose-bend-radius", &profile.nose), ("tail-bend-radius", &profile.tail)] {
            if kick.kicks() {
                found.extend(bend::check(key, kick.radius, &self.layers));
            }
        }
        found.extend(self.margins.check());
        found.extend(blank::check_posts(layup, mould.clear_length));
        let lines = layup.glue_lines();
        let used = self.clock.used_share(lines);
        if used > 1.0 {
            found.push(Fault::TooSlow { used, pace: self.clock.slowest_pace(lines) });
        }
        if press.force.is_none() {
            found.extend(self.bolt_load.err());
        }
        if let (Some(limit), Ok(force)) = (mould.pressure, self.force) {
            let pressure = force / self.pressed_area();
            if pressure > limit {
                let field = if press.force.is_some() { "press-force" } else { "bolt-torque" };
                found.push(Fault::PastMould { field, pressure, limit });
            }
        }
        found.extend(press.wanted.and_then(|wanted| self.torque_for(wanted).err()));
        found.extend(drilling::check_round_over(finish.round_over, self.thickness));
        found.extend(self.needs.as_ref().err().copied());
        found
    }

    fn kick(&self, nose: bool) -> Option<&Kick> {
        let profile = &self.shape.profile;
        Some(if nose { &profile.nose } else { &profile.tail }).filter(|kick| kick.kicks())
    }

    /// Angle and radius (on the deck's top face) that the mould must have at one end; `None` where it does not kick or the
    /// stack is none.
    #[must_use]
    pub fn mould(&self, nose: bool) -> Option<(f64, f64)> {
        let kick = self.kick(nose)?;
        let share = self.laminate.as_ref().ok()?.along.springback();
        (share < 1.0).then(|| bend::mould(kick.angle, kick.radius, share))
    }

    /// How far the plies slip at one end, mm.
    #[must_use]
    pub fn slip(&self, nose: bool) -> Option<f64> {
        Some(bend::slip(self.kick(nose)?.angle, self.shape.layup.wood_thickness()))
    }

    /// Mass of the wood inside the outline, g.
    #[must_use]
    pub fn wood_mass(&self) -> f64 {
        let plies = &self.shape.layup.plies;
        self.measured.area * plies.iter().map(|ply| ply.thickness * ply.species.density()).sum::<f64>()
    }

    /// How far each rail stands out beyond the wheels where the deck is `width` mm wide.
    #[must_use]
    pub fn beyond_wheels(&self, width: f64) -> f64 {
        width / 2.0 - strike::half_width_over_wheels(self.measured, &self.inputs.ride)
    }

    /// Moisture that the glue's water adds, a share.
    #[must_use]
    pub fn glue_water(&self) -> Option<f64> {
        moisture::added_by_glue(&self.shape.layup, self.inputs.glue.solids)
    }

    /// The press as bolts.
    #[must_use]
    pub fn bolted(&self) -> Bolted {
        bolted(self.inputs)
    }

    /// What the press presses on, mm²: the smaller of the blank and the mould seen from straight above.
    #[must_use]
    pub fn pressed_area(&self) -> f64 {
        let Shape { datum, profile, .. } = self.shape;
        let blank = self.measured.blank;
        let along = |x: f64| profile.plan(datum, Point::new(x, 0.0)).x;
        let width = 2.0 * profile.plan(datum, Point::new(0.0, blank.y1)).y;
        let mould = &self.inputs.mould;
        press::pressed_area(along(blank.x1) - along(blank.x0), width, mould.length, mould.width)
    }

    /// Torque on each bolt for a pressure, N·mm.
    ///
    /// # Errors
    ///
    /// As [`Bolted::torque_for`].
    pub fn torque_for(&self, pressure: f64) -> Result<f64, Fault> {
        self.bolted().torque_for(pressure, self.pressed_area(), self.inputs.mould.pressure)
    }

    /// The torque for the pressure that the maker wants.
    #[must_use]
    pub fn wanted_torque(&self) -> Reading {
        let Some(wanted) = self.inputs.press.wanted else {
            return Reading::none("no pressure asked for");
        };
        self.torque_for(wanted).map_or_else(|fault| Reading::none(fault.reason()), Reading::of)
    }

    /// Length and width of the grip sheet, mm.
    #[must_use]
    pub fn grip_sheet(&self) -> [f64; 2] {
        drilling::grip_sheet(self.measured, self.inputs.finish.grip_overlap)
    }

    /// Both faces and the rounded edge, mm².
    #[must_use]
    pub fn area_to_seal(&self) -> f64 {
        drilling::area_to_seal(self.measured, self.thickness, self.inputs.finish.round_over)
    }
}

fn bolted(inputs: &Inputs) -> Bolted {
    let press = &inputs.press;
    Bolted {
        bolts: press.bolts,
        diameter: press.diameter,
        pitch: press.pitch,
        nut_factor: press.nut_factor,
        proof_stress: press.proof_stress,
        thread: press.thread,
    }
}
