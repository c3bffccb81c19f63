//! How the maker likes things shown, in localStorage.

use crate::dom;
use halfbreadth_core::{
    editor::Settings,
    units::{Denominator, System},
};

const KEY: &str = "halfbreadth.settings";

/// The settings kept in this browser; where there are none, or none that can be read, the usual ones.
pub(crate) fn settings() -> Settings {
    let stored = dom::window().local_storage().ok().flatten();
    let text = stored.and_then(|storage| storage.get_item(KEY).ok().flatten()).unwrap_or_default();
    let has = |word: &str| text.split(' ').any(|found| found == word);
    let inches = System::Inches { denominator: Denominator::default() };
    Settings {
        system: if has("inches") { inches } else { System::Millimetres },
        comb: has("comb"),
        fine: has("fine"),
        snap: has("stops"),
        ..Settings::default()
    }
}

/// Keeps settings. Losing them loses no work, so a full or closed storage is passed over.
pub(crate) fn keep_settings(settings: Settings) {
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
    if let Ok(Some(storage)) = dom::window().local_storage() {
        let _ = storage.set_item(KEY, &words.join(" "));
    }
}
