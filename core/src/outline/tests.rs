//! Battens in the chain: laid fair, kept to the bit, converted within the bound.

use super::*;
use crate::{compare::farthest, demo, design::Design, edit::Edit, tolerance};

/// Dunlin with its kick as one batten.
fn with_batten() -> Design {
    let deck = demo::dunlin();
    let outline = deck.shape().outline.battened(2..4).unwrap();
    deck.with_shape(crate::design::Shape { outline, ..deck.shape().clone() }).unwrap()
}

#[test]
fn a_kick_made_a_batten_stays_where_it_was_and_is_fair() {
    let (old, new) = (demo::dunlin(), with_batten());
    let off = farthest(&old.shape().outline.resolve(), &new.shape().outline.resolve());
    assert!(off.distance <= tolerance::CONVERSION * 1.2, "{off:?}");
    assert!(new.shape().outline.unfairness() <= tolerance::BATTEN_JUMP);
}

#[test]
fn a_batten_made_cubics_stays_where_it_was() {
    let deck = with_batten();
    let mut outline = deck.shape().outline.clone();
    while let Some(s) = outline.spans.iter().position(|span| matches!(span, Span::Batten { .. })) {
        outline = outline.unbattened(s);
    }
    let off = farthest(&deck.shape().outline.resolve(), &outline.resolve());
    assert!(off.distance <= tolerance::CONVERSION, "{off:?}");
}

#[test]
fn moving_a_pin_lays_its_batten_anew_and_leaves_the_rest_to_the_bit() {
    let deck = with_batten();
    let pin = deck.shape().outline.nodes.len() - 4;
    let to = deck.shape().outline.nodes[pin].place + kurbo::Vec2::new(1.0, 2.0);
    let moved = deck.apply(&Edit::MoveNode { node: pin, to }).unwrap();
    let (before, after) = (&deck.shape().outline, &moved.shape().outline);
    assert!(after.unfairness() <= tolerance::BATTEN_JUMP);
    assert_ne!(
        before.nodes[pin - 1].joint,
        after.nodes[pin - 1].joint,
        "a batten gives along its whole length"
    );
    assert_eq!(before.spans[..2], after.spans[..2]);
    assert_eq!(before.nodes[..2], after.nodes[..2]);
    let back = moved.apply(&Edit::MoveNode { node: pin, to: before.nodes[pin].place }).unwrap();
    let off = farthest(&before.resolve(), &back.shape().outline.resolve());
    assert!(off.distance < 1e-3, "{off:?}");
}

#[test]
fn a_pin_added_to_a_batten_leaves_the_curve() {
    let deck = with_batten();
    let span = deck.shape().outline.spans.len() - 1;
    let near = deck.shape().outline.course(span).point(0.4);
    let more = deck.apply(&Edit::AddNode { span, near }).unwrap();
    let off = farthest(&deck.shape().outline.resolve(), &more.shape().outline.resolve());
    assert!(off.distance < 1e-3, "{off:?}");
}

#[test]
fn a_batten_with_free_ends_through_pins_of_a_circle_is_the_circle() {
    let (radius, centre) = (120.0, kurbo::Point::new(260.0, -20.0));
    let pin = |degrees: f64| centre + crate::real::unit_vector(degrees.to_radians()) * radius;
    let nodes = [70.0, 50.0, 30.0, 15.0].map(|a| Node { place: pin(a), joint: Joint::Smooth(0.0) });
    let mut outline = Outline { nodes: nodes.to_vec(), spans: vec![Span::BATTEN; 3], twin: false };
    outline.nodes[0].joint = Joint::Corner;
    outline.nodes[3].joint = Joint::Corner;
    outline.spans[0] = Span::Batten { start: Some(0.0), end: None };
    outline.spans[2] = Span::Batten { start: None, end: Some(-1.0) };
    outline.relax().unwrap();
    for s in 0..3 {
        for k in 0..=10 {
            let p = outline.course(s).point(f64::from(k) / 10.0);
            assert!(((p - centre).hypot() - radius).abs() < 1e-6);
        }
    }
}

#[test]
fn a_straight_span_made_a_curve_is_a_batten_of_the_same_shape() {
    let deck = demo::dunlin();
    let curved = deck.apply(&Edit::SetStraight { span: 1, straight: false }).unwrap();
    assert!(matches!(curved.shape().outline.spans[1], Span::Batten { .. }));
    let off = farthest(&deck.shape().outline.resolve(), &curved.shape().outline.resolve());
    assert!(off.distance < 1e-3, "{off:?}");
}

#[test]
fn a_twin_with_battens_opens_out_to_the_same_outline() {
    let twin = with_batten().shape().outline.clone();
    let off = farthest(&twin.resolve(), &twin.untwinned().resolve());
    assert!(off.distance < 1e-3, "{off:?}");
}
