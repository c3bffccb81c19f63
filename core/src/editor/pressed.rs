//! The pressed deck as the page shows it: turned by finger or key, and cut at a station.

use super::{Editor, fields::Field};
use crate::{
    say,
    scene::Scene,
    solid::{Detail, Section, Solid, Stand, Turn, picture},
    units::{Unit, parse, rounded_entry, show},
    view::View,
};
use kurbo::{Size, Vec2};

/// What the session holds of it.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Pressed {
    stand: Stand,
    station: f64,
    turning: bool,
    frames: [Size; 2],
}

/// What a person does with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PressedIntent {
    /// Sets one of the two angles, degrees.
    Turn(Turn, f64),
    /// A finger went so many CSS pixels right and down.
    Drag(Vec2),
    /// The finger has gone.
    Rest,
    /// It stands as at first.
    StandAgain,
    /// It is cut at that station, mm.
    Cut(f64),
    /// Its frames, of the deck and of the section, have such a size, CSS pixels; none where they are not seen.
    Frames([Size; 2]),
}

/// What the page shows of it.
#[derive(Clone, Debug, PartialEq)]
pub struct PressedView {
    /// The deck.
    pub deck: (Scene, View),
    /// The section.
    pub section: (Scene, View),
    /// How it stands, degrees: turn, tilt.
    pub angles: [f64; 2],
    /// The same in words.
    pub words: String,
    /// Where it is cut, mm.
    pub station: f64,
    /// How far tailward and noseward it can be cut, mm.
    pub ends: [f64; 2],
    /// The station in words.
    pub station_words: String,
    /// The section in words.
    pub section_words: String,
}

const STATION: (&str, &str, &str) = (
    "section-station",
    "Section at",
    "Where along the top face the cross-section is cut, from the middle of the bolt holes, noseward.",
);

pub(super) fn handle(editor: &mut Editor, intent: PressedIntent) {
    let pressed = &mut editor.pressed;
    match intent {
        PressedIntent::Turn(which, degrees) => {
            pressed.stand = pressed.stand.with(which, degrees.to_radians());
        }
        PressedIntent::Drag(px) => {
            pressed.stand = pressed.stand.dragged(px);
            pressed.turning = true;
        }
        PressedIntent::Rest => pressed.turning = false,
        PressedIntent::StandAgain => pressed.stand = Stand::default(),
        PressedIntent::Cut(x) if x.is_finite() => pressed.station = x,
        PressedIntent::Cut(_) => {}
        PressedIntent::Frames(frames) => pressed.frames = frames,
    }
}

impl Editor {
    /// What the page shows of the pressed deck; none where it is not seen.
    #[must_use]
    pub fn pressed(&self) -> Option<PressedView> {
        let Pressed { stand, turning, frames, .. } = self.pressed;
        if frames[0].width < 1.0 {
            return None;
        }
        let design = self.design();
        let shape = design.shape();
        let system = self.settings.system;
        let thickness = design.workshop().wood.thickness(&shape.layup);
        let half = &self.measured.half;
        let section = Section::of(shape, half, self.pressed.station, thickness);
        let detail = if turning { Detail::Light } else { Detail::Full };
        let solid = Solid::of(shape, half, thickness, detail.chord());
        Some(PressedView {
            deck: picture(&solid, stand, section.station, detail, frames[0]),
            section: section.draw(frames[1], system),
            angles: [stand.turn.to_degrees(), stand.tilt.to_degrees()],
            words: stand.words(),
            station: section.station,
            ends: self.ends(),
            station_words: show(section.station, Unit::Length, system).to_string(),
            section_words: section.words(system),
        })
    }

    /// Stations of the tips, mm.
    fn ends(&self) -> [f64; 2] {
        [-self.measured.tail.end.x, self.measured.nose.end.x]
    }

    pub(super) fn pressed_field(&self, fields: &mut Vec<Field>) {
        let system = self.settings.system;
        let text = rounded_entry(self.pressed.station, Unit::Length, system);
        let [tail, nose] = self.ends().map(|x| show(x, Unit::Length, system));
        let symbol = Unit::Length.symbol(system);
        fields.push(self.field(STATION, text, symbol, say!("{tail} to {nose}", tail, nose), true));
    }
}

/// Takes a typed station.
pub(super) fn enter(editor: &mut Editor, text: &str) -> Result<(), String> {
    let system = editor.settings.system;
    let x = parse(text, Unit::Length, system).map_err(|error| error.to_string())?;
    let [tail, nose] = editor.ends();
    if x < tail || x > nose {
        let [x, tail, nose] = [x, tail, nose].map(|x| show(x, Unit::Length, system));
        return Err(say!("the deck has no section at {x}: it goes from {tail} to {nose}", x, tail, nose));
    }
    editor.pressed.station = x;
    Ok(())
}
