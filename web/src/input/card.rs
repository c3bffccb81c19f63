//! The bar that is made as long as a card.

use super::pointers;
use crate::{app, dom};
use halfbreadth_core::editor::Intent;
use web_sys::PointerEvent;

pub(super) fn listen() {
    let bar = dom::by_id("card");
    dom::listen(&bar, "pointerdown", |event: PointerEvent| {
        let _ = dom::by_id("card").set_pointer_capture(event.pointer_id());
    });
    dom::listen(&bar, "pointermove", |event: PointerEvent| {
        let bar = dom::by_id("card");
        if bar.has_pointer_capture(event.pointer_id()) {
            let x = pointers::client(&event).x;
            app::send(Intent::Calibrate(x - bar.get_bounding_client_rect().left()));
        }
    });
}
