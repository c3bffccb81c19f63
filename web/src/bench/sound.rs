//! Sound without a file: tones from an oscillator.

use halfbreadth_core::workshop::bench::Cue;
use web_sys::AudioContext;

/// The sound of the page; a browser lets it be heard once something was touched.
#[derive(Default)]
pub(super) struct Sound(Option<AudioContext>);

/// Loudness, and how long a tone takes to rise and to fall so that it does not crack, s.
const GAIN: f32 = 0.6;
const RAMP: f64 = 0.015;

impl Sound {
    /// Makes it heard; called inside a touch.
    pub(super) fn unlock(&mut self) -> Option<&AudioContext> {
        if self.0.is_none() {
            self.0 = AudioContext::new().ok();
        }
        let context = self.0.as_ref()?;
        let _ = context.resume();
        Some(context)
    }

    /// Plays a cue; where there is no sound the screen has to do.
    pub(super) fn play(&mut self, cue: Cue) {
        let Some(context) = self.unlock() else { return };
        let mut at = context.current_time() + 0.02;
        for (hertz, seconds) in cue.tones() {
            if *hertz > 0.0 {
                tone(context, *hertz, at, *seconds);
            }
            at += seconds;
        }
    }
}

#[expect(clippy::cast_possible_truncation, reason = "frequencies are whole numbers of a few thousand")]
fn tone(context: &AudioContext, hertz: f64, at: f64, seconds: f64) -> Option<()> {
    let (oscillator, gain) = (context.create_oscillator().ok()?, context.create_gain().ok()?);
    oscillator.frequency().set_value(hertz as f32);
    let level = gain.gain();
    level.set_value_at_time(0.0, at).ok()?;
    level.linear_ramp_to_value_at_time(GAIN, at + RAMP).ok()?;
    level.set_value_at_time(GAIN, at + seconds - RAMP).ok()?;
    level.linear_ramp_to_value_at_time(0.0, at + seconds).ok()?;
    oscillator.connect_with_audio_node(&gain).ok()?;
    gain.connect_with_audio_node(&context.destination()).ok()?;
    oscillator.start_with_when(at).ok()?;
    oscillator.stop_with_when(at + seconds).ok()
}
