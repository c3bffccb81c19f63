//! The tables themselves: keys unique, limits in order, texts present.

use super::*;
use std::collections::BTreeSet;

#[test]
fn every_key_is_used_once_and_kebab_case() {
    let keys: Vec<&str> =
        SETTINGS.iter().map(|s| s.quantity.key).chain(MEASURES.iter().map(|m| m.quantity.key)).collect();
    assert_eq!(keys.iter().collect::<BTreeSet<_>>().len(), keys.len());
    for key in keys {
        assert!(key.bytes().all(|b| b.is_ascii_lowercase() || b == b'-'), "{key}");
    }
}

#[test]
fn every_quantity_has_a_label_and_a_help_text_that_ends_in_a_stop() {
    let quantities = SETTINGS.iter().map(|s| &s.quantity).chain(MEASURES.iter().map(|m| &m.quantity));
    for quantity in quantities {
        assert!(!quantity.label.is_empty(), "{}", quantity.key);
        assert!(quantity.help.ends_with('.'), "{}", quantity.key);
    }
}

#[test]
fn a_setting_reads_back_what_was_set_and_its_limits_hold_its_default() {
    let demo = crate::demo::turnstone();
    for setting in SETTINGS {
        let mut shape = demo.shape().clone();
        assert!(setting.check((setting.get)(&shape)).is_ok(), "{}", setting.quantity.key);
        (setting.set)(&mut shape, setting.least);
        assert_eq!((setting.get)(&shape), setting.least, "{}", setting.quantity.key);
    }
}
