//! How the maker likes things shown, in localStorage.

use crate::dom;
use halfbreadth_core::{
    editor::{Editor, Settings},
    export::Export,
    units::{Denominator, System, Unit, decimal, parse},
};

const KEY: &str = "halfbreadth.settings";

fn stored() -> String {
    let stored = dom::window().local_storage().ok().flatten();
    stored.and_then(|storage| storage.get_item(KEY).ok().flatten()).unwrap_or_default()
}

/// What was last chosen for an export in this browser, or the usual.
pub(crate) fn export() -> Export {
    Export::resumed(&stored())
}

/// The settings kept in this browser; where there are none, or none that can be read, the usual ones.
pub(crate) fn settings() -> Settings {
    let text = stored();
    let has = |word: &str| text.split(' ').any(|found| found == word);
    let inches = System::Inches { denominator: Denominator::default() };
    Settings {
        system: if has("inches") { inches } else { System::Millimetres },
        comb: has("comb"),
        fine: has("fine"),
        snap: has("stops"),
        workshop: has("workshop"),
        guided: has("guided"),
        px_per_mm: screen(&text),
        ..Settings::default()
    }
}

/// Before the real pixels that a millimetre takes on this screen. Zooming the page changes how many of them a CSS pixel has,
/// but not how many there are.
const SCREEN: &str = "screen=";

/// Real pixels to a CSS pixel.
fn density() -> f64 {
    dom::window().device_pixel_ratio().max(0.1)
}

/// CSS pixels that a millimetre takes on this screen, where it has been calibrated.
fn screen(text: &str) -> Option<f64> {
    let found = text.split(' ').find_map(|word| word.strip_prefix(SCREEN))?;
    let real = parse(found, Unit::Length, System::Millimetres).ok()?;
    Some(real / density()).filter(|scale| *scale > 0.0)
}

/// Keeps settings. Losing them loses no work, so a full or closed storage is passed over.
pub(crate) fn keep_settings(editor: &Editor) {
    let settings = editor.settings();
    let (export, screen);
    let mut words = Vec::new();
    if settings.system != System::Millimetres {
        words.push("inches");
    }
    if settings.comb {
        words.push("comb");
    }
    if settings.fine {
        words.push("fine");
    }
    if settings.snap {
        words.push("stops");
    }
    if settings.workshop {
        words.push("workshop");
    }
    if settings.guided {
        words.push("guided");
    }
    if let Some(px_per_mm) = settings.px_per_mm {
        screen = [SCREEN, &decimal(px_per_mm * density(), 4)].concat();
        words.push(&screen);
    }
    export = editor.export().kept();
    words.push(&export);
    if let Ok(Some(storage)) = dom::window().local_storage() {
        let _ = storage.set_item(KEY, &words.join(" "));
    }
}
